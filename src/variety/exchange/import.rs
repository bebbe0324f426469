//! What a file would do to a list, worked out whole before anything is changed.

use std::borrow::Cow;

use super::Terms;
use super::cell;
use super::columns::Columns;
use super::export::written;
use super::field::Field;
use super::known::Known;
use super::looked_up::looked_up;
use super::merge::{Merge, cell_of};
use super::records::{Record, Records};
use super::taken::{BadRow, Taken, UnknownWord};
use super::term::near_terms;
use crate::measure::brief;
use crate::table::{Row, Table};
use crate::variety::edit::{Edit, Several};
use crate::variety::list::{NameTaken, Varieties};
use crate::variety::record::Variety;
use crate::variety::text::{Text, as_shown, folded};

/// A file against a list: what it adds, changes and leaves, and what cannot be read.
#[derive(Debug, Clone, PartialEq)]
pub struct Import {
    /// Rows below the heading.
    pub rows: usize,
    /// Records that the list does not have.
    pub new: Vec<Taken>,
    /// Records that change.
    pub changed: Vec<Taken>,
    /// How many stay as they are.
    pub same: usize,
    /// Rows that cannot be read, words apart.
    pub bad: Vec<BadRow>,
    /// Words that are no term, most common first.
    pub unknown: Vec<UnknownWord>,
    /// How many rows are left out for either.
    pub left_out: usize,
    /// What was kept against the file, and other things to know.
    pub notes: Vec<String>,
    /// For each column a few cells as found, each with how it was read where that differs.
    pub samples: Vec<Vec<(String, Option<String>)>>,
    edits: Vec<(Option<usize>, Variety)>,
}

/// Samples of a column.
const MOST_SAMPLES: usize = 3;

impl Import {
    /// Reads the rows of `table` over `list`, which is left as it is. Rows of one name are one record.
    pub fn of(table: &Table, columns: &Columns, list: &Varieties, terms: &Terms) -> Import {
        let mut import = Import {
            rows: 0,
            new: Vec::new(),
            changed: Vec::new(),
            same: 0,
            bad: Vec::new(),
            unknown: Vec::new(),
            left_out: 0,
            notes: columns.notes.clone(),
            samples: vec![Vec::new(); columns.columns.len()],
            edits: Vec::new(),
        };
        let known = Known::new(terms);
        let mut records = Records::default();
        for row in columns.rows(table) {
            import.rows += 1;
            let read = import.row(row, columns, list, &known, &mut records);
            import.sample(row, columns, read.as_ref());
        }
        import.unknown = std::mem::take(&mut records.unknown).into_values().collect();
        import
            .unknown
            .sort_by_key(|word| std::cmp::Reverse(word.lines.len()));
        for word in &mut import.unknown {
            word.near = near_terms(word.kind, &word.word, terms);
        }
        import.sum_up(records.all, list);
        let plain_colours = [Field::Colour, Field::SecondColour];
        if plain_colours.iter().any(|field| columns.has(*field)) && !columns.has(Field::Pattern) {
            import.notes.push(
                "no pattern column: a colour that is new is taken to cover its part (self) where its cell does not say".into(),
            );
        }
        import
    }

    /// Whether every row can be read.
    pub fn is_whole(&self) -> bool {
        self.left_out == 0
    }

    /// Makes the changes, once: all rows that can be read.
    ///
    /// # Errors
    /// [`NameTaken`] where `list` is another than the one that was read over.
    pub fn apply(&mut self, list: &mut Varieties) -> Result<(), NameTaken> {
        for (at, variety) in std::mem::take(&mut self.edits) {
            match at {
                Some(at) => {
                    list.replace(at, variety)?;
                }
                None => list.insert(list.len(), variety)?,
            }
        }
        Ok(())
    }

    /// The same changes as one edit, to be undone as one. `told` says for people what was done.
    pub fn edit(&self, list: &Varieties, told: String) -> Edit {
        let mut several = Several {
            told,
            replaced: Vec::new(),
            kept: list.len(),
            added: Vec::new(),
        };
        for (at, variety) in &self.edits {
            match at {
                Some(at) => several.replaced.push((*at, variety.clone())),
                None => several.added.push(variety.clone()),
            }
        }
        Edit::Several(Box::new(several))
    }

