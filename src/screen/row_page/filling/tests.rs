//! Seedlings on a slip and on a line: keys in, the row out.

use std::sync::LazyLock;

use jiff::civil::Date;

use crate::form::{Keyer, RuleSet};
use crate::measure::SizeUnits;
use crate::problem::read_ron;
use crate::screen::row_page::Plot;
use crate::screen::tests::{USUAL, must_show, painted, presses, screen};
use crate::screen::theme::Theme;
use crate::screen::{App, Effect, Keeping, Message, Page};
use crate::trial::{Entry, Seedling, Trial};

const SEEDLINGS: &str = r#"[
  (number: "26-001", seed_parent: "Haaf Bell", pollen_parent: "open-pollinated", row: "sea wall", place: 2),
  (number: "26-002", seed_parent: "25-001", row: "sea wall", place: 1),
  (number: "25-001", seed_parent: "Ebb Kist", row: "byre", place: 1),
]"#;
const ENTRIES: &str =
    r#"[(id: 1, date: "2026-08-20", of: "26-001", what: observed((diameters: ["98mm"])))]"#;

static PLOT: LazyLock<Plot> = LazyLock::new(|| {
    let seedlings: Vec<Seedling> = read_ron("trial.ron", SEEDLINGS).expect("seedlings");
    let entries: Vec<Entry> = read_ron("entries", ENTRIES).expect("entries");
    let (trial, told) = Trial::of(seedlings, entries);
    assert_eq!(told, Vec::<String>::new());
    Plot {
        trial,
        today: Date::constant(2026, 9, 1),
        ..Plot::empty(Keyer::even(RuleSet::embedded().remove(0)), SizeUnits::Mm)
    }
});

/// Open on the Row page, in the order of numbers.
fn app() -> App {
    let keyer = PLOT.keyer.clone();
    let mut app = App::new(keyer, Vec::new(), SizeUnits::Mm, Theme::Plain);
    app = app.with_row(PLOT.clone(), Keeping::Folder, Vec::new());
    while app.page != Page::Row {
        app.update(Message::NextPage);
    }
    plays(&mut app, "s<home>");
    app
}

/// Plays the keys; every save succeeds. The saves.
fn plays(app: &mut App, keys: &str) -> Vec<Effect> {
    let mut saves = Vec::new();
    for event in presses(keys) {
        if let Some(effect) = app.message(event).and_then(|message| app.update(message)) {
            saves.push(effect);
            app.update(Message::Entered);
        }
    }
    saves
}

fn told(app: &App) -> Vec<String> {
    let all = app.row.trial().seedlings().iter();
    all.map(|one| format!("{}: {}", one.number, one.description()))
        .collect()
}

#[test]
fn several_of_one_cross_are_added_at_once_and_taken_back_at_once() {
    let mut app = app();
    for keys in [
        "a<c-u>26-003..26-005 Haaf Bell x Ebb Kist, byre 3<enter>",
        "A26-003..005<enter>Haaf Bell<enter>Ebb Kist<enter><enter>byre<enter>3<c-s>",
        "a<c-u><enter>26-003..26-005<down>Haaf Bell<down>Ebb Kist<down><down>byre<down>3<c-s>",
    ] {
        assert_eq!(plays(&mut app, keys), [Effect::SaveSeedlings], "{keys}");
        assert_eq!(
            told(&app)[3..],
            [
                "26-003: Haaf Bell x Ebb Kist, sown 2026, row byre, place 3",
                "26-004: Haaf Bell x Ebb Kist, sown 2026, row byre, place 4",
                "26-005: Haaf Bell x Ebb Kist, sown 2026, row byre, place 5",
            ],
            "{keys}"
        );
        must_show(
            &screen(&app, USUAL),
            keys,
            &["26-003 to 26-005 added (saved)."],
        );
        assert_eq!(plays(&mut app, "u"), [Effect::SaveSeedlings]);
        must_show(
            &screen(&app, USUAL),
            keys,
            &["took back: 26-003 to 26-005 added (saved)."],
        );
        assert_eq!(app.row.trial(), &PLOT.trial);
        plays(&mut app, "<c-r>");
        must_show(
            &screen(&app, USUAL),
            keys,
            &["done again: 26-003 to 26-005 added (saved)."],
        );
        plays(&mut app, "u");
        assert_eq!(app.row.trial(), &PLOT.trial);
    }
}

