use super::*;
use crate::paper::Paper;
use crate::problem::read_ron;
use crate::tag::says::tests::grounds_of;
use crate::tag::stock::Stock as Supply;

/// A list, a row and their journal, and a stock book beside them; all invented.
const LIST: &str = r#"[
  (name: "Haaf Bobbin", form: (id: "ball", known: keyed), bloom: "centre=closed outline=globe tip=rounded set=regular roll=forward rolled=80", colours: [(colour: "coral", part: main, pattern: self)], protected: false),
  (name: "Noust White", form: (id: "ball", known: keyed), colours: [(colour: "white", part: main, pattern: self)], protected: false),
  (name: "Ebb Blank", protected: false),
  (name: "Skerry Held", form: (id: "ball", known: keyed), protected: true),
  (name: "Foam Promised"),
  (name: "Foam Asked"),
]"#;
const ROW: &str = r#"[(number: "26-003"), (number: "26-004")]"#;
const BOOK: &str = r#"[(id: 1, date: "2026-10-02", of: "26-003", what: decided((fate: cull)))]"#;
const STOCK: &str = r#"[
  (id: 1, date: "2026-10-20", of: "Haaf Bobbin", year: 2026, what: happened((divided: 12, keep: 5, price: "4.50"))),
  (id: 2, date: "2026-10-20", of: "Noust White", year: 2026, what: happened((divided: 3))),
  (id: 3, date: "2026-10-21", of: "Ebb Blank", year: 2026, what: happened((divided: 2, price: "3"))),
  (id: 4, date: "2026-10-20", of: "Skerry Held", year: 2026, what: happened((divided: 9))),
  (id: 5, date: "2026-10-20", of: "Foam Promised", year: 2026, what: happened((divided: 4, promised: 3, to: "Jessie", keep: 2))),
  (id: 6, date: "2026-10-20", of: "26-003", year: 2026, what: happened((divided: 6))),
  (id: 7, date: "2026-10-20", of: "26-004", year: 2026, what: happened((divided: 2, sold: 2))),
  (id: 8, date: "2026-10-22", of: "Foam Asked", year: 2026, what: happened((divided: 1))),
  (id: 9, date: "2026-10-22", of: "Nobody Knows", year: 2026, what: happened((divided: 8))),
]"#;

fn with_sale<Answer>(
    order: SaleOrder,
    named: Option<&[&str]>,
    check: impl FnOnce(Sale, &Selling) -> Answer,
) -> Answer {
    grounds_of(LIST, ROW, BOOK, |grounds| {
        let entries = read_ron("stock.journal", STOCK).expect("entries");
        let (stock, _) = stock::Stock::read(entries, grounds.trial);
        let mut selling = Selling::default();
        selling.price.set(None, Some(Money::hundredths(200)));
        let grounds = ClaimSources {
            selling: &selling,
            ..*grounds
        };
        let named: Option<Vec<Subject>> = named.map(|named| {
            named
                .iter()
                .map(|one| one.parse().expect("a plant"))
                .collect()
        });
        check(grounds.on_sale(&stock, named.as_deref(), order), &selling)
    })
}

fn offered(sale: &Sale) -> Vec<(String, u64, Option<Money>)> {
    let offered = sale.offers.iter();
    let offered = offered.map(|one| (one.says.subject.to_string(), one.left, one.price));
    offered.collect()
}

