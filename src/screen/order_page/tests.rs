//! The Order page: keys in, screen out. Searches are run as the terminal runs them.

use std::sync::LazyLock;

use jiff::civil::Date;
use proptest::prelude::*;

use super::*;
use crate::form::{Keyer, RuleSet};
use crate::measure::SizeUnits;
use crate::order::Cut;
use crate::screen::tests::{USUAL, any_key, must_show, painted, play, screen};
use crate::screen::theme::Theme;
use crate::screen::{App, Message, Page};

const WIDE: (u16, u16) = (140, 45);
const LIST: &str = r#"[
  (name: "Haaf Bell", form: (id: "ball", known: keyed), colours: [(colour: "plum", part: main, pattern: self)], offers: [(supplier: "Oar Bulbs", price: "4.00", pack: 1), (supplier: "Ebb Nursery", price: "9.00", pack: 3)]),
  (name: "Haaf Drift", form: (id: "single", known: keyed), colours: [(colour: "white", part: main, pattern: self)], offers: [(supplier: "Oar Bulbs", price: "3.00", pack: 1)]),
  (name: "Wrack Kist", form: (id: "ball", known: keyed), colours: [(colour: "white", part: main, pattern: self)], on_hand: 10),
]"#;
pub(super) const PLAN: &str = r#"(
  ordered: "2027-01-15",
  season: (last_frost: (date: "2027-05-01"), first_frost: (date: "2027-10-10"), planted: "2027-05-01", stems_a_week: 0.9, plants_lost: 0.0, stems_lost: 0.0),
  beds: [(name: "sea wall", length: "20m", width: "1.2m", spacing: "400mm")],
  money: "450",
  suppliers: [(name: "Oar Bulbs", postage: "5", free_over: "100")],
  needs: [
    (name: "quay stall", stems: 12, weeks: (33, 38), forms: ["ball"]),
    (name: "lifeboat day", stems: 8, weeks: (36, 36), colours: ["plum"]),
  ],
)"#;

static KEYER: LazyLock<Keyer> = LazyLock::new(|| Keyer::even(RuleSet::embedded().remove(0)));

fn plan() -> Plan {
    Plan::read("order.ron", PLAN).expect("a plan")
}

/// A page that settles for a usual season: what is changed there is told by one search.
pub(super) fn app_with(plan: Result<Plan, String>, keeping: Keeping) -> App {
    let mut app = sure_app(plan, keeping, Vec::new());
    app.order = app.order.settling(Aim::OnAverage);
    app
}

fn sure_app(plan: Result<Plan, String>, keeping: Keeping, kept: Vec<Kept>) -> App {
    let stock = Stock {
        list: Varieties::read("varieties.ron", LIST).expect("a list"),
        ..Stock::empty(KEYER.set.clone(), SizeUnits::Mm)
    };
    let mut app = App::new(KEYER.clone(), Vec::new(), SizeUnits::Mm, Theme::Plain)
        .with_list(stock, Keeping::Session)
        .with_order(
            plan,
            keeping,
            Calendar::noting(Date::constant(2027, 2, 1), None),
        )
        .with_settled(kept);
    while app.page != Page::Order {
        app.update(Message::NextPage);
    }
    app
}

fn app(keeping: Keeping) -> App {
    app_with(Ok(plan()), keeping)
}

/// Does every task that is due, as the terminal does.
pub(super) fn work(app: &mut App) {
    while app.order.has_work() {
        let Some(task) = app.order.begin() else { break };
        let outcome = task.run(&mut |_| false);
        app.update(Message::Worked(Box::new(outcome)));
    }
}

/// Plays the keys, each save succeeding and each search done, on a screen of this size.
fn played(keys: &str, size: (u16, u16)) -> App {
    let mut app = app(Keeping::Folder);
    app.update(Message::Resize(size.0, size.1));
    work(&mut app);
    for part in keys.split_inclusive('|') {
        let part = part.trim_end_matches('|');
        if play(&mut app, part) == Some(Effect::SaveOrder) {
            app.update(Message::OrderSaved);
        }
        work(&mut app);
    }
    app
}

fn check(keys: &str, size: (u16, u16), seen: &[&str]) {
    let app = played(keys, size);
    let shown = screen(&app, size);
    must_show(&shown, keys, seen);
}

