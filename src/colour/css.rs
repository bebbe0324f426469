//! The named colours of CSS Color Module Level 4: a fallback for words that the trade lacks.

use std::collections::HashMap;
use std::sync::LazyLock;

use super::data_rows;
use super::srgb::Srgb;

const DATA: &str = include_str!("../../assets/css_colours.csv");

/// The colour of a CSS name, written as one lower-case word: `rebeccapurple`.
pub(super) fn named(key: &str) -> Option<Srgb> {
    colours().get(key).copied()
}

/// All names, in no order.
pub(super) fn names() -> impl Iterator<Item = &'static str> {
    colours().keys().copied()
}

fn colours() -> &'static HashMap<&'static str, Srgb> {
    static COLOURS: LazyLock<HashMap<&'static str, Srgb>> = LazyLock::new(|| {
        data_rows(DATA)
            .filter_map(|row| row.split_once(','))
            .filter_map(|(name, hex)| Some((name, hex.parse().ok()?)))
            .collect()
    });
    &COLOURS
}

#[cfg(test)]
mod tests {
    use super::*;

    /// CSS Color Module Level 4 has 148 names; the values here are from memory of its table.
    #[test]
    fn all_148_names_are_read() {
        assert_eq!(names().count(), 148);
        for (name, hex) in [
            ("rebeccapurple", "#663399"),
            ("tomato", "#ff6347"),
            ("grey", "#808080"),
            ("gray", "#808080"),
        ] {
            assert_eq!(named(name).map(|c| c.to_string()).as_deref(), Some(hex));
        }
    }
}
