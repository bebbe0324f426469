//! `trug import FILE`: a spreadsheet's rows into the grower's list, all of them or none.

use std::io::Write;
use std::num::NonZeroU32;
use std::path::{Path, PathBuf};

use anyhow::{Result, anyhow};

use super::import_report::{Outcome, Report};
use super::{BadInput, Context};
use crate::folder::contents::{open_varieties, save_varieties};
use crate::folder::names::WORDS;
use crate::folder::sheet::{self, SheetError};
use crate::folder::text::kept::Holds;
use crate::folder::{Folder, text};
use crate::problem::read_ron;
use crate::variety::Text;
use crate::variety::exchange::{Answer, Intake, Mapping, Over, OwnWords};

/// What `trug import` takes.
#[derive(Debug, clap::Args)]
pub struct ImportArguments {
    /// The list to read: CSV, XLSX or ODS, with headings over its columns.
    #[arg(value_name = "FILE")]
    file: PathBuf,
    /// Shows what each column would be read as and what would change; saves nothing.
    #[arg(long)]
    preview: bool,
    /// Says what a word of the file means, once for all: form:"dinner plate"=informal-decorative.
    /// KIND is form, size, colour, foliage, pattern or heading; =unknown leaves the field as it is. A heading that may
    /// be your own store or a supplier's stock, or measured or stated, is asked about: answer so.
    #[arg(long, value_name = "KIND:WORD=TERM")]
    map: Vec<Mapping>,
    /// The sheet of a workbook; without it the first.
    #[arg(long, value_name = "NAME")]
    sheet: Option<String>,
    /// Takes the rows that can be read and leaves out the others; without it all or nothing.
    #[arg(long)]
    skip_bad: bool,
    /// The supplier whose list this is: who sells where a row names nobody, and who states sizes,
    /// heights and days in the vase.
    #[arg(long, value_name = "NAME", value_parser = name)]
    supplier: Option<Text>,
    /// Tubers in a pack, for rows with a price that do not say.
    #[arg(long, value_name = "TUBERS", value_parser = crate::measure::bounds::read::<NonZeroU32>)]
    pack: Option<NonZeroU32>,
}

pub(super) fn run(
    arguments: &ImportArguments,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    let dir = own_folder(context)?;
    let folder = if arguments.preview {
        Folder::open_to_read(dir)?
    } else {
        super::open_to_write(dir, errors)?
    };
    let sheet =
        sheet::read(&arguments.file, arguments.sheet.as_deref()).map_err(|error| match error {
            SheetError::Asked(told) => anyhow!(BadInput(told)),
            SheetError::File(told) => anyhow!(told),
        })?;
    let (mut list, mut list_guard) = open_varieties(&folder)?;
    let (own, mut words_guard) =
        folder.read(WORDS, |file, text| read_ron::<OwnWords>(file, text))?;
    let own = own.unwrap_or_default();
    let mut intake = Intake::new(sheet.table);
    let mapped = arguments.map.iter().cloned().map(Answer::Mapped);
    let supplier = arguments.supplier.iter().cloned().map(Answer::Supplier);
    let pack = arguments.pack.into_iter().map(Answer::Pack);
    for answer in mapped.chain(supplier).chain(pack) {
        intake.answer(answer);
    }
    let over = Over {
        list: &list,
        rules: context.set(),
        colours: &context.contents.words,
        own: &own,
    };
    intake.check(over).map_err(|told| anyhow!(BadInput(told)))?;
    let shown = arguments.file.display().to_string();
    let (columns, mut import) = intake
        .import(over)
        .map_err(|told| anyhow!(BadInput(format!("{shown}, {told}"))))?;
    let (words, remembered) = intake.learnt(&own);
    if !arguments.preview && !remembered.is_empty() {
        let holds = Holds::Value(text::value_again::<OwnWords>);
        folder.save_value(&mut words_guard, &text::write_value(&words)?, holds)?;
    }
    let outcome = if arguments.preview {
        Outcome::Previewed
    } else if !import.is_whole() && !arguments.skip_bad {
        Outcome::Refused
    } else if import.new.is_empty() && import.changed.is_empty() {
        Outcome::Unchanged
    } else {
        import.apply(&mut list)?;
        save_varieties(&folder, &mut list_guard, &list)?;
        Outcome::Saved
    };
    let report = Report {
        file: &shown,
        source: &sheet.source,
        columns: &columns,
        import: &import,
        remembered: if arguments.preview { &[] } else { &remembered },
        outcome,
    };
    if context.json {
        context.print(out, report.object())?;
    } else {
        out.write_all(report.plain().as_bytes())?;
    }
    Ok(outcome != Outcome::Refused)
}

/// The grower's own folder.
///
/// # Errors
/// One sentence that says how to begin, where there is none.
pub(super) fn own_folder(context: &Context) -> Result<&Path> {
    context.folder.as_deref().ok_or_else(|| {
        anyhow!("found no folder of your own, expected one: trug start DIR lays one out, --at DIR names it")
    })
}

fn name(text: &str) -> Result<Text, String> {
    Text::new(text).map_err(|error| error.to_string())
}
