//! `trug row ID --chart`: the curve of days in the vase and the diameters by day.

use std::io::Write;
use std::path::Path;

use anyhow::Result;
use serde_json::json;

use super::super::charted::{self, COLUMNS};
use super::super::{Context, printed};
use super::{Workings, bad};
use crate::chart::{Frame, Line, Signs};

/// The rows that a chart of plain text has.
const ROWS: usize = 14;

/// Shows the charts of a plant, or writes them where a file is named: each is a page.
pub(super) fn run(
    id: &str,
    path: Option<&Path>,
    paper: Option<&str>,
    workings: &Workings,
    context: &Context,
    out: &mut dyn Write,
) -> Result<bool> {
    let paper = printed::paper(paper, context.units)?;
    let subject = workings.subject(id)?;
    let evidence = workings.standing(&subject, context).evidence;
    let vase = evidence.vase_chart(context.contents.release.cull.vase);
    let days = evidence.diameter_chart(&workings.keyer.set, context.units);
    if vase.is_none() && days.is_none() {
        return Err(bad(format!(
            "found no stem in the vase and no diameter of {subject}, expected one or more to draw: \
             `trug row note {subject} vase=7,8,6+` notes three stems"
        )));
    }
    let Some(path) = path else {
        let frame = Frame {
            columns: COLUMNS,
            rows: ROWS,
            signs: Signs::Ascii,
        };
        if let Some(vase) = &vase {
            let legend = vase.legend(Signs::Ascii);
            print(&vase.title, &vase.notes, &legend, &vase.lines(frame), out)?;
        }
        if let (Some(_), Some(_)) = (&vase, &days) {
            writeln!(out)?;
        }
        if let Some(days) = &days {
            let legend = days.legend(Signs::Ascii);
            print(&days.title, &days.notes, &legend, &days.lines(frame), out)?;
        }
        return Ok(true);
    };
    let mut charts = Vec::new();
    if let Some(vase) = &vase {
        charts.push((vase.title.clone(), vase.page(&paper)?));
    }
    if let Some(days) = &days {
        charts.push((days.title.clone(), days.page(&paper)?));
    }
    let files = charted::write(path, &charts, context)?;
    if context.json {
        let files = files.iter().map(|file| file.display().to_string());
        let files: Vec<String> = files.collect();
        let object = json!({ "id": subject.to_string(), "files": files, "pages": charts.len() });
        context.print(out, object)?;
    } else {
        let (named, pages) = (charted::named(&files), printed::pages(charts.len()));
        writeln!(out, "Wrote the charts of {subject} to {named}, {pages}.")?;
    }
    Ok(true)
}

/// A chart in plain text under its title.
fn print(
    title: &str,
    notes: &[String],
    legend: &Line,
    lines: &[Line],
    out: &mut dyn Write,
) -> Result<()> {
    writeln!(out, "{title}")?;
    for note in notes {
        writeln!(out, "{note}")?;
    }
    writeln!(out, "\n{legend}")?;
    for line in lines {
        writeln!(out, "{line}")?;
    }
    Ok(())
}
