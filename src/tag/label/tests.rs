use proptest::prelude::*;

use super::*;
use crate::paper::{Page, Printable, Weight};
use crate::tag::says::tests::said;
use crate::tag::{About, Fact, Placing, Run, pages, table};

fn printer<'a>(stock: &'a Stock, sheet: &str) -> Printer<'a> {
    let sheet = stock.sheet(sheet).expect("a sheet");
    let kind = stock.kind(&sheet.kind).expect("a kind");
    Printer::new(stock, kind, sheet, false).expect("room")
}

/// A tag that says much, with this name.
fn named(name: &str) -> Says {
    let mut says = said("Haaf Bobbin");
    says.title = format!("\u{2018}{name}\u{2019}");
    says
}

/// Everything on the label lies within it, and no two texts, nor a text and a drawing, on each other.
fn check(label: &Label, (width, height): (f64, f64)) -> Result<(), TestCaseError> {
    let area = Rect::new(0.0, 0.0, width, height).inflate(1e-3, 1e-3);
    let bounds: Vec<(bool, Rect)> = label
        .items
        .iter()
        .filter_map(|item| Some((matches!(item, Item::Text(_)), item.bounds()?)))
        .collect();
    for (_, own) in &bounds {
        prop_assert!(area.contains_rect(*own), "{own:?} leaves {area:?}");
    }
    for (at, (text, one)) in bounds.iter().enumerate() {
        for (other_text, other) in &bounds[..at] {
            // The font's tallest accents and deepest tails reach beyond a line of ordinary letters.
            let slack = if *text && *other_text {
                0.3 * one.height().min(other.height())
            } else {
                0.0
            };
            let wide = one.x1.min(other.x1) - one.x0.max(other.x0);
            let high = one.y1.min(other.y1) - one.y0.max(other.y0);
            prop_assert!(
                wide < 1e-6 || high < slack + 1e-6,
                "{one:?} lies on {other:?}"
            );
        }
    }
    Ok(())
}

proptest! {
    /// Any name of up to 60 characters is fitted, with everything in its place, or refused with a
    /// reason; it is on the label whole.
    #[test]
    fn no_name_leaves_its_label(name in "[A-Za-z\u{c0}-\u{24f}\u{410}-\u{44f}\u{5d0} .'-]{1,60}", at in 0_usize..8) {
        let stock = Stock::embedded();
        let sheet = &stock.sheets[at];
        match printer(&stock, &sheet.id).label(&named(&name)) {
            Err(refused) => prop_assert!(refused.why.contains("expected"), "{refused}"),
            Ok(label) => {
                check(&label, sheet.label)?;
                let words: Vec<String> = label.items.iter().filter_map(|item| match item {
                    Item::Text(line) => Some(line.text.as_str().replace(' ', "")),
                    _ => None,
                }).collect();
                let title: String = words.concat();
                let wanted: String = Printable::new(&name).expect("set").as_str().replace(' ', "");
                prop_assert!(title.contains(&wanted), "{title} lacks {wanted}");
            }
        }
    }
}

#[test]
fn a_long_name_shrinks_or_wraps_and_one_that_cannot_is_refused() {
    let stock = Stock::embedded();
    let size = |name: &str| {
        let label = printer(&stock, "sale-a4").label(&named(name)).expect(name);
        let line = |item: &Item| match item {
            Item::Text(line) => (line.style.weight == Weight::Bold).then_some(line.style.points),
            _ => None,
        };
        label.items.iter().find_map(line).expect("a name")
    };
    assert_eq!(size("Ebb"), 22.0);
    let long = size("Skerry Lantern over the Long Harbour Wall");
    assert!((10.0..20.0).contains(&long), "{long}");
    let refused = |name: &str| {
        printer(&stock, "sale-a4")
            .label(&named(name))
            .expect_err(name)
            .why
    };
    let word = refused(&"W".repeat(60));
    assert!(word.contains("of 10 points"), "{word}");
    let right_to_left = refused("Noust \u{5e9}\u{5dc}");
    assert!(
        right_to_left.contains("from right to left"),
        "{right_to_left}"
    );
}

#[test]
fn what_may_not_be_sold_gets_a_stake_and_no_other_tag() {
    let stock = Stock::embedded();
    for (sheet, refused) in [("sale-a4", true), ("tuber-a4", true), ("stake-a4", false)] {
        for id in ["Skerry Held", "26-003"] {
            let label = printer(&stock, sheet).label(&said(id));
            assert_eq!(label.is_err(), refused, "{sheet} {id}");
        }
    }
}

#[test]
fn facts_without_end_are_refused_and_none_is_dropped() {
    let stock = Stock::embedded();
    let mut says = said("Haaf Bobbin");
    says.facts.retain(|fact| fact.about != About::Cautions);
    says.facts.push(Fact {
        about: About::Cautions,
        text: "Keep out of the wind. ".repeat(60).trim().to_string(),
    });
    let refused = printer(&stock, "sale-a4")
        .label(&says)
        .expect_err("too much")
        .why;
    assert!(
        refused.contains("at the least size of 6.5 points"),
        "{refused}"
    );
}

