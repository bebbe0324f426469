//! `trug tag`: stakes, sale tags and tuber labels, as pages, a table or plain text.

mod arguments;
mod asked;
mod for_sale;
mod job;
mod made;
mod told;

use std::io::Write;
use std::path::{Path, PathBuf};

use anyhow::Result;

use super::{Context, printed};
use crate::account::text::{capitalised, plural};
use crate::paper::Page;
use crate::table;
use crate::tag::{self, Stock};

pub(super) use arguments::TagArguments;
use asked::{Asked, asked};
use job::Job;
use made::Made;
use told::{object, tell};

pub(super) fn run(
    arguments: &TagArguments,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    if let Some(path) = &arguments.stock {
        context.output().begin(path, Stock::SOURCE.as_bytes())?;
        writeln!(
            out,
            "Wrote kinds of tag and sheets to {}: edited, as tags.ron in your folder, they take the \
             place of the program's own.",
            path.display()
        )?;
        return Ok(true);
    }
    let job = Job::meant(arguments, context)?;
    if arguments.test_page {
        return test_page(arguments, &job, context, out);
    }
    let ending = match &arguments.out {
        Some(path) => printed::ending(path, &["pdf", "svg", "csv", "txt"])?,
        None => "txt",
    };
    let Asked {
        says,
        copies,
        none,
        nobody,
    } = asked(arguments, context, errors)?;
    let mut made = Made::of(&says, &copies, &job, context)?;
    made.refused.splice(0..0, none);
    let written = match (&arguments.out, ending) {
        _ if made.tags.is_empty() => Vec::new(),
        (None, _) => {
            if !context.json {
                write!(out, "{}", tag::text(made.tags.iter().copied(), job.kind))?;
            }
            Vec::new()
        }
        (Some(path), "csv") => {
            let rows = tag::table(made.tags.iter().copied(), job.kind, job.numbered);
            let bytes = table::write(rows.iter().map(Vec::as_slice));
            context.output().write(path, &bytes)?;
            vec![path.clone()]
        }
        (Some(path), "txt") => {
            let text = tag::text(made.tags.iter().copied(), job.kind);
            context.output().write(path, text.as_bytes())?;
            vec![path.clone()]
        }
        (Some(path), _) => {
            let pages = tag::pages(job.sheet, job.kind, &made.runs, job.placing)?;
            write_pages(path, ending, &job, &pages, context)?
        }
    };
    if context.json {
        context.print(out, object(&job, &made, &written))?;
    } else {
        if made.tags.is_empty() && made.refused.is_empty() {
            writeln!(out, "{nobody}")?;
        }
        tell(out, errors, &job, &made, &written, ending)?;
        if job.kind.sold && !written.is_empty() {
            made.caution(out, &context.contents.tags.practice)?;
        }
    }
    Ok(made.refused.is_empty())
}

fn test_page(
    arguments: &TagArguments,
    job: &Job<'_>,
    context: &Context,
    out: &mut dyn Write,
) -> Result<bool> {
    // OK because clap asks for a file with it.
    let path = arguments.out.as_deref().unwrap_or(Path::new("test.pdf"));
    let ending = printed::ending(path, &["pdf", "svg"])?;
    let page = tag::test_page(job.sheet, job.kind, job.placing.offset)?;
    let written = write_pages(path, ending, job, &[page], context)?;
    if context.json {
        context.print(out, object(job, &Made::default(), &written))?;
        return Ok(true);
    }
    writeln!(
        out,
        "Wrote a test page to {}, {}. Print it at 100 %, hold it against the labels, and give what \
         is amiss as --offset.",
        path.display(),
        job.sheet.described(context.units)
    )?;
    Ok(true)
}

fn write_pages(
    path: &Path,
    ending: &str,
    job: &Job<'_>,
    pages: &[Page],
    context: &Context,
) -> Result<Vec<PathBuf>> {
    let title = capitalised(&plural(&job.kind.says));
    printed::write(path, ending, &title, pages, context.output())
}
