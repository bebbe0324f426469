//! Size, diameter, height, stems and vase life. What a row gives as measured is the grower's own; what
//! it states is kept as a statement, with a name where the row or whoever imports it gives one.

use super::Merge;
use crate::variety::evidence::VaseLife;
use crate::variety::exchange::field::Field;
use crate::variety::exchange::kind::Kind;
use crate::variety::exchange::term::{Meaning, meant};
use crate::variety::exchange::{cell, lengths, statement};
use crate::variety::extent::{Extent, Reach};
use crate::variety::stated::{StatedValue, Statement, number_of_days};
use crate::variety::text::{Text, folded};

impl Merge<'_> {
    pub(super) fn measures(&mut self) {
        if let Some(value) = self.read(Field::Stated, statement::read) {
            self.variety.stated = value;
        }
        if let Some(value) = self.lengths(Field::Diameters) {
            self.variety.diameters = value;
        }
        if let Some(value) = self.lengths(Field::PlantHeights) {
            self.variety.plant_heights = value;
        }
        if let Some(value) = self.lengths(Field::StemLengths) {
            self.variety.stem_lengths = value;
        }
        let by = self.stated_by();
        if let Some(reach) = self.reach(Field::StatedDiameter) {
            self.state(StatedValue::Diameter(reach), by.as_ref());
        }
        match (self.reach(Field::Height), &by) {
            (Some(reach), Some(by)) => self.state(StatedValue::Height(reach), Some(by)),
            (reach, _) => self.variety.height = reach.or(self.variety.height),
        }
        match (self.reach(Field::Stem), &by) {
            (Some(reach), Some(by)) => self.state(StatedValue::Stem(reach), Some(by)),
            (reach, _) => self.variety.stem = reach.or(self.variety.stem),
        }
        match (self.size_word(), &by) {
            (Some(word), Some(by)) => self.state(StatedValue::Size(word), Some(by)),
            (word, _) => self.variety.size = word.or(self.variety.size.take()),
        }
        self.vase(by.as_ref());
    }

    /// Who states what the row states; `None` where neither the row nor whoever imports it says. An
    /// export says of each statement itself whose it is, and of the others that nobody knows.
    pub(super) fn stated_by(&mut self) -> Option<Text> {
        let by = self.read(Field::StatedBy, cell::text);
        let is_export = self.columns.has(Field::Stated);
        by.or(self.terms.supplier.filter(|_| !is_export).cloned())
    }

    fn lengths(&mut self, field: Field) -> Option<Vec<Extent>> {
        let (unit, known) = (self.unit(field), self.known);
        self.read(field, |cell| known.lengths(cell, unit))
    }

    fn reach(&mut self, field: Field) -> Option<Reach> {
        let (unit, known) = (self.unit(field), self.known);
        self.read(field, |cell| known.reach(cell, unit))
    }

    /// Takes the place of what the same person stated of the same thing.
    fn state(&mut self, value: StatedValue, by: Option<&Text>) {
        let same = |one: &Statement| {
            let name = |by: Option<&Text>| by.map(|by| folded(by));
            one.value.what() == value.what() && name(one.by.as_ref()) == name(by)
        };
        match self.variety.stated.iter_mut().find(|one| same(one)) {
            Some(old) => old.value = value,
            None => self.variety.stated.push(Statement {
                value,
                by: by.cloned(),
            }),
        }
    }

    /// The size word of the row, where it gives one: by the grower's words, the rule set's, or as the
    /// length that it is.
    fn size_word(&mut self) -> Option<Text> {
        let word = self.read(Field::Size, cell::text)?;
        // A word that the record has already is taken again, though this set does not know it.
        if self.variety.stated_sizes().any(|(known, _)| *known == word) {
            return Some(word);
        }
        let rules = self.terms.rules;
        match meant(Kind::Size, &word, self.terms) {
            Some(Meaning::Term(term)) => return Text::new(term).ok(),
            Some(Meaning::Left) => return None,
            None => {}
        }
        if !word.starts_with(|c: char| c.is_ascii_digit()) {
            self.unknown.push((Kind::Size, word.to_string()));
            return None;
        }
        let found = lengths::span(&word, self.unit(Field::Size));
        let found = found.and_then(|span| {
            rules.size_word(span).ok_or_else(|| {
                format!(
                    "found {:?}, which is no one size of {}, expected a size, or a length within one",
                    word.as_str(),
                    rules.id
                )
            })
        });
        match found {
            Ok(found) => Text::new(found).ok(),
            Err(told) => {
                self.problem(Field::Size, &told);
                None
            }
        }
    }

    /// Days with a number of stems were tested; others somebody states.
    fn vase(&mut self, by: Option<&Text>) {
        let days = self.read(Field::Vase, |cell| {
            let bare = cell.trim_end_matches("days").trim_end_matches("d").trim();
            number_of_days(bare, cell)
        });
        let stems = self.read(Field::VaseStems, cell::count);
        match (days, self.variety.vase) {
            (Some(days), _) if by.is_some() && stems.is_none() => {
                self.state(StatedValue::Vase(days), by);
            }
            (Some(days), Some(old))
                if days != old.days && old.stems.is_some() && stems.is_none() =>
            {
                self.notes.push(format!(
                    "{}: kept {} days in the vase, which was tested, though the file states {}",
                    self.variety.name,
                    old.days.get(),
                    days.get()
                ));
            }
            (Some(days), old) => {
                let stems = stems.or(old.and_then(|old| old.stems));
                self.variety.vase = Some(VaseLife { days, stems });
            }
            (None, Some(old)) => {
                self.variety.vase = Some(VaseLife {
                    stems: stems.or(old.stems),
                    ..old
                })
            }
            (None, None) => {
                if stems.is_some() {
                    self.problem(
                        Field::VaseStems,
                        "found a number of stems and no days, expected both",
                    );
                }
            }
        }
    }
}
