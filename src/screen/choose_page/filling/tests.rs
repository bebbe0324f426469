//! Varieties on a slip: keys in, the list out.

use std::sync::LazyLock;

use crate::form::{Keyer, RuleSet};
use crate::measure::SizeUnits;
use crate::problem::read_ron;
use crate::screen::choose_page::Stock;
use crate::screen::row_page::Plot;
use crate::screen::tests::{USUAL, must_show, painted, presses, screen};
use crate::screen::theme::Theme;
use crate::screen::{App, Effect, Keeping, Message, Page};
use crate::trial::{Entry, Seedling, Trial};
use crate::variety::{Index, Varieties};

const LIST: &str = r#"[
  (name: "Haaf Kettle", form: (id: "ball", known: stated, by: "Oar Bulbs"), colours: [(colour: "plum", part: main, pattern: self)], offers: [(supplier: "Oar Bulbs", price: "4.50", pack: 3)], on_hand: 2),
  (name: "Ebb Drift", form: (id: "pompon", known: keyed), diameters: ["48mm"]),
  (name: "Oar Lull", shortlist: ()),
]"#;
const SEEDLINGS: &str = r#"[(number: "26-001", seed_parent: "Haaf Kettle")]"#;
const ENTRIES: &str = r#"[(id: 1, date: "2026-08-20", of: "Ebb Drift", what: observed((diameters: ["50mm", "52mm"])))]"#;

static STOCK: LazyLock<Stock> = LazyLock::new(|| Stock {
    list: Varieties::read("varieties.ron", LIST).expect("a list"),
    stems_a_plant: 8.0,
    sure: crate::order::USUALLY_SURE,
    ..Stock::empty(RuleSet::embedded().remove(0), SizeUnits::Mm)
});

/// Open on the Choose page, with a row that saw one of the varieties and came of another.
fn app() -> App {
    let keyer = Keyer::even(STOCK.rules.clone());
    let seedlings: Vec<Seedling> = read_ron("trial.ron", SEEDLINGS).expect("seedlings");
    let entries: Vec<Entry> = read_ron("entries", ENTRIES).expect("entries");
    let (trial, told) = Trial::of(seedlings, entries);
    assert_eq!(told, Vec::<String>::new());
    let plot = Plot {
        trial,
        ..Plot::empty(keyer.clone(), SizeUnits::Mm)
    };
    let mut app = App::new(keyer, Vec::new(), SizeUnits::Mm, Theme::Plain)
        .with_list(STOCK.clone(), Keeping::Folder)
        .with_row(plot, Keeping::Folder, Vec::new());
    while app.page != Page::Choose {
        app.update(Message::NextPage);
    }
    app
}

/// Plays the keys; every save succeeds. How many saves there were.
fn plays(app: &mut App, keys: &str) -> usize {
    let mut saves = 0;
    for event in presses(keys) {
        let effect = app.message(event).and_then(|message| app.update(message));
        if effect == Some(Effect::SaveVarieties) {
            saves += 1;
            app.update(Message::Saved);
        }
    }
    saves
}

fn names(app: &App) -> Vec<&str> {
    let list = app.choose.list().list().iter();
    list.map(|one| one.name.as_str()).collect()
}

/// The index that is kept is the one that would be worked out, and so is what was seen.
fn is_worked_out(app: &App) {
    let page = &app.choose;
    let new = Index::new(&page.informed(), page.stock.grounds());
    assert!(page.index.as_ref() == Some(&new));
    let records: Vec<usize> = app
        .row
        .records(page.list())
        .into_iter()
        .map(|one| one.0)
        .collect();
    assert_eq!(page.seen.keys().copied().collect::<Vec<_>>(), records);
}

/// Form, colour and one offer: 13 keys beside the words themselves.
const ADDED: &str = "aKist Lum<enter>pom<tab><enter><enter><enter>plum<enter><enter><enter>Oar<tab><enter>4.50<enter>3<c-s>";

