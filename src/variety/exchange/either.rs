//! Headings that may mean either of two fields. Which is meant only the grower can say: a supplier's
//! stock read as one's own would cost nothing in an order, and a size out of a catalogue read as
//! measured would stand on a tag as seen.

use super::field::Field;
use super::looked_up::bare;

/// A heading that may mean either of two fields.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Either {
    headings: &'static [&'static str],
    /// Both fields, each with what it would mean.
    meanings: [(Field, &'static str); 2],
}

const EITHER: [Either; 2] = [
    Either {
        headings: &["stock", "in stock", "tubers", "quantity", "qty"],
        meanings: [
            (Field::OnHand, "tubers in your own store"),
            (Field::Available, "packs that a supplier has for sale"),
        ],
    },
    Either {
        headings: &["diameter", "bloom diameter", "flower diameter"],
        meanings: [
            (Field::Diameters, "blooms that you measured"),
            (Field::StatedDiameter, "what the list states"),
        ],
    },
];

impl Either {
    /// What such a heading may mean; `None` of one that means one thing or nothing.
    pub(super) fn of(heading: &str) -> Option<&'static Either> {
        let wanted = bare(heading);
        let asks = |one: &&Either| one.headings.contains(&wanted.as_str());
        EITHER.iter().find(asks)
    }

    /// Both fields, each with what it would mean.
    pub(super) fn meanings(&self) -> [(Field, &'static str); 2] {
        self.meanings
    }

    /// `the heading "Stock", which may be ...; say which by ...`.
    pub(super) fn question(&self, heading: &str) -> String {
        let [(first, one), (second, other)] = self.meanings;
        format!(
            "the heading {heading:?}, which may be {one} or {other}: say which by --map heading:{heading:?}={:?} or --map heading:{heading:?}={:?}",
            first.heading(),
            second.heading()
        )
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn no_heading_that_is_asked_about_is_read_as_a_field() {
        for heading in EITHER.iter().flat_map(|one| one.headings) {
            assert_eq!(Field::of_heading(heading), None, "{heading}");
            assert!(Either::of(&heading.to_uppercase()).is_some(), "{heading}");
        }
        assert_eq!(Either::of("on hand"), None);
    }
}
