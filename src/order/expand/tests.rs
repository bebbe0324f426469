//! Events and rounds as needs: laws that hold of any, and what is told of one that cannot be.

use std::collections::BTreeMap;

use jiff::civil::{Date, Weekday, date};
use proptest::prelude::*;

use super::*;
use crate::measure::day::Calendar;
use crate::order::work::When;
use crate::problem::Problem;

const PLAN: &str = r#"(
  ordered: "2027-01-15",
  season: (last_frost: (date: "2027-05-14"), first_frost: (date: "2027-10-20"), planted: "2027-05-20"),
  beds: [(name: "sea wall", length: "20m", width: "1.2m", spacing: "400mm")],
  needs: [(name: "quay stall", stems: 60, weeks: (33, 39))],
  work: [
    (name: "Berry wedding", on: "2027-09-12", pieces: [(12, "table bowl"), (1, "bride's bunch")], colours: ["plum", "blush"]),
    (name: "shop", every: "friday", from: "2027-08-13", to: "2027-09-30", pieces: [(10, "market bunch")]),
  ],
)
"#;

const COLOURS: [&str; 3] = ["plum", "blush", "white"];

fn plan(text: &str) -> Plan {
    Plan::read("order.ron", text).expect("a plan")
}

fn with(work: Vec<Work>) -> Plan {
    Plan { work, ..plan(PLAN) }
}

fn whole(plan: &Plan) -> Plan {
    let whole = plan.whole(&Pieces::embedded(), &|_| None);
    whole.unwrap_or_else(|wrong| panic!("{wrong:?}"))
}

/// The needs that the work at a place comes to.
fn needs(plan: &Plan, at: usize) -> Vec<Need> {
    let whole = whole(plan);
    let own = |need: &Need| need.of_work.as_ref().is_some_and(|from| from.work == at);
    whole.needs.into_iter().filter(own).collect()
}

fn stems_by_week(needs: &[Need]) -> BTreeMap<u8, u64> {
    let mut stems = BTreeMap::new();
    for need in needs {
        for week in need.weeks.0..=need.weeks.1 {
            *stems.entry(week).or_default() += u64::from(need.stems.get());
        }
    }
    stems
}

fn text(word: &str) -> Text {
    Text::new(word).expect("a text")
}

prop_compose! {
    /// An event or a round of some of the pieces that ship, within the season.
    fn any_work()(
        pieces in prop::collection::vec((1_u32..40, 0_usize..8), 1..5),
        colours in 0_usize..4,
        within in prop::option::of(1_u32..20),
        cut_before in prop::option::of(0_u8..6),
        sure in prop::option::of(50_u32..99),
        (day, round, weeks) in (0_i64..70, any::<bool>(), 1_i64..6),
    ) -> Work {
        let table = Pieces::embedded();
        let on = day::later(date(2027, 6, 20), day);
        let when = match round {
            true => When::Every { day: Weekday::Friday, from: on, to: day::later(on, 7 * weeks) },
            false => When::On(on),
        };
        let count = |(number, at): (u32, usize)| {
            Count(NonZeroU32::new(number).expect("over 0"), table.list()[at].name.clone())
        };
        let colours: Vec<Text> = COLOURS[..colours].iter().map(|word| text(word)).collect();
        Work {
            name: text("Berry wedding"),
            when,
            pieces: pieces.into_iter().map(count).collect(),
            within: within.map(f64::from).filter(|_| !colours.is_empty()),
            colours,
            cut_before,
            sure: sure.map(|sure| f64::from(sure) / 100.0),
        }
    }
}

/// The same a number of days later.
fn moved(work: &Work, days: i64) -> Work {
    let later = |day: Date| day::later(day, days);
    let when = match work.when {
        When::On(day) => When::On(later(day)),
        When::Every { day, from, to } => When::Every {
            day,
            from: later(from),
            to: later(to),
        },
    };
    Work {
        when,
        ..work.clone()
    }
}