#[test]
fn a_variety_is_added_with_its_form_its_colour_and_an_offer() {
    let mut app = app();
    assert_eq!(plays(&mut app, ADDED), 1);
    let added = app.choose.list().list().last().expect("one more").clone();
    let cells = crate::variety::exchange::export([&added]).swap_remove(1);
    let cells: Vec<String> = cells.into_iter().filter(|cell| !cell.is_empty()).collect();
    assert_eq!(
        cells,
        [
            "Kist Lum",
            "pompon",
            "stated",
            "plum (main, self)",
            "Oar Bulbs: 3 for 4.50"
        ]
    );
    must_show(
        &screen(&app, USUAL),
        "added",
        &["> ", "Kist Lum added (saved)", "All 4 varieties"],
    );
    is_worked_out(&app);
    let keys = presses(ADDED).len() - "Kist Lumpomplum Oar4.503".len() + 1;
    assert_eq!(keys, 13, "a, eleven Enter and Tab, Ctrl-S beside the words");
}

#[test]
fn what_is_changed_is_named_when_it_is_taken_back() {
    let mut app = app();
    let start = app.choose.list().clone();
    for (keys, told, left) in [
        ("<home>e<down><c-s><esc>", "", 3),
        ("/haaf<enter>e<up>nHaaf Kettle<c-s><esc><esc>", "", 3),
        (
            "<back><home>e<down><down><down><down><down>4<c-s>",
            "Ebb Drift changed (saved)",
            3,
        ),
        ("yEbb Foam<c-s>", "Ebb Foam added (saved)", 4),
        ("X", "X again drops Ebb Foam", 4),
        ("X", "Ebb Foam dropped (saved)", 3),
        (
            "u",
            "took back: Ebb Foam dropped (Ctrl-R does it again) (saved)",
            4,
        ),
        ("<c-r>", "done again: Ebb Foam dropped (saved)", 3),
        ("uu", "took back: Ebb Foam added", 3),
        ("u", "took back: Ebb Drift changed", 3),
        ("u", "There is no change to undo.", 3),
    ] {
        plays(&mut app, keys);
        let shown = screen(&app, USUAL);
        must_show(&shown, keys, &[told]);
        assert_eq!(app.choose.list().len(), left, "{keys}\n{shown}");
        is_worked_out(&app);
    }
    assert!(app.choose.list() == &start);
}

#[test]
fn a_name_that_others_go_by_is_asked_after() {
    let mut app = app();
    assert_eq!(plays(&mut app, "/kettle<enter>e<up>Haaf Kist<c-s>"), 0);
    let told = "The name Haaf Kettle stays in a parent of 26-001";
    must_show(&screen(&app, (140, 45)), "asked", &[told, "saves it so."]);
    assert_eq!(plays(&mut app, "<c-s>"), 1);
    assert_eq!(names(&app), ["Haaf Kist", "Ebb Drift", "Oar Lull"]);
    // In another case it is the same name.
    assert_eq!(plays(&mut app, "u/drift<enter>e<up>EBB DRIFT<c-s>"), 2);
    assert_eq!(plays(&mut app, "e<up>Ebb Rill<c-s>"), 0);
    let told = "stays in one entry of the trial";
    must_show(&screen(&app, (140, 45)), "asked", &[told]);
    assert_eq!(plays(&mut app, "<c-s>"), 1);
    is_worked_out(&app);
    plays(&mut app, "uuu");
    is_worked_out(&app);
    assert!(app.choose.list() == &STOCK.list);
    plays(&mut app, "X");
    must_show(
        &screen(&app, (140, 45)),
        "asked",
        &["X again drops Ebb Drift", "stays in one"],
    );
}

#[test]
fn what_is_added_is_seen_though_a_narrowing_hid_it() {
    let mut app = app();
    plays(&mut app, "/oar<enter>f<home><enter>");
    assert_eq!(plays(&mut app, "aKist Lum<c-s>"), 1);
    let shown = screen(&app, (140, 45));
    must_show(
        &shown,
        "added",
        &[
            "Kist Lum added",
            "no longer narrowed",
            "with the words oar",
            ">   Kist Lum",
        ],
    );
}

