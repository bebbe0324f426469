//! `trug tag`: stakes, sale tags and tuber labels, as pages, a table or plain text.

use std::io::Write;
use std::path::{Path, PathBuf};

use anyhow::{Result, anyhow};
use serde_json::json;

use super::said::{named_or_kept, said};
use super::{BadInput, Context, printed};
use crate::measure::SizeUnits;
use crate::paper::Page;
use crate::table;
use crate::tag::{self, Kind, LabelSheet, Printer, Refused, Says, Stock};
use crate::trial::Subject;

/// What `trug tag` takes.
#[derive(Debug, clap::Args)]
pub struct TagArguments {
    /// Seedlings by number and varieties by name; without any, every seedling that you keep.
    #[arg(value_name = "PLANT")]
    ids: Vec<String>,
    /// Writes this file: .pdf or .svg to print, .csv for a label printer's own program, .txt;
    /// without it the words are shown here.
    #[arg(long, value_name = "FILE")]
    out: Option<PathBuf>,
    /// What to print: sale (for a buyer), stake (a number to read standing) or tuber (for the store).
    #[arg(long, value_name = "KIND", default_value = "sale")]
    kind: String,
    /// The sheet or roll of labels that you print on; without it the kind's usual one.
    #[arg(long, value_name = "SHEET")]
    sheet: Option<String>,
    /// Draws blooms in their own colours; without it black on white.
    #[arg(long)]
    coloured: bool,
    /// Writes a page that shows whether your sheet of labels is straight; print it first.
    #[arg(long, requires = "out")]
    test_page: bool,
    /// Moves all that is printed right and down by so many mm, as the test page shows: -1,0.5.
    #[arg(
        long,
        value_name = "RIGHT,DOWN",
        default_value = "0,0",
        allow_hyphen_values = true
    )]
    offset: String,
    /// Writes the kinds of tags and sheets of labels as a file to edit: keep it as tags.ron in your
    /// folder.
    #[arg(long, value_name = "FILE.ron", conflicts_with_all = ["ids", "out", "sheet"])]
    stock: Option<PathBuf>,
}

/// What was typed, as meant.
struct Job<'a> {
    kind: &'a Kind,
    sheet: &'a LabelSheet,
    offset: (f64, f64),
    coloured: bool,
    /// The units of lengths.
    units: SizeUnits,
}

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
    let says = said(context, |grounds| named_or_kept(&arguments.ids, grounds))?;
    let (tags, labels, mut refused) = labels(&says, &job, context)?;
    let written = match (&arguments.out, ending) {
        _ if tags.is_empty() => Vec::new(),
        (None, _) => {
            if !context.json {
                write!(out, "{}", tag::text(tags.iter().copied(), job.kind))?;
            }
            Vec::new()
        }
        (Some(path), "csv") => {
            let rows = tag::table(tags.iter().copied(), job.kind);
            let bytes = table::write(rows.iter().map(Vec::as_slice));
            context.output().write(path, &bytes)?;
            vec![path.clone()]
        }
        (Some(path), "txt") => {
            let text = tag::text(tags.iter().copied(), job.kind);
            context.output().write(path, text.as_bytes())?;
            vec![path.clone()]
        }
        (Some(path), _) => {
            let pages = tag::pages(job.sheet, job.kind, labels, job.offset)?;
            write_pages(path, ending, &job, &pages, context)?
        }
    };
    refused.sort_by(|a, b| a.subject.cmp(&b.subject));
    let warned = warned(&tags, job.kind);
    if context.json {
        context.print(out, object(&job, &tags, &refused, &written))?;
    } else {
        tell(out, errors, &job, tags.len(), &refused, &written, ending)?;
        for (subject, why) in &warned {
            writeln!(errors, "trug: before you sell {subject}: {why}.")?;
        }
        if job.kind.sold && !written.is_empty() {
            writeln!(out, "{}", context.contents.tags.practice.selling)?;
        }
    }
    Ok(refused.is_empty())
}

/// Says what was written, and what was not and why.
fn tell(
    out: &mut dyn Write,
    errors: &mut dyn Write,
    job: &Job<'_>,
    tags: usize,
    refused: &[Refused],
    written: &[PathBuf],
    ending: &str,
) -> Result<()> {
    let says = &job.kind.says;
    let count = match tags {
        1 => format!("1 {says}"),
        count => format!("{count} {says}s"),
    };
    if let [first, ..] = written {
        let sheet = match ending {
            "pdf" | "svg" => format!(", {}", job.sheet.described(job.units)),
            _ => String::new(),
        };
        let files = match written.len() {
            1 => first.display().to_string(),
            more => format!("{} and {} more", first.display(), more - 1),
        };
        writeln!(out, "Wrote {count} to {files}{sheet}.")?;
    }
    for one in refused {
        writeln!(errors, "trug: no {says} for {one}.")?;
    }
    if tags == 0 && refused.is_empty() {
        writeln!(
            out,
            "No seedling is kept yet, so there is nothing to tag: name some, or decide with \
             `trug row decide ID keep`."
        )?;
    }
    Ok(())
}

