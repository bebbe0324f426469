//! The Tags page: keys in, screen out.

use std::sync::LazyLock;

use proptest::prelude::*;

use super::preview::Preview;
use super::*;
use crate::form::{Keyer, RuleSet};
use crate::measure::SizeUnits;
use crate::paper::Item;
use crate::problem::read_ron;
use crate::screen::bloom_tests::drawn;
use crate::screen::row_page::Plot;
use crate::screen::tests::{USUAL, any_key, must_show, play, screen, without_drawing};
use crate::screen::theme::Theme;
use crate::screen::{App, Message, Page as Tab};
use crate::screen::{Keeping, choose_page};
use crate::trial::{Entry, Seedling, Trial};
use crate::variety::Varieties;

pub(super) const WIDE: (u16, u16) = (140, 45);
const SEEDLINGS: &str = r#"[
  (number: "24-001", seed_parent: "Haaf Bell", row: "sea wall", place: 2),
  (number: "24-002", seed_parent: "Haaf Bell", row: "sea wall", place: 1),
  (number: "25-001", seed_parent: "Haaf Bell", row: "byre", place: 1),
  (number: "25-002", seed_parent: "Haaf Bell", row: "byre", place: 2),
]"#;
const ENTRIES: &str = r#"[
  (id: 1, date: "2026-08-20", of: "24-001", what: observed((bloom: "centre=closed rows=12 tip=rounded outline=globe set=regular roll=forward rolled=90", diameters: ["98mm", "104mm", "101mm"], vase: ["7", "8", "6+"]))),
  (id: 2, date: "2026-10-01", of: "24-001", what: decided((fate: keep))),
  (id: 3, date: "2026-10-01", of: "24-002", what: decided((fate: keep))),
  (id: 4, date: "2026-10-01", of: "25-001", what: decided((fate: cull, reason: "weak neck"))),
]"#;
const LIST: &str = include_str!("../../../catalogue/varieties.ron");

static PLOT: LazyLock<Plot> = LazyLock::new(|| {
    let seedlings: Vec<Seedling> = read_ron("trial.ron", SEEDLINGS).expect("seedlings");
    let entries: Vec<Entry> = read_ron("entries", ENTRIES).expect("entries");
    let (trial, told) = Trial::of(seedlings, entries);
    assert_eq!(told, Vec::<String>::new());
    let keyer = Keyer::even(RuleSet::embedded().remove(0));
    Plot {
        trial,
        ..Plot::empty(keyer, SizeUnits::Mm)
    }
});
static STOCK: LazyLock<choose_page::Stock> = LazyLock::new(|| choose_page::Stock {
    list: Varieties::read("varieties.ron", LIST).expect("the demo's list"),
    ..choose_page::Stock::empty(RuleSet::embedded().remove(0), SizeUnits::Mm)
});

/// Open on the Tags page over a small row and the demo's list.
pub(super) fn app(theme: Theme) -> App {
    let mut app = App::new(PLOT.keyer.clone(), Vec::new(), SizeUnits::Mm, theme)
        .with_list(STOCK.clone(), Keeping::Folder)
        .with_row(PLOT.clone(), Keeping::Folder, Vec::new())
        .with_supply(Supply {
            paper: "a4".to_string(),
            folder: "the shed".to_string(),
            ..Supply::embedded()
        });
    app.update(Message::PreviousPage);
    assert_eq!(app.page, Tab::Tags);
    app
}

/// The page after these keys, every file written that is asked for.
fn played(keys: &str, size: (u16, u16)) -> App {
    let mut app = app(Theme::Plain);
    app.update(Message::Resize(size.0, size.1));
    for part in keys.split_inclusive("<enter>") {
        if play(&mut app, part) == Some(Effect::PrintTags) {
            app.update(Message::Printed);
        }
    }
    app
}

/// Plays the keys on a new screen of this size; every text must then be seen.
pub(super) fn check(keys: &str, size: (u16, u16), seen: &[&str]) {
    let shown = screen(&played(keys, size), size);
    must_show(&shown, keys, seen);
}