#[test]
fn what_is_promised_is_shown_and_a_usual_season_is_a_key_away() {
    let mut app = sure_app(Ok(plan()), Keeping::Folder, Vec::new());
    app.update(Message::Resize(USUAL.0, USUAL.1));
    work(&mut app);
    let sure = screen(&app, USUAL);
    must_show(
        &sure,
        "",
        &[
            "of 450.00, every need as sure as asked, the least found",
            "met 8",
        ],
    );
    let cost = app.order.order().expect("an order").cost;
    play(&mut app, "A");
    must_show(
        &screen(&app, USUAL),
        "A",
        &["Older numbers", "For a usual season"],
    );
    work(&mut app);
    let usual = screen(&app, USUAL);
    must_show(
        &usual,
        "A",
        &["met in a usual season, the least cost (proved)"],
    );
    assert!(app.order.order().expect("an order").cost < cost, "{usual}");
    // Both are known, so nothing is solved to go back.
    play(&mut app, "A");
    assert!(!app.order.has_work());
    must_show(
        &screen(&app, USUAL),
        "A A",
        &["every need as sure as asked"],
    );
}

#[test]
fn an_order_that_is_kept_is_not_solved_again_until_a_figure_changes() {
    let app_with = |kept| {
        let mut app = sure_app(Ok(plan()), Keeping::Folder, kept);
        app.update(Message::Resize(USUAL.0, USUAL.1));
        app
    };
    let mut app = app_with(Vec::new());
    assert!(app.order.has_work());
    work(&mut app);
    let kept = app.order.take_unkept().expect("what is to be kept");
    assert_eq!(app.order.take_unkept(), None);
    let mut next = app_with(vec![kept]);
    assert!(!next.order.has_work());
    assert_eq!(screen(&next, USUAL), screen(&app, USUAL));
    play(&mut next, "+");
    assert!(next.order.has_work());
}

/// Each week's row of the season begins with it, whatever the window and the characters; with money
/// for a few stems alone what lacks is marked without any colour.
#[test]
fn the_season_shows_every_week_and_marks_what_lacks_in_any_characters() {
    let mut poor = plan();
    poor.money = Some(crate::variety::Money::hundredths(20_00));
    for (plan, lacks) in [(plan(), false), (poor, true)] {
        let mut app = app_with(Ok(plan), Keeping::Folder);
        app.update(Message::Resize(WIDE.0, WIDE.1));
        work(&mut app);
        let wide = screen(&app, WIDE);
        play(&mut app, "g");
        for theme in [Theme::Plain, Theme::Console, Theme::Ascii] {
            for columns in [60, 78, 138] {
                let rows = app.order.season(columns, theme);
                let rows: Vec<String> = rows.iter().map(ToString::to_string).collect();
                let weeks = |rows: &[String], from: &str| -> usize {
                    let own = rows.iter().filter(|row| row.trim_start().starts_with(from));
                    own.count()
                };
                for week in 33..=38 {
                    assert_eq!(weeks(&rows, &format!("{week} ")), 1, "{week} in {rows:#?}");
                    assert!(wide.contains(&format!(" {week} ")), "{wide}");
                }
                assert_eq!(
                    rows[1..8].iter().any(|row| row.contains('!')),
                    lacks,
                    "{rows:#?}"
                );
                let ascii = rows.iter().all(|row| row.is_ascii());
                assert_eq!(ascii, theme == Theme::Ascii, "{rows:#?}");
                assert_eq!(weeks(&rows, "quay stall"), 1, "{rows:#?}");
            }
        }
        must_show(
            &wide,
            "",
            &["The season, stems by week (g)", "stems needed"],
        );
    }
}

