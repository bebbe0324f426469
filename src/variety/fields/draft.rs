//! A variety as far as it is filled in.

use std::num::NonZeroU32;

use super::offer::LooseOffer;
use super::table::{self, Row, TABLE};
use super::takes::{takes, takes_with};
use super::{Ground, NamesKnown};
use crate::colour::Vocabulary;
use crate::form::RuleSet;
use crate::measure::SizeUnits;
use crate::record::{Field as Shown, Figure, Key};
use crate::variety::evidence::{Days, VaseLife};
use crate::variety::exchange::OwnWords;
use crate::variety::exchange::{Field, typed};
use crate::variety::list::Varieties;
use crate::variety::record::{ColourNote, Variety};
use crate::variety::text::Text;
use crate::variety::{FormNote, list::NameTaken};

/// A variety that is filled in: a new one has no name yet, an offer may still lack its price.
#[derive(Debug, Clone, PartialEq)]
pub struct Draft {
    pub(super) name: Option<Text>,
    pub(super) offers: Vec<LooseOffer>,
    pub(super) days: Option<Days>,
    pub(super) stems: Option<NonZeroU32>,
    /// All else; what is above is left out of it.
    pub(super) rest: Variety,
}

impl Draft {
    /// The field of its name.
    pub const NAME: Key = Key::of("name");

