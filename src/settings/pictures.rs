//! Of what the drawings on the screen are made.

use std::fmt;
use std::str::FromStr;

use serde::{Deserialize, Serialize};

use crate::measure::brief;

/// Of what a drawing is made at the most; where the terminal has no such thing it is coarser.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, Serialize, Deserialize)]
#[serde(rename_all = "kebab-case")]
pub enum Pictures {
    /// Pixels where the terminal shows them, else cells.
    #[default]
    Pixels,
    /// The finest cells that the terminal has.
    Cells,
    /// Cells of two halves, which every font has.
    Halves,
}

impl Pictures {
    /// All of them, the finest first.
    pub(super) const ALL: [Pictures; 3] = [Pictures::Pixels, Pictures::Cells, Pictures::Halves];

    /// Whether it is what holds where nothing is set.
    pub(super) fn is_usual(&self) -> bool {
        *self == Pictures::default()
    }

    pub(super) fn word(self) -> &'static str {
        match self {
            Pictures::Pixels => "pixels",
            Pictures::Cells => "cells",
            Pictures::Halves => "halves",
        }
    }
}

impl fmt::Display for Pictures {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(self.word())
    }
}

impl FromStr for Pictures {
    type Err = String;

    /// # Errors
    /// One sentence: what was found and what was expected.
    fn from_str(text: &str) -> Result<Pictures, String> {
        let found = Pictures::ALL.into_iter().find(|one| one.word() == text);
        found.ok_or_else(|| {
            let words = Pictures::ALL.map(Pictures::word).join(", ");
            format!("found {:?}, expected one of {words}", brief(text))
        })
    }
}