    /// Reads one row; gives the record back as far as it can be shown as a sample.
    fn row<'a>(
        &mut self,
        row: &'a Row,
        columns: &Columns,
        list: &Varieties,
        known: &Known<'_>,
        records: &mut Records<'a>,
    ) -> Option<Variety> {
        let name = match name_of(row, columns) {
            Ok(name) => name,
            Err(told) => {
                self.leave_out(row, columns, told);
                return None;
            }
        };
        let key = folded(&name);
        let before = records.by_name.get(&key).copied();
        let at = list.find(&name);
        let old = at.map(|at| &list.list()[at]);
        let start = match before {
            Some(before) => records.all[before].variety.clone(),
            None => old.cloned().unwrap_or_else(|| Variety::named(name)),
        };
        let mut merge = Merge::of(columns, row, known, start);
        if let Some(before) = before {
            records.all[before].again(row, columns, known, &mut merge);
        }
        let readable = merge.problems.is_empty() && merge.unknown.is_empty();
        for (kind, word) in std::mem::take(&mut merge.unknown) {
            match Text::cleaned(&word).filter(|kept| looked_up(kept) == looked_up(&word)) {
                Some(_) => records.note_unknown(kind, word, row.line),
                // Longer than any word that could be remembered.
                None => merge.problems.push(format!(
                    "{}: found {:?}, expected fewer words",
                    kind.word(),
                    brief(&word)
                )),
            }
        }
        if !readable {
            match merge.problems.is_empty() {
                true => self.left_out += 1,
                false => self.leave_out(row, columns, merge.problems.join("; ")),
            }
            // As a sample only where no value of before could pose as the file's.
            return (old.is_none() && before.is_none()).then_some(merge.variety);
        }
        self.notes.extend(merge.notes);
        match before {
            Some(before) => records.all[before].variety = merge.variety.clone(),
            None => {
                records.by_name.insert(key, records.all.len());
                records.all.push(Record {
                    at,
                    variety: merge.variety.clone(),
                    first: row,
                    said: None,
                });
            }
        }
        Some(merge.variety)
    }

    /// What the records come to beside those of the list.
    fn sum_up(&mut self, records: Vec<Record<'_>>, list: &Varieties) {
        let several = records.iter().filter(|one| one.said.is_some()).count();
        if several > 0 {
            self.notes.push(format!(
                "{several} of the names stand in several rows: each is one variety, with the offers of them all"
            ));
        }
        for Record { at, variety, .. } in records {
            let old = at.map(|at| &list.list()[at]);
            if old == Some(&variety) {
                self.same += 1;
                continue;
            }
            let taken = Taken::of(old, &variety);
            match old {
                Some(_) => self.changed.push(taken),
                None => self.new.push(taken),
            }
            self.edits.push((at, variety));
        }
    }

    fn leave_out(&mut self, row: &Row, columns: &Columns, told: String) {
        self.left_out += 1;
        self.bad.push(BadRow {
            line: row.line,
            name: cell_of(columns, row, Field::Name).map(Cow::into_owned),
            told,
        });
    }

    fn sample(&mut self, row: &Row, columns: &Columns, read: Option<&Variety>) {
        for (at, column) in columns.columns.iter().enumerate() {
            if self.samples[at].len() >= MOST_SAMPLES {
                continue;
            }
            let cell = as_shown(row.cell(at));
            if cell.is_empty() || self.samples[at].iter().any(|(found, _)| *found == cell) {
                continue;
            }
            let meant = column
                .field
                .zip(read)
                .and_then(|(field, variety)| written(variety, field));
            let meant = meant
                .filter(|meant| *meant != cell)
                .map(|meant| meant.into_owned());
            self.samples[at].push((cell.into_owned(), meant));
        }
    }
}

/// The name in a row, where all of the row can be told apart by its headings.
fn name_of(row: &Row, columns: &Columns) -> Result<Text, String> {
    let (found, expected) = (row.cells.len(), columns.columns.len());
    if found != expected && !columns.is_sheet {
        return Err(format!(
            "found {found} cells, expected {expected} as in the heading"
        ));
    }
    match cell_of(columns, row, Field::Name)
        .as_deref()
        .map(cell::name)
    {
        Some(Ok(name)) => Ok(name),
        Some(Err(told)) => Err(format!("name: {told}")),
        None => Err("found no name, expected one".to_string()),
    }
}
