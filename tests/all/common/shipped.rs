//! What the program ships with, to work a list's columns out under.

use trug::colour::Vocabulary;
use trug::form::RuleSet;
use trug::variety::{IndexContext, Uses};

/// The first rule set, the uses and the colour words.
pub(crate) struct Shipped {
    rules: RuleSet,
    uses: Uses,
    words: Vocabulary,
}

impl Shipped {
    pub(crate) fn new() -> Shipped {
        Shipped {
            rules: RuleSet::embedded().remove(0),
            uses: Uses::embedded(),
            words: Vocabulary::embedded(),
        }
    }

    /// With so many stems of a plant in a season, where a variety's own figure is unknown.
    pub(crate) fn context(&self, stems_a_plant: f64) -> IndexContext<'_> {
        IndexContext {
            rules: &self.rules,
            uses: &self.uses,
            words: &self.words,
            stems_a_plant,
            season: None,
        }
    }
}