/// The tabs are another test's; empty rows are left out.
fn below_the_tabs(shown: &str) -> String {
    let rows = shown.lines().skip(1).filter(|row| !row.is_empty());
    rows.collect::<Vec<_>>().join("\n")
}

#[test]
fn the_page_at_its_usual_size() {
    let shown = screen(&played("", USUAL), USUAL);
    insta::assert_snapshot!(below_the_tabs(&shown), @r#"
      All 2 kept seedlings: 2 sale tags on 1 page.
      Kind: 1  row stake  2 [sale tag] 3  tuber label
      On 8 labels of 95 by 70 mm on A4 (s), in black (c)
        plant           stands  ─ 24-001  sale tag, 95 by 70 mm ────────────────────
    > + 24-001            kept  ┌─────────────────────────────────────────────────┐
      + 24-002            kept  │ Dahlia seedling                                 │
        25-002        on trial  │ 24-001                                          │
        Ebb Buttermilk          │ Ball                                            │
        Ebb Dyke        listed  │ Provisional: a seedling still on trial          │
        Ebb Ferryman    listed  │ 3 blooms measured so far: 9.8 to                │
        Ebb Gleaner    on hand  │ 10.4 cm, 3.8 to 4.1 in                          │
        Ebb Harbour    on hand  │ Expected of its form: a cut flower for          │
        Ebb Hawthorn    listed  │ bunches, stands wind and rain, for              │
        Ebb Honeypot   on hand  │ the garden border                               │
        Ebb Mussel      listed  │ Seen in bloom so far in August 2026             │
        Ebb Quaver      listed  │                                                 │
        Ebb Sickle      listed  │ Plant after the last frost, in sun, 10 cm deep  │
        Ebb Spindle    on hand  │ and 45 cm apart. Stake all but low plants. Lift │
        Ebb Stile      on hand  │ before hard frost. Dahlias can irritate skin:   │
        Ebb Straw      on hand  │ wear gloves. Keep them from dogs, cats and      │
        Ebb Topsail     listed  │ horses.                                         │
        Ebb Twilight    listed  └─────────────────────────────────────────────────┘
      p print  Space pick  a all shown  Enter whole tag  Tab page  ? keys  q quit
    "#);
}

#[test]
fn the_page_in_a_wide_window() {
    let shown = screen(&played("/tangle m<enter><down>m", WIDE), WIDE);
    assert!(drawn(&shown) > 100, "{shown}");
    insta::assert_snapshot!(below_the_tabs(&without_drawing(&shown)), @r#"
      3 picked: 3 sale tags on 1 page; protection of 1 not known (r).
      Kind: 1  row stake  2 [sale tag] 3  tuber label
      On 8 labels of 95 by 70 mm on A4 (s), in black (c)
        with "tangle m"  stands      free  form               ─ Tangle Coble  sale tag, 95 by 70 mm ────────────────────────────────────────────
      ! Tangle Mitten    protected         formal decorative  ┌───────────────────────────────────────────────────────────────────────────────┐
      + Tangle Monkshood listed            ball               │ Dahlia                                                                        │
    >   Tangle Coble     on hand           mignon single      │ ‘Tangle Coble’                                                                │
        Tangle Locket    listed            mignon single      │ Mignon single                                                                 │
        Tangle Yolk      listed            miniature ball     │ Stated, not keyed                                                             │
        Tangle Almanac   listed            novelty open       │ Up to 5.1 cm, up to 2 in across (size                                         │
        Tangle Campion   listed            formal decorative  │ miniature), as stated                                                         │
        Tangle Tearoom   on hand           semi-cactus        │ Amber; centre yellow                                                          │
        Tangle Whimbrel  listed            straight cactus    │ Expected of its form: open to bees                                            │
        Taing Pebble     listed            miniature ball     │ and butterflies, for the garden                                               │
        Taing Shingle    listed            miniature ball     │ border, stands wind and rain                                                  │
                                                              │                                                                               │
                                                              │ Plant after the last frost, in sun, 10 cm deep                                │
                                                              │ and 30 cm apart. Stake all but low plants. Lift                               │
                                                              │ before hard frost. Dahlias can irritate skin:                                 │
                                                              │ wear gloves. Keep them from dogs, cats and                                    │
                                                              │ horses.                                          ┌─────────┐                  │
                                                              │                                                  │ QR code │                  │
                                                              │                                                  └─────────┘                  │
                                                              └───────────────────────────────────────────────────────────────────────────────┘
      p print  Space pick  a all shown  n copies  v price  b by stock  w price list  / find  Enter whole tag  Tab page  ? keys  q quit
    "#);
}

#[test]
fn tags_are_picked_and_made_as_asked() {
    for (keys, seen) in [
        ("", &["All 2 kept seedlings: 2 sale tags on 1 page."][..]),
        ("m", &["1 picked: 1 sale tag on 1 page."]),
        (
            "mm",
            &["Nothing picked; under the cursor: 1 sale tag on 1 page."],
        ),
        ("1", &["[row stake]"]),
        ("3", &["[tuber label]"]),
        ("9", &["There is no kind 9: 1 to 3."]),
        ("c", &["in colour (c)"]),
        ("o", &["Move by mm: [0,0_]", "such as -1,0.5"]),
        ("o<back><back><back>-1,0.5<enter>", &["moved -1,0.5 mm (o)"]),
        (
            "n",
            &["Copies: [1_]", "How many labels of 24-001, such as 12."],
        ),
        (
            "n<back>12<enter>",
            &[
                "All 2 kept seedlings: 13 sale tags on 2 pages.",
                "24-001  sale tag, 95 by 70 mm, 12 copies",
            ],
        ),
        (
            "N<back>3<enter>n<back>12<enter>",
            &["All 2 kept seedlings: 15 sale tags on 2 pages."],
        ),
        (
            "n<back>0<enter>",
            &["found 0 copies, expected from 1 to 9999"],
        ),
        (
            "V<back><back><back><back>4.50<enter>",
            &["24-001  sale tag", "Dahlia seedling  4.50 "],
        ),
        (
            "v<back><back><back><back>6<enter>v",
            &["Price: [6.00_]", "What one costs of 24-001"],
        ),
        ("vx<enter>", &["found \"x\", expected an amount"]),
        (
            "f<back>8<enter>",
            &["from label 8 (f)", "2 sale tags on 2 pages."],
        ),
        (
            "f<back>9<enter>",
            &["found label 9 to begin at, expected one from 1 to 8"],
        ),
        ("#", &["numbered (#)"]),
        ("ox<enter>", &["found the offset \"x\", expected"]),
        ("t", &["Test page to: [sale-tags-test.pdf_]"]),
        ("t<enter>", &["a page to align the sheet by"]),
        ("/tangle<enter>", &["with \"tangle\"", "Tangle Almanac"]),
        (
            "/tangle<esc>",
            &["24-001", "All 2 kept seedlings: 2 sale tags on 1 page."],
        ),
        ("/zzzz", &["No plant holds these"]),
        (
            "/shortlist<enter>a",
            &[" picked: ", " sale tags on ", " pages"],
        ),
        (
            "/culled<enter>",
            &["Not printed: it is culled", "25-001  sale tag"],
        ),
        ("/culled<enter>1", &["25-001  row stake"]),
        ("<enter>", &["24-001  sale tag, ", "QR code"]),
        ("?", &["At the tags", "Print what is picked"]),
    ] {
        check(keys, USUAL, seen);
    }
}

/// The usual paper first; then the kind's other sheets, each kind going on where it was.
#[test]
fn the_sheets_of_a_kind_follow_each_other() {
    let stock = Supply::embedded().stock;
    for (keys, id) in [
        ("", "sale-a4"),
        ("s", "sale-letter"),
        ("ss", "sale-roll"),
        ("sss", "sale-a4"),
        ("1", "stake-a4"),
        ("s3", "tuber-a4"),
        ("s32", "sale-letter"),
    ] {
        let told = stock.sheet(id).expect(id).described(SizeUnits::Mm);
        check(keys, USUAL, &[&format!("On {told} (s)")]);
    }
}

#[test]
fn what_is_decided_on_the_row_page_is_tagged() {
    let mut app = app(Theme::Plain);
    while app.page != Tab::Row {
        app.update(Message::PreviousPage);
    }
    let asked = play(
        &mut app,
        "/25-002<enter>d<back><back><back><back><back>keep<enter>",
    );
    assert_eq!(asked, Some(Effect::AddEntry));
    app.update(Message::Entered);
    while app.page != Tab::Tags {
        app.update(Message::NextPage);
    }
    let shown = screen(&app, USUAL);
    assert!(
        shown.contains("All 3 kept seedlings: 3 sale tags"),
        "{shown}"
    );
    // What the grower picked stays picked.
    play(&mut app, "m");
    app.update(Message::PreviousPage);
    app.update(Message::NextPage);
    assert!(screen(&app, USUAL).contains("2 picked: 2 sale tags"));
}

/// Every printed line is in the preview, and no row of it is wider than its room.
#[test]
fn a_preview_holds_all_that_is_printed() {
    for digit in ["1", "2", "3"] {
        let page = played(&format!("{digit}/tangle<enter>a"), USUAL).tags;
        assert!(page.labels.len() > 20);
        for label in page.labels.values().flatten() {
            for columns in [51, 78, 84, 140] {
                let rows = Preview::of(label, columns).rows(&[]);
                let told: Vec<String> = rows.iter().map(|row| format!("{row:?}")).collect();
                assert!(rows.iter().all(|row| row.width() <= columns), "{told:#?}");
                for item in &label.items {
                    let Item::Text(line) = item else { continue };
                    for word in line.text.as_str().split_whitespace() {
                        let seen = told.iter().any(|row| row.contains(word));
                        assert!(seen, "{word} at {columns} of {told:#?}");
                    }
                }
            }
        }
    }
}

#[test]
fn a_tag_is_drawn_in_black_or_in_colour() {
    let shown = |keys: &str| {
        let mut app = app(Theme::AllColours(None));
        app.update(Message::Resize(WIDE.0, WIDE.1));
        play(&mut app, keys);
        screen(&app, WIDE)
    };
    let (black, colour) = (
        shown("/tangle gorse<enter>"),
        shown("/tangle gorse<enter>c"),
    );
    assert!(drawn(&black) > 100 && drawn(&colour) > 100, "{colour}");
    assert_ne!(black, colour);
    assert_eq!(drawn(&shown("/tangle gorse<enter>3")), 0);
}

#[test]
fn an_empty_stock_and_an_empty_list_can_be_looked_at() {
    let keyer = PLOT.keyer.clone();
    let mut app = App::new(keyer, Vec::new(), SizeUnits::In, Theme::Plain);
    app.update(Message::PreviousPage);
    let shown = screen(&app, WIDE);
    assert!(
        shown.contains("No kept seedlings yet: on Row, d keeps one"),
        "{shown}"
    );
    assert_eq!(play(&mut app, "p<enter>"), None);
    assert!(screen(&app, USUAL).contains("there is nothing to tag"));
}

fn no_control(shown: &str) -> bool {
    !shown.chars().any(|c| c.is_control() && c != '\n')
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    #[test]
    fn any_keys_at_any_size_never_panic(
        steps in prop::collection::vec((any_key(), 1_u16..200, 1_u16..60), 1..30),
    ) {
        let mut app = app(Theme::Plain);
        for (key, width, height) in steps {
            app.update(Message::Resize(width, height));
            let asked = app.message(key).and_then(|message| app.update(message));
            match asked {
                Some(Effect::PrintTags) if width % 2 == 0 => app.update(Message::Printed),
                Some(Effect::PrintTags) => app.update(Message::NotPrinted("no room".to_string())),
                _ => None,
            };
            prop_assert!(no_control(&screen(&app, (width, height))));
        }
    }
}
