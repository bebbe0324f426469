use super::*;
use jiff::ToSpan;
use jiff::civil::Weekday;
use proptest::prelude::*;

/// A Thursday; 20 August is week 34.
const TODAY: Date = date(2026, 8, 27);

fn noting(text: &str) -> Result<String, String> {
    let calendar = Calendar::noting(TODAY, None);
    typed(text, &calendar).map(|typed| typed.day.to_string())
}

fn planning(text: &str) -> Result<String, String> {
    let calendar = Calendar::noting(TODAY, Some(DayOrder::MonthFirst)).planning(2027);
    typed(text, &calendar).map(|typed| typed.day.to_string())
}

#[test]
fn a_day_of_no_year_that_is_believed_is_refused() {
    assert_eq!(read("2027-04-29"), Ok(date(2027, 4, 29)));
    for (text, told) in [
        ("9999-12-31", "from 1900-01-01 to 2200-12-31"),
        ("0027-04-29", "found the day 0027-04-29"),
        ("2027-02-30", "such as 2027-04-29"),
        ("\u{1b}[31m", "found \"\\u{1b}[31m\", expected"),
    ] {
        let error = read(text).expect_err(text);
        assert!(error.contains(told), "{error}");
    }
}

#[test]
fn a_day_is_taken_as_people_write_it() {
    for (text, day) in [
        ("2026-08-20", "2026-08-20"),
        ("20 Aug", "2026-08-20"),
        ("20 august 2026", "2026-08-20"),
        ("Aug 20", "2026-08-20"),
        ("August 20th, 2026", "2026-08-20"),
        ("the 20th of August", "2026-08-20"),
        ("20-Aug-2026", "2026-08-20"),
        ("2026 Aug 20", "2026-08-20"),
        ("1 Sept. 2025", "2025-09-01"),
        ("20.8.", "2026-08-20"),
        ("3.4.", "2026-04-03"),
        ("20.8.2026", "2026-08-20"),
        ("20. 8. 26", "2026-08-20"),
        ("20/08/2026", "2026-08-20"),
        ("08/20/2026", "2026-08-20"),
        ("8/20", "2026-08-20"),
        ("2026/8/20", "2026-08-20"),
        ("5/5", "2026-05-05"),
        ("Thursday 20 Aug", "2026-08-20"),
        ("today", "2026-08-27"),
        ("Yesterday", "2026-08-26"),
        ("tomorrow", "2026-08-28"),
        // The last one up to today: today is a Thursday.
        ("thursday", "2026-08-27"),
        ("friday", "2026-08-21"),
        ("Mon", "2026-08-24"),
        ("28 Aug", "2025-08-28"),
        ("29 Feb", "2024-02-29"),
        ("week 33", "2026-08-10"),
        ("w33", "2026-08-10"),
        ("week 36", "2025-09-01"),
        ("week 33 2025", "2025-08-11"),
        ("2026-W33", "2026-08-10"),
        ("2026-w33-5", "2026-08-14"),
    ] {
        assert_eq!(noting(text), Ok(day.to_string()), "{text}");
    }
}

#[test]
fn a_day_that_is_planned_lies_in_the_seasons_year() {
    for (text, day) in [
        ("29 Apr", "2027-04-29"),
        ("29 Apr 2026", "2026-04-29"),
        ("4/29", "2027-04-29"),
        ("3/4", "2027-03-04"),
        ("29/4", "2027-04-29"),
        ("week 17", "2027-04-26"),
        ("friday", "2026-08-28"),
        ("thursday", "2026-08-27"),
        ("tomorrow", "2026-08-28"),
    ] {
        assert_eq!(planning(text), Ok(day.to_string()), "{text}");
    }
    assert_eq!(
        planning("29 Feb"),
        Err("found \"29 Feb\", a day that February does not have, expected another".to_string())
    );
}

