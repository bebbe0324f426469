//! What the grower is told of the tags that were made, in words and as one object.

use std::io::Write;
use std::path::PathBuf;

use anyhow::Result;
use serde_json::json;

use super::job::Job;
use super::made::Made;
use crate::account::text::counted;
use crate::tag::{Kind, Refused, Says};
use crate::trial::Subject;

/// Says what was written, what was not and why, and what to ask about.
pub(super) fn tell(
    out: &mut dyn Write,
    errors: &mut dyn Write,
    job: &Job<'_>,
    made: &Made<'_>,
    written: &[PathBuf],
    ending: &str,
) -> Result<()> {
    let says = &job.kind.says;
    if let [first, ..] = written {
        let files = match written.len() {
            1 => first.display().to_string(),
            more => format!("{} and {} more", first.display(), more - 1),
        };
        let sheet = match ending {
            "pdf" | "svg" => on_sheet(job, made),
            _ => String::new(),
        };
        writeln!(out, "Wrote {} to {files}{sheet}.", how_many(job, made))?;
    }
    for one in &made.refused {
        writeln!(errors, "trug: no {says} for {one}.")?;
    }
    for (subject, why) in warned(made, job.kind) {
        writeln!(errors, "trug: before you sell {subject}: {why}.")?;
    }
    Ok(())
}

/// `1 sale tag`, `17 sale tags of 2 plants`.
fn how_many(job: &Job<'_>, made: &Made<'_>) -> String {
    let (labels, plants) = (made.labels(), made.tags.len());
    let told = counted(labels, &job.kind.says);
    match labels == plants {
        true => told,
        false => format!("{told} of {}", counted(plants, "plant")),
    }
}

/// The sheet, where it begins on it, and where a next run may.
fn on_sheet(job: &Job<'_>, made: &Made<'_>) -> String {
    let (sheet, from) = (job.sheet, job.placing.from);
    let mut told = format!(", {}", sheet.described(job.units));
    if from > 1 {
        told += &format!(", the first of them label {from}");
    }
    // Plain paper that is cut up has no labels to be left.
    if let Some(next) = sheet.left_from(made.labels(), from).filter(|_| !sheet.cut) {
        told += &format!("; --from {next} goes on where the last sheet ends");
    }
    told
}

/// All of it for another program.
pub(super) fn object(job: &Job<'_>, made: &Made<'_>, written: &[PathBuf]) -> serde_json::Value {
    let tag = |(says, copies): &(&Says, u32)| {
        let facts = says.about(&job.kind.tells);
        let facts: serde_json::Map<String, serde_json::Value> = facts
            .map(|fact| (fact.about.word().to_string(), json!(fact.text)))
            .collect();
        json!({
            "id": says.subject.to_string(), "name": says.name_on(job.kind), "copies": copies,
            "facts": facts,
        })
    };
    let refuse = |one: &Refused| json!({ "id": one.subject.to_string(), "why": one.why });
    let warned = warned(made, job.kind).into_iter();
    let warned = warned.map(|(subject, why)| json!({ "id": subject.to_string(), "why": why }));
    json!({
        "kind": job.kind.id,
        "sheet": job.sheet.id,
        "from": job.placing.from,
        "labels": made.labels(),
        "files": written.iter().map(|file| file.display().to_string()).collect::<Vec<_>>(),
        "tags": made.tags.iter().map(tag).collect::<Vec<_>>(),
        "refused": made.refused.iter().map(refuse).collect::<Vec<_>>(),
        "warned": warned.collect::<Vec<_>>(),
    })
}

/// Of what is printed that which wants asking about before it goes to a buyer, and what to ask.
fn warned<'a>(made: &Made<'a>, kind: &Kind) -> Vec<(&'a Subject, &'a str)> {
    let warned = |(says, _): &(&'a Says, u32)| Some((&says.subject, says.warned.as_deref()?));
    let sold = made.tags.iter().filter(|_| kind.sold);
    sold.filter_map(warned).collect()
}
