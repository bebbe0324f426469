//! A variety as a person fills it in, field by field: on the screen's slip and by command.
//!
//! Texts are those of cells ([`exchange`](super::exchange)): what an export writes of a field is read
//! here, and the other way round.

mod draft;
mod known;
mod offer;
mod offered;
mod set;
mod table;
mod takes;

pub use draft::Draft;
pub use known::NamesKnown;

use super::exchange::{OwnWords, Terms};
use super::list::Varieties;
use crate::colour::Vocabulary;
use crate::form::RuleSet;
use crate::measure::SizeUnits;
use crate::record::{Field, Fields, Key};

/// What a variety is filled in against.
#[derive(Debug, Clone, Copy)]
pub struct Ground<'a> {
    /// The rules that forms, sizes and traits come from.
    pub rules: &'a RuleSet,
    /// The colour words.
    pub words: &'a Vocabulary,
    /// The grower's own words.
    pub own: &'a OwnWords,
    /// The list that it stands in, or is to stand in: no name comes twice.
    pub list: &'a Varieties,
    /// Its place there; `None` of a new one.
    pub row: Option<usize>,
    /// Names of raisers and suppliers.
    pub known: &'a NamesKnown,
    /// The units in which a bare number is taken.
    pub units: SizeUnits,
    /// Stems that a plant is planned to give in a season where nothing is stated.
    pub stems_a_plant: f64,
}

impl<'a> Ground<'a> {
    fn terms(&self) -> Terms<'a> {
        Terms {
            rules: self.rules,
            colours: self.words,
            own: self.own,
            supplier: None,
            pack: None,
        }
    }
}

impl Fields for Draft {
    type Ground<'a> = Ground<'a>;

    fn fields(&self, ground: Ground<'_>) -> Vec<Field> {
        let rows = table::TABLE.iter();
        rows.flat_map(|row| self.of_row(row, ground)).collect()
    }

    fn set(&mut self, key: Key, text: &str, ground: Ground<'_>) -> Result<(), String> {
        let text = text.trim();
        let (row, shown) = (table::find(key)?, self.text(key, ground));
        // As it is: also what the rules of today do not know.
        if shown.as_deref() == Some(text) {
            return Ok(());
        }
        self.take(row.field, key.place, text, ground)
    }

    fn offered(&self, key: Key, typed: &str, ground: Ground<'_>) -> Vec<String> {
        let row = table::find(key);
        row.map_or(Vec::new(), |row| offered::offered(row.field, typed, ground))
    }

    fn wrong(&self, ground: Ground<'_>) -> Option<(Key, String)> {
        self.wrong_name(ground)
            .or_else(|| self.wrong_offer())
            .or_else(|| self.wrong_vase())
    }
}

#[cfg(test)]
mod tests;