#[test]
fn a_day_that_is_not_read_is_refused_in_one_sentence_with_an_example() {
    for (text, told) in [
        ("", "found \"\", expected a day such as 20 Aug"),
        ("Aug", "expected a day such as 20 Aug"),
        ("20", "expected a day such as 20 Aug"),
        ("next friday", "expected a day such as 20 Aug"),
        ("20/08.2026", "expected a day such as 20 Aug"),
        ("20/13", "expected a day such as 20 Aug"),
        ("31 Jun", "found \"31 Jun\", a day that June does not have"),
        ("week 53 2025", "a week that its year does not have"),
        (
            "Fri 20 Aug 2026",
            "but 2026-08-20 is a Thursday: expected a day that fits",
        ),
        (
            "20 Aug 1800",
            "found the day 1800-08-20, expected one from 1900-01-01",
        ),
        ("9999-12-31", "expected one from 1900-01-01 to 2200-12-31"),
    ] {
        let error = noting(text).expect_err(text);
        assert!(error.contains(told), "{text}: {error}");
    }
    assert_eq!(
        noting("03/04/2026"),
        Err("found \"03/04/2026\", which may be 3 Apr (2026-04-03) or 4 Mar (2026-03-04): expected the month as a word, or in settings.ron days: \"day-first\" or days: \"month-first\", which then holds for all days".to_string())
    );
    for (order, day) in [
        (DayOrder::DayFirst, "2026-04-03"),
        (DayOrder::MonthFirst, "2026-03-04"),
    ] {
        let calendar = Calendar::noting(TODAY, Some(order));
        let read = typed("03/04/2026", &calendar).map(|typed| typed.day.to_string());
        assert_eq!(read, Ok(day.to_string()));
    }
}

#[test]
fn what_was_taken_is_told_where_it_was_not_typed_in_full() {
    let calendar = Calendar::noting(TODAY, None);
    let told = |text: &str| typed(text, &calendar).expect(text).told();
    assert_eq!(told("2026-08-20"), None);
    assert_eq!(told(" 20 Aug ").as_deref(), Some("20 Aug, so 2026-08-20"));
}

#[test]
fn a_day_stands_before_who_looked() {
    let calendar = Calendar::noting(TODAY, None);
    for (text, day, rest) in [
        ("2026-08-20 Ann", "2026-08-20", "Ann"),
        ("20 Aug Ann Moss", "2026-08-20", "Ann Moss"),
        ("20 Aug 2025 Ann", "2025-08-20", "Ann"),
        ("yesterday", "2026-08-26", ""),
        ("20 Aug May", "2026-08-20", "May"),
    ] {
        let (typed, after) = leading(text, &calendar).expect(text);
        assert_eq!(
            (typed.day.to_string().as_str(), after),
            (day, rest),
            "{text}"
        );
    }
    for (text, told) in [("Ann", "found \"Ann\""), ("03/04 Ann", "or 4 Mar")] {
        let error = leading(text, &calendar).expect_err(text);
        assert!(error.contains(told), "{text}: {error}");
    }
}

#[test]
fn a_table_from_elsewhere_has_whole_days_that_are_read_in_one_way() {
    for text in [
        "2027-04-29",
        "29 Apr 2027",
        "29.04.2027",
        "29/04/2027",
        "04/29/2027",
    ] {
        let read = typed(text, &Calendar::CELLS).map(|typed| typed.day.to_string());
        assert_eq!(read, Ok("2027-04-29".to_string()), "{text}");
    }
    for text in [
        "29 Apr",
        "03/04/2027",
        "yesterday",
        "friday",
        "29/4/27",
        "week 17",
    ] {
        typed(text, &Calendar::CELLS).expect_err(text);
    }
    for text in ["29 Apr 2027", "today"] {
        typed(text, &Calendar::FILES).expect_err(text);
    }
}

