use super::*;
use crate::stock::sums::tests::{entry, stock, trial};

const LIST: &str = r#"[(name: "Haaf Bell"), (name: "Ebb Kist")]"#;

/// What is told of a new entry, those that refuse it with a sign before them.
fn told(stock: &Stock, of: &str, line: &str) -> Vec<String> {
    let list = Varieties::read("varieties.ron", LIST).expect("a list");
    let trial = trial();
    let grounds = StockContext {
        trial: &trial,
        list: &list,
        today: Date::constant(2026, 6, 1),
    };
    let entry = entry(stock.book().next_id(), of, line);
    let sign = |doubt: Doubt| match doubt.refuses {
        true => format!("! {}", doubt.told),
        false => doubt.told,
    };
    let doubts = stock.check(&entry, &grounds).into_iter();
    doubts.map(sign).collect()
}

#[test]
fn no_number_falls_below_nothing() {
    let stock = stock(&[
        ("Haaf Bell", "date=2025-10-20 lifted=4 divided=20"),
        ("Haaf Bell", "date=2026-02-01 lost=2"),
        ("Haaf Bell", "date=2026-04-01 sold=15"),
    ]);
    for (line, expected) in [
        ("date=2026-04-02 sold=3", &[][..]),
        (
            "date=2026-04-02 sold=4",
            &[
                "! sold: found 4 of Haaf Bell, lifted in 2025, expected at most the 3 tubers that are here",
            ],
        ),
        (
            "date=2026-04-02 sold=1 year=2026",
            &[
                "! sold: found 1 of Haaf Bell, lifted in 2026, expected at most the 0 tubers that are here",
            ],
        ),
        (
            "date=2026-04-02 lost=1 place=loft",
            &[
                "! lost: found 1 of Haaf Bell, lifted in 2025, expected at most the 0 tubers that are here at loft",
            ],
        ),
        // A day before what was sold: that then lacks.
        (
            "date=2026-03-01 given=4",
            &[
                "! with this, entry 3: sold: found 15 of Haaf Bell, lifted in 2025, expected at most the 14 tubers that are here",
            ],
        ),
        (
            "date=2026-06-01 withdraw=1",
            &[
                "! with this, entry 2: lost: found 2 of Haaf Bell, lifted in 2025, expected at most the 0 tubers that are here",
                "! with this, entry 3: sold: found 15 of Haaf Bell, lifted in 2025, expected at most the 0 tubers that are here",
            ],
        ),
        ("date=2025-10-20 divided=17 lifted=4 corrects=1", &[]),
        (
            "date=2025-10-20 divided=16 lifted=4 corrects=1",
            &[
                "! with this, entry 3: sold: found 15 of Haaf Bell, lifted in 2025, expected at most the 14 tubers that are here",
            ],
        ),
    ] {
        assert_eq!(told(&stock, "Haaf Bell", line), expected, "{line}");
    }
}

#[test]
fn what_cannot_be_is_refused_and_what_is_strange_is_asked_after() {
    let stock = stock(&[
        (
            "Haaf Bell",
            "date=2025-10-20 lifted=2 divided=20 place=loft",
        ),
        ("Haaf Bell", "date=2025-10-20 divided=10 place=byre"),
        ("Haaf Bell", "date=2026-01-20 promised=8 to=Jessie"),
    ]);
    for (of, line, expected) in [
        (
            "Oar Kist",
            "divided=3",
            "! found the variety \"Oar Kist\", expected one of the list",
        ),
        (
            "26-009",
            "divided=3",
            "! found the seedling 26-009, expected one of the row",
        ),
        (
            "Haaf Bell",
            "divided=3 date=2026-06-02",
            "! date: found 2026-06-02, expected a day up to today, 2026-06-01",
        ),
        (
            "Haaf Bell",
            "divided=3 year=2023 date=2026-01-02",
            "! year: found 2023, expected 2025 or 2026",
        ),
        (
            "Haaf Bell",
            "withdraw=9",
            "! withdraw: found 9, expected the number of an earlier entry",
        ),
        (
            "Ebb Kist",
            "withdraw=1",
            "! found entry 1, which is of Haaf Bell, expected one of Ebb Kist: `trug stock Ebb Kist` lists them",
        ),
        (
            "Haaf Bell",
            "promised=23",
            "! promised: found 23 of Haaf Bell, lifted in 2025, expected at most the 22 tubers that are here and not promised",
        ),
        (
            "Haaf Bell",
            "sold=11 date=2026-02-01",
            "place: found none, expected byre (10 tubers) or loft (20 tubers): without one they are taken in that order",
        ),
        ("Haaf Bell", "sold=20 place=loft date=2026-02-01", ""),
        (
            "Haaf Bell",
            "lost=9 place=byre keep=14 date=2026-02-01",
            "keep: found 14, expected at most the 13 that are here and not promised",
        ),
        (
            "Haaf Bell",
            "sound=5 date=2026-02-01",
            "found 5 left, expected at least the 8 that are promised",
        ),
        (
            "Haaf Bell",
            "divided=27 lifted=0 date=2026-02-01",
            "divided: found 57 tubers of 2 clumps, expected up to 28 of most clumps",
        ),
        (
            "Haaf Bell",
            "date=2025-10-20 divided=10 place=byre",
            "found the same note as entry 2 of 2025-10-20, expected it once",
        ),
    ] {
        let told = told(&stock, of, line);
        match expected {
            "" => assert_eq!(told, Vec::<String>::new(), "{line}"),
            expected => assert!(told[0].starts_with(expected), "{line}: {told:?}"),
        }
    }
}