/// Once stems of what is planted are cut, the season says first how it goes, and what is left of its promises.
#[test]
fn a_season_under_way_tells_how_it_goes_before_what_was_planned() {
    let mut app = app(Keeping::Folder);
    app.update(Message::Resize(WIDE.0, WIDE.1));
    work(&mut app);
    play(&mut app, "g");
    let untold = screen(&app, WIDE);
    assert!(!untold.contains("promises that are left"), "{untold}");
    let ground = app.order.ground.clone().expect("a list");
    let cut = |day: i8, stems: u32| {
        let name = crate::variety::Text::new("Haaf Bell").expect("a name");
        Cut::of(
            ground.list(),
            &name,
            Date::constant(2027, 8, day),
            [Some(stems), None],
        )
    };
    app.order.draw_seasons(&[cut(16, 4), cut(23, 5)]);
    let rows = app.order.season(138, Theme::Ascii);
    let rows: Vec<String> = rows.iter().map(ToString::to_string).collect();
    let at = |words: &str| {
        let found = rows.iter().position(|row| row.contains(words));
        found.unwrap_or_else(|| panic!("{words} in {rows:#?}"))
    };
    let told = [
        "9 stems cut of",
        "The promises that are left",
        "Stems needed",
    ];
    let places = told.map(at);
    assert!(places.is_sorted(), "{rows:#?}");
    let left = &rows[places[1]..places[2]];
    assert!(
        left.iter().any(|row| row.contains("lifeboat day")),
        "{rows:#?}"
    );
    // Counts of another year say nothing of this one.
    let other = Cut {
        day: Date::constant(2026, 8, 16),
        ..cut(16, 4)
    };
    app.order.draw_seasons(&[other]);
    assert_eq!(app.order.so_far, Vec::new());
}

/// Once something that is planted can serve nothing any more, the order at hand is of other candidates than the
/// list has: its plants are not taken for theirs.
#[test]
fn an_order_of_other_candidates_is_not_read_by_their_places() {
    let mut app = app(Keeping::Folder);
    work(&mut app);
    let changed = LIST.replace("plum", "white").replace("ball", "single");
    let changed = Varieties::read("varieties.ron", &changed).expect("a list");
    app.order.list_changed();
    let stock = Stock {
        list: changed.clone(),
        ..Stock::empty(KEYER.set.clone(), SizeUnits::Mm)
    };
    let today = Date::constant(2027, 9, 1);
    app.order.open(|| stock, &changed, today);
    let name = crate::variety::Text::new("Haaf Bell").expect("a name");
    let day = Date::constant(2027, 8, 16);
    let cut = Cut::of(&changed, &name, day, [Some(4), None]);
    app.order.draw_seasons(&[cut]);
    assert_eq!(app.order.so_far, Vec::new());
}

/// A few singles at 3.00, where the supplier takes no order under 20.00: a ball at 4.00 fills it up,
/// which serves nothing.
#[test]
fn what_fills_an_order_up_is_told_on_its_row_and_below() {
    let mut plan = plan();
    let terms = &mut plan.suppliers[0];
    terms.least = Some(crate::variety::Money::hundredths(20_00));
    plan.needs.truncate(1);
    plan.needs[0].forms = vec![crate::variety::Text::new("single").expect("a form")];
    plan.needs[0].stems = std::num::NonZeroU32::MIN;
    let mut app = app_with(Ok(plan), Keeping::Folder);
    app.update(Message::Resize(WIDE.0, WIDE.1));
    work(&mut app);
    play(&mut app, "l");
    let shown = screen(&app, WIDE);
    let seen = ["fills up Oar Bulbs", "to reach the least order of 20.00"];
    must_show(&shown, "l", &seen);
}

#[test]
fn needs_means_and_solution_are_on_one_page() {
    for (keys, seen) in [
        (
            "",
            &[
                "[Order]",
                "of 450.00, met in a usual season, the least cost (proved)",
                "> quay stall",
                "12 33-38  met",
                "lifeboat day",
                "money",
                "Haaf Bell",
                "week     33  34  35  36  37  38",
                "Stems from",
            ][..],
        ),
        ("<down><down>", &["> money", "450.00", "none is no limit"]),
        ("l", &["planted;", "for lifeboat day in week 36"]),
        ("ld", &["No way to meet every need without it was found."]),
        (
            "d",
            &["Right, then a variety: what doing without it costs is asked there."],
        ),
        (
            "w",
            &[
                "All orders:",
                "postage 0.00",
                "Reckoned with",
                "the grower's",
            ],
        ),
        ("g", &["Stems needed and expected by week", "Chance in 100"]),
        ("?", &["At the order", "Change the figure"]),
        ("m", &["Every need is met: there is nothing to mend."]),
    ] {
        check(keys, USUAL, &seen[..1]);
        check(keys, WIDE, seen);
    }
}

