//! The Row page: keys in, screen out.

use std::sync::LazyLock;

use proptest::prelude::*;

use super::*;
use crate::form::RuleSet;
use crate::problem::read_ron;
use crate::screen::tests::{USUAL, any_key, must_show, play, screen};
use crate::screen::theme::Theme;
use crate::screen::{App, Message, Page};
use crate::trial::{BloomDays, Entry, Seedling, What};

const WIDE: (u16, u16) = (140, 45);
const SEEDLINGS: &str = r#"[
  (number: "26-001", seed_parent: "Haaf Bell", pollen_parent: "open-pollinated", row: "sea wall", place: 2),
  (number: "26-002", seed_parent: "Haaf Bell", row: "sea wall", place: 1),
  (number: "25-001", seed_parent: "Ebb Kist", row: "byre", place: 1),
]"#;
const ENTRIES: &str = r#"[
  (id: 1, date: "2026-08-20", by: "Ann", of: "26-001", what: observed((bloom: "centre=closed tip=rounded outline=globe roll=forward rolled=90", diameters: ["98mm", "104mm", "101mm"], vase: ["7", "8", "6+"], weather: ["wind:3/12"]))),
  (id: 2, date: "2025-08-20", of: "25-001", what: observed((diameters: ["49mm"]))),
  (id: 3, date: "2025-10-01", of: "25-001", what: decided((fate: cull, reason: "weak neck"))),
]"#;

static PLOT: LazyLock<Plot> = LazyLock::new(|| {
    let seedlings = read_ron("trial.ron", SEEDLINGS).expect("seedlings");
    let entries: Vec<Entry> = read_ron("entries", ENTRIES).expect("entries");
    let (trial, told) = Trial::of(seedlings, entries);
    assert_eq!(told, Vec::<String>::new());
    let keyer = Keyer::even(RuleSet::embedded().remove(0));
    Plot {
        trial,
        today: Date::constant(2026, 9, 1),
        days: None,
        ..Plot::empty(keyer, SizeUnits::Mm)
    }
});

/// Open on the Row page.
fn app(keeping: Keeping) -> App {
    on_the_row(PLOT.clone(), keeping)
}

fn on_the_row(plot: Plot, keeping: Keeping) -> App {
    let keyer = plot.keyer.clone();
    let mut app = App::new(keyer, Vec::new(), SizeUnits::Mm, Theme::Plain);
    app = app.with_row(plot, keeping, Vec::new());
    while app.page != Page::Row {
        app.update(Message::NextPage);
    }
    app
}

/// Plays the keys, each save succeeding, on a new screen of this size; every text must be seen.
fn check(keys: &str, size: (u16, u16), seen: &[&str]) {
    let mut app = app(Keeping::Folder);
    app.update(Message::Resize(size.0, size.1));
    for part in keys.split_inclusive("<enter>") {
        if play(&mut app, part).is_some() {
            app.update(Message::Entered);
        }
    }
    let shown = screen(&app, size);
    must_show(&shown, keys, seen);
}

/// Every cell of the row's account is on the page, under the name that it has everywhere.
#[test]
fn the_table_is_the_rows_own() {
    const WIDEST: (u16, u16) = (240, 45);
    let mut app = app(Keeping::Folder);
    app.update(Message::Resize(WIDEST.0, WIDEST.1));
    let shown = screen(&app, WIDEST);
    let page = &app.row;
    let table = crate::trial::account::row_table(page.plot.units);
    let names = table.columns.iter().map(|column| column.name.clone());
    let mut drawn = vec![names.collect::<Vec<String>>()];
    for sum in &page.sums {
        let cells = page.plant(sum).cells(&sum.next, &page.by());
        drawn.push(cells.iter().map(crate::account::Cell::shown).collect());
    }
    for cells in drawn {
        let line = shown.lines().find(|line| {
            let mut rest = *line;
            cells.iter().all(|cell| match rest.find(cell.as_str()) {
                Some(at) => {
                    rest = &rest[at + cell.len()..];
                    true
                }
                None => false,
            })
        });
        assert!(line.is_some(), "{cells:?} is not in\n{shown}");
    }
}