#[test]
fn weeks_are_taken_as_weeks_or_as_days() {
    let calendar = Calendar::noting(date(2026, 3, 1), None).planning(2026);
    for (text, span) in [
        ("30-42", (30, 42)),
        ("30 - 42", (30, 42)),
        ("8-12", (8, 12)),
        ("37", (37, 37)),
        ("week 37", (37, 37)),
        ("week 30 to 42", (30, 42)),
        ("weeks 30-42", (30, 42)),
        ("from week 30 until week 42", (30, 42)),
        ("w30..w42", (30, 42)),
        ("20 Aug - 5 Sep", (34, 36)),
        ("20 Aug-5 Sep", (34, 36)),
        ("from 20 Aug to 5 Sep", (34, 36)),
        ("20-Aug-2026 - 5-Sep-2026", (34, 36)),
        ("2026-08-20 to 2026-09-05", (34, 36)),
        ("20/08 \u{2013} 15/09", (34, 38)),
        ("20 - 25 Aug", (34, 35)),
        ("20-25 Aug 2026", (34, 35)),
        ("Aug 20-25", (34, 35)),
        ("20 Aug", (34, 34)),
    ] {
        let read = weeks(text, &calendar).map(|weeks| (weeks.first, weeks.last));
        assert_eq!(read, Ok(span), "{text}");
    }
    for (text, told) in [
        (
            "3-x",
            "found the weeks \"3-x\", expected such as 30-42, or days such as 20 Aug - 5 Sep",
        ),
        (
            "20 Aug 2027",
            "a day of the weeks of 2027, expected one of those of 2026",
        ),
        ("20 Aug - 42", "beside the number 42"),
        ("20 Aug - 31 Sep", "a day that September does not have"),
        ("20 Aug to 4/9", "or 9 Apr"),
        ("1-2-3", "which may be 2 Mar"),
        ("x-y-z", "found the weeks"),
    ] {
        let error = weeks(text, &calendar).expect_err(text);
        assert!(error.contains(told), "{text}: {error}");
    }
    let told = |text: &str| weeks(text, &calendar).expect(text).told(2026);
    assert_eq!(told("20 Aug - 5 Sep"), "weeks 34 to 36 (17 Aug to 6 Sep)");
    assert_eq!(told("week 37"), "week 37 (7 Sep to 13 Sep)");
}

/// Written by tests/outside/days.py, by Python's datetime.
#[test]
fn days_and_weeks_are_those_of_another_calendar() {
    let table = include_str!("../../../tests/data/days.csv");
    let mut rows = csv::Reader::from_reader(table.as_bytes());
    let mut read = 0;
    for row in rows.records() {
        let row = row.expect("a row");
        let calendar = Calendar::noting(date(2027, 6, 1), None);
        let day = |text: &str| typed(text, &calendar).map(|typed| typed.day.to_string());
        for at in 1..=6 {
            // Both may be the month where they are small: the name is then asked for.
            let may_be_both = at == 4 && row[0][8..].parse::<u8>().is_ok_and(|day| day <= 12);
            let (_, month_day) = row[0].split_at(5);
            if may_be_both && month_day[..2] != month_day[3..] {
                day(&row[at]).expect_err(&row[at]);
            } else {
                assert_eq!(day(&row[at]).as_deref(), Ok(&row[0]), "{}", &row[at]);
            }
        }
        assert_eq!(day(&row[8]).as_deref(), Ok(&row[7]), "{}", &row[8]);
        let own: Date = row[0].parse().expect("a day");
        let week = week_of(own);
        let first = monday(own.iso_week_date().year(), week).map(|day| day.to_string());
        assert_eq!(first.as_deref(), Some(&row[7]));
        read += 1;
    }
    assert_eq!(read, 504);
}

prop_compose! {
    fn any_day()(days in 0_i64..109_938) -> Date {
        later(FIRST, days)
    }
}

fn any_order() -> impl Strategy<Value = Option<DayOrder>> {
    prop::option::of(prop::sample::select(vec![
        DayOrder::DayFirst,
        DayOrder::MonthFirst,
    ]))
}