proptest! {
    #[test]
    fn more_pieces_are_never_fewer_stems_in_any_week(work in any_work(), more in (1_u32..20, 0_usize..8)) {
        let before = stems_by_week(&needs(&with(vec![work.clone()]), 0));
        let mut larger = work;
        let piece = Pieces::embedded().list()[more.1].name.clone();
        larger.pieces.push(Count(NonZeroU32::new(more.0).expect("over 0"), piece));
        let after = stems_by_week(&needs(&with(vec![larger]), 0));
        for (week, stems) in before {
            prop_assert!(after.get(&week).is_some_and(|more| *more > stems), "week {}", week);
        }
    }

    #[test]
    fn work_a_week_later_is_the_same_needs_a_week_later(work in any_work()) {
        let earlier = needs(&with(vec![moved(&work, -7)]), 0);
        let later = needs(&with(vec![work]), 0);
        prop_assert_eq!(earlier.len(), later.len());
        for (earlier, later) in earlier.iter().zip(&later) {
            prop_assert_eq!((earlier.weeks.0 + 1, earlier.weeks.1 + 1), later.weeks);
            prop_assert_eq!((&earlier.name, earlier.stems), (&later.name, later.stems));
        }
    }

    /// Reckoned piece by piece in floats: each need is rounded up once.
    #[test]
    fn stems_of_a_part_are_pieces_times_stems_with_their_spares(work in any_work()) {
        let table = Pieces::embedded();
        let mut parts: BTreeMap<String, (f64, u32, u32)> = BTreeMap::new();
        for Count(number, name) in &work.pieces {
            let piece = table.find(name.as_str()).expect("a piece");
            for (part, stems) in &piece.stems {
                let all = f64::from(number.get() * stems.get());
                parts.entry(part.to_string()).or_default().0 += all * (1.0 + f64::from(piece.spares) / 100.0);
            }
        }
        for need in needs(&with(vec![work.clone()]), 0) {
            let part = need.of_work.expect("from work").part.to_string();
            let part = part.split(',').next().expect("a word").to_string();
            let own = parts.get_mut(&part).expect("a part of a piece");
            own.1 += need.stems.get();
            own.2 += 1;
        }
        for (part, (least, stems, needs)) in parts {
            let stems = f64::from(stems);
            prop_assert!(stems > least - 1e-6 && stems < least + f64::from(needs) + 1e-6, "{}: {} of {}", part, stems, least);
        }
    }

    #[test]
    fn a_plan_with_events_and_rounds_reads_back_as_written(work in any_work(), other in any_work()) {
        let other = Work { name: text("harvest, second day"), ..other };
        let plan = Plan { cut_before: work.cut_before, ..with(vec![work, other]) };
        let written = plan.write().expect("writes");
        prop_assert_eq!(Plan::read("order.ron", &written), Ok(plan.clone()), "{}", written);
        // What was worked out is not written.
        prop_assert_eq!(whole(&plan).write().expect("writes"), written);
        prop_assert_eq!(whole(&plan).as_written(), plan);
    }

    #[test]
    fn what_work_comes_to_hangs_on_no_other(work in any_work(), other in any_work()) {
        let other = Work { name: text("another"), ..other };
        let bare = |plan: &Plan, at: usize| -> Vec<Need> {
            let needs = needs(plan, at).into_iter();
            needs.map(|need| Need { of_work: None, ..need }).collect()
        };
        let alone = bare(&with(vec![work.clone()]), 0);
        prop_assert_eq!(&bare(&with(vec![work.clone(), other.clone()]), 0), &alone);
        prop_assert_eq!(&bare(&with(vec![other, work]), 1), &alone);
    }

    #[test]
    fn any_work_is_read_back_from_its_words(work in any_work()) {
        let line = format!("{}: {}", work.name, work.words());
        let read = match work.is_event() {
            true => Work::read_event(&line, &Calendar::FILES),
            false => Work::read_round(&line, &Calendar::FILES),
        };
        // Of a piece that is named twice the last number counts on a line.
        let mut once = work.clone();
        once.pieces = Vec::new();
        for Count(number, name) in work.pieces {
            match once.pieces.iter_mut().find(|own| own.1 == name) {
                Some(own) => own.0 = number,
                None => once.pieces.push(Count(number, name)),
            }
        }
        prop_assert_eq!(read, Ok(once), "{}", line);
    }
}

/// Worked by hand: 12 bowls of 5 low stems with 10 % more are 66; a bunch of 5 focal stems with 20 % more
/// is 6, of which 60 % plum is 3.6 and 40 % blush is 2.4.
#[test]
fn a_wedding_comes_to_its_stems_by_part_and_colour_in_the_week_of_the_cut() {
    let told: Vec<String> = needs(&plan(PLAN), 0)
        .iter()
        .map(|need| format!("{}: {} in {:?}", need.name, need.stems, need.weeks))
        .collect();
    assert_eq!(
        told,
        [
            "Berry wedding: focal, plum: 4 in (36, 36)",
            "Berry wedding: focal, blush: 3 in (36, 36)",
            "Berry wedding: secondary, plum: 6 in (36, 36)",
            "Berry wedding: secondary, blush: 4 in (36, 36)",
            "Berry wedding: small: 53 in (36, 36)",
            "Berry wedding: small, plum: 5 in (36, 36)",
            "Berry wedding: small, blush: 3 in (36, 36)",
            "Berry wedding: accent: 14 in (36, 36)",
            "Berry wedding: low: 66 in (36, 36)",
        ]
    );
}

/// Fridays cut two days before are Wednesdays of the same week; with five days before, Sundays of the
/// week before.
#[test]
fn a_round_runs_in_the_weeks_in_which_it_is_cut() {
    let shop = needs(&plan(PLAN), 1);
    assert_eq!(shop[0].weeks, (32, 38));
    assert_eq!(
        shop[0].of_work.as_ref().map(|from| from.cut),
        Some(date(2027, 8, 11))
    );
    let earlier = PLAN.replace("to: \"2027-09-30\"", "to: \"2027-09-30\", cut_before: 5");
    assert_eq!(needs(&plan(&earlier), 1)[0].weeks, (31, 37));
}