#[test]
fn the_row_stands_by_what_is_next_and_shows_what_the_evidence_adds_up_to() {
    for (keys, seen) in [
        (
            "",
            &[
                "3 plants: 0 kept, 1 culled, 2 open; by what is next; notes of 2026-09-01.",
                "101.0",
                "Next: Answer set",
                "Note: 1 diameters  2 vase",
            ][..],
        ),
        ("s", &["by number", ">   26-001"]),
        ("ss", &["by place in the garden"]),
        (
            "/byre",
            &["Words: [byre_]", "1 plant with \"byre\"", "culled"],
        ),
        ("/byre<esc>", &["3 plants:"]),
        ("/zzz", &["No plant of the row holds these words"]),
        ("g", &["selection rate", "Haaf Bell"]),
        (
            "/26-001<enter><enter><end>",
            &["2026-08-20, Ann: 98, 104, 101", "withdraw=ITS NUMBER"],
        ),
        ("?", &["At the row", "Note along the row"]),
    ] {
        check(keys, USUAL, seen);
        check(keys, WIDE, &seen[..1]);
    }
}

#[test]
fn plants_are_picked_and_told_apart_by_their_days_in_the_vase() {
    let tested = "/26-001<enter>27 8 8 9<enter><esc>/<back><back><back><back><back><back>26-002<enter>23 3 4 4 4 5<enter><esc>/<back><back><back><back><back><back><enter>";
    for (keys, seen) in [
        ("v", &["Pick two to four with x, then v"][..]),
        ("ss<home><down>x<down>x", &["  x 26-002", "> x 26-001"]),
        ("ss<home><down>xx<down>xv", &["Pick two to four with x"]),
        (
            "s<home><down>x<down>xv",
            &["26-002 has no vase test yet", "median 7 days"],
        ),
    ] {
        check(keys, USUAL, seen);
    }
    let keys = format!("{tested}s<home><down>x<down>xv");
    let seen = [
        "26-001 lasts longer than 26-002: p = 0.0017",
        "All stems of 26-002 are of one day",
        "median 4 days",
    ];
    check(&keys, USUAL, &seen[..1]);
    check(&keys, WIDE, &seen);
}

#[test]
fn a_walk_notes_one_plant_after_the_other() {
    for (keys, seen) in [
        (
            "ss<home><down>1",
            &["26-002 diameters: [_]", "One for each bloom"][..],
        ),
        // A cursor that stays on the walk's row, each line saved before it is said to be.
        (
            "ss<home><down>188 90<enter>",
            &["26-002: 88, 90 mm across (saved).", "26-001 diameters: [_]"],
        ),
        (
            "ss<home><down>1<enter>91<enter>",
            &[
                "26-001: 91 mm across (saved).",
                "That was the last one of the row.",
            ],
        ),
        ("12000<enter>", &["diameters: [2000_]", "expected"]),
        ("1300<enter>", &["Enter again saves it as it is"]),
        ("1300<enter><enter>", &["300 mm across (saved)"]),
        ("27 8+<enter>", &["in the vase 7, 8+ days (saved)"]),
        ("3wind 2/9<enter>", &["wind damaged 2 of 9 (saved)"]),
        ("3gale 2/9<enter>", &["expected wind, rain or sun"]),
        (
            "0rows=2 note='weak neck'<enter>",
            &["2 rows of florets; \"weak neck\" (saved)"],
        ),
        ("1<esc>", &["3 plants:"]),
        ("t<back><back>28 Ann<enter>", &["expected a day"]),
        ("a", &["New seedling: [26-003 _]"]),
        (
            "aEbb Kist x Haaf Bell, 9<enter>",
            &["26-003 is in the row (saved)", "Ebb Kist x Haaf Bell"],
        ),
        (
            "d<back><back><back><back><back>not yet<enter>",
            &["expected keep, hold or cull"],
        ),
    ] {
        check(keys, USUAL, seen);
    }
}

/// At the usual size what is next has the room of some figures.
#[test]
fn decision_and_advice_are_two_columns_and_what_is_next_is_the_widest() {
    check(
        "",
        USUAL,
        &["decision advice what next", "open     hold   Answer set"],
    );
    check(
        "",
        WIDE,
        &["   25 open", "vase d damage % decision advice what next"],
    );
    let plot = PLOT.clone();
    let mut app = on_the_row(plot, Keeping::Session);
    app.update(Message::Resize(WIDE.0, WIDE.1));
    let shown = screen(&app, WIDE);
    let head = shown.lines().find(|row| row.starts_with("    plant"));
    let head = head.expect("the head of the table");
    let heads = [
        "plant", "form", "mean", "vase", "damage", "decision", "advice", "what",
    ];
    let starts = heads.map(|name| head.find(name).expect(name));
    let last = usize::from(WIDE.0) - starts[heads.len() - 1];
    assert!(
        starts.windows(2).all(|two| two[1] - two[0] < last),
        "{head}"
    );
}

