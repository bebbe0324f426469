//! The column of forms: the likeliest first, each marked by whether the rules still allow it.

use std::cmp::Reverse;

use super::KeyPage;
use super::words::why_words;
use crate::form::Likely;
use crate::screen::text::{Row, cut, fit};
use crate::screen::theme::Role;

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

/// The forms in narrow columns: mark, name, share.
pub(super) fn narrow(page: &KeyPage, columns: usize) -> Vec<Row> {
    let name_columns = columns.saturating_sub(2 + SHARE);
    let row = |likely: &Likely| {
        let (sign, role) = mark(likely);
        let name = &page.keyer().set.forms[likely.form].name;
        let share = format!("{:>SHARE$}", share(likely.share));
        let name_role = if likely.allowed {
            Role::Plain
        } else {
            Role::Quiet
        };
        Row::of(format!("{sign} "), role)
            .with(fit(name, name_columns), name_role)
            .with(share, name_role)
    };
    ranked(page).iter().map(row).collect()
}

/// The forms in wide columns: with a bar, and what rules each out.
pub(super) fn wide(page: &KeyPage, columns: usize) -> Vec<Row> {
    let row = |likely: &Likely| {
        let (sign, role) = mark(likely);
        let name = &page.keyer().set.forms[likely.form].name;
        let bar = "#".repeat((likely.share * BAR as f64).round() as usize);
        let name_role = if likely.allowed {
            Role::Plain
        } else {
            Role::Quiet
        };
        let used = 2 + NAME + 1 + SHARE + 1 + BAR + 1;
        Row::of(format!("{sign} "), role)
            .with(format!("{} ", fit(name, NAME)), name_role)
            .with(format!("{:>SHARE$} ", share(likely.share)), name_role)
            .with(format!("{} ", fit(&bar, BAR)), role)
            .with(
                cut(&why_words(page, likely), columns.saturating_sub(used)),
                Role::Quiet,
            )
    };
    ranked(page).iter().map(row).collect()
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
