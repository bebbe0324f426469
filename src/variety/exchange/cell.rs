//! Single cells: what is written to what is meant, and back. An error is one clause, found and
//! expected.

use std::num::NonZeroU32;

use jiff::civil::Date;

use crate::measure::Money;
use crate::measure::bounds::MOST_COUNTED;
use crate::measure::brief;
use crate::measure::day::{self, Calendar};
use crate::variety::StemsAWeek;
use crate::variety::record::Offer;
use crate::variety::text::{Text, plain};

/// What a spreadsheet shows where a formula failed.
const FAILED: [&str; 8] = [
    "#N/A", "#REF!", "#VALUE!", "#NAME?", "#DIV/0!", "#NUM!", "#NULL!", "#SPILL!",
];
/// Marks that may stand at either end of an amount.
const CURRENCIES: [char; 4] = ['£', '$', '€', '¥'];

/// Refuses what is no value. A cell of several items may be longer than any one line of text.
pub(super) fn value(cell: &str) -> Result<(), String> {
    match FAILED.contains(&cell) {
        true => Err(format!(
            "found the spreadsheet's error {cell}, expected a value"
        )),
        false => Ok(()),
    }
}

/// One line of text; line breaks and control characters become spaces.
pub(in crate::variety) fn text(cell: &str) -> Result<Text, String> {
    value(cell)?;
    // As it is where it can be: a doubled space is the writer's own.
    Text::new(cell)
        .or_else(|_| Text::new(plain(cell).split_whitespace().collect::<Vec<_>>().join(" ")))
        .map_err(|error| error.to_string())
}

/// A name; quotation marks about it are not part of it.
pub(in crate::variety) fn name(cell: &str) -> Result<Text, String> {
    text(wrapped(cell).map_or(cell, str::trim))
}

/// A name so that [`name`] gives it back, even one that has quotation marks about it.
pub(in crate::variety) fn name_out(name: &str) -> String {
    match wrapped(name) {
        Some(_) => format!("'{name}'"),
        None => name.to_string(),
    }
}

/// What is within a pair of quotation marks about the whole.
fn wrapped(text: &str) -> Option<&str> {
    const PAIRS: [(char, char); 4] = [('\'', '\''), ('‘', '’'), ('"', '"'), ('“', '”')];
    let mut inside = PAIRS
        .iter()
        .filter_map(|(open, close)| text.strip_prefix(*open)?.strip_suffix(*close));
    inside.find(|inside| !inside.trim().is_empty())
}

/// A decimal comma as a point. `1,200` stays: it may be a thousand and two hundred.
pub(super) fn with_point(number: &str) -> String {
    let decimal = number.split_once(',').filter(|(whole, rest)| {
        let digits = rest.chars().take_while(char::is_ascii_digit).count();
        let whole = whole.trim_start_matches(CURRENCIES).trim_start();
        let plain = !whole.is_empty() && whole.bytes().all(|b| b.is_ascii_digit());
        plain && (digits == 1 || digits == 2) && !rest.contains([',', '.'])
    });
    decimal.map_or_else(
        || number.to_string(),
        |(whole, rest)| format!("{whole}.{rest}"),
    )
}

/// The price of a pack; a currency mark at either end is dropped, for the currency is the grower's.
pub(in crate::variety) fn money(cell: &str) -> Result<Money, String> {
    let bare = with_point(cell.trim_matches(CURRENCIES).trim());
    let money = bare.parse::<Money>();
    let money = money.map_err(|_| {
        format!(
            "found {cell:?}, expected an amount such as 4 or 4.50",
            cell = brief(cell)
        )
    })?;
    money.as_price()
}

/// A whole number.
pub(in crate::variety) fn whole(cell: &str) -> Result<u32, String> {
    let read = cell
        .bytes()
        .all(|b| b.is_ascii_digit())
        .then(|| cell.parse().ok());
    let number = read.flatten().filter(|number| *number <= MOST_COUNTED);
    number.ok_or_else(|| {
        format!(
            "found {cell:?}, expected a whole number such as 5, at most {MOST_COUNTED}",
            cell = brief(cell)
        )
    })
}

/// A whole number over 0.
pub(in crate::variety) fn count(cell: &str) -> Result<NonZeroU32, String> {
    NonZeroU32::new(whole(cell)?).ok_or_else(|| {
        format!(
            "found {cell:?}, expected a number over 0",
            cell = brief(cell)
        )
    })
}