    /// The words of all its fields, those that others hang on first.
    pub fn words() -> Vec<&'static str> {
        TABLE.iter().map(|row| row.word).collect()
    }

    /// Every field, the first of several alike, for help: by the terms of the program, and what stands
    /// in them is not said.
    pub fn described() -> Vec<Shown> {
        let (sets, words) = (RuleSet::embedded(), Vocabulary::embedded());
        let (own, list, known) = (
            OwnWords::default(),
            Varieties::default(),
            NamesKnown::default(),
        );
        let ground = |rules| Ground {
            rules,
            words: &words,
            own: &own,
            list: &list,
            row: None,
            known: &known,
            units: SizeUnits::Mm,
            stems_a_plant: 1.0,
        };
        let Some(ground) = sets.first().map(ground) else {
            return Vec::new();
        };
        let described = |row: &Row| Shown {
            key: Key::of(row.word),
            group: row.group,
            name: row.name,
            text: String::new(),
            means: row.means,
            takes: match row.field {
                // The program's own; the grower may go by others, in other units.
                Field::StemsAPlant => "A whole number.".to_string(),
                field => takes_with(field, (BARE, BARE), ground),
            },
            figure: row.figure,
        };
        TABLE.iter().map(described).collect()
    }

    /// A variety of which nothing is known yet.
    pub fn new() -> Draft {
        // OK because it is a text; the name is told by its own field.
        let nameless = Text::new("?").map(Variety::named);
        let rest = nameless.unwrap_or_else(|error| unreachable!("{error}"));
        Draft {
            name: None,
            offers: Vec::new(),
            days: None,
            stems: None,
            rest,
        }
    }

    /// A record to be changed.
    pub fn of(record: &Variety) -> Draft {
        let vase = record.vase;
        Draft {
            name: Some(record.name.clone()),
            offers: record.offers.iter().map(LooseOffer::of).collect(),
            days: vase.map(|vase| vase.days),
            stems: vase.and_then(|vase| vase.stems),
            rest: Variety {
                name: Draft::new().rest.name,
                offers: Vec::new(),
                vase: None,
                ..record.clone()
            },
        }
    }

    /// A record as a new one: all of it but its name, what you have of it and its place on the
    /// shortlist.
    pub fn copy_of(record: &Variety) -> Draft {
        let mut copy = Draft::of(record);
        copy.name = None;
        copy.rest.on_hand = None;
        copy.rest.shortlist = None;
        copy
    }

    /// The record; `None` where something that belongs to it is missing.
    pub fn record(&self) -> Option<Variety> {
        let vase = match (self.days, self.stems) {
            (Some(days), stems) => Some(VaseLife { days, stems }),
            (None, None) => None,
            (None, Some(_)) => return None,
        };
        let offers = self.offers.iter().map(LooseOffer::whole);
        Some(Variety {
            name: self.name.clone()?,
            offers: offers.collect::<Option<_>>()?,
            vase,
            ..self.rest.clone()
        })
    }

    /// Its name so far.
    pub fn name(&self) -> Option<&Text> {
        self.name.as_ref()
    }

    pub(super) fn form(&mut self) -> &mut Option<FormNote> {
        &mut self.rest.form
    }

    /// The fields that a row of the table shows: of several alike those of each, and behind the last
    /// room for another.
    pub(super) fn of_row(&self, row: &'static Row, ground: Ground<'_>) -> Vec<Shown> {
        let show = |row: &Row, place: usize| {
            let key = Key::nth(row.word, place);
            let text = self.text(key, ground).unwrap_or_default();
            Shown {
                key,
                group: row.group,
                name: row.name,
                means: row.means,
                takes: takes(row.field, ground),
                figure: self.figure(row, &text),
                text,
            }
        };
        let parts = row.repeats();
        if parts.is_empty() {
            let seen = !row.is_of_several() && self.has_place_for(row.field);
            return seen.then(|| show(row, 0)).into_iter().collect();
        }
        let mut shown = Vec::new();
        for place in 0..=self.filled(row.field) {
            if row.field == Field::Colour && place >= MOST_COLOURS.max(self.rest.colours.len()) {
                continue;
            }
            shown.push(show(row, place));
            let begun = place < self.filled(row.field);
            let others = TABLE.iter().filter(|one| parts[1..].contains(&one.word));
            let others = others.filter(|one| begun && self.is_shown(one.field, place));
            shown.extend(others.map(|one| show(one, place)));
        }
        shown
    }

    /// What hangs on another field is shown when that is filled in.
    fn has_place_for(&self, field: Field) -> bool {
        match field {
            Field::FormKnown | Field::FormBy => self.rest.form.is_some(),
            Field::VaseStems => self.days.is_some() || self.stems.is_some(),
            _ => true,
        }
    }

    /// The first colour is the main one, and that is told only where it is not.
    fn is_shown(&self, field: Field, place: usize) -> bool {
        let main = |note: &ColourNote| note.part == crate::colour::Part::Main;
        field != Field::SecondColour || place > 0 || !self.rest.colours.first().is_some_and(main)
    }

    /// How many colours or offers there are.
    pub(super) fn filled(&self, field: Field) -> usize {
        match field {
            Field::Colour | Field::SecondColour | Field::Pattern => self.rest.colours.len(),
            _ => self.offers.len(),
        }
    }

    /// What stands in a field; `None` where there is none of that place.
    pub(super) fn text(&self, key: Key, ground: Ground<'_>) -> Option<String> {
        let row = table::find(key).ok()?;
        let colour = self.rest.colours.get(key.place);
        Some(match row.field {
            Field::Name => self.name.as_deref().map_or(String::new(), typed::name_out),
            Field::Form => {
                let form = self.rest.form.as_ref();
                form.map_or(String::new(), |form| form.name(ground.rules).to_string())
            }
            Field::Vase => self
                .days
                .map_or(String::new(), |days| days.get().to_string()),
            Field::VaseStems => self.stems.map_or(String::new(), |stems| stems.to_string()),
            Field::Colour => colour.map_or(String::new(), |one| one.colour.to_string()),
            Field::SecondColour => colour?.part.word().to_string(),
            Field::Pattern => colour?.pattern.word().to_string(),
            field if row.is_of_several() => {
                let offer = self.offers.get(key.place);
                offer.map_or(String::new(), |offer| offer.text(field))
            }
            field => typed::shown(&self.rest, field),
        })
    }

    /// Days without stems are stated by somebody, not tested.
    fn figure(&self, row: &Row, text: &str) -> Figure {
        match row.field {
            Field::Vase if self.days.is_some() && self.stems.is_none() => Figure::Stated,
            Field::StemsAPlant if !text.is_empty() => Figure::Stated,
            _ => row.figure,
        }
    }

    pub(super) fn wrong_name(&self, ground: Ground<'_>) -> Option<(Key, String)> {
        let told = match &self.name {
            None => "found no name, expected one".to_string(),
            Some(name) => {
                let taken = ground
                    .list
                    .find(name)
                    .filter(|row| Some(*row) != ground.row)?;
                let name = ground.list.list()[taken].name.to_string();
                NameTaken { name }.to_string()
            }
        };
        Some((Key::of("name"), told))
    }

    pub(super) fn wrong_offer(&self) -> Option<(Key, String)> {
        let lacks = |(place, offer): (usize, &LooseOffer)| {
            let (field, told) = offer.lacks()?;
            let row = TABLE.iter().find(|row| row.field == field)?;
            Some((Key::nth(row.word, place), told))
        };
        self.offers.iter().enumerate().find_map(lacks)
    }

    pub(super) fn wrong_vase(&self) -> Option<(Key, String)> {
        let told = "found a number of stems and no days, expected both";
        let missing = self.days.is_none() && self.stems.is_some();
        missing.then(|| (Key::of("vase-days"), told.to_string()))
    }
}

/// What help says of a bare number.
const BARE: &str = "a bare number is in your units";
/// Colours of one variety at most.
pub(super) const MOST_COLOURS: usize = 3;

impl Default for Draft {
    fn default() -> Draft {
        Draft::new()
    }
}
