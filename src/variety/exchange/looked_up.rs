//! How words of tables are looked up.

use crate::variety::text::folded;

/// How words are looked up: folded, runs of spaces one.
pub(super) fn looked_up(word: &str) -> String {
    folded(word)
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
}

/// A heading as it is compared: folded, and whatever is no letter or digit a space.
pub(super) fn bare(heading: &str) -> String {
    let spaced: String = looked_up(heading)
        .chars()
        .map(|c| {
            if c.is_alphanumeric() || c == '\'' {
                c
            } else {
                ' '
            }
        })
        .collect();
    spaced.split_whitespace().collect::<Vec<_>>().join(" ")
}

/// A term as it is compared: folded, and nothing but letters and digits, so that `water-lily` is `Waterlily`.
pub(super) fn tight(word: &str) -> String {
    let kept = |c: &char| c.is_alphanumeric();
    folded(word).chars().filter(kept).collect()
}