#[test]
fn a_changed_number_is_solved_again_and_can_be_undone() {
    for (keys, seen) in [
        (
            "+",
            &[
                "quay stall: 13 a week, weeks 33-38 (saved). It costs 9.00 more.",
                "13 33-38  met",
            ][..],
        ),
        ("-", &["weeks 33-38 (saved). It costs "]),
        ("<enter>", &["quay stall: [_]", "Only what changes: 60"]),
        ("6", &["quay stall: [6_]"]),
        ("14<enter>", &["14 33-38  met"]),
        ("34-37<enter>", &["12 34-37  met"]),
        (
            "0<enter>",
            &["stems: found \"0\", expected a number over 0"],
        ),
        (
            "9 forms=balls<enter>",
            &["found the form \"balls\"", "[9 forms=balls_]"],
        ),
        (
            "33-50<enter>",
            &["found week 50, expected week 40 at the latest"],
        ),
        ("<enter>most=40<enter>", &["NOT every need", "short"]),
        // A column is as wide as its figures.
        ("50000<enter>", &["short   49865 49865"]),
        (
            "<enter>varieties=3<enter>",
            &["too few", "of the 3 varieties asked for only 2 can be had"],
        ),
        (
            "<down><down><enter>20<enter>|ld",
            &["Not every need is met: there is no cost to compare with."],
        ),
        (
            "fHaaf Bell=300<enter>",
            &["No order: what is fixed by hand costs 900.00 by itself"],
        ),
        ("<down><down><enter>20<enter>", &["money: 20.00 (saved)"]),
        (
            "<down><down>-",
            &["money: 440.00 (saved). It costs as much as before."],
        ),
        (
            "<down><down><enter>-3<enter>",
            &["expected an amount such as 4 or 4.50"],
        ),
        (
            "<down><down><enter>none<enter>",
            &["money: no limit (saved)"],
        ),
        (
            "<down><down><down>+",
            &["bed, sea wall: 21.0 m, 156 places (saved)"],
        ),
        (
            "<down><down><down><enter>width=2m rows=4<enter>",
            &["200 places (saved)"],
        ),
        ("<end>+", &["shortlist only: yes (saved)"]),
        (
            "<end><up><enter>stellar<enter>",
            &["NOT every need", "Lacking: no stellar is planted"],
        ),
        (
            "<end><up><up><enter>8 free=<enter>",
            &["Oar Bulbs: 8.00 (saved)", "postage 8.00"],
        ),
        ("<end><up><up><up>-", &["orders go out: 2027-01-14 (saved)"]),
        (
            "<end><up><up><up><up>-",
            &["first frost: 2027-10-09 (saved)", "^ first cut, weeks"],
        ),
        (
            "awedding: 6 35-35 colours=white<enter><c-s>",
            &["need wedding added (saved)", "35  met"],
        ),
        (
            "x",
            &["x again drops the need quay stall; u takes that back."],
        ),
        ("x<down>x", &["x again drops the need lifeboat day"]),
        ("xx", &["need quay stall dropped (saved)"]),
        (
            "xx|u",
            &["took back: need quay stall dropped (saved)", "> quay stall"],
        ),
        (
            "xx|u|<c-r>",
            &[
                "done again: need quay stall dropped (saved)",
                "> lifeboat day",
            ],
        ),
        (
            "Bbyre<enter>10m<enter><c-s>",
            &["bed byre added (saved)", "> bed, byre", "10.0 m, 75 places"],
        ),
        (
            "<down><down><down>a<enter>30m<c-s>|u",
            &["took back: bed bed 1 added (saved)"],
        ),
        (
            "T<enter>7.50<enter><c-s>",
            &["terms of Ebb Nursery added (saved)", "> Ebb Nursery"],
        ),
        (
            "y<c-s>",
            &["need quay stall 2 added (saved)", "> quay stall 2"],
        ),
        (
            "E<down>30<enter><c-s>",
            &["need quay stall: stems a week changed (saved)", "30 33-38"],
        ),
        (
            "<end>E",
            &["The season and the money", "> shortlist only    [no_]"],
        ),
        (
            "<down><down>E500<c-s>",
            &["season: money changed (saved)", "500.00"],
        ),
        ("<down><down>x", &["can be dropped"]),
        ("<down><down>y", &["can be copied"]),
        (
            "E<down>0<c-s>",
            &[
                "The need quay stall",
                "found \"0\", expected a number over 0",
            ],
        ),
        (
            "E<down><down>33-50<c-s>",
            &["found week 50, expected week 40 at the latest", "[33-50"],
        ),
        ("u", &["There is no change to undo."]),
        (
            "fHaaf Drift=4<enter>",
            &[
                "Haaf Drift: 4 tubers, fixed by hand (saved)",
                "4= Haaf Drift",
            ],
        ),
        (
            "fHaaf Drift=0<enter>|l<end>x",
            &["Haaf Drift: chosen by what is needed (saved)"],
        ),
        ("fHaaf Drift<enter>", &["expected such as Haaf Kettle=10"]),
        (
            "fWrack Kist=3<enter>",
            &["expected a variety that someone offers"],
        ),
        ("l<enter>7<enter>", &["7= Haaf Bell", "Oar Bulbs"]),
        ("l<enter>x<enter>", &["expected a number of tubers"]),
    ] {
        check(keys, USUAL, seen);
    }
}