#[test]
fn sheets_take_their_labels_in_rows_and_the_offset_moves_all() {
    let stock = Stock::embedded();
    let (sheet, kind) = (
        stock.sheet("sale-a4").expect("a sheet"),
        stock.kind("sale").expect("a kind"),
    );
    let label = printer(&stock, "sale-a4")
        .label(&said("Haaf Bobbin"))
        .expect("a label");
    let print = |offset| {
        let label = label.clone();
        let placing = Placing { offset, from: 1 };
        pages(sheet, kind, &[Run { label, copies: 9 }], placing)
    };
    let first = |pages: &[Page]| {
        pages[0]
            .lines()
            .next()
            .map(|line| line.at())
            .expect("a line")
    };
    let still = print((0.0, 0.0)).expect("pages");
    assert_eq!(
        still
            .iter()
            .map(|page| page.lines().count())
            .collect::<Vec<_>>()
            .len(),
        2
    );
    assert!(still.iter().all(|page| page.strays().count() == 0));
    let moved = print((1.5, -2.0)).expect("pages");
    let (a, b) = (first(&still), first(&moved));
    assert!((b.x - a.x - 1.5).abs() < 1e-9 && (b.y - a.y + 2.0).abs() < 1e-9);
    let told = print((-11.0, 0.0)).expect_err("off the page").to_string();
    assert!(told.contains("leaves the left margin"), "{told}");
}

/// The words of a page with the place of each, the first label's first.
fn placed(page: &Page) -> Vec<(String, Point)> {
    let lines = page.lines();
    lines
        .map(|line| (line.text.as_str().to_string(), line.at()))
        .collect()
}

#[test]
fn copies_begin_at_the_label_that_is_left_and_are_alike_but_for_their_numbers() {
    let stock = Stock::embedded();
    for id in ["sale-a4", "tuber-a4", "stake-a4", "sale-roll"] {
        let sheet = stock.sheet(id).expect("a sheet");
        let kind = stock.kind(&sheet.kind).expect("a kind");
        let from = sheet.labels().min(5);
        let printed = |numbered: bool| {
            let printer = Printer::new(&stock, kind, sheet, false).expect("room");
            let printer = printer.with_numbers(numbered);
            let label = |name: &str| printer.label(&said(name)).expect(name);
            let runs = [("Haaf Bobbin", 11), ("Ebb Guess", 2)].map(|(name, copies)| Run {
                label: label(name),
                copies,
            });
            let placing = Placing {
                offset: (0.0, 0.0),
                from,
            };
            for run in &runs {
                check(&run.label, sheet.label).expect("in its place");
            }
            pages(sheet, kind, &runs, placing).expect("pages")
        };
        let pages = printed(true);
        assert_eq!(pages.len(), sheet.pages_of(13, from), "{id}");
        assert!(pages.iter().all(|page| page.strays().count() == 0), "{id}");
        let all = pages.iter().flat_map(placed);
        let numbers: Vec<(String, Point)> = all
            .filter(|(text, _)| text.contains(" of 11") || text.ends_with(" of 2"))
            .collect();
        let told: Vec<&str> = numbers.iter().map(|(text, _)| text.as_str()).collect();
        let wanted = (1..=11).map(|at| format!("{at} of 11"));
        let wanted: Vec<String> = wanted.chain(["1 of 2".into(), "2 of 2".into()]).collect();
        assert_eq!(told, wanted, "{id}");
        // Each in the label that follows the one before.
        for (at, (_, place)) in numbers.iter().enumerate() {
            let (x, y) = sheet.corner((from - 1 + at) % sheet.labels());
            let own = Rect::new(x, y, x + sheet.label.0, y + sheet.label.1);
            assert!(own.contains(*place), "{id}: {at}");
        }
        let plain = printed(false);
        let mut texts = plain.iter().flat_map(placed);
        assert!(texts.all(|(text, _)| !text.contains(" of 11")), "{id}");
    }
}

#[test]
fn a_numbered_table_has_a_row_for_each_copy() {
    let stock = Stock::embedded();
    let kind = stock.kind("tuber").expect("a kind");
    let rows = table([(&said("Haaf Bobbin"), 3)], kind, true);
    let numbers: Vec<&str> = rows.iter().map(|row| row[2].as_str()).collect();
    assert_eq!(numbers, ["number", "1 of 3", "2 of 3", "3 of 3"]);
}

#[test]
fn the_table_for_a_label_printer_has_a_column_for_each_fact_and_no_formula() {
    let stock = Stock::embedded();
    let kind = stock.kind("stake").expect("a kind");
    let mut says = said("Haaf Bobbin");
    says.title = "=1+1".to_string();
    let rows = table([(&says, 12)], kind, false);
    assert_eq!(rows[0].len(), kind.tells.len() + 4);
    assert_eq!(rows[1][1], "'=1+1");
    assert_eq!((rows[0][2].as_str(), rows[1][2].as_str()), ("copies", "12"));
    let form = kind
        .tells
        .iter()
        .position(|about| *about == About::Form)
        .expect("a form");
    assert_eq!(rows[1][form + 3], "ball");
    assert!(
        rows[1]
            .last()
            .is_some_and(|code| code.contains("\nform: ball\n"))
    );
}