#[test]
fn a_seedling_is_changed_copied_and_dropped_and_all_is_taken_back() {
    let mut app = app();
    for (keys, told) in [
        ("e<down><down><down><down>7<c-s>", "25-001 changed (saved)."),
        (
            "/26-002<enter>e<up>26-009<c-s>",
            "26-002 is 26-009 from now on (saved).",
        ),
        ("y<c-s>", "26-010 is in the row (saved)."),
        ("X", "X again drops 26-010"),
        ("X", "26-010 dropped (saved)."),
        ("u", "took back: 26-010 dropped (saved)."),
        ("uu", "took back: 26-002 is 26-009 from now on (saved)."),
        ("u", "took back: 25-001 changed (saved)."),
        ("u", "There is no entry of this sitting to take back."),
    ] {
        plays(&mut app, keys);
        must_show(&screen(&app, USUAL), keys, &[told]);
    }
    assert_eq!(app.row.trial(), &PLOT.trial);
}

#[test]
fn a_seedling_that_something_stands_of_is_not_dropped_and_keeps_its_number() {
    let mut app = app();
    for (keys, told) in [
        ("/26-001<enter>XX", "26-001 has an entry in the book"),
        (
            "/<c-u>25-001<enter>XX",
            "25-001 is named as a parent of 26-002",
        ),
        (
            "/<c-u>26-001<enter>e<up>26-008<c-s>",
            "26-001 has an entry in the book",
        ),
        ("<c-u>26-002<c-s>", "found the number 26-002 a second time"),
    ] {
        assert_eq!(plays(&mut app, keys), [], "{keys}");
        must_show(&screen(&app, (140, 45)), keys, &[told]);
    }
    assert_eq!(app.row.trial(), &PLOT.trial);
}

#[test]
fn what_could_not_be_saved_stays_on_the_slip() {
    let mut app = app();
    let keys = presses("A26-003<enter>Haaf Bell<c-s>");
    let effects = keys
        .into_iter()
        .filter_map(|event| app.message(event).and_then(|message| app.update(message)));
    assert_eq!(effects.collect::<Vec<_>>(), [Effect::SaveSeedlings]);
    app.update(Message::NotEntered("the disk is full".to_string()));
    must_show(
        &screen(&app, USUAL),
        "full",
        &["Not saved: the disk is full.", "Haaf Bell"],
    );
    assert_eq!(app.row.trial(), &PLOT.trial);
    assert_eq!(plays(&mut app, "<c-s>"), [Effect::SaveSeedlings]);
    assert_eq!(told(&app).len(), 4);
}

#[test]
fn the_slip_of_seedlings_is_worked_in_a_small_window_too() {
    let mut app = app();
    plays(&mut app, "e");
    let drawn = |width: u16, height: u16| {
        painted((width, height), |window, buffer| {
            app.row.draw(window, buffer, Theme::Plain);
        })
    };
    insta::assert_snapshot!(drawn(80, 22), @r"
    ─ 25-001 ───────────────────────────────────────────────────────────────────────
      number         25-001
    > seed parent    [Ebb Kist_]
      pollen parent
      sown
      row            byre
      place          1
      plants









    ─ seed parent ──────────────────────────────────────────────────────────────────
      Tab: open-pollinated · 26-001 · 26-002 · 25-001
      The plant that bore the seed. A variety's name, a seedling's number,
      open-pollinated, or empty where nobody noted it.
      stated by others
    ");
    let small = drawn(44, 18);
    let seen = [
        "> seed parent",
        "[Ebb Kist_]",
        "plants",
        "Tab: open-pollinated",
    ];
    must_show(&small, "44 by 18", &seen);
}
