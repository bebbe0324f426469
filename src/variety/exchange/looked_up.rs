//! How words of tables are looked up.

use crate::variety::text::folded;

/// How words are looked up: folded, runs of spaces one.
pub(super) fn looked_up(word: &str) -> String {
    folded(word)
        .split_whitespace()
        .collect::<Vec<_>>()
        .join(" ")
}
