//! Cells that a spreadsheet would take for a formula.
//!
//! Out: a cell that begins so, or so after apostrophes, gets one apostrophe more in front. In: one
//! apostrophe before such a beginning is taken away. So every text comes back as it was.

use std::borrow::Cow;

/// What begins a formula, or is taken off to leave one: as OWASP's page on CSV injection lists
/// them, from memory, with the wide forms of the four signs.
const BEGINS: [char; 11] = [
    '=', '+', '-', '@', '\t', '\r', '\n', '\u{ff1d}', '\u{ff0b}', '\u{ff0d}', '\u{ff20}',
];

/// The cell as it may stand in a file.
pub fn neutral(cell: &str) -> Cow<'_, str> {
    if is_formula(cell) {
        Cow::Owned(format!("'{cell}"))
    } else {
        Cow::Borrowed(cell)
    }
}

/// The cell as it was before [`neutral`].
pub fn plain(cell: &str) -> &str {
    cell.strip_prefix('\'')
        .filter(|rest| is_formula(rest))
        .unwrap_or(cell)
}

fn is_formula(cell: &str) -> bool {
    cell.trim_start_matches('\'').starts_with(BEGINS)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn a_formula_is_made_a_text() {
        for cell in ["=1+1", "+1", "-1", "@SUM(A1)", "\tx", "\rx", "＝1"] {
            assert_eq!(neutral(cell), format!("'{cell}"));
        }
        assert_eq!(neutral("it's = 1"), "it's = 1");
    }

    proptest! {
        #[test]
        fn every_text_comes_back(cell in "['=+a@ -]{0,5}") {
            let out = neutral(&cell);
            prop_assert!(!out.starts_with(BEGINS));
            prop_assert_eq!(plain(&out), cell.as_str());
        }
    }
}
