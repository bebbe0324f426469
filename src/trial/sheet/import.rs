//! A filled sheet taken back: every row becomes an entry, or none does.

use jiff::civil::Date;

use super::{SUBJECT, unit_of, words};
use crate::book;
use crate::book::sheet::BadRow;
use crate::measure::brief;
use crate::measure::day::Calendar;
use crate::measure::{Exact, SizeUnits};
use crate::table::{Row, Table, guard};
use crate::trial::entry::Entry;
use crate::trial::read::Reader;
use crate::trial::row::{EntryContext, Trial};
use crate::trial::seedling::Subject;

/// What a filled sheet holds that the book does not have yet.
pub type Filled = book::filled::Filled<Entry>;

/// What a column of the table holds.
enum Meaning<'a> {
    Subject,
    /// Printed for the grower; not read.
    Place,
    /// A word of an entry, and the unit of its bare numbers.
    Word(&'a str, Option<&'a str>),
}

impl Filled {
    /// Reads a filled sheet over a book. `day` is that of rows whose own is left out; one that a row has
    /// is read by `days`.
    ///
    /// # Errors
    /// Every row that is wrong, with its line; nothing is then to be taken.
    pub fn of(
        table: &Table,
        trial: &Trial,
        grounds: &EntryContext<'_>,
        day: Option<Date>,
        days: Calendar,
    ) -> Result<Filled, Vec<BadRow>> {
        let Some((heading, rows)) = table.rows.split_first() else {
            let told = format!("found nothing, expected a heading with {SUBJECT}");
            return Err(vec![BadRow { line: 1, told }]);
        };
        let columns = columns(heading, grounds)?;
        let read = |row: &Row, book: &Trial| entry(row, &columns, book, grounds, (day, days));
        let rows = rows.iter().map(|row| (row.line, row));
        Filled::over(
            trial,
            (Trial::book, Trial::add),
            rows,
            read,
            |book, entry| book.check(entry, grounds),
        )
    }
}

fn columns<'a>(
    heading: &'a Row,
    grounds: &EntryContext<'_>,
) -> Result<Vec<Meaning<'a>>, Vec<BadRow>> {
    let mut bad = Vec::new();
    let mut columns = Vec::new();
    let mut seen: Vec<&str> = Vec::new();
    let line = heading.line;
    for (at, _) in heading.cells.iter().enumerate() {
        let cell = guard::plain(heading.cell(at));
        let (id, unit) = match cell.split_once('(') {
            Some((id, rest)) => (id.trim(), Some(rest.trim_end_matches(')').trim())),
            None => (cell, None),
        };
        if cell.is_empty() {
            columns.push(Meaning::Place);
            continue;
        }
        if seen.contains(&id) {
            let told = format!(
                "found the column {id:?} a second time, expected each once",
                id = brief(id)
            );
            bad.push(BadRow { line, told });
        }
        seen.push(id);
        let fits = [SizeUnits::Mm, SizeUnits::In].map(|units| unit_of(id, units));
        let named = unit.filter(|unit| fits.contains(&Some(*unit)));
        let known = words().any(|word| word.id == id) || grounds.rules.traits.find(id).is_some();
        let told = match (id, unit) {
            (SUBJECT, None) => {
                columns.push(Meaning::Subject);
                continue;
            }
            ("place", None) => {
                columns.push(Meaning::Place);
                continue;
            }
            (_, Some(unit)) if known && named.is_none() => {
                format!(
                    "found the unit {:?} of {id}, expected {}",
                    brief(unit),
                    units_of(id)
                )
            }
            _ if known => {
                columns.push(Meaning::Word(id, named));
                continue;
            }
            _ => {
                let ids: Vec<&str> = words().map(|word| word.id).collect();
                format!(
                    "found the column {cell:?}, expected {SUBJECT}, place, {}, or a trait ({})",
                    ids.join(", "),
                    grounds.rules.traits.ids(),
                    cell = brief(cell)
                )
            }
        };
        bad.push(BadRow { line, told });
        columns.push(Meaning::Place);
    }
    if !seen.contains(&SUBJECT) {
        let told = format!(
            "found no column {SUBJECT}, expected one with the seedling's number or the variety's name"
        );
        bad.push(BadRow { line, told });
    }
    if bad.is_empty() {
        Ok(columns)
    } else {
        Err(bad)
    }
}

fn units_of(id: &str) -> String {
    let units = [SizeUnits::Mm, SizeUnits::In].map(|units| unit_of(id, units));
    match units {
        [Some(metric), Some(inch)] => format!("{metric} or {inch}"),
        _ => "none".to_string(),
    }
}

/// The entry of a row; `None` where nothing was written beside what was printed.
fn entry(
    row: &Row,
    columns: &[Meaning<'_>],
    book: &Trial,
    grounds: &EntryContext<'_>,
    (day, days): (Option<Date>, Calendar),
) -> Result<Option<Entry>, String> {
    let mut subject = "";
    let (mut words, mut written) = (Vec::new(), false);
    for (at, column) in columns.iter().enumerate() {
        let cell = row.cell(at);
        match column {
            Meaning::Subject => subject = guard::plain(cell),
            Meaning::Place => {}
            Meaning::Word(..) if cell.is_empty() => {}
            Meaning::Word(id, unit) => {
                written |= !matches!(*id, "date" | "by");
                words.push(format!("{id}={}", with_unit(cell, *unit)));
            }
        }
    }
    if row.cells.len() > columns.len() {
        let (found, expected) = (row.cells.len(), columns.len());
        return Err(format!(
            "found {found} cells, expected {expected}; a cell with commas stands in quotation marks"
        ));
    }
    if !written {
        return Ok(None);
    }
    let of: Subject = subject
        .parse()
        .map_err(|error| format!("{SUBJECT}: {error}"))?;
    let reader = Reader {
        traits: &grounds.rules.traits,
        bare: None,
        days,
    };
    let draft = reader.read(&words).map_err(|error| error.to_string())?;
    let told = draft.date.as_ref().map(|typed| typed.day);
    let date = { told.or(day) }.ok_or("date: found nothing, expected a day such as 2026-08-20")?;
    Ok(Some(draft.entry(book.next_id(), of, date)))
}

/// The cell with the heading's unit behind every bare number.
fn with_unit(cell: &str, unit: Option<&str>) -> String {
    let Some(unit) = unit else {
        return cell.to_string();
    };
    let one = |part: &str| match part.trim().parse::<Exact>() {
        Ok(number) => format!("{number}{unit}"),
        Err(_) => part.trim().to_string(),
    };
    cell.split(',').map(one).collect::<Vec<_>>().join(",")
}
