use proptest::prelude::*;

use super::*;

fn read(line: &str) -> Result<Draft, ReadError> {
    Draft::read_line(line, &Calendar::FILES)
}

#[test]
fn words_that_do_not_belong_together_are_told() {
    for (line, told) in [
        (
            "rotten=3",
            "rotten: found \"rotten\", expected one of date, by, year",
        ),
        (
            "lifted",
            "lifted: found \"lifted\", expected WORD=VALUE, such as lifted=12 or sold=31",
        ),
        (
            "lost=-1",
            "lost: found \"-1\", expected tubers lost, a whole number from 0 to 9999",
        ),
        (
            "lost=1 Lost=2",
            "Lost: found \"2\", expected each word once",
        ),
        ("why=rotten", "why: found it alone, expected lost= with it"),
        (
            "to=Jessie keep=4",
            "to: found it with 0 of given, promised and sold, expected it with one of these",
        ),
        ("to=Jessie sold=4 given=1", "to: found it with 2 of given"),
        (
            "price=-4 sold=1",
            "price: found \"-4\", expected an amount such as 4 or 4.50",
        ),
        (
            "withdraw=3 lost=1",
            "withdraw: found \"it beside other words\", expected withdraw in an entry without anything else",
        ),
        (
            "year=25 lost=1",
            "year: found \"25\", expected the year in which",
        ),
        (
            "date=2026-03-01",
            "entry: found nothing that happened, expected at least one word",
        ),
    ] {
        let error = read(line).expect_err(line).to_string();
        assert!(error.starts_with(told), "{error}");
    }
}

#[test]
fn the_year_of_lifting_is_the_last_autumns_unless_it_is_told() {
    let entry = |line: &str| {
        let day = Date::constant(2026, 3, 1);
        read(line)
            .expect(line)
            .entry(1, "24-001".parse().expect("a number"), day)
    };
    assert_eq!(entry("lost=1").year, Some(2025));
    assert_eq!(entry("lost=1 date=2026-10-01").year, Some(2026));
    assert_eq!(entry("lost=1 year=2026").year, Some(2026));
    assert_eq!(entry("withdraw=4").year, None);
}

proptest! {
    #[test]
    fn what_is_printed_reads_back(
        counts in prop::collection::vec(prop::option::of(0..=9999_u32), 11),
        texts in prop::collection::vec(prop::option::of("[a-zA-Z'\"\\\\$` é]{0,9}[a-z]"), 4),
        price in prop::option::of(0..=100_000_u64),
        corrects in prop::option::of(1..99_u32),
    ) {
        let text = |at: usize| texts[at].as_ref().and_then(|text: &String| Text::new(text).ok());
        let mut event = Event {
            lifted: counts[0], divided: counts[1], stored: counts[2], sound: counts[3], lost: counts[4],
            potted: counts[5], cuttings: counts[6], sold: counts[8], planted: counts[9],
            keep: counts[10], price: price.map(Money::hundredths), note: text(0),
            ..Event::default()
        };
        event.why = event.lost.and(text(1));
        event.to = event.sold.and(text(2));
        prop_assume!(!event.is_empty());
        let entry = Entry {
            id: 7,
            corrects,
            date: Date::constant(2026, 3, 1),
            by: None,
            of: "24-001".parse().expect("a number"),
            year: Some(2025),
            place: text(3),
            what: What::Happened(Box::new(event)),
        };
        let again = read(&entry.print()).expect("reads back");
        prop_assert_eq!(again.entry(7, entry.of.clone(), Date::constant(2026, 1, 1)), entry);
    }
}