#[test]
fn the_last_solution_stays_in_view_while_it_solves() {
    let mut app = played("", USUAL);
    let before = screen(&app, USUAL);
    let row = before
        .lines()
        .find(|line| line.contains("Haaf Bell"))
        .expect("a line")
        .to_string();
    play(&mut app, "+");
    let task = app.order.begin().expect("a task");
    let shown = screen(&app, USUAL);
    assert!(
        shown.contains("Solving (Esc stops). The order in view is of the older numbers."),
        "{shown}"
    );
    let bought = row.split("Haaf Bell").nth(1).expect("a cost");
    assert!(shown.contains(bought.trim_end()), "{shown}");
    // A second change while it solves: what the first search finds is of no use.
    play(&mut app, "+");
    assert!(!app.order.goes_on(task.id));
    let late = task.run(&mut |_| false);
    app.update(Message::Worked(Box::new(late)));
    assert!(app.order.has_work());
    work(&mut app);
    let shown = screen(&app, USUAL);
    assert!(
        shown.contains("14 33-38  met") && !shown.contains("Solving"),
        "{shown}"
    );
}

#[test]
fn what_a_superseded_search_found_is_shown_as_of_older_numbers() {
    let mut app = app(Keeping::Session);
    let task = app.order.begin().expect("a task");
    play(&mut app, "+");
    let outcome = task.run(&mut |_| false);
    app.update(Message::Worked(Box::new(outcome)));
    let shown = screen(&app, USUAL);
    assert!(shown.contains("Older numbers: buy 1"), "{shown}");
    assert!(shown.contains("13 33-38  ?"), "{shown}");
    work(&mut app);
    assert!(!screen(&app, USUAL).contains("Older"));
}

#[test]
fn solving_can_be_stopped_and_begun_again() {
    let mut app = app(Keeping::Session);
    let task = app.order.begin().expect("a task");
    play(&mut app, "<esc>");
    assert!(!app.order.goes_on(task.id));
    let outcome = task.run(&mut |_| true);
    app.update(Message::Worked(Box::new(outcome)));
    let shown = screen(&app, USUAL);
    assert!(shown.contains("Stopped: s solves again."), "{shown}");
    assert!(!app.order.has_work());
    play(&mut app, "s");
    work(&mut app);
    assert!(screen(&app, USUAL).contains("the least cost (proved)"));
}

#[test]
fn a_stopped_search_leaves_the_last_order_in_view() {
    let mut app = played("", USUAL);
    let bought = screen(&app, USUAL)
        .lines()
        .find(|line| line.contains("Haaf Bell"))
        .and_then(|line| line.split("Haaf Bell").nth(1))
        .expect("a cost")
        .trim_end()
        .to_string();
    play(
        &mut app,
        "awedding: 40 37-37 colours=plum within=8<enter><c-s>",
    );
    let task = app.order.begin().expect("a task");
    play(&mut app, "<esc>");
    let outcome = task.run(&mut |_| true);
    app.update(Message::Worked(Box::new(outcome)));
    let shown = screen(&app, USUAL);
    for text in [
        "Older numbers: ",
        "met in a usual season",
        "Stopped: no order was found yet for the changed figures.",
        "Not solved again: s solves.",
        &bought,
    ] {
        assert!(shown.contains(text), "{text:?} is not on\n{shown}");
    }
    assert!(!app.order.has_work());
    play(&mut app, "s");
    work(&mut app);
    assert!(!screen(&app, USUAL).contains("Older numbers"));
}

#[test]
fn what_falls_short_is_told_with_what_mends_it() {
    check(
        "<down><down><enter>10<enter>|m",
        WIDE,
        &[
            "NOT every need met: that takes",
            "short",
            "Any one of these mends it",
            "more money",
        ],
    );
}

