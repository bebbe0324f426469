//! What the rows of a file come to, name by name.

use std::collections::{BTreeMap, HashMap};

use super::columns::Columns;
use super::kind::Kind;
use super::known::Known;
use super::looked_up::looked_up;
use super::merge::Merge;
use super::same_name::{Said, notes_of_both};
use super::taken::UnknownWord;
use crate::table::Row;
use crate::variety::record::Variety;

/// A variety on its way into the list, as far as its rows are read.
pub(super) struct Record<'a> {
    /// Its place in the list, where that has it.
    pub(super) at: Option<usize>,
    pub(super) variety: Variety,
    /// Its first row.
    pub(super) first: &'a Row,
    /// What its rows say, from the second on.
    pub(super) said: Option<Said>,
}

/// What the rows come to, name by name.
#[derive(Default)]
pub(super) struct Records<'a> {
    pub(super) all: Vec<Record<'a>>,
    pub(super) by_name: HashMap<String, usize>,
    pub(super) unknown: BTreeMap<(Kind, String), UnknownWord>,
}

impl Record<'_> {
    /// Takes one more row of the name into account: what it contradicts is a problem, and notes stand one
    /// behind the other.
    pub(super) fn again(
        &mut self,
        row: &Row,
        columns: &Columns,
        known: &Known<'_>,
        merge: &mut Merge<'_>,
    ) {
        let name = || self.variety.name.clone();
        let first = || Said::by(self.first, columns, known, name());
        let mut said = self.said.take().unwrap_or_else(first);
        let later = Said::by(row, columns, known, name());
        let contradictions = said.contradictions(&later);
        if contradictions.is_empty() {
            said.and(row, columns, known);
        }
        merge.problems.extend(contradictions);
        if let Some(notes) = &self.variety.notes {
            match notes_of_both(notes, columns, row) {
                Some(both) => merge.variety.notes = Some(both),
                None => merge.problems.push(
                    "notes: found more than a line has room for in the rows of one name, expected less"
                        .to_string(),
                ),
            }
        }
        self.said = Some(said);
    }
}

impl Records<'_> {
    /// Notes a word that is no term.
    pub(super) fn note_unknown(&mut self, kind: Kind, word: String, line: usize) {
        let entry = self.unknown.entry((kind, looked_up(&word)));
        let known = entry.or_insert(UnknownWord {
            kind,
            word,
            lines: Vec::new(),
            near: Vec::new(),
        });
        if known.lines.last() != Some(&line) {
            known.lines.push(line);
        }
    }
}