proptest! {
    #[test]
    fn a_sum_of_days_never_fails(days in any::<i64>(), back in -400_i64..400) {
        let _ = (later(FIRST, days), later(Date::MAX, days), later(Date::MIN, days));
        prop_assert_eq!(later(later(LAST, back), -back), LAST);
    }

    #[test]
    fn every_day_printed_in_every_way_is_read_back(day in any_day(), today in any_day(), order in any_order()) {
        let calendar = Calendar::noting(today, order);
        for way in [
            "%Y-%m-%d", "%-d %B %Y", "%d %b %Y", "%b %-d, %Y", "%B %-d %Y", "%A %-d %b %Y",
            "%Y/%m/%d", "%-d-%b-%Y", "%G-W%V-%u",
        ] {
            let text = day.strftime(way).to_string();
            let read = typed(&text, &calendar).map(|typed| typed.day);
            prop_assert_eq!(read, Ok(day), "{}", text);
        }
        for (first, way) in [
            (DayOrder::DayFirst, "%d/%m/%Y"), (DayOrder::DayFirst, "%-d.%-m.%Y"),
            (DayOrder::MonthFirst, "%m/%d/%Y"), (DayOrder::MonthFirst, "%-m-%-d-%Y"),
        ] {
            let text = day.strftime(way).to_string();
            let read = typed(&text, &calendar).map(|typed| typed.day).ok();
            let told = day.day() > 12 || day.day() == day.month();
            match order {
                _ if told => prop_assert_eq!(read, Some(day), "{}", text),
                Some(order) if order == first => prop_assert_eq!(read, Some(day), "{}", text),
                Some(_) => prop_assert_ne!(read, Some(day), "{}", text),
                None => prop_assert_eq!(read, None, "{}", text),
            }
        }
    }

    #[test]
    fn a_day_of_no_year_is_the_last_one_up_to_today(back in 0_i32..365, today in any_day()) {
        prop_assume!(today.year() > 1910);
        let day = today.checked_sub(back.days()).expect("a day");
        let calendar = Calendar::noting(today, None);
        let read = |way: &str| typed(&day.strftime(way).to_string(), &calendar).map(|typed| typed.day);
        prop_assert_eq!(read("%-d %b"), Ok(day));
        prop_assert_eq!(read("%-d.%-m."), Ok(day));
        if back < 7 {
            prop_assert_eq!(read("%A"), Ok(day));
        }
        let monday = later(day, -i64::from(day.weekday().since(Weekday::Monday)));
        prop_assert_eq!(read("week %V").map(|found| found <= today), Ok(true));
        if back < 350 {
            prop_assert_eq!(read("week %V"), Ok(monday));
        }
    }

    #[test]
    fn weeks_are_read_back_as_days_and_as_weeks(year in 1901_i16..2199, first in 1_u8..=52, more in 0_u8..=51) {
        let last = (first + more).min(52);
        let calendar = Calendar::noting(date(2027, 6, 1), None).planning(year);
        let from = monday(year, first).expect("a week");
        let to = later(monday(year, last).expect("a week"), 6);
        for text in [
            format!("{first}-{last}"),
            format!("week {first} to {last}"),
            format!("{from} - {to}"),
            format!("{} to {}", from.strftime("%-d %b %Y"), to.strftime("%-d %b %Y")),
        ] {
            prop_assert_eq!(weeks(&text, &calendar), Ok(Weeks { first, last }), "{}", text);
        }
    }

    #[test]
    fn any_text_is_read_or_refused_without_panic(text in "\\PC{0,30}", days in "([0-9]{1,5}|[a-zé]{1,9}|[-/., –'])( ?([0-9]{1,5}|aug|w|the|to|[-/.,])){0,6}") {
        for text in [text, days] {
            for calendar in [Calendar::FILES, Calendar::CELLS, Calendar::noting(TODAY, None), Calendar::noting(LAST, None).planning(2200)] {
                let _ = (typed(&text, &calendar), weeks(&text, &calendar), leading(&text, &calendar));
            }
        }
    }
}