/// At the usual size the cause has room, whatever else is known of the need.
#[test]
fn why_a_need_is_not_met_stands_at_the_need() {
    check(
        "<enter>26-38<enter>|",
        USUAL,
        &[
            "NOT every need can be met; all else is",
            "Weeks 26 to 29: nothing that could serve it is cut before 31 July 2027",
        ],
    );
    check(
        "<enter>26-38<enter>|m",
        WIDE,
        &[
            "Any one of these mends it",
            "quay stall only in weeks 30 to 38",
        ],
    );
    // A need that is met has no cause.
    check(
        "<down><enter>colours=apricot<enter>|",
        WIDE,
        &["no variety is of its colours"],
    );
    let app = played("<enter>26-38<enter>|<down>", WIDE);
    assert!(!screen(&app, WIDE).contains("nothing that could serve it"));
}

#[test]
fn nothing_is_called_saved_before_it_is_on_the_disk() {
    let mut app = played("", USUAL);
    assert_eq!(play(&mut app, "+"), Some(Effect::SaveOrder));
    assert!(!screen(&app, USUAL).contains("(saved)"));
    app.update(Message::OrderNotSaved("the disk is full".to_string()));
    let shown = screen(&app, USUAL);
    assert!(shown.contains("Not saved: the disk is full."), "{shown}");
    assert!(shown.contains("NOT SAVED"), "{shown}");
    assert_eq!(play(&mut app, "q"), None);
    assert!(screen(&app, USUAL).contains("your order, NOT SAVED"));
    assert_eq!(play(&mut app, "q"), Some(Effect::Quit));
}

#[test]
fn an_order_that_another_program_holds_is_only_read() {
    let mut app = app(Keeping::ReadOnly(
        "process 7 has the folder open".to_string(),
    ));
    work(&mut app);
    for keys in ["+", "x", "b"] {
        assert_eq!(play(&mut app, keys), None);
        let shown = screen(&app, USUAL);
        assert!(
            shown.contains("nothing was changed: process 7"),
            "{keys}\n{shown}"
        );
    }
}

#[test]
fn without_a_plan_the_page_says_why() {
    let mut app = app_with(
        Err("order.ron, line 4, column 2: found x".to_string()),
        Keeping::Session,
    );
    work(&mut app);
    play(&mut app, "+a<enter>xfmds<esc>lw<esc>g<esc>u");
    assert!(screen(&app, USUAL).contains("There is no order to settle: order.ron, line 4"));
}

#[test]
fn a_change_of_the_shortlist_reaches_the_order() {
    let mut app = played("b", USUAL);
    assert!(screen(&app, USUAL).contains("NOT every need"));
    // To Choose, the first variety on the shortlist, and back.
    while app.page != Page::Choose {
        app.update(Message::NextPage);
    }
    play(&mut app, "m");
    while app.page != Page::Order {
        app.update(Message::NextPage);
    }
    work(&mut app);
    let shown = screen(&app, USUAL);
    assert!(
        shown.contains("met in a usual season, the least cost"),
        "{shown}"
    );
}

#[test]
fn leaving_with_a_slip_of_the_plan_half_filled_in_is_asked_twice() {
    let mut app = app(Keeping::Folder);
    assert_eq!(play(&mut app, "awedding<c-c>"), None);
    must_show(
        &screen(&app, USUAL),
        "c-c",
        &["wedding", "Quit again to leave"],
    );
    assert_eq!(play(&mut app, "<c-c>"), Some(Effect::Quit));
    // So with what is of no page: a folder of one's own that is to be made.
    let mut app = self::app(Keeping::Folder);
    assert_eq!(play(&mut app, "Fgarden<c-c>"), None);
    must_show(
        &screen(&app, USUAL),
        "c-c",
        &["garden", "Quit again to leave"],
    );
    assert_eq!(play(&mut app, "<c-c>"), Some(Effect::Quit));
}

/// The slip alone in a window of this size, after these keys.
fn slip(keys: &str, size: (u16, u16)) -> String {
    let mut app = app(Keeping::Folder);
    play(&mut app, keys);
    painted(size, |window, buffer| {
        app.order.draw(window, buffer, Theme::Plain);
    })
}