fn object(
    job: &Job<'_>,
    tags: &[&Says],
    refused: &[Refused],
    written: &[PathBuf],
) -> serde_json::Value {
    let tag = |says: &&Says| {
        let facts = says.about(&job.kind.tells);
        let facts: serde_json::Map<String, serde_json::Value> = facts
            .map(|fact| (fact.about.word().to_string(), json!(fact.text)))
            .collect();
        json!({ "id": says.subject.to_string(), "name": says.title, "facts": facts })
    };
    let refuse = |one: &Refused| json!({ "id": one.subject.to_string(), "why": one.why });
    let warned = warned(tags, job.kind).into_iter();
    let warned = warned.map(|(subject, why)| json!({ "id": subject.to_string(), "why": why }));
    json!({
        "kind": job.kind.id,
        "sheet": job.sheet.id,
        "files": written.iter().map(|file| file.display().to_string()).collect::<Vec<_>>(),
        "tags": tags.iter().map(tag).collect::<Vec<_>>(),
        "refused": refused.iter().map(refuse).collect::<Vec<_>>(),
        "warned": warned.collect::<Vec<_>>(),
    })
}

/// Of what is printed that which wants asking about before it goes to a buyer, and what to ask.
fn warned<'a>(tags: &[&'a Says], kind: &Kind) -> Vec<(&'a Subject, &'a str)> {
    let warned = |says: &&'a Says| Some((&says.subject, says.warned.as_deref()?));
    let sold = tags.iter().filter(|_| kind.sold);
    sold.filter_map(warned).collect()
}

type Labelled<'a> = (Vec<&'a Says>, Vec<tag::Label>, Vec<Refused>);

/// The labels, whose they are, and those that cannot be.
fn labels<'a>(says: &'a [Says], job: &Job<'_>, context: &Context) -> Result<Labelled<'a>> {
    let printer = Printer::new(&context.contents.tags, job.kind, job.sheet, job.coloured);
    let printer = printer.map_err(|told| anyhow!(told))?;
    let (mut tags, mut labels, mut refused) = (Vec::new(), Vec::new(), Vec::new());
    for (one, label) in says.iter().zip(printer.labels(says)) {
        match label {
            Ok(label) => {
                tags.push(one);
                labels.push(label);
            }
            Err(why) => refused.push(why),
        }
    }
    Ok((tags, labels, refused))
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
    let page = tag::test_page(job.sheet, job.kind, job.offset)?;
    let written = write_pages(path, ending, job, &[page], context)?;
    if context.json {
        context.print(out, object(job, &[], &[], &written))?;
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
    let mut title = job.kind.says.clone();
    if let Some(first) = title.get_mut(..1) {
        first.make_ascii_uppercase();
    }
    printed::write(path, ending, &format!("{title}s"), pages, context.output())
}

impl<'a> Job<'a> {
    fn meant(arguments: &TagArguments, context: &'a Context) -> Result<Job<'a>> {
        let stock = &context.contents.tags;
        let bad = |told: String| anyhow!(BadInput(told));
        let id = &arguments.kind;
        let kind = stock.kind(id).ok_or_else(|| {
            let known: Vec<&str> = stock.kinds.iter().map(|one| one.id.as_str()).collect();
            bad(format!(
                "found the kind {id:?}, expected one of {}",
                known.join(", ")
            ))
        })?;
        let id = &kind.id;
        let sheet = match &arguments.sheet {
            None => stock.sheet_for(id, printed::usual(context.units)),
            Some(sheet) => stock.sheet(sheet).filter(|sheet| sheet.kind == *id),
        };
        let sheet = sheet.ok_or_else(|| {
            let own = stock.sheets.iter().filter(|sheet| sheet.kind == *id);
            let known: Vec<&str> = own.map(|one| one.id.as_str()).collect();
            let found = arguments.sheet.as_deref().unwrap_or_default();
            bad(format!(
                "found the sheet {found:?} for the kind {id:?}, expected one of {}",
                known.join(", ")
            ))
        })?;
        Ok(Job {
            kind,
            sheet,
            offset: tag::read_offset(&arguments.offset).map_err(bad)?,
            coloured: arguments.coloured,
            units: context.units,
        })
    }
}
