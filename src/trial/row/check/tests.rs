use jiff::civil::Date;

use super::*;
use crate::form::RuleSet;
use crate::trial::AddError;
use crate::trial::row::tests::{entry, trial};

const LIST: &str = r#"[(name: "Haaf Light"), (name: "Ebb Ember")]"#;

#[test]
fn an_entry_is_checked_before_it_is_added() {
    let rules = &RuleSet::embedded()[0];
    let list = Varieties::read("varieties.ron", LIST).expect("a list");
    let words = Vocabulary::embedded();
    let grounds = EntryContext {
        rules,
        list: &list,
        words: &words,
        units: SizeUnits::Mm,
        today: Date::constant(2026, 9, 1),
        day_is_told: true,
        bloom_days: None,
    };
    let mut trial = trial(&[entry(1, "24-001", "diameter=98mm,104mm tubers=9")]);
    for (of, line, refuses, told) in [
        ("24-001", "cut=3", false, ""),
        ("Ebb Ember", "cut=3", false, ""),
        (
            "24-007",
            "cut=3",
            true,
            "found the seedling 24-007, expected one of the row",
        ),
        (
            "Ebb Amber",
            "cut=3",
            true,
            "found the variety \"Ebb Amber\", expected one of the list, or a seedling's number such as 26-014",
        ),
        (
            "24-001",
            "date=2024-03-19 cut=3",
            true,
            "date: found 2024-03-19, expected a day after 24-001 was sown (2024-03-20)",
        ),
        (
            "25-001",
            "date=2024-12-31 cut=3",
            true,
            "date: found 2024-12-31, expected a day after 25-001 was sown (2025)",
        ),
        (
            "24-001",
            "date=2026-09-02 cut=3",
            true,
            "date: found 2026-09-02, expected a day up to today, 2026-09-01",
        ),
        (
            "24-001",
            "diameter=980mm",
            true,
            "diameter: found 980mm, expected a length over 0 and up to 500mm",
        ),
        (
            "24-001",
            "diameter=9.8mm",
            false,
            "diameter: found 9.8mm, expected 20mm to 350mm of most blooms",
        ),
        (
            "24-001",
            "diameter=198mm",
            false,
            "diameter: found 198 mm, expected 59 to 171 mm beside 2 other blooms of 24-001",
        ),
        (
            "25-001",
            "diameter=3.4in,3.3in,9in,3.5in",
            false,
            "diameter: found 9 in (228.6 mm), expected 47 to 158 mm beside 3 other blooms of 25-001",
        ),
        (
            "24-001",
            "colour=blsh",
            true,
            "colour: found \"blsh\", expected a colour word such as blush, or #rrggbb, or lab(L a b)",
        ),
        (
            "24-001",
            "diameter=98mm,104mm tubers=9",
            false,
            "found the same note as entry 1 of 2026-08-01, expected it once",
        ),
        (
            "24-001",
            "diameter=98mm,104mm tubers=9 corrects=1",
            false,
            "",
        ),
        (
            "25-001",
            "withdraw=1",
            true,
            "found entry 1, which is of 24-001, expected one of 25-001: `trug row 25-001` lists them",
        ),
        (
            "24-001",
            "sound=10",
            true,
            "sound: found 10, expected at most the 9 tubers lifted",
        ),
        (
            "25-001",
            "sound=1",
            false,
            "sound: found a count without tubers lifted before, expected that first",
        ),
        (
            "24-001",
            "roll=flat rolled=30",
            false,
            "found answers that no bloom can have together, expected one of them to be mistaken: they count as they are",
        ),
        (
            "24-001",
            "cut=3 corrects=9",
            true,
            "corrects: found 9, expected the number of an earlier entry",
        ),
        (
            "24-001",
            "withdraw=400",
            true,
            "withdraw: found 400, expected the number of an earlier entry",
        ),
        ("24-001", "diameter=40mm corrects=1", false, ""),
    ] {
        let doubts = trial.check(&entry(2, of, line), &grounds);
        match told {
            "" => assert_eq!(doubts, [], "{of} {line}"),
            _ => assert_eq!(
                (doubts[0].refuses, doubts[0].told.as_str()),
                (refuses, told)
            ),
        }
    }
    assert_eq!(
        trial.add(entry(1, "24-001", "cut=1")),
        Err(AddError::IdTaken { found: 1, least: 2 })
    );
    assert_eq!(trial.add(entry(2, "24-001", "cut=1")), Ok(()));
}

#[test]
fn a_bloom_of_a_day_that_nobody_told_is_asked_after_out_of_season() {
    let rules = &RuleSet::embedded()[0];
    let list = Varieties::read("varieties.ron", LIST).expect("a list");
    let words = Vocabulary::embedded();
    let trial = trial(&[]);
    let asked = |line: &str, date: Date, day_is_told: bool| {
        let grounds = EntryContext {
            rules,
            list: &list,
            words: &words,
            units: SizeUnits::Mm,
            today: date,
            day_is_told,
            bloom_days: Some(BloomDays {
                first: Date::constant(2027, 7, 1),
                frost: Date::constant(2027, 11, 9),
            }),
        };
        let mut entry = entry(1, "24-001", line);
        entry.date = date;
        let doubts = trial.check(&entry, &grounds).into_iter();
        doubts
            .map(|doubt| (doubt.refuses, doubt.told))
            .collect::<Vec<_>>()
    };
    let november = Date::constant(2026, 11, 29);
    let told = "date: found none, so today, 2026-11-29: after the first frost, which in nine years of ten has come by 9 November; expected the day on which it was seen";
    assert_eq!(
        asked("diameter=98mm", november, false),
        [(false, told.to_string())]
    );
    let april = asked("vase=7", Date::constant(2026, 4, 2), false);
    assert!(
        april[0]
            .1
            .contains("before anything planted is in bloom, from about 1 July"),
        "{april:?}"
    );
    for (line, date, day_is_told) in [
        ("diameter=98mm", november, true),
        ("tubers=9", november, false),
        ("diameter=98mm", Date::constant(2026, 11, 9), false),
        ("diameter=98mm", Date::constant(2026, 7, 1), false),
    ] {
        assert_eq!(asked(line, date, day_is_told), [], "{line} {date}");
    }
}