#[test]
fn a_need_is_filled_in_on_a_slip() {
    insta::assert_snapshot!(slip("awedding<enter>12<enter><down>ev", (80, 24)), @r#"
    ─ A new need ───────────────────────────────────────────────────────────────────
      name              wedding
      stems a week      12
      weeks             36-39
      What serves
    > use               [ev_]
      colours
      how near
      judged by
      forms
      least fitness
      Mixture
      varieties
      different forms
      stems of each
      most from one, %
      Promise
      how sure
    ─ use ──────────────────────────────────────────────────────────────────────────
      Tab: event-focal
      A use that the variety must fit. Nothing for any, or one of event-focal,
      market-bunch, worn, low-bowl, floating, filler, accent, pollinators, border,
      exposed.
      yours to say
    "#);
    insta::assert_snapshot!(slip("awedding<enter>12<enter><down>ev", (44, 20)), @r#"
    ─ A new need ───────────────────────────────
      name            wedding
      stems a week    12
      weeks           36-39
      What serves
    > use             [ev_]
      colours
      how near
      judged by
      forms
      least fitness
      … 7 below
    ─ use ──────────────────────────────────────
      Tab: event-focal
      A use that the variety must fit. Nothing
      for any, or one of event-focal,
      market-bunch, worn, low-bowl, floating,
      filler, accent, pollinators, border,
      exposed.
      yours to say
    "#);
}

#[test]
fn a_bed_and_terms_are_filled_in_on_a_slip() {
    insta::assert_snapshot!(slip("Bbyre<enter>", (80, 24)), @r#"
    ─ A new bed ────────────────────────────────────────────────────────────────────
      name        byre
    > length      [20m_]
      width       1.2m
      spacing     400mm
      rows apart
      rows
      staggered   no












    ─ length ───────────────────────────────────────────────────────────────────────
      From end to end. A length such as 24m, 80ft, 120cm or 48in. It then holds 150
      plants.
      yours to say
    "#);
    insta::assert_snapshot!(slip("T<enter>7.5o<enter>", (44, 20)), @r#"
    ─ A supplier's terms ───────────────────────
      supplier     Ebb Nursery
    > postage      [7.5o_]
      free from
      least order
      last day







    ─ postage ──────────────────────────────────
      found "7.5o", expected an amount such as
      4 or 4.50, without a sign or a currency
      mark
      Postage on an order. An amount such as
      7.50; nothing is none.
      stated by others
    "#);
}

#[test]
fn the_season_is_filled_in_on_a_slip() {
    insta::assert_snapshot!(slip("<down><down>E", (80, 24)), @r#"
    ─ The season and the money ─────────────────────────────────────────────────────
      planted           2027-05-01
      last frost        2027-05-01
      first frost       2027-10-10
      started           tubers
      The order
      orders go out     2027-01-15
    > money             [450.00_]
      shortlist only    no
      forms to try
      What a plant gives
      first cut, weeks
      stems a week      0.9
      rise to flower
      plants lost, %    0
      stems lost, %     0
      tubers kept, %
      Events and rounds
      cut before, days

    ─ money ────────────────────────────────────────────────────────────────────────
      The most that the order may cost. An amount such as 450 or 450.50; nothing is
      no limit.
      yours to say
    "#);
    insta::assert_snapshot!(slip("<down><down>E", (44, 20)), @r#"
    ─ The season and the money ─────────────────
      planted         2027-05-01
      last frost      2027-05-01
      first frost     2027-10-10
      started         tubers
      The order
      orders go out   2027-01-15
    > money           [450.00_]
      shortlist only  no
      forms to try
      What a plant gives
      first cut, we…
      stems a week    0.9
      rise to flower
      … 5 below
    ─ money ────────────────────────────────────
      The most that the order may cost. An
      amount such as 450 or 450.50; nothing is
      no limit.
      yours to say
    "#);
}

/// A folder without an order: its page, after these keys, each save succeeding.
fn begun(keys: &str) -> App {
    let stock = Stock {
        list: Varieties::read("varieties.ron", LIST).expect("a list"),
        ..Stock::empty(KEYER.set.clone(), SizeUnits::Mm)
    };
    let plot = crate::screen::row_page::Plot {
        today: jiff::civil::date(2026, 11, 20),
        ..crate::screen::row_page::Plot::empty(KEYER.clone(), SizeUnits::Mm)
    };
    let mut app = App::new(KEYER.clone(), Vec::new(), SizeUnits::Mm, Theme::Plain)
        .with_list(stock, Keeping::Folder)
        .with_row(plot, Keeping::Folder, Vec::new())
        .without_order(Keeping::Folder, Calendar::FILES);
    while app.page != Page::Order {
        app.update(Message::NextPage);
    }
    for part in keys.split('|') {
        if play(&mut app, part) == Some(Effect::SaveOrder) {
            app.update(Message::OrderSaved);
        }
    }
    app
}

#[test]
fn an_order_is_begun_from_nothing_and_settles() {
    for (keys, seen) in [
        ("", &["No order yet: b begins one.", "b begin"][..]),
        ("b", &["The season and the money (1 of 3)", "[2027-05-20_]"]),
        ("b<esc>", &["No order yet"]),
        ("b<c-s>", &["The first bed (2 of 3)"]),
        ("b<c-s><esc>", &["begun and not saved yet: b goes on"]),
        ("b<c-s><esc>b", &["The first bed (2 of 3)"]),
        ("b<c-s><c-s>", &["The first need (3 of 3)"]),
        (
            "b2027-12-01<c-s>",
            &[
                "The season and the money (1 of 3)",
                "before the first frost",
            ],
        ),
    ] {
        must_show(&screen(&begun(keys), USUAL), keys, seen);
    }
    let mut app = begun("b<c-s>byre<c-s>bunches<enter>6<enter><c-s>");
    must_show(
        &screen(&app, USUAL),
        "begun",
        &["the order is begun (saved)", "bed, byre"],
    );
    let plan = app.order.plan().expect("a plan").clone();
    let text = plan.write().expect("writes");
    assert_eq!(Plan::read("order.ron", &text), Ok(plan), "{text}");
    work(&mut app);
    must_show(
        &screen(&app, USUAL),
        "settled",
        &["every need as sure as asked"],
    );
}

#[test]
fn the_last_change_is_taken_back_on_the_page_where_it_was_made() {
    let mut app = played("+", USUAL);
    let page = |app: &App| app.page;
    while app.page != Page::Choose {
        app.update(Message::NextPage);
    }
    play(&mut app, "m");
    while app.page != Page::Tags {
        app.update(Message::NextPage);
    }
    play(&mut app, "u");
    assert_eq!(page(&app), Page::Choose);
    assert!(screen(&app, USUAL).contains("undone") || screen(&app, USUAL).contains("took back"));
    play(&mut app, "u");
    assert_eq!(page(&app), Page::Order);
    assert_eq!(app.order.plan(), Some(&plan()));
    assert!(screen(&app, USUAL).contains("took back: quay stall: 13 a week"));
    play(&mut app, "<c-r>");
    assert_ne!(app.order.plan(), Some(&plan()));
    play(&mut app, "<c-r>");
    assert_eq!(page(&app), Page::Choose);
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]

    #[test]
    fn any_records_added_changed_copied_and_dropped_are_undone_to_the_start(
        steps in prop::collection::vec(0_usize..12, 0..24),
    ) {
        let mut app = app(Keeping::Session);
        for step in &steps {
            let keys = [
                "a<c-s>", "B<c-s>", "T<c-s>", "y<c-s>", "xx", "E<down>7<c-s><esc><esc>", "E<down>7m<c-s><esc><esc>",
                "<down><down>", "<up>", "<end>", "+", "u",
            ][*step];
            play(&mut app, keys);
        }
        let written = app.order.plan().expect("a plan").write().expect("writes");
        let read = Plan::read("order.ron", &written).ok();
        prop_assert_eq!(read.as_ref(), app.order.plan());
        for _ in &steps {
            play(&mut app, "u");
        }
        prop_assert_eq!(app.order.plan(), Some(&plan()));
    }

    #[test]
    fn any_keys_at_any_size_never_panic(
        keys in prop::collection::vec(any_key(), 0..40),
        width in 1_u16..150,
        height in 1_u16..50,
    ) {
        let mut app = app(Keeping::Session);
        app.update(Message::Resize(width, height));
        for key in keys {
            if let Some(message) = app.message(key) {
                app.update(message);
            }
            let due = app.page == Page::Order && app.order.has_work();
            if let Some(task) = due.then(|| app.order.begin()).flatten() {
                let outcome = task.run(&mut |progress| progress.nodes > 3);
                app.update(Message::Worked(Box::new(outcome)));
            }
            screen(&app, (width, height));
        }
    }
}
