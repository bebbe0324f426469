//! Taking in what was typed for a field.

use super::Ground;
use super::draft::{Draft, MOST_COLOURS};
use super::offer::LooseOffer;
use crate::colour::{Part, Pattern};
use crate::measure::brief;
use crate::variety::exchange::{Field, typed};
use crate::variety::stated::number_of_days;

impl Draft {
    /// # Errors
    /// What was found and what was expected; the draft is then as it was.
    pub(super) fn take(
        &mut self,
        field: Field,
        place: usize,
        text: &str,
        ground: Ground<'_>,
    ) -> Result<(), String> {
        let terms = ground.terms();
        match field {
            Field::Name => {
                let name = (!text.is_empty()).then(|| typed::name(text));
                self.name = name.transpose()?;
            }
            Field::Form | Field::FormKnown | Field::FormBy => {
                return typed::take_form(self.form(), field, text, &terms);
            }
            Field::Vase => {
                let bare = text.trim_end_matches("days").trim();
                let days = (!text.is_empty()).then(|| number_of_days(bare, text));
                self.days = days.transpose()?;
            }
            Field::VaseStems => {
                let stems = (!text.is_empty()).then(|| typed::count(text));
                self.stems = stems.transpose()?;
            }
            Field::Colour => return self.take_colours(place, text, ground),
            Field::SecondColour | Field::Pattern => return self.take_lie(field, place, text),
            Field::Supplier | Field::Price | Field::Pack | Field::Available | Field::Closes => {
                return self.take_offer(field, place, text);
            }
            field => return typed::take(&mut self.rest, field, text, &terms, ground.units),
        }
        Ok(())
    }

    /// A colour in the place of the one there, or behind the last. Several, as a cell has them, take
    /// the places behind it too.
    fn take_colours(&mut self, place: usize, text: &str, ground: Ground<'_>) -> Result<(), String> {
        let colours = &mut self.rest.colours;
        if text.is_empty() {
            if place < colours.len() {
                colours.remove(place);
            }
            return Ok(());
        }
        let place = in_order(place, colours.len(), "colour")?;
        let mut found = typed::colours(text, &ground.terms())?;
        // A colour alone keeps what was said of how the one before it lies.
        let (said, alone) = (text.contains('('), found.len() == 1);
        if let (Some(new), false, true) = (found.first_mut(), said, alone) {
            match colours.get(place) {
                Some(old) => (new.part, new.pattern) = (old.part, old.pattern),
                None if place > 0 => new.part = Part::Second,
                None => {}
            }
        }
        let after = colours.len().saturating_sub(place + 1);
        let behind = if alone { after } else { 0 };
        if place + found.len() + behind > MOST_COLOURS.max(colours.len()) {
            return Err(format!(
                "found {text:?}, expected at most {MOST_COLOURS} colours of one variety",
                text = brief(text)
            ));
        }
        let to = if alone {
            (place + 1).min(colours.len())
        } else {
            colours.len()
        };
        colours.splice(place..to, found);
        Ok(())
    }

    /// Which part a colour is of, or how it lies there.
    fn take_lie(&mut self, field: Field, place: usize, text: &str) -> Result<(), String> {
        let Some(note) = self.rest.colours.get_mut(place) else {
            return match text {
                "" => Ok(()),
                text => Err(format!(
                    "found {text:?} and no colour, expected the colour first",
                    text = brief(text)
                )),
            };
        };
        match (field, text) {
            (Field::Pattern, "") => note.pattern = Pattern::SelfColoured,
            (Field::Pattern, text) => {
                note.pattern = typed::one_of(text, &Pattern::ALL, Pattern::word)?;
            }
            (_, "") if place == 0 => note.part = Part::Main,
            (_, "") => note.part = Part::Second,
            (_, text) => note.part = typed::one_of(text, &Part::ALL, Part::word)?,
        }
        Ok(())
    }

    fn take_offer(&mut self, field: Field, place: usize, text: &str) -> Result<(), String> {
        if text.is_empty() && place >= self.offers.len() {
            return Ok(());
        }
        let place = in_order(place, self.offers.len(), "supplier")?;
        let mut offer = self.offers.get(place).cloned().unwrap_or_default();
        offer.take(field, text)?;
        match self.offers.get_mut(place) {
            Some(old) => *old = offer,
            None => self.offers.push(offer),
        }
        self.offers.retain(|offer: &LooseOffer| !offer.is_empty());
        Ok(())
    }
}

/// The place, where it is no farther than the one behind the last.
fn in_order(place: usize, filled: usize, word: &str) -> Result<usize, String> {
    match place <= filled {
        true => Ok(place),
        false => Err(format!(
            "found {word}-{}, expected {word}-{} before it",
            place + 1,
            filled + 1
        )),
    }
}