#[test]
fn what_is_wrong_is_told_in_its_field_and_saved_is_nothing() {
    let mut app = app();
    for (keys, told) in [
        (
            "aebb drift<c-s>",
            "found the name \"Ebb Drift\" a second time",
        ),
        ("<esc><esc>a<c-s>", "found no name, expected one"),
        ("Kist<enter>bal<c-s>", "expected a form such as ball"),
        (
            "<c-u>ball<enter><enter><enter><enter>Oar<enter><c-s>",
            "without a price",
        ),
    ] {
        assert_eq!(plays(&mut app, keys), 0, "{keys}");
        must_show(&screen(&app, (140, 45)), keys, &[told]);
    }
    assert_eq!(plays(&mut app, "4.50<enter>3<c-s>"), 1);
}

#[test]
fn leaving_with_a_slip_half_filled_in_is_asked_twice() {
    let mut app = app();
    let leaves = |app: &mut App| {
        let event = presses("<c-c>").remove(0);
        app.message(event).and_then(|message| app.update(message))
    };
    plays(&mut app, "a");
    assert_eq!(
        leaves(&mut app.clone()),
        Some(Effect::Quit),
        "nothing is lost"
    );
    plays(&mut app, "Kist");
    assert_eq!(leaves(&mut app), None);
    must_show(
        &screen(&app, USUAL),
        "typed",
        &["Kist", "Quit again to leave"],
    );
    // What is typed after that is asked after, too.
    plays(&mut app, " Ember");
    assert_eq!(leaves(&mut app), None);
    assert_eq!(leaves(&mut app), Some(Effect::Quit));
}

#[test]
fn what_the_row_saw_stands_beside_and_is_not_saved() {
    let mut app = app();
    plays(&mut app, "/drift<enter>e");
    for _ in 0..9 {
        plays(&mut app, "<down>");
    }
    let shown = screen(&app, (140, 45));
    must_show(
        &shown,
        "diameters",
        &["With the trial row: 48mm; 50mm; 52mm (reckoned with,"],
    );
    assert_eq!(plays(&mut app, "51<c-s>"), 1);
    let record = &app.choose.list().list()[1];
    assert_eq!(record.diameters.len(), 1);
    is_worked_out(&app);
}

/// The page alone, for windows of any size.
fn drawn(app: &App, width: u16, height: u16) -> String {
    painted((width, height), |window, buffer| {
        app.choose.draw(window, buffer, Theme::Plain);
    })
}

#[test]
fn the_slip_of_a_variety_is_worked_in_a_small_window_too() {
    let mut app = app();
    plays(&mut app, "/kettle<enter>e");
    insta::assert_snapshot!(drawn(&app, 80, 22), @r"
    ─ Haaf Kettle ──────────────────────────────────────────────────────────────────
      name              Haaf Kettle
      Looks
    > form              [ball_]
      form known        stated
      form by           Oar Bulbs
      colour            plum
      pattern           self
      colour 2
      … 31 below
    ─ form ─────────────────────────────────────────────────────────────────────────
      Tab: anemone · micro anemone · single · mignon single · collarette · micro
           collarette · orchid · micro orchid · orchette · micro orchette · peony …
      The form that it is said or seen to have. One of anemone, micro anemone,
      single, mignon single, collarette, micro collarette, orchid, micro orchid,
      orchette, micro orchette, peony, micro peony, novelty open, micro novelty
      open, laciniated, micro laciniated, ball, miniature ball, pompon, stellar,
      micro stellar, waterlily, micro waterlily, straight cactus, micro straight
      cactus, incurved cactus, micro incurved cactus, semi-cactus, micro
      semi-cactus, formal decorative, micro formal decorative, informal decorative,
      micro informal decorative, novelty fully double, micro novelty fully double.
      stated by others
    ");
    let small = drawn(&app, 44, 18);
    must_show(
        &small,
        "44 by 18",
        &["> form", "[ball_]", "Tab: anemone", "below"],
    );
}