#[test]
fn flowers_that_do_not_last_are_cut_nearer_to_the_day() {
    let text = PLAN.replace("work: [", "cut_before: 4,\n  work: [");
    let lasts = |id: &str| Some(if id == "accent" { 3.9 } else { 8.0 });
    let whole = plan(&text)
        .whole(&Pieces::embedded(), &lasts)
        .expect("whole");
    for need in &whole.needs[1..] {
        let from = need.of_work.as_ref().expect("from work");
        let accent = need
            .for_use
            .as_ref()
            .is_some_and(|id| id.as_str() == "accent");
        let expected = if accent { (2, Some(3.9)) } else { (4, None) };
        assert_eq!((from.before, from.lasts), expected, "{}", need.name);
    }
    let none = plan(&text)
        .whole(&Pieces::embedded(), &|_| Some(0.4))
        .expect("whole");
    assert!(
        none.needs[1..]
            .iter()
            .all(|need| need.of_work.as_ref().is_some_and(|from| from.before == 0))
    );
}

#[test]
fn work_that_cannot_be_is_told_with_its_line_and_column() {
    let told = |bad: &str| {
        let wrong = match Plan::read("order.ron", bad) {
            Ok(plan) => plan
                .whole(&Pieces::embedded(), &|_| None)
                .expect_err("wrong"),
            Err(problems) => return problems[0].to_string(),
        };
        Problem::all("order.ron", bad, wrong)[0].to_string()
    };
    for (from, to, expected) in [
        (
            "table bowl",
            "tabel bowl",
            "order.ron, line 7, column 61: Berry wedding: found the piece \"tabel bowl\", expected one of table bowl, large vase, bride's bunch, buttonhole, wristlet, arch, market bunch, jar",
        ),
        (
            "on: \"2027-09-12\"",
            "on: \"2027-05-01\"",
            "order.ron, line 7, column 33: Berry wedding: found 2027-05-01, expected a day after planting, which is on 2027-05-20",
        ),
        (
            "on: \"2027-09-12\"",
            "on: \"2027-10-27\"",
            "order.ron, line 7, column 33: Berry wedding: focal, plum: found week 43, expected week 42 at the latest: the first frost is looked for on 2027-10-20",
        ),
        (
            "on: \"2027-09-12\"",
            "on: \"2028-01-02\"",
            "order.ron, line 7, column 33: Berry wedding: found 2028-01-02, expected a day before the first frost, which is looked for on 2027-10-20",
        ),
        (
            "(12, \"table bowl\"), (1, \"bride's bunch\")",
            "",
            "order.ron, line 7, column 55: Berry wedding: found no pieces, expected one at least, such as 12 table bowl",
        ),
        (
            "name: \"shop\"",
            "name: \"quay stall\"",
            "order.ron, line 8, column 12: quay stall: found the name of a need, expected another for the round",
        ),
        (
            "name: \"shop\"",
            "name: \"Berry wedding\"",
            "order.ron, line 8, column 12: found the name \"Berry wedding\" a second time, expected each name once",
        ),
        (
            "to: \"2027-09-30\"",
            "to: \"2027-08-01\"",
            "order.ron, line 8, column 61: shop: found a round from 2027-08-13 to 2027-08-01, expected the earlier day first",
        ),
        (
            "from: \"2027-08-13\", to: \"2027-09-30\"",
            "from: \"2027-08-14\", to: \"2027-08-19\"",
            "order.ron, line 8, column 61: shop: found a round without any of its days, expected one at least",
        ),
        (
            "colours: [\"plum\", \"blush\"]",
            "within: 6.0",
            "order.ron, line 7, column 107: Berry wedding: found a distance without a colour, expected the colours that it is from",
        ),
        (
            "colours: [",
            "sure: 0.2, colours: [",
            "order.ron, line 7, column 105: Berry wedding: found 0.2 as a chance, expected from 0.5 to 0.99",
        ),
        (
            "work: [",
            "cut_before: 30,\n  work: [",
            "order.ron, line 6, column 15: found 30 days, expected from 0 to 14",
        ),
    ] {
        assert_eq!(told(&PLAN.replace(from, to)), expected);
    }
    let both = told(&PLAN.replace("every: \"friday\", ", ""));
    assert!(
        both.contains("line 8") && both.contains("expected on, or every, from and to"),
        "{both}"
    );
    let day = told(&PLAN.replace("\"friday\"", "\"someday\""));
    assert!(
        day.contains("found every \"someday\", expected a day of the week"),
        "{day}"
    );
    let taken = told(&PLAN.replace("name: \"quay stall\"", "name: \"shop: small\""));
    assert!(
        taken.contains("line 8, column 12") && taken.contains("a second time"),
        "{taken}"
    );
}

#[test]
fn a_plan_of_events_alone_is_a_plan() {
    let alone = PLAN.replace("(name: \"quay stall\", stems: 60, weeks: (33, 39))", "");
    assert_eq!(whole(&plan(&alone)).needs.len(), 11);
}
