//! What colour words are counted under, and what cuts across.

use serde::Deserialize;

/// The facets of colour.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize)]
#[serde(rename_all = "lowercase")]
#[allow(missing_docs)] // The words say it.
pub enum Family {
    Whites,
    Yellows,
    Peaches,
    Oranges,
    Bronzes,
    Pinks,
    Reds,
    Purples,
    Darks,
    Greens,
}

/// What cuts across the families. A word may be in several, or in none.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize)]
#[serde(rename_all = "lowercase")]
#[allow(missing_docs)] // The words say it.
pub enum Group {
    Warm,
    Cool,
    Pale,
    Dark,
}

impl Family {
    /// Every family, in the order in which facets list them.
    pub const ALL: [Family; 10] = [
        Family::Whites,
        Family::Yellows,
        Family::Peaches,
        Family::Oranges,
        Family::Bronzes,
        Family::Pinks,
        Family::Reds,
        Family::Purples,
        Family::Darks,
        Family::Greens,
    ];

    /// The word in data files and on screen.
    pub fn word(self) -> &'static str {
        match self {
            Family::Whites => "whites",
            Family::Yellows => "yellows",
            Family::Peaches => "peaches",
            Family::Oranges => "oranges",
            Family::Bronzes => "bronzes",
            Family::Pinks => "pinks",
            Family::Reds => "reds",
            Family::Purples => "purples",
            Family::Darks => "darks",
            Family::Greens => "greens",
        }
    }
}

impl Group {
    /// Every group.
    pub const ALL: [Group; 4] = [Group::Warm, Group::Cool, Group::Pale, Group::Dark];

    /// The word in data files and on screen.
    pub fn word(self) -> &'static str {
        match self {
            Group::Warm => "warm",
            Group::Cool => "cool",
            Group::Pale => "pale",
            Group::Dark => "dark",
        }
    }
}
