//! What a sentence of a tag is about.

use serde::Deserialize;

/// What a claim is about.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum About {
    /// Whether it is still on trial.
    Status,
    /// Its form.
    Form,
    /// Its size.
    Size,
    /// Its colours.
    Colour,
    /// What it is best used for.
    Uses,
    /// Days in the vase.
    Vase,
    /// When it was seen in bloom.
    Season,
    /// The licence under which a protected variety is sold.
    Licence,
    /// What one costs.
    Price,
    /// Who grew it, and where.
    Grower,
    /// The line of the grower's own.
    Line,
    /// How to plant it.
    Planting,
    /// What to take care of whatever is done with it.
    Handling,
    /// What the uses that are named call for beside.
    Cautions,
}

impl About {
    /// Everything that a claim may be about, in the order of a table.
    pub const ALL: [About; 14] = [
        About::Status,
        About::Form,
        About::Size,
        About::Colour,
        About::Uses,
        About::Vase,
        About::Season,
        About::Licence,
        About::Price,
        About::Grower,
        About::Line,
        About::Planting,
        About::Handling,
        About::Cautions,
    ];

    /// The word before it in a list, and over it in a table.
    pub fn word(self) -> &'static str {
        match self {
            About::Status => "status",
            About::Form => "form",
            About::Size => "size",
            About::Colour => "colour",
            About::Uses => "uses",
            About::Vase => "vase",
            About::Season => "season",
            About::Licence => "licence",
            About::Price => "price",
            About::Grower => "grower",
            About::Line => "line",
            About::Planting => "planting",
            About::Handling => "handling",
            About::Cautions => "cautions",
        }
    }
}