/// In a telephone's terminal a bloom's diameters are noted, plant after plant.
#[test]
fn a_walk_has_room_on_a_telephone() {
    check(
        "ss<home><down>188 90<enter>",
        (44, 20),
        &[
            "26-002: 88, 90 mm across (saved).",
            "26-001 diameters: [_]",
            ">   26-001",
        ],
    );
    check(
        "",
        (44, 20),
        &[
            " [Row] 3 of 6",
            "0 words",
            "Next: Answer set",
            "? keys",
            "q quit",
        ],
    );
}

/// All of it at once, on the smallest window too: Enter again would save it.
#[test]
fn what_is_odd_is_seen_whole_before_it_is_saved() {
    let frosted = Plot {
        bloom_days: Some(BloomDays {
            first: Date::constant(2026, 7, 1),
            frost: Date::constant(2026, 8, 15),
        }),
        ..PLOT.clone()
    };
    for size in [(60, 16), USUAL, WIDE] {
        let mut app = on_the_row(frosted.clone(), Keeping::Folder);
        app.update(Message::Resize(size.0, size.1));
        assert!(play(&mut app, "ss<home><down><down>1300<enter>").is_none());
        let shown = screen(&app, size);
        let words: Vec<&str> = shown.split_whitespace().collect();
        let seen = [
            "Enter again saves it as it is. To check: date: found none, so today, 2026-09-01",
            "after the first frost",
            "diameter: found 300 mm, expected",
            "beside 3 other blooms of 26-001.",
        ];
        must_show(&words.join(" "), "300 mm", &seen);
    }
}

#[test]
fn the_grower_decides_and_takes_back() {
    for (keys, seen) in [
        (
            "/26-001<enter>d<back><back><back><back><back>cull weak<enter>",
            &["26-001: culled: weak (saved)", "culled"][..],
        ),
        (
            "/26-001<enter>190<enter><esc>u",
            &["took back: 26-001: 90", "(saved)"],
        ),
        ("u", &["There is no entry of this sitting to take back."]),
    ] {
        check(keys, USUAL, seen);
    }
    let mut app = app(Keeping::Session);
    let before = app
        .row
        .plot
        .trial
        .evidence(&"26-001".parse().expect("a number"), &under());
    play(&mut app, "/26-001<enter>190 92<enter><esc>");
    assert_eq!(
        evidence(&app).diameters.as_ref().map(|seen| seen.count()),
        Some(5)
    );
    play(&mut app, "u");
    assert_eq!(*evidence(&app), before);
    play(&mut app, "<c-r>");
    assert_eq!(
        evidence(&app).diameters.as_ref().map(|seen| seen.count()),
        Some(5)
    );
    play(&mut app, "u");
    assert_eq!(*evidence(&app), before);
}

#[test]
fn what_is_noted_of_a_variety_reaches_its_score_on_the_choose_page() {
    let text = r#"[(name: "Haaf Bell", form: (id: "ball", known: keyed), diameters: ["98mm"], stem: "500mm")]"#;
    let rules = PLOT.keyer.set.clone();
    let stock = crate::screen::choose_page::Stock {
        list: Varieties::read("varieties.ron", text).expect("a list"),
        ..crate::screen::choose_page::Stock::empty(rules, SizeUnits::Mm)
    };
    let seedlings = vec![Seedling::numbered("26-001".parse().expect("a number"))];
    let entry = r#"[(id: 1, date: "2026-08-20", of: "Haaf Bell", what: observed((cut: 3)))]"#;
    let entries: Vec<Entry> = read_ron("entries", entry).expect("entries");
    let plot = Plot {
        trial: Trial::of(seedlings, entries).0,
        ..PLOT.clone()
    };
    let mut app = App::new(PLOT.keyer.clone(), Vec::new(), SizeUnits::Mm, Theme::Plain)
        .with_list(stock, Keeping::Session)
        .with_row(plot, Keeping::Session, Vec::new());
    // To Choose; for market bunches.
    play(&mut app, "<tab>p<down><down><enter>");
    let before = screen(&app, WIDE);
    assert!(
        before.contains("For market bunch") && !before.contains("of 8 stems"),
        "{before}"
    );
    // To the row, note a vase test of the variety, and back.
    play(&mut app, "<tab>/haaf<enter>22 2 2 2 2 2 2 2<enter><esc>");
    app.update(Message::PreviousPage);
    let after = screen(&app, WIDE);
    assert!(after.contains("For market bunch: 79 %"), "{after}");
    assert!(after.contains("observed of 8 stems"), "{after}");
    assert!(after.contains(" 79       ?"), "{after}");
}