#[test]
fn what_is_free_is_offered_from_white_to_dark_and_the_rest_is_not_and_says_why() {
    let price = |hundredths| Some(Money::hundredths(hundredths));
    with_sale(SaleOrder::Colour, None, |sale, _| {
        let expected = [
            ("Noust White".to_string(), 3, price(200)),
            ("Haaf Bobbin".to_string(), 7, price(450)),
            ("Ebb Blank".to_string(), 2, price(300)),
            ("Foam Asked".to_string(), 1, price(200)),
        ];
        assert_eq!(offered(&sale), expected);
        let withheld = sale.withheld.iter().map(ToString::to_string);
        let withheld: Vec<String> = withheld.collect();
        for (at, told) in [
            "26-003: it is culled",
            "Foam Promised: none is free to sell: 4 here, 3 promised and 2 kept back",
            "Nobody Knows: neither your list nor your row has it now",
            "Skerry Held: it is protected and no licence is recorded",
        ]
        .into_iter()
        .enumerate()
        {
            assert!(withheld[at].starts_with(told), "{withheld:?}");
        }
        // Of 26-004 all are sold: nobody asks.
        assert_eq!(withheld.len(), 4);
        let warned: Vec<String> = sale.warned().map(|(one, _)| one.to_string()).collect();
        assert_eq!(warned, ["Foam Asked"]);
    });
}

#[test]
fn a_list_by_name_and_of_some_has_these_alone() {
    with_sale(SaleOrder::Name, None, |sale, _| {
        let names: Vec<String> = offered(&sale).into_iter().map(|one| one.0).collect();
        assert_eq!(
            names,
            ["Ebb Blank", "Foam Asked", "Haaf Bobbin", "Noust White"]
        );
    });
    with_sale(
        SaleOrder::Name,
        Some(&["Haaf Bobbin", "24-001"]),
        |sale, _| {
            assert_eq!(offered(&sale).len(), 1);
            let told = sale.withheld[0].to_string();
            assert_eq!(told, "24-001: the stock book does not have it");
        },
    );
}

/// The page has each offer once with its price and number, families where it is by colour, and nothing of
/// what is withheld or promised.
#[test]
fn the_printed_list_has_every_offer_once_and_no_word_of_the_rest() {
    let paper = Paper::named("a4").expect("a paper");
    let practice = Supply::embedded().practice;
    for order in SaleOrder::ALL {
        with_sale(order, None, |sale, selling| {
            let pages = sale
                .pages("For sale", selling, &practice, &paper)
                .expect("pages");
            assert_eq!(pages.len(), 1);
            assert_eq!(pages[0].strays().count(), 0);
            let lines: Vec<String> = pages[0].lines().map(|line| line.text.to_string()).collect();
            let count = |told: &str| lines.iter().filter(|line| *line == told).count();
            for offer in &sale.offers {
                assert_eq!(count(&offer.says.trade_name()), 1, "{lines:?}");
            }
            assert_eq!((count("4.50"), count("7 left"), count("2.00")), (1, 1, 2));
            assert_eq!(
                count("Colour unknown"),
                usize::from(order == SaleOrder::Colour)
            );
            let told = lines.join(" ");
            for no in ["Skerry", "26-00", "Jessie", "promised", "kept back"] {
                assert!(!told.contains(no), "{no}: {told}");
            }
            assert!(told.contains("wear gloves"), "{told}");
        });
    }
}

/// A list that fills several pages begins each of them with the family, and says on each which it is.
#[test]
fn a_long_list_goes_on_over_pages() {
    with_sale(SaleOrder::Colour, None, |mut sale, selling| {
        let one = sale.offers[0].clone();
        sale.offers = vec![one; 30];
        let paper = Paper::named("letter").expect("a paper");
        let practice = Supply::embedded().practice;
        let pages = sale
            .pages("For sale", selling, &practice, &paper)
            .expect("pages");
        assert_eq!(pages.len(), 3);
        for (at, page) in pages.iter().enumerate() {
            assert_eq!(page.strays().count(), 0);
            let has = |told: &str| page.lines().any(|line| line.text.as_str() == told);
            assert!(has("Whites") && has(&format!("{} of 3", at + 1)));
        }
    });
}

#[test]
fn an_order_is_read_by_its_word() {
    assert_eq!(SaleOrder::read("name"), Ok(SaleOrder::Name));
    let found = SaleOrder::read("size");
    assert_eq!(
        found,
        Err("found \"size\", expected colour or name".to_string())
    );
}