/// Stems of one plant in a week.
pub(super) fn stems_a_week(cell: &str) -> Result<StemsAWeek, String> {
    let point = with_point(cell);
    let plain = point.bytes().all(|b| b.is_ascii_digit() || b == b'.');
    let number = plain.then(|| point.parse::<f64>().ok()).flatten();
    let number = number.ok_or_else(|| {
        format!(
            "found {cell:?}, expected a number of stems a week such as 1.5",
            cell = brief(cell)
        )
    })?;
    StemsAWeek::try_from(number)
}

/// `yes` or `no`.
pub(in crate::variety) fn yes_no(cell: &str) -> Result<bool, String> {
    match cell.to_lowercase().as_str() {
        "yes" | "y" | "true" | "x" => Ok(true),
        "no" | "n" | "false" => Ok(false),
        _ => Err(format!(
            "found {cell:?}, expected yes or no",
            cell = brief(cell)
        )),
    }
}

/// A whole day that is read in one way alone.
pub(in crate::variety) fn date(cell: &str) -> Result<Date, String> {
    day::typed(cell, &Calendar::CELLS).map(|typed| typed.day)
}

/// One of a set of words.
pub(in crate::variety) fn one_of<T: Copy>(
    cell: &str,
    all: &[T],
    word: impl Fn(T) -> &'static str,
) -> Result<T, String> {
    let lower = cell.to_lowercase();
    let found = all.iter().find(|one| word(**one) == lower);
    let words = || {
        all.iter()
            .map(|one| word(*one))
            .collect::<Vec<_>>()
            .join(", ")
    };
    found.copied().ok_or_else(|| {
        format!(
            "found {cell:?}, expected one of {}",
            words(),
            cell = brief(cell)
        )
    })
}

/// An offer: `Oar Bulbs: 3 for 4.50, 20 available, closes 2027-02-28`; the last two may be left out.
pub(super) fn offer(item: &str) -> Result<Offer, String> {
    let read = || {
        let (supplier, rest) = item.rsplit_once(": ")?;
        let mut parts = rest.split(", ");
        let (pack, price) = parts.next()?.split_once(" for ")?;
        let (mut available, mut closes) = (None, None);
        for part in parts {
            if let Some(packs) = part.strip_suffix(" available") {
                available = Some(whole(packs).ok()?);
            } else {
                closes = Some(date(part.strip_prefix("closes ")?).ok()?);
            }
        }
        Some(Offer {
            supplier: text(supplier.trim()).ok()?,
            price: money(price).ok()?,
            pack: count(pack.trim()).ok()?,
            available,
            closes,
        })
    };
    read().ok_or_else(|| {
        format!("found {item:?}, expected an offer such as Oar Bulbs: 3 for 4.50, 20 available, closes 2027-02-28", item = brief(item))
    })
}

/// An offer as [`offer`] reads it.
pub(super) fn offer_out(offer: &Offer) -> String {
    let mut out = format!("{}: {} for {}", offer.supplier, offer.pack, offer.price);
    if let Some(available) = offer.available {
        out.push_str(&format!(", {available} available"));
    }
    if let Some(closes) = offer.closes {
        out.push_str(&format!(", closes {closes}"));
    }
    out
}

/// The items of a cell, at its semicolons; `\;` is a semicolon and `\\` a backslash of an item.
pub(super) fn items(cell: &str) -> Vec<String> {
    let mut items = vec![String::new()];
    let mut escaped = false;
    for c in cell.chars() {
        match c {
            '\\' if !escaped => {
                escaped = true;
                continue;
            }
            ';' if !escaped => items.push(String::new()),
            c => {
                if let Some(item) = items.last_mut() {
                    item.push(c);
                }
            }
        }
        escaped = false;
    }
    let trimmed = items.iter().map(|item| item.trim().to_string());
    trimmed.filter(|item| !item.is_empty()).collect()
}

/// Items as [`items`] reads them.
pub(super) fn joined(all: impl Iterator<Item = String>) -> String {
    let escaped = all.map(|item| item.replace('\\', "\\\\").replace(';', "\\;"));
    escaped.collect::<Vec<_>>().join("; ")
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn amounts_lose_their_mark_and_keep_their_value() {
        for (cell, hundredths) in [("£4.50", 450), ("4,50 €", 450), ("$4", 400)] {
            assert_eq!(money(cell).map(|one| one.in_hundredths()), Ok(hundredths));
        }
        assert!(money("1,200").is_err() && money("free").is_err());
    }

    #[test]
    fn items_keep_their_semicolons() {
        let all = ["a;b", "c\\", "d"].map(String::from);
        assert_eq!(items(&joined(all.iter().cloned())), all);
    }
}
