//! `trug key --from FILE.csv`: many blooms, one a line.

use std::collections::HashMap;
use std::io::Write;
use std::path::Path;

use anyhow::{Context as _, Result, anyhow};

use super::{BadInput, Context};
use crate::folder::file;
use crate::form::space::Block;
use crate::form::{Answer, RuleSet, Status};
use crate::table::guard::neutral;

/// The columns that keying adds.
const ADDED: [&str; 2] = ["form", "status"];
/// Texts of a column that are remembered: every whole millimetre and per cent many times over, and
/// no file can fill the memory.
const MOST_KNOWN: usize = 10_000;

/// Keys every line. A line that cannot be read is reported with its number and kept with the
/// status `unread`; the answer is then `false`.
pub(super) fn run(
    path: &Path,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    if context.json {
        return Err(anyhow!(BadInput(
            "found --json with --from, expected one of them: --from writes CSV".into()
        )));
    }
    let shown = path.display();
    let text = file::read(path).map_err(|told| anyhow!(told))?;
    let mut reader = csv::ReaderBuilder::new()
        .flexible(true)
        .from_reader(text.as_bytes());
    let header = reader
        .headers()
        .with_context(|| format!("cannot read {shown}"))?
        .clone();
    let columns = columns(&header, context.set(), path)?;
    let mut writer = csv::WriterBuilder::new().flexible(true).from_writer(out);
    write_guarded(&mut writer, header.iter().chain(ADDED))?;
    let mut keying = Keying::new(context.set(), columns);
    let mut whole = true;
    let mut record = csv::StringRecord::new();
    while reader
        .read_record(&mut record)
        .with_context(|| format!("cannot read {shown}"))?
    {
        let line = record.position().map_or(0, csv::Position::line);
        let (form, status) = match keying.key(&record) {
            Ok(keyed) => keyed,
            Err(told) => {
                writeln!(errors, "trug: {shown}, line {line}: {told}")?;
                whole = false;
                ("", "unread")
            }
        };
        let missing = header.len().saturating_sub(record.len());
        let cells = record.iter().chain(std::iter::repeat_n("", missing));
        write_guarded(&mut writer, cells.chain([form, status]))?;
    }
    writer.flush()?;
    Ok(whole)
}

/// Writes a record so that no cell of the grower's own is a formula to a spreadsheet.
fn write_guarded<'a, W: Write>(
    writer: &mut csv::Writer<W>,
    cells: impl Iterator<Item = &'a str>,
) -> csv::Result<()> {
    for cell in cells {
        writer.write_field(neutral(cell).as_bytes())?;
    }
    writer.write_record(None::<&[u8]>)
}

/// The trait of each column; `None` for a column of the grower's own.
fn columns(header: &csv::StringRecord, set: &RuleSet, path: &Path) -> Result<Vec<Option<usize>>> {
    let shown = path.display();
    let columns: Vec<Option<usize>> = header
        .iter()
        .map(|name| set.traits.find(name.trim()))
        .collect();
    let bad = |told: String| Err(anyhow!(BadInput(format!("{shown}, line 1: {told}"))));
    if columns.iter().all(Option::is_none) {
        return bad(format!(
            "found no trait among the headings, expected some of {}",
            set.traits.ids()
        ));
    }
    for (at, column) in columns.iter().enumerate() {
        if column.is_some() && columns[..at].contains(column) {
            return bad(format!(
                "found the heading {:?} twice, expected each trait once",
                &header[at]
            ));
        }
    }
    if let Some(taken) = header.iter().find(|name| ADDED.contains(&name.trim())) {
        return bad(format!(
            "found the heading {taken:?}, which keying adds, expected another name"
        ));
    }
    Ok(columns)
}

/// Keys line after line, and remembers what cells say: few differ from all before in their column.
struct Keying<'a> {
    set: &'a RuleSet,
    columns: Vec<Option<usize>>,
    /// For each column the atoms that a cell leaves of its trait, by its text.
    known: Vec<HashMap<String, u64>>,
}

impl<'a> Keying<'a> {
    fn new(set: &'a RuleSet, columns: Vec<Option<usize>>) -> Keying<'a> {
        Keying {
            set,
            known: vec![HashMap::new(); columns.len()],
            columns,
        }
    }

    /// One line's form and status; an empty cell is an unknown.
    fn key(&mut self, record: &csv::StringRecord) -> Result<(&'a str, &'static str), String> {
        let (set, expected) = (self.set, self.columns.len());
        if record.len() != expected {
            return Err(format!(
                "found {} cells, expected {expected} as in the heading",
                record.len()
            ));
        }
        let mut block = Block::whole(set.scales());
        for ((cell, column), known) in record.iter().zip(&self.columns).zip(&mut self.known) {
            let Some(index) = *column else { continue };
            block.0[index] = match known.get(cell) {
                Some(mask) => *mask,
                None => {
                    let mask = mask(cell, index, set)?;
                    if known.len() < MOST_KNOWN {
                        known.insert(cell.to_string(), mask);
                    }
                    mask
                }
            };
        }
        Ok(match set.status_in(&block) {
            Status::Settled(form) => (set.forms[form].id.as_str(), "settled"),
            Status::Open => ("", "open"),
            Status::None => ("", "none"),
        })
    }
}

/// The atoms of a trait that a cell leaves.
fn mask(cell: &str, index: usize, set: &RuleSet) -> Result<u64, String> {
    let scale = &set.scales()[index];
    if cell.trim().is_empty() {
        return Ok(scale.full());
    }
    let answer = Answer::read(cell, set.traits.get(index)).map_err(|error| error.to_string())?;
    Ok(answer.mask(scale))
}
