//! What a bloom looks like: form and colours, in terms or in the grower's own words.

use super::Merge;
use crate::colour::{Part, Pattern};
use crate::variety::exchange::cell;
use crate::variety::exchange::colours;
use crate::variety::exchange::field::Field;
use crate::variety::exchange::kind::Kind;
use crate::variety::exchange::term::Meaning;
use crate::variety::record::{ColourNote, FormKnown, FormNote};
use crate::variety::text::Text;

impl Merge<'_> {
    pub(super) fn form(&mut self) {
        let known = self.read(Field::FormKnown, |cell| {
            let all = [FormKnown::Stated, FormKnown::Keyed, FormKnown::Guessed];
            cell::one_of(cell, &all, FormKnown::word)
        });
        let by = self.read(Field::FormBy, cell::text);
        let stated_by = self.stated_by();
        let word = self.read(Field::Form, cell::text);
        let id = word.and_then(|word| self.form_id(word));
        match (id, self.variety.form.take()) {
            (Some(id), Some(old))
                if old.id != id && old.known == FormKnown::Keyed && known.is_none() =>
            {
                let name = &self.variety.name;
                self.notes.push(format!(
                    "{name}: kept the form {}, which was keyed, though the file states {id}",
                    old.id
                ));
                self.variety.form = Some(old);
            }
            (Some(id), old) => {
                let old = old.filter(|old| old.id == id);
                let known = known.or(old.as_ref().map(|old| old.known));
                let known = known.unwrap_or(FormKnown::Stated);
                let stated_by = stated_by.filter(|_| known == FormKnown::Stated);
                self.variety.form = Some(FormNote {
                    id,
                    known,
                    by: by.or(old.and_then(|old| old.by)).or(stated_by),
                });
            }
            (None, Some(old)) => {
                self.variety.form = Some(FormNote {
                    known: known.unwrap_or(old.known),
                    by: by.or(old.by),
                    id: old.id,
                });
            }
            // Without a form there is nothing that could be known; a word that is no form is told.
            (None, None) => {}
        }
    }

    /// The form's id: as the list has it, by the grower's word, or by the form's id or name.
    fn form_id(&mut self, word: Text) -> Option<Text> {
        if self
            .variety
            .form
            .as_ref()
            .is_some_and(|form| form.id == word)
        {
            return Some(word);
        }
        match self.known.form(&word) {
            Some(Meaning::Term(id)) => Text::new(id).ok(),
            Some(Meaning::Left) => None,
            None => {
                self.unknown.push((Kind::Form, word.to_string()));
                None
            }
        }
    }

    pub(super) fn colours(&mut self) {
        if let Some(cell) = self.read(Field::Colours, |cell| Ok(cell.to_string()))
            && cell != colours::written(&self.variety.colours)
            && let Some(colours) = self.colour_cell(&cell)
        {
            self.variety.colours = colours;
        }
        let pattern = self.one_of(Field::Pattern, Kind::Pattern, &Pattern::ALL, Pattern::word);
        for (field, part) in [
            (Field::Colour, Part::Main),
            (Field::SecondColour, Part::Second),
            (Field::ReverseColour, Part::Reverse),
            (Field::CentreColour, Part::Centre),
        ] {
            let old = self.variety.colours.iter().position(|one| one.part == part);
            // A pattern column speaks of how the main and the second colour meet.
            let told = pattern.filter(|_| matches!(part, Part::Main | Part::Second));
            let Some(cell) = self.read(field, |cell| Ok(cell.to_string())) else {
                if let (Some(at), Some(pattern)) = (old, told) {
                    self.variety.colours[at].pattern = pattern;
                }
                continue;
            };
            let same = old.is_some_and(|at| self.variety.colours[at].colour.to_string() == cell);
            let found = if same { None } else { self.colour_cell(&cell) };
            match (found, old) {
                (None, Some(at)) => {
                    if let Some(pattern) = told {
                        self.variety.colours[at].pattern = pattern;
                    }
                }
                (Some(found), _) if found.len() > 1 => self.variety.colours = found,
                (Some(mut found), old) => {
                    if let Some(one) = found.pop() {
                        let pattern = told.or(old.map(|at| self.variety.colours[at].pattern));
                        let pattern = pattern.unwrap_or(one.pattern);
                        let note = ColourNote {
                            colour: one.colour,
                            part,
                            pattern,
                        };
                        match old {
                            Some(at) => self.variety.colours[at] = note,
                            None => self.variety.colours.push(note),
                        }
                    }
                }
                (None, None) => {}
            }
        }
    }

    /// A cell's colours, by the grower's words or the trade's; `None` where they are to be left or unknown.
    fn colour_cell(&mut self, cell: &str) -> Option<Vec<ColourNote>> {
        match self.known.colours(cell) {
            Ok(found) => found,
            Err(words) => {
                let words = words.into_iter().map(|word| (Kind::Colour, word));
                self.unknown.extend(words);
                None
            }
        }
    }
}
