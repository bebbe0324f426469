//! What columns are worked out under.

use super::in_bloom::BloomSeason;
use super::uses::Uses;
use crate::colour::Vocabulary;
use crate::form::RuleSet;

/// What an index is worked out under.
#[derive(Debug, Clone, Copy)]
pub struct IndexContext<'a> {
    /// The rules that forms and size words come from.
    pub rules: &'a RuleSet,
    /// The uses.
    pub uses: &'a Uses,
    /// The colour words.
    pub words: &'a Vocabulary,
    /// Saleable stems that a plant gives in a season where a variety's own figure is unknown: the
    /// grower's own planning figure.
    pub stems_a_plant: f64,
    /// When varieties are expected in bloom; `None` where no season is planned.
    pub season: Option<&'a BloomSeason>,
}