fn under() -> EvidenceContext<'static> {
    static NONE: LazyLock<Neighbours> = LazyLock::new(Neighbours::default);
    EvidenceContext {
        keyer: &PLOT.keyer,
        words: &PLOT.words,
        neighbours: &NONE,
    }
}

fn evidence(app: &App) -> &Evidence {
    let is = |sum: &&Sum| sum.evidence.subject.to_string() == "26-001";
    &app.row.sums.iter().find(is).expect("26-001").evidence
}

#[test]
fn nothing_is_called_saved_before_it_is_on_the_disk() {
    let mut app = app(Keeping::Folder);
    let effect = play(&mut app, "/26-001<enter>191<enter>");
    assert_eq!(effect, Some(Effect::AddEntry));
    let entry = app.row.pending_entry().expect("an entry").clone();
    assert!(matches!(entry.what, What::Observed(ref seen) if seen.diameters.len() == 1));
    assert!(!screen(&app, USUAL).contains("(saved)"));
    app.update(Message::NotEntered("the disk is full".to_string()));
    let shown = screen(&app, USUAL);
    assert!(shown.contains("Not saved: the disk is full."), "{shown}");
    assert!(
        shown.contains("diameters: [91_]"),
        "the line is lost\n{shown}"
    );
    assert_eq!(play(&mut app, "<enter>"), Some(Effect::AddEntry));
    app.update(Message::Entered);
    assert!(screen(&app, USUAL).contains("(saved)"));
}

#[test]
fn a_row_that_another_program_holds_is_only_read() {
    let mut app = app(Keeping::ReadOnly(
        "process 7 has the folder open".to_string(),
    ));
    for keys in ["1", "d", "a"] {
        assert_eq!(play(&mut app, keys), None);
        let shown = screen(&app, USUAL);
        assert!(
            shown.contains("nothing can be noted: process 7"),
            "{keys}\n{shown}"
        );
    }
}

#[test]
fn a_keyed_bloom_goes_to_a_seedling_and_the_next_bloom_follows() {
    let mut app = app(Keeping::Folder);
    while app.page != Page::Key {
        app.update(Message::NextPage);
    }
    play(&mut app, "s");
    assert!(screen(&app, USUAL).contains("Nothing is answered yet"));
    play(&mut app, "1d98 104<enter>s");
    assert_eq!(app.page, Page::Row);
    assert!(screen(&app, USUAL).contains("Whose bloom is this: [_"));
    // Not this time: the bloom is still on the Key page.
    play(&mut app, "<esc>");
    assert_eq!((app.page, app.key.answers().is_empty()), (Page::Key, false));
    play(&mut app, "s");
    assert_eq!(play(&mut app, "26-2<enter>"), Some(Effect::AddEntry));
    let entry = app.row.pending_entry().expect("an entry").clone();
    assert_eq!(entry.of.to_string(), "26-002");
    app.update(Message::Entered);
    assert_eq!((app.page, app.key.answers().is_empty()), (Page::Key, true));
    let shown = screen(&app, USUAL);
    assert!(shown.contains("26-002: 98, 104 mm across"), "{shown}");
}

#[test]
fn what_is_saved_is_what_is_typed_of_the_plant_that_the_line_names() {
    for (keys, seen) in [
        (
            "/26-001<enter>dkeep good plum<enter>",
            &["26-001: kept: good plum (saved)."][..],
        ),
        ("/26<enter>s<home>d<down>", &["26-002: [hold "]),
        (
            "/26<enter>s<home>dcull weak<down><enter>",
            &["26-002: held (saved)."],
        ),
    ] {
        check(keys, USUAL, seen);
    }
    // The keyed bloom goes where the cursor went, and the line says where.
    let mut app = app(Keeping::Folder);
    play(&mut app, "s<home><down>");
    while app.page != Page::Key {
        app.update(Message::NextPage);
    }
    play(&mut app, "1s");
    let shown = screen(&app, USUAL);
    must_show(&shown, "s", &["Bloom of 26-001: [26-001_]"]);
    play(&mut app, "<down>");
    let shown = screen(&app, USUAL);
    must_show(&shown, "down", &["Bloom of 26-002: [26-002_]"]);
    assert_eq!(play(&mut app, "<enter>"), Some(Effect::AddEntry));
    let entry = app.row.pending_entry().expect("an entry");
    assert_eq!(entry.of.to_string(), "26-002");
}

