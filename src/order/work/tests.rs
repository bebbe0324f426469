//! Events and rounds as they are typed and told.

use jiff::civil::date;

use super::*;
use crate::measure::day::Calendar;

fn days() -> Calendar {
    Calendar::noting(date(2027, 1, 10), None).planning(2027)
}

fn event(line: &str) -> Result<Work, String> {
    Work::read_event(line, &days())
}

fn round(line: &str) -> Result<Work, String> {
    Work::read_round(line, &days())
}

#[test]
fn an_event_is_read_however_its_day_and_its_pieces_stand() {
    let expected = "Sun 12 Sep 2027; 12 table bowls, 3 large vases, 1 bride's bunch, 8 buttonholes; plum or blush, within 8";
    for line in [
        "Berry wedding: 2027-09-12 12 table bowl, 3 large vase, 1 bride's bunch, 8 buttonhole colours=plum,blush within=8",
        "Berry wedding: 12 Sep 12 table bowls, 3 large vases, 1 bride's bunch and 8 buttonholes colours=plum, blush within=8",
        "Berry wedding: on Sunday 12 September 12 table bowl 3 large vase 1 bride's bunch 8 buttonhole within=8 colours=plum,blush",
        "Berry wedding: 12 table bowl, 3 large vase, 1 bride's bunch, 8 buttonhole on Sep 12 2027 colours=plum,blush within=8",
        "Berry wedding: 12 Sep pieces=12 table bowl, 3 large vase, 1 bride's bunch, 8 buttonhole colours=plum,blush within=8",
    ] {
        let event = event(line).unwrap_or_else(|told| panic!("{line}: {told}"));
        assert_eq!(event.told(Some(&Pieces::embedded())), expected, "{line}");
        assert_eq!(event.sureness(), Some(0.95));
    }
}

#[test]
fn a_round_is_read_however_its_days_stand() {
    for line in [
        "quay stall: fridays 10 market bunch 2027-08-13 to 2027-10-01 colours=warm",
        "quay stall: every friday from 13 Aug to 1 Oct 10 market bunches colours=warm",
        "quay stall: 10 market bunch fri 13 Aug 2027 - 1 Oct colours=warm every=fri",
    ] {
        let Ok(round) = round(line) else {
            panic!("{line}: {}", round(line).expect_err("told"));
        };
        assert_eq!(
            round.told(Some(&Pieces::embedded())),
            "Fridays, 13 Aug to 1 Oct 2027; 10 market bunches; warm",
            "{line}"
        );
        assert_eq!(round.sureness(), None);
    }
}

#[test]
fn only_what_changes_is_typed() {
    let before =
        event("Berry wedding: 2027-09-12 12 table bowl, 3 arch colours=plum").expect("an event");
    let changed = |words: &str| before.with(words, &days()).map(|work| work.words());
    for (words, expected) in [
        ("19 Sep", "2027-09-19 12 table bowl, 3 arch colours=plum"),
        (
            "14 table bowls, 0 arches, 2 jar",
            "2027-09-12 14 table bowl, 2 jar colours=plum",
        ),
        (
            "colours=wine,plum within=6 cut=1 sure=0.9",
            "2027-09-12 12 table bowl, 3 arch colours=wine,plum within=6 cut=1 sure=0.9",
        ),
        ("colours=", "2027-09-12 12 table bowl, 3 arch"),
        ("pieces=4 jar", "2027-09-12 4 jar colours=plum"),
    ] {
        assert_eq!(changed(words).as_deref(), Ok(expected), "{words}");
    }
    for (words, told) in [
        (
            "many",
            "found \"many\", expected a day, a day of the week, or so many of a piece",
        ),
        ("12", "found \"12\" with no piece behind it"),
        ("31 Sep", "a day that September does not have"),
        ("fridays", "a day of the week for an event"),
        (
            "every=friday",
            "found \"every\" for an event, expected a day",
        ),
        ("12 Sep 13 Sep", "found several days"),
        ("within=6=7", "within: found \"6=7\", expected a number"),
        (
            "within=far",
            "within: found \"far\", expected a number, or nothing",
        ),
        ("pieces=jar", "found \"jar\", expected so many of a piece"),
    ] {
        let error = changed(words).expect_err(words);
        assert!(error.contains(told), "{words}: {error}");
    }
}

#[test]
fn what_is_lacking_in_a_line_is_told() {
    for (line, told) in [
        ("Berry wedding 2027-09-12 1 jar", "expected a name, a colon"),
        ("Berry wedding: 1 jar", "found no day, expected"),
        ("Berry wedding: 2027-09-12", "without pieces"),
    ] {
        let error = event(line).expect_err(line);
        assert!(error.contains(told), "{line}: {error}");
    }
    for (line, told) in [
        ("stall: 1 jar 13 Aug to 1 Oct", "no day of the week"),
        ("stall: fridays 1 jar 13 Aug", "found one day"),
        (
            "stall: fridays saturdays 1 jar 13 Aug to 1 Oct",
            "a second day of the week",
        ),
    ] {
        let error = round(line).expect_err(line);
        assert!(error.contains(told), "{line}: {error}");
    }
}

#[test]
fn a_round_has_the_first_and_the_last_of_its_days() {
    let every = |from, to| When::Every {
        day: jiff::civil::Weekday::Friday,
        from,
        to,
    };
    let friday = date(2027, 8, 13);
    assert_eq!(every(friday, friday).ends(), Some((friday, friday)));
    let ends = every(date(2027, 8, 14), date(2027, 9, 2)).ends();
    assert_eq!(ends, Some((date(2027, 8, 20), date(2027, 8, 27))));
    assert_eq!(every(date(2027, 8, 14), date(2027, 8, 19)).ends(), None);
}
