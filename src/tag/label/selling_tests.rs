//! What a label says of whoever sells: the words that are printed.

use super::*;
use crate::measure::Money;
use crate::paper::Weight;
use crate::tag::says::tests::said_by;
use crate::tag::{PerPlant, Selling};
use crate::variety::Text;

/// The lines of the label of one plant on this sheet, and whether each is bold.
fn lines(selling: &Selling, sheet: &str, id: &str) -> Vec<(String, bool)> {
    let stock = Stock::embedded();
    let sheet = stock.sheet(sheet).expect("a sheet");
    let kind = stock.kind(&sheet.kind).expect("a kind");
    let printer = Printer::new(&stock, kind, sheet, false).expect("room");
    let label = printer.label(&said_by(selling, id)).expect("a label");
    let line = |item: &Item| match item {
        Item::Text(line) => {
            let bold = line.style.weight == Weight::Bold;
            Some((line.text.as_str().replace('\u{a0}', " "), bold))
        }
        _ => None,
    };
    label.items.iter().filter_map(line).collect()
}

fn seller() -> Selling {
    let text = |text: &str| Text::new(text).ok();
    Selling {
        grower: text("Skerry Lane"),
        place: text("Sea Wall Road 3"),
        line: text("Registration 17-204"),
        currency: text("kroner"),
        price: PerPlant::all(Some(Money::hundredths(450))),
    }
}

#[test]
fn a_label_for_a_buyer_begins_with_genus_and_name_and_one_for_the_row_with_the_name() {
    for (sheet, id, first) in [
        (
            "sale-a4",
            "Haaf Bobbin",
            ["Dahlia", "\u{2018}Haaf Bobbin\u{2019}"],
        ),
        ("sale-a4", "26-001", ["Dahlia seedling", "26-001"]),
        ("tuber-roll", "26-001", ["Dahlia seedling", "26-001"]),
        (
            "stake-a4",
            "26-001",
            ["26-001", "Between miniature ball and ball"],
        ),
    ] {
        let lines = lines(&Selling::default(), sheet, id);
        let words: Vec<&str> = lines.iter().map(|line| line.0.as_str()).collect();
        assert_eq!(words[..2], first, "{sheet}");
    }
}

#[test]
fn a_buyer_reads_who_sells_at_what_price_and_the_growers_own_line() {
    for sheet in [
        "sale-a4",
        "sale-letter",
        "sale-roll",
        "tuber-a4",
        "tuber-roll",
    ] {
        let lines = lines(&seller(), sheet, "26-001");
        let at = |text: &str, bold: bool| {
            let is = |line: &(String, bool)| line.0.starts_with(text) && line.1 == bold;
            let at = lines.iter().position(is);
            at.unwrap_or_else(|| panic!("{sheet}: {text} in {lines:?}"))
        };
        // The price stands over the name; the seller over the small print at the foot.
        assert_eq!(at("4.50 kroner", true) + 1, at("26-001", true), "{lines:?}");
        let seller = at("Skerry Lane, Sea Wall Road 3", true);
        assert_eq!(at("Registration 17-204. ", false), seller + 1);
        // How to plant may be spared on a small label; how to handle it never.
        let foot: Vec<&str> = lines[seller + 2..]
            .iter()
            .map(|line| line.0.as_str())
            .collect();
        let foot = [lines[seller + 1].0.as_str()]
            .into_iter()
            .chain(foot)
            .collect::<Vec<_>>();
        assert!(
            foot.join(" ")
                .contains("Dahlias can irritate skin: wear gloves."),
            "{foot:?}"
        );
    }
}

#[test]
fn nothing_that_is_not_set_is_on_a_label_and_nothing_of_it_on_a_stake() {
    let told = |selling: &Selling, sheet: &str| {
        let lines = lines(selling, sheet, "26-001");
        lines.into_iter().map(|line| line.0).collect::<String>()
    };
    let (all, none) = (seller(), Selling::default());
    let words = [
        "4.50",
        "kroner",
        "Skerry Lane",
        "Sea Wall Road",
        "Registration",
    ];
    for word in words {
        assert!(told(&all, "sale-a4").contains(word), "{word}");
        for (selling, sheet) in [(&none, "sale-a4"), (&none, "tuber-a4"), (&all, "stake-a4")] {
            assert!(!told(selling, sheet).contains(word), "{word} on {sheet}");
        }
    }
}