#[test]
fn a_bloom_of_a_plant_that_is_not_in_the_row_adds_the_plant_if_asked_to() {
    for keeping in [Keeping::Session, Keeping::Folder] {
        let mut app = app(keeping.clone());
        while app.page != Page::Key {
            app.update(Message::NextPage);
        }
        assert_eq!(play(&mut app, "1s26-050<enter>"), None);
        let shown = screen(&app, USUAL);
        let asked = [
            "Bloom of 26-050, not in the row: [26-050_]",
            "Enter again adds 26-050",
        ];
        must_show(&shown, "once", &asked);
        assert_eq!(app.row.trial().seedlings().len(), 3);
        let effect = play(&mut app, "<enter>");
        if keeping == Keeping::Folder {
            assert_eq!(effect, Some(Effect::SaveSeedlings));
            assert_eq!(app.update(Message::Entered), Some(Effect::AddEntry));
            assert_eq!(app.update(Message::Entered), None);
        }
        let number = "26-050".parse().expect("a number");
        assert_eq!(app.row.trial().of_subject(&number).len(), 1);
        assert_eq!((app.page, app.key.answers().is_empty()), (Page::Key, true));
        assert_eq!(app.row.trial().seedlings().len(), 4);
    }
}

proptest! {
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
            screen(&app, (width, height));
        }
    }
}

#[test]
fn a_plant_has_its_vase_curve_and_its_diameters_where_there_is_room_and_in_full() {
    let seen = ["Share still fresh in the vase, by day", "100% ─"];
    let days = [
        "Diameters by day",
        "20 Aug 2026",
        "diameter, mm",
        "mean, 95 %",
    ];
    check("/26-001<enter>", (140, 72), &seen);
    check("/26-001<enter>", (140, 120), &days);
    let app = app(Keeping::Folder);
    for (theme, curve) in [(Theme::Plain, "100% ─"), (Theme::Ascii, "100% -")] {
        let rows = app.row.why(78, theme);
        let text: Vec<String> = rows.iter().map(ToString::to_string).collect();
        let text = text.join("\n");
        for says in [seen[0], curve].into_iter().chain(days) {
            assert!(text.contains(says), "{says:?} in {text}");
        }
        // Of so few stems no band is drawn.
        assert!(!text.contains("where the share lies"), "{text}");
    }
}

/// What is cut in a bed is noted of a variety that has no entry yet, then of the next one; the name may be
/// half remembered.
#[test]
fn stems_cut_in_a_bed_are_noted_variety_by_variety_though_none_is_in_the_row() {
    let list = r#"[(name: "Haaf Lantern"), (name: "Ebb Kist")]"#;
    let stock = crate::screen::choose_page::Stock {
        list: Varieties::read("varieties.ron", list).expect("a list"),
        ..crate::screen::choose_page::Stock::empty(PLOT.keyer.set.clone(), SizeUnits::Mm)
    };
    let mut app = App::new(PLOT.keyer.clone(), Vec::new(), SizeUnits::Mm, Theme::Plain)
        .with_list(stock, Keeping::Folder)
        .with_row(PLOT.clone(), Keeping::Folder, Vec::new());
    while app.page != Page::Row {
        app.update(Message::NextPage);
    }
    app.update(Message::Resize(WIDE.0, WIDE.1));
    play(&mut app, "cHaaf Lantrn 12<enter>");
    must_show(
        &screen(&app, WIDE),
        "a slip",
        &["found \"Haaf Lantrn\"", "perhaps Haaf Lantern"],
    );
    play(&mut app, "<esc>c");
    for (keys, told) in [
        (
            "haaf lantern 12 plants=20<enter>",
            "Haaf Lantern: 20 plants standing; 12 stems cut (saved)",
        ),
        ("Ebb Kist 0<enter>", "Ebb Kist: 0 stems cut (saved)"),
    ] {
        assert!(play(&mut app, keys).is_some(), "{keys}");
        let entry = app.row.pending_entry().expect("an entry").clone();
        assert!(
            matches!(&entry.what, What::Observed(seen) if seen.cut.is_some()),
            "{entry:?}"
        );
        app.update(Message::Entered);
        must_show(&screen(&app, WIDE), keys, &[told, "Cut of"]);
    }
}
