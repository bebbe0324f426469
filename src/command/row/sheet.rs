//! `trug row sheet` and `trug row import`: a blank table for the pencil, and the filled one back.

use std::io::Write;
use std::path::PathBuf;

use anyhow::{Context as _, Result, anyhow};

use super::super::pencil::{self, Blank, Given};
use super::super::{Context, open_to_write, today};
use super::{bad, grounds, tell};
use crate::folder::row::{open_row, row};
use crate::folder::sheet::SheetError;
use crate::folder::{Folder, sheet};
use crate::trial::sheet::{Filled, Purpose};
use crate::trial::{Fate, Subject};

/// What `trug row sheet` takes.
#[derive(Debug, clap::Args)]
pub(super) struct SheetArguments {
    /// The plants; without any, every one that is not culled.
    #[arg(value_name = "PLANT")]
    ids: Vec<String>,
    /// What you go out to note: blooms (traits, diameters, colour) or counts (stems, vase, weather,
    /// tubers).
    #[arg(long = "for", value_name = "blooms|counts", default_value = "counts")]
    purpose: String,
    /// Writes this file; without it the table is shown here.
    #[arg(long, value_name = "FILE.pdf|.csv|.txt")]
    out: Option<PathBuf>,
    /// The paper of a PDF, such as a4 or letter.
    #[arg(long, value_name = "PAPER")]
    paper: Option<String>,
}

/// What `trug row import` takes.
#[derive(Debug, clap::Args)]
pub(super) struct ImportArguments {
    /// The filled-in table, with the headings of the blank one.
    #[arg(value_name = "FILE.csv")]
    file: PathBuf,
    /// The day of rows that name none, such as 20 Aug.
    #[arg(long, value_name = "DATE")]
    date: Option<String>,
    /// Shows what would be taken, and takes nothing.
    #[arg(long)]
    preview: bool,
    /// Takes what is odd all the same, such as a bloom far wider than the others of its plant.
    #[arg(long)]
    even_so: bool,
}

pub(super) fn blank(
    arguments: &SheetArguments,
    context: &Context,
    out: &mut dyn Write,
) -> Result<bool> {
    let purpose = match arguments.purpose.as_str() {
        "blooms" => Purpose::Blooms,
        "counts" => Purpose::Counts,
        other => return Err(bad(format!("found {other:?}, expected blooms or counts"))),
    };
    let trial = row(context.folder.as_deref())?.trial;
    let subjects: Vec<Subject> = match &arguments.ids[..] {
        [] => trial
            .subjects()
            .into_iter()
            .filter(|subject| {
                let decision = trial.decision(subject);
                decision.is_none_or(|(_, decision)| decision.fate != Fate::Cull)
            })
            .collect(),
        ids => {
            let subject = |id: &String| id.parse::<Subject>().map_err(bad);
            ids.iter().map(subject).collect::<Result<_>>()?
        }
    };
    let known = trial.subjects();
    if let Some(unknown) = subjects.iter().find(|subject| !known.contains(subject)) {
        return Err(bad(format!(
            "found {unknown}, expected a plant of the trial row"
        )));
    }
    let traits = &context.set().traits;
    let sheet = purpose.blank(&trial, &subjects, traits, context.units);
    let blank = Blank {
        sheet: &sheet,
        path: arguments.out.as_deref(),
        paper: arguments.paper.as_deref(),
        plants: subjects.len(),
    };
    pencil::write(&blank, context, out)
}

pub(super) fn import(
    arguments: &ImportArguments,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    let list = context.varieties()?;
    let file = arguments.file.display();
    let read = sheet::read(&arguments.file, None).map_err(|error| match error {
        SheetError::Asked(told) | SheetError::File(told) => anyhow!(told),
    })?;
    let folder = match arguments.preview {
        true => Folder::open_to_read(context.own_folder()?)?,
        false => open_to_write(context.own_folder()?, errors)?,
    };
    let (row, mut files) = open_row(&folder)?;
    tell(&row, errors)?;
    let grounds = grounds(context, &list, today());
    let calendar = context.calendar();
    let date = pencil::day(arguments.date.as_deref(), &calendar)?;
    let filled = match Filled::of(&read.table, &row.trial, &grounds, date, calendar) {
        Ok(filled) => filled,
        Err(rows) => return Err(pencil::refused(&arguments.file, &rows, errors)?),
    };
    let meant = arguments.preview || arguments.even_so;
    pencil::strange(&arguments.file, &filled.strange, meant, errors)?;
    if !arguments.preview {
        let least = files.next_id(&row.trial);
        for (at, entry) in filled.entries.iter().enumerate() {
            let mut entry = entry.clone();
            entry.id = least.saturating_add(at as u32);
            // A second import takes the rest: what is in the book already is passed over.
            files
                .enter(&folder, &entry)
                .with_context(|| format!("{at} rows of {file} were saved; import it again"))?;
        }
    }
    let given = Given {
        file: &arguments.file,
        preview: arguments.preview,
        new: filled.entries.len(),
        same: filled.same,
        blank: filled.blank,
    };
    pencil::told(&given, context, out)
}
