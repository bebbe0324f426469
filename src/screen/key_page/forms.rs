//! The column of forms: the likeliest first, each marked by whether the rules still allow it.

use std::cmp::Reverse;

use super::KeyPage;
use super::answered::why_words;
use crate::chart::Signs;
use crate::form::Likely;
use crate::screen::kit::table::{Column, Columns};
use crate::screen::kit::text::Row;
use crate::screen::theme::Role;

/// The mark, and the gap behind it.
const MARK: usize = 2;
/// A share in at most four columns.
const SHARE: usize = 4;
/// The bar of a share of 1, in columns.
const BAR: usize = 8;
/// The width of the longest names; a longer one is cut with a mark.
const NAME: usize = 26;

/// The mark that says what the rules allow.
pub(super) fn mark(likely: &Likely) -> (char, Role) {
    match likely.allowed {
        true => ('+', Role::Fits),
        false => ('-', Role::Quiet),
    }
}

/// The forms from the likeliest down; those that nothing parts yet in the order of the rule set.
pub(super) fn ranked(page: &KeyPage) -> Vec<Likely> {
    let mut ranked = page.reading.likely.clone();
    // Shares that differ by less than a millionth differ by rounding alone.
    let rank = |likely: &Likely| (Reverse((likely.share * 1e6).round() as u64), likely.form);
    ranked.sort_by_key(rank);
    ranked
}

/// What the marks mean.
pub(super) fn legend() -> Row {
    Row::of("+", Role::Fits)
        .with(" fits ", Role::Quiet)
        .with("- by a mistake", Role::Quiet)
}

/// The forms with their marks and shares; in a wide window with a bar, and what rules each out.
pub(super) fn list(page: &KeyPage, columns: usize, wide: bool, signs: Signs) -> Vec<Row> {
    let beside = match wide {
        true => [
            Column::words("", BAR + 2, BAR + 2),
            Column::words("", 1, columns),
        ],
        false => [Column::LEFT_OUT; 2],
    };
    let [bar, why] = beside;
    let named = match wide {
        true => Column::words("form", NAME + 1, NAME + 1),
        false => Column::words("form", 1, NAME + 1),
    };
    let share = Column::numbers("share", SHARE);
    let columns = Columns::of(vec![named, share, bar, why], MARK, columns);
    let ranked = ranked(page);
    let rows = ranked.iter();
    let rows = rows.map(|likely| row(page, likely, &columns, signs));
    rows.collect()
}

fn row(page: &KeyPage, likely: &Likely, columns: &Columns, signs: Signs) -> Row {
    let (sign, role) = mark(likely);
    let quiet = match likely.allowed {
        true => Role::Plain,
        false => Role::Quiet,
    };
    columns.row(
        Row::of(sign.to_string(), role),
        [
            Row::of(&page.keyer().set.forms[likely.form].name, quiet),
            Row::of(share(likely.share), quiet),
            Row::of(format!(" {}", signs.bar(likely.share, BAR)), role),
            Row::of(why_words(page, likely), Role::Quiet),
        ],
    )
}

/// A share in four columns: 100 % and 0 % only where they are exact.
fn share(share: f64) -> String {
    match share {
        s if s > 0.0 && s < 0.01 => "<1%".to_string(),
        s if s < 1.0 && s > 0.99 => ">99%".to_string(),
        s => format!("{:.0}%", s * 100.0),
    }
}

#[cfg(test)]
mod tests {
    use super::share;

    #[test]
    fn a_share_never_claims_to_be_certain_and_fits() {
        for (value, told) in [
            (0.0, "0%"),
            (0.004, "<1%"),
            (0.42, "42%"),
            (0.99, "99%"),
            (0.997, ">99%"),
            (1.0, "100%"),
        ] {
            assert_eq!(share(value), told);
        }
    }
}
