//! The order sheet on paper: a supplier begins a page, and the last column waits for the post. Days are
//! in words, since whoever reads them may have another order of their figures.

use anyhow::Result;
use jiff::civil::Date;

use super::bad;
use crate::account::Section;
use crate::account::text::capitalised;
use crate::command::printed::ruled;
use crate::folder::settings::Settings;
use crate::measure::day;
use crate::paper::{Margins, Page, Paper, Table};

/// Room at the edges of the page, mm.
const MARGINS: Margins = Margins::even(12.0);

/// The pages of every supplier of whom something is bought, as written on this day.
///
/// # Errors
/// Where a name has a letter that the fonts lack, or the paper is too small.
pub(super) fn pages(
    sheet: &[Section],
    paper: &Paper,
    settings: &Settings,
    written: Date,
) -> Result<Vec<Page>> {
    let mut pages = Vec::new();
    let tables = { sheet.iter() }.flat_map(|section| supplier(section, settings, written));
    for table in tables {
        pages.extend(table.pages(paper, MARGINS, (0.0, 0.0)).map_err(bad)?);
    }
    Ok(pages)
}

/// One supplier's order: its lines, and under them what they come to.
fn supplier(section: &Section, settings: &Settings, written: Date) -> Option<Table> {
    let mut table = ruled(section.tables().next()?, section.sums());
    table.title = format!("Order to {}", section.head);
    let by = Some(&section.note).filter(|note| !note.is_empty());
    let by = by.map(|note| format!("{}. ", capitalised(&lettered(note))));
    let told = section.sentences().map(|one| format!("{} ", one.text));
    let currency = settings.currency.as_ref();
    if let Some(word) = currency {
        for (_, figure) in &mut table.sums {
            *figure = format!("{word} {figure}");
        }
    }
    let currency = currency.map(|word| format!("Amounts are in {word}. "));
    let note: String = by.into_iter().chain(told).chain(currency).collect();
    table.note = note.trim_end().to_string();
    let grower = settings.grower.as_ref();
    table.blanks = vec![
        (
            "From".to_string(),
            grower.map_or_else(String::new, ToString::to_string),
        ),
        ("Written".to_string(), day::in_words(written)),
    ];
    Some(table)
}

/// A note that ends with a day, with the day as a letter has it: `order by 1 February 2027`.
fn lettered(note: &str) -> String {
    let ending = note.rsplit_once(' ');
    let day = ending.and_then(|(words, day)| Some((words, day.parse::<Date>().ok()?)));
    day.map_or(note.to_string(), |(words, day)| {
        format!("{words} {}", day::in_words(day))
    })
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::account::{Cell, Column, Pair, Part, Table as Lines};
    use jiff::civil::date;

    #[test]
    fn a_supplier_reads_days_and_amounts_in_words_and_what_is_the_growers_own_apart() {
        let lines = Lines::of(
            "lines",
            [
                Column::words("variety", "variety").wide(55.0),
                Column::figures("cost", "cost").wide(20.0),
            ],
        );
        let row: Vec<Cell> = lines.row([("variety", "Haaf Bell".into()), ("cost", 4_u64.into())]);
        let section = Section {
            head: "Oar Bulbs".to_string(),
            note: "order by 2027-01-31".to_string(),
            parts: vec![
                Part::Table(lines.with([row])),
                Part::Sums("suppliers", vec![Pair::new("total", "to pay", 4_u64)]),
            ],
        };
        let settings = Settings {
            currency: crate::variety::Text::new("kroner").ok(),
            ..Settings::default()
        };
        let table = supplier(&section, &settings, date(2026, 11, 30)).expect("a table");
        assert_eq!(
            table.note,
            "Order by 31 January 2027. Amounts are in kroner."
        );
        assert_eq!(table.sums, [("to pay".to_string(), "kroner 4".to_string())]);
        let written = ("Written".to_string(), "30 November 2026".to_string());
        assert_eq!(table.blanks[1], written);
    }
}
