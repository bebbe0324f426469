//! What a file would do to a list, worked out whole before anything is changed.

use std::collections::{BTreeMap, HashMap};

use super::Terms;
use super::cell;
use super::columns::Columns;
use super::export::written;
use super::field::Field;
use super::kind::Kind;
use super::looked_up::looked_up;
use super::merge::{Merge, cell_of};
use super::term::near_terms;
use crate::table::{Row, Table};
use crate::variety::list::{NameTaken, Varieties};
use crate::variety::record::Variety;
use crate::variety::text::{folded, plain};

/// A file against a list: what it adds, changes and leaves, and what cannot be read.
#[derive(Debug, Clone, PartialEq)]
pub struct Import {
    /// Rows below the heading.
    pub rows: usize,
    /// Names that the list does not have.
    pub new: Vec<String>,
    /// Names whose record changes, each with the headings of the fields that do.
    pub changed: Vec<(String, Vec<&'static str>)>,
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

/// A row that cannot be read.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct BadRow {
    /// Its line in the file.
    pub line: usize,
    /// The name in it, where it has one.
    pub name: Option<String>,
    /// What was found and what was expected.
    pub told: String,
}

/// A word that is no term.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct UnknownWord {
    /// What it stands for.
    pub kind: Kind,
    /// As first written.
    pub word: String,
    /// The lines that have it.
    pub lines: Vec<usize>,
    /// Terms near it, nearest first.
    pub near: Vec<String>,
}

/// Samples of a column.
const MOST_SAMPLES: usize = 3;

impl Import {
    /// Reads the rows of `table` over `list`, which is left as it is.
    pub fn of(table: &Table, columns: &Columns, list: &Varieties, terms: &Terms) -> Import {
        let mut import = Import {
            rows: 0,
            new: Vec::new(),
            changed: Vec::new(),
            same: 0,
            bad: Vec::new(),
            unknown: Vec::new(),
            left_out: 0,
            notes: Vec::new(),
            samples: vec![Vec::new(); columns.columns.len()],
            edits: Vec::new(),
        };
        let mut seen: HashMap<String, usize> = HashMap::new();
        let mut unknown: BTreeMap<(Kind, String), UnknownWord> = BTreeMap::new();
        for row in columns.rows(table) {
            import.rows += 1;
            let read = import.row(row, columns, list, terms, &mut seen, &mut unknown);
            import.sample(row, columns, read.as_ref());
        }
        import.unknown = unknown.into_values().collect();
        import
            .unknown
            .sort_by_key(|word| std::cmp::Reverse(word.lines.len()));
        for word in &mut import.unknown {
            word.near = near_terms(word.kind, &word.word, terms);
        }
        let plain_colours = [Field::Colour, Field::SecondColour];
        if plain_colours.iter().any(|field| columns.has(*field)) && !columns.has(Field::Pattern) {
            import.notes.push(
                "no pattern column: a colour that is new is taken to cover its part (self)".into(),
            );
        }
        import
    }

    /// Whether every row can be read.
    pub fn is_whole(&self) -> bool {
        self.left_out == 0
    }

    /// Makes the changes: all rows that can be read.
    ///
    /// # Errors
    /// [`NameTaken`] where `list` is another than the one that was read over.
    pub fn apply(&self, list: &mut Varieties) -> Result<(), NameTaken> {
        for (at, variety) in &self.edits {
            match at {
                Some(at) => {
                    list.replace(*at, variety.clone())?;
                }
                None => list.insert(list.len(), variety.clone())?,
            }
        }
        Ok(())
    }

    fn row(
        &mut self,
        row: &Row,
        columns: &Columns,
        list: &Varieties,
        terms: &Terms,
        seen: &mut HashMap<String, usize>,
        unknown: &mut BTreeMap<(Kind, String), UnknownWord>,
    ) -> Option<Variety> {
        let written_name = cell_of(columns, row, Field::Name);
        let mut bad = |told: String| {
            let name = written_name.clone();
            self.bad.push(BadRow {
                line: row.line,
                name,
                told,
            });
        };
        let (found, expected) = (row.cells.len(), columns.columns.len());
        if found != expected {
            bad(format!(
                "found {found} cells, expected {expected} as in the heading"
            ));
            self.left_out += 1;
            return None;
        }
        let name = match written_name.as_deref().map(cell::name) {
            Some(Ok(name)) => name,
            Some(Err(told)) => {
                bad(format!("name: {told}"));
                self.left_out += 1;
                return None;
            }
            None => {
                bad("found no name, expected one".to_string());
                self.left_out += 1;
                return None;
            }
        };
        if let Some(first) = seen.insert(folded(&name), row.line) {
            bad(format!(
                "found the name a second time, first on line {first}, expected each name once"
            ));
            self.left_out += 1;
            return None;
        }
        let at = list.find(&name);
        let old = at.map(|at| &list.list()[at]);
        let start = old.cloned().unwrap_or_else(|| Variety::named(name));
        let merge = Merge::of(columns, row, terms, start);
        let readable = merge.problems.is_empty() && merge.unknown.is_empty();
        if !merge.problems.is_empty() {
            bad(merge.problems.join("; "));
        }
        for (kind, word) in merge.unknown {
            let entry = unknown.entry((kind, looked_up(&word)));
            let known = entry.or_insert(UnknownWord {
                kind,
                word,
                lines: Vec::new(),
                near: Vec::new(),
            });
            if known.lines.last() != Some(&row.line) {
                known.lines.push(row.line);
            }
        }
        if !readable {
            self.left_out += 1;
            // As a sample only where no value of before could pose as the file's.
            return old.is_none().then_some(merge.variety);
        }
        self.notes.extend(merge.notes);
        match old {
            None => self.new.push(merge.variety.name.to_string()),
            Some(old) if *old == merge.variety => {
                self.same += 1;
                return Some(merge.variety);
            }
            Some(old) => {
                let differs =
                    |field: &Field| written(old, *field) != written(&merge.variety, *field);
                let fields = Field::ALL
                    .into_iter()
                    .filter(|one| one.is_exported())
                    .filter(differs);
                let fields = fields.map(Field::heading).collect();
                self.changed.push((old.name.to_string(), fields));
            }
        }
        self.edits.push((at, merge.variety.clone()));
        Some(merge.variety)
    }

    fn sample(&mut self, row: &Row, columns: &Columns, read: Option<&Variety>) {
        for (at, column) in columns.columns.iter().enumerate() {
            let cell = plain(row.cell(at));
            if cell.is_empty() || self.samples[at].len() >= MOST_SAMPLES {
                continue;
            }
            if self.samples[at].iter().any(|(found, _)| *found == cell) {
                continue;
            }
            let meant = column
                .field
                .zip(read)
                .and_then(|(field, variety)| written(variety, field));
            let meant = meant
                .filter(|meant| *meant != cell)
                .map(|meant| meant.into_owned());
            self.samples[at].push((cell, meant));
        }
    }
}
