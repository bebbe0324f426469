//! `trug stock sheet` and `trug stock import`: a blank table for the pencil, and the filled one back.

use std::io::Write;
use std::path::PathBuf;

use anyhow::{Context as _, Result, anyhow};

use super::super::pencil::{self, Blank, Given};
use super::super::{Context, open_to_write, today};
use super::{Books, bad, tell};
use crate::folder::row::row;
use crate::folder::sheet::SheetError;
use crate::folder::stock::open_stock;
use crate::folder::{Folder, sheet};
use crate::measure::same_id;
use crate::stock::StockContext;
use crate::stock::sheet::{Filled, Purpose};
use crate::trial::Subject;

/// What `trug stock sheet` takes.
#[derive(Debug, clap::Args)]
pub(super) struct SheetArguments {
    /// The plants; without any, those of which something is here, and to lift every one of the book.
    #[arg(value_name = "PLANT")]
    ids: Vec<String>,
    /// What you go out to note: lifting (clumps, tubers), store (sound, lost, potted) or sale (sold, to
    /// whom, for how much).
    #[arg(
        long = "for",
        value_name = "lifting|store|sale",
        default_value = "store"
    )]
    purpose: String,
    /// Writes this file; without it the table is shown here.
    #[arg(long, value_name = "FILE.pdf|.csv|.txt")]
    out: Option<PathBuf>,
    /// The paper of a PDF, such as a4 or letter.
    #[arg(long, value_name = "PAPER")]
    paper: Option<String>,
}

/// What `trug stock import` takes.
#[derive(Debug, clap::Args)]
pub(super) struct ImportArguments {
    /// The filled-in table, with the headings of the blank one.
    #[arg(value_name = "FILE.csv")]
    file: PathBuf,
    /// The day of rows that name none, such as 20 Oct.
    #[arg(long, value_name = "DATE")]
    date: Option<String>,
    /// Shows what would be taken, and takes nothing.
    #[arg(long)]
    preview: bool,
    /// Takes what is odd all the same.
    #[arg(long)]
    even_so: bool,
}

pub(super) fn blank(
    arguments: &SheetArguments,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    let typed = arguments.purpose.as_str();
    let purpose = Purpose::ALL.iter().find(|(word, _)| same_id(typed, word));
    let (_, purpose) =
        purpose.ok_or_else(|| bad(format!("found {typed:?}, expected lifting, store or sale")))?;
    let books = Books::new(context)?;
    tell(&books.read, errors)?;
    let trial = row(context.folder.as_deref())?.trial;
    let subjects: Vec<Subject> = match &arguments.ids[..] {
        [] => purpose.usual(books.stock()),
        ids => {
            let subject = |id: &String| -> Result<Subject> {
                let subject: Subject = id.parse().map_err(bad)?;
                let subject = subject.as_listed(&books.list);
                // Of a plant that is noted for the first time the book has nothing yet.
                let told = trial.against(&subject, today(), &books.list, today());
                match told.into_iter().next() {
                    None => Ok(subject),
                    Some(told) => Err(bad(told)),
                }
            };
            ids.iter().map(subject).collect::<Result<_>>()?
        }
    };
    let blank = Blank {
        sheet: &purpose.blank(books.stock(), &subjects),
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
    let path = arguments.file.as_path();
    let read = sheet::read(path, None).map_err(|error| match error {
        SheetError::Asked(told) | SheetError::File(told) => anyhow!(told),
    })?;
    let dir = context.own_folder()?;
    let folder = match arguments.preview {
        true => Folder::open_to_read(dir)?,
        false => open_to_write(dir, errors)?,
    };
    let trial = row(Some(dir))?.trial;
    let (book, mut file) = open_stock(&folder, &trial)?;
    tell(&book, errors)?;
    let grounds = StockContext {
        trial: &trial,
        list: &list,
        today: today(),
    };
    let calendar = context.calendar();
    let date = pencil::day(arguments.date.as_deref(), &calendar)?;
    let filled = match Filled::of(&read.table, &book.stock, &grounds, date, &calendar) {
        Ok(filled) => filled,
        Err(rows) => return Err(pencil::refused(path, &rows, errors)?),
    };
    let meant = arguments.preview || arguments.even_so;
    pencil::strange(path, &filled.strange, meant, errors)?;
    if !arguments.preview {
        let least = file.next_id(&book.stock);
        for (at, entry) in filled.entries.iter().enumerate() {
            let mut entry = entry.clone();
            let at_most = u32::try_from(at).unwrap_or(u32::MAX);
            entry.id = least.saturating_add(at_most);
            // A second import takes the rest: what is in the book already is passed over.
            file.enter(&folder, &entry).with_context(|| {
                format!(
                    "{at} rows of {} were saved; import it again",
                    path.display()
                )
            })?;
        }
    }
    let given = Given {
        file: path,
        preview: arguments.preview,
        new: filled.entries.len(),
        same: filled.same,
        blank: filled.blank,
    };
    pencil::told(&given, context, out)
}
