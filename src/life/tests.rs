use super::*;
use crate::account::lines;
use crate::form::RuleSet;
use crate::problem::read_ron;

/// A row's journal and a stock book of the same plants; invented.
const ROW: &str = r#"[
  (id: 1, date: "2025-08-01", of: "Haaf Bell", what: observed((cut: 12))),
  (id: 2, date: "2025-08-09", of: "Haaf Bell", what: observed((cut: 7, note: "long stems"))),
  (id: 3, date: "2025-08-09", of: "Noust Haar", what: observed((cut: 30))),
  (id: 4, date: "2026-07-20", of: "Haaf Bell", what: observed((cut: 5))),
  (id: 5, date: "2026-07-20", of: "Haaf Bell", corrects: 4, what: observed((cut: 6))),
  (id: 6, date: "2026-07-22", of: "Haaf Bell", what: observed((diameters: ["97mm"]))),
]"#;
const STOCK: &str = r#"[
  (id: 1, date: "2025-10-20", of: "Haaf Bell", year: 2025, what: happened((lifted: 3, divided: 14))),
  (id: 2, date: "2026-01-11", of: "Haaf Bell", year: 2025, what: happened((lost: 2, why: "rotten"))),
  (id: 3, date: "2026-04-18", of: "Haaf Bell", year: 2025, what: happened((sold: 5, price: "4.00", to: "market"))),
  (id: 4, date: "2026-04-19", of: "Haaf Bell", year: 2025, what: happened((given: 1))),
  (id: 5, date: "2026-05-20", of: "Haaf Bell", year: 2025, what: happened((planted: 4))),
  (id: 6, date: "2026-05-21", of: "Haaf Bell", year: 2025, what: happened((planted: 2))),
  (id: 7, date: "2026-10-20", of: "Haaf Bell", year: 2026, what: happened((lifted: 5, divided: 21))),
]"#;

fn life(of: &str, ordered: Option<Ordered>) -> Life {
    let trial = Trial::of(Vec::new(), read_ron("trial.journal", ROW).expect("entries")).0;
    let entries = read_ron("stock.journal", STOCK).expect("entries");
    let stock = Stock::read(entries, &trial).0;
    let sources = LifeSources {
        trial: &trial,
        stock: &stock,
        traits: &RuleSet::embedded()[0].traits,
    };
    sources.life(&of.parse().expect("a plant"), ordered)
}

fn told(life: &Life) -> String {
    let lines = lines(&life.account(), usize::MAX).into_iter();
    lines
        .map(|line| line.trim_end().to_string() + "\n")
        .collect()
}

/// Added up by hand from the entries above: what is corrected counts once, tubers count for the year in which
/// they were lifted, plants and stems for the year in which they stood.
#[test]
fn every_year_has_what_was_noted_of_it() {
    let ordered = Ordered {
        year: 2027,
        on: Date::constant(2026, 11, 20),
        of: OfVariety {
            packs: 2,
            tubers: Some(6),
            plants: 9,
        },
    };
    insta::assert_snapshot!(told(&life("Haaf Bell", Some(ordered))), @r#"
    Year by year:
      year  bought  planted  cut  clumps  divided  lost  given  sold    for  here
      2025                    19       3       14     2      1     5  20.00     0
      2026                6    6       5       21                              21
      2027       6        9
      For 2027 the order settled on 2026-11-20 buys 6 tubers and plants 9.

    Day by day:
      day         what
      2025-08-01  12 stems cut
      2025-08-09  7 stems cut; "long stems"
      2025-10-20  3 clumps lifted; 14 with an eye, divided
      2026-01-11  2 lost (rotten)
      2026-04-18  5 sold at 4.00 each to market
      2026-04-19  1 given
      2026-05-20  4 planted
      2026-05-21  2 planted
      2026-07-20  6 stems cut
      2026-07-22  97 mm across
      2026-10-20  5 clumps lifted; 21 with an eye, divided
    "#);
}

#[test]
fn of_a_plant_that_nobody_noted_nothing_is_told() {
    assert_eq!(
        told(&life("Foam Bare", None)),
        "Nothing was bought, cut, lifted or sold of it that is on record.\n"
    );
}

/// What an order buys is told in tubers where the list tells how many are in a pack, else in packs.
#[test]
fn packs_are_told_as_tubers_where_that_is_known() {
    let with = |tubers| Ordered {
        year: 2027,
        on: Date::constant(2026, 11, 20),
        of: OfVariety {
            packs: 2,
            tubers,
            plants: 9,
        },
    };
    for (tubers, expected) in [
        (Some(6), "buys 6 tubers and plants 9."),
        (None, "buys 2 packs and plants 9."),
    ] {
        let told = told(&life("Foam Bare", Some(with(tubers))));
        assert!(told.contains(expected), "{told}");
    }
}
