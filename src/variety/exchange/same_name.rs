//! Rows of one name: each adds its offers, and what they say else must be the same.

use std::collections::BTreeMap;

use super::columns::Columns;
use super::export::written;
use super::field::Field;
use super::known::Known;
use super::merge::{Merge, cell_of};
use crate::measure::brief;
use crate::table::Row;
use crate::variety::record::{Offer, Variety};
use crate::variety::stated::Statement;
use crate::variety::text::{Text, folded};

/// What the file itself says of one variety, row after row, whatever the list has.
#[derive(Debug, Clone)]
pub(super) struct Said {
    alone: Variety,
    /// The line that was first to fill each field.
    lines: BTreeMap<Field, usize>,
    first: usize,
}

impl Said {
    /// What one row says.
    pub(super) fn by(row: &Row, columns: &Columns, known: &Known<'_>, name: Text) -> Said {
        let alone = Merge::of(columns, row, known, Variety::named(name)).variety;
        let given = Field::ALL
            .into_iter()
            .filter(|field| written(&alone, *field).is_some());
        Said {
            lines: given.map(|field| (field, row.line)).collect(),
            first: row.line,
            alone,
        }
    }

    /// What a later row says otherwise, a clause each with its heading.
    pub(super) fn contradictions(&self, later: &Said) -> Vec<String> {
        let mut told = Vec::new();
        for field in Field::ALL.into_iter().filter(|one| one.is_exported()) {
            match field {
                // The name may be spelt otherwise; notes stand one behind the other.
                Field::Name | Field::Notes => {}
                Field::Offers => told.extend(self.other_offers(&later.alone.offers)),
                Field::Stated => told.extend(self.other_statements(&later.alone.stated)),
                _ => {
                    let (old, new) = (written(&self.alone, field), written(&later.alone, field));
                    if let (Some(old), Some(new)) = (old, new)
                        && old != new
                    {
                        told.push(self.contradiction(field, &new, &old));
                    }
                }
            }
        }
        told
    }

    /// Takes in what a later row says that contradicts nothing.
    pub(super) fn and(&mut self, row: &Row, columns: &Columns, known: &Known<'_>) {
        self.alone = Merge::of(columns, row, known, self.alone.clone()).variety;
        for field in Field::ALL {
            if written(&self.alone, field).is_some() {
                self.lines.entry(field).or_insert(row.line);
            }
        }
    }

    fn other_offers(&self, later: &[Offer]) -> Vec<String> {
        let other = |new: &Offer| {
            let same = |old: &&Offer| folded(&old.supplier) == folded(&new.supplier);
            let old = self.alone.offers.iter().find(same)?;
            (old != new).then(|| {
                let told = |one: &Offer| super::cell::offer_out(one);
                self.contradiction(Field::Offers, &told(new), &told(old))
            })
        };
        later.iter().filter_map(other).collect()
    }

    fn other_statements(&self, later: &[Statement]) -> Vec<String> {
        let other = |new: &Statement| {
            let same = |old: &&Statement| old.value.what() == new.value.what() && old.by == new.by;
            let old = self.alone.stated.iter().find(same)?;
            (old != new).then(|| {
                let told = |one: &Statement| super::statement::written(std::slice::from_ref(one));
                self.contradiction(Field::Stated, &told(new), &told(old))
            })
        };
        later.iter().filter_map(other).collect()
    }

    fn contradiction(&self, field: Field, new: &str, old: &str) -> String {
        let line = self.lines.get(&field).copied().unwrap_or(self.first);
        format!(
            "{}: found {:?}, but line {line} of the same name says {:?}, expected the same",
            field.heading(),
            brief(new),
            brief(old)
        )
    }
}

/// The notes of two rows, one behind the other; `None` where they are too long for a line.
pub(super) fn notes_of_both(first: &Text, columns: &Columns, row: &Row) -> Option<Text> {
    match cell_of(columns, row, Field::Notes) {
        Some(second) if !first.contains(second.as_ref()) => {
            Text::new(format!("{first}; {second}")).ok()
        }
        _ => Some(first.clone()),
    }
}
