//! The Stock page: keys in, screen out.

use std::sync::LazyLock;

use jiff::civil::Date;

use super::*;
use crate::form::{Keyer, RuleSet};
use crate::measure::SizeUnits;
use crate::screen::choose_page;
use crate::screen::tests::{must_show, play, screen};
use crate::screen::theme::Theme;
use crate::screen::{App, Message, Page};

const LIST: &str = r#"[
  (name: "Ebb Kist", on_hand: 10),
  (name: "Haaf Bell", on_hand: 4),
  (name: "Haaf Drift"),
]"#;

static KEYER: LazyLock<Keyer> = LazyLock::new(|| Keyer::even(RuleSet::embedded().remove(0)));

fn app(keeping: Keeping) -> App {
    let list = choose_page::Stock {
        list: Varieties::read("varieties.ron", LIST).expect("a list"),
        ..choose_page::Stock::empty(KEYER.set.clone(), SizeUnits::Mm)
    };
    let shelf = Shelf {
        today: Date::constant(2026, 11, 20),
        ..Shelf::empty()
    };
    let mut app = App::new(KEYER.clone(), Vec::new(), SizeUnits::Mm, Theme::Plain)
        .with_list(list, Keeping::Session)
        .with_stock(shelf, keeping);
    while app.page != Page::Stock {
        app.update(Message::NextPage);
    }
    app
}

fn shown(keys: &str, size: (u16, u16), seen: &[&str]) -> App {
    let mut app = app(Keeping::Session);
    play(&mut app, keys);
    must_show(&screen(&app, size), keys, seen);
    app
}

const USUAL: (u16, u16) = (80, 24);

#[test]
fn one_digit_one_number_and_the_next_plant() {
    let app = shown(
        "112 43<enter>",
        USUAL,
        &[
            "> Haaf Bell",
            "Haaf Bell lifted",
            "Ebb Kist: 12 clumps lifted; 43 with an eye, divided",
        ],
    );
    let ebb = "Ebb Kist".parse::<Subject>().expect("a name");
    assert_eq!(
        app.stock.stock().last_lifting(&ebb).map(|one| one.here()),
        Some(43)
    );
    // What the list had on hand is the book's now, and Choose says of which day.
    let known = app.stock.stock().known(app.choose.list(), None);
    assert_eq!(known[0].on_hand, Some(43));
    shown("15<enter>7<enter>", USUAL, &["That was the last plant."]);
    shown("1<enter><enter>", USUAL, &["That was the last plant."]);
    shown("112<down>", USUAL, &["> Haaf Bell", "[_]"]);
}

#[test]
fn what_cannot_be_is_refused_and_the_line_stays() {
    for (keys, seen) in [
        ("63<enter>", "expected at most the 0 tubers"),
        ("4x<enter>", "found \"x\", expected a number first"),
        ("24 5<enter>", "found \"5\" behind the number"),
        (
            "t2030-01-01<enter>",
            "expected a day up to today, 2026-11-20",
        ),
        ("aNobody<enter>", "Nobody"),
    ] {
        shown(keys, USUAL, &[seen, "> Ebb Kist"]);
    }
    let mut app = app(Keeping::ReadOnly("another program writes it".to_string()));
    play(&mut app, "1");
    must_show(
        &screen(&app, USUAL),
        "1",
        &["Read only, nothing can be noted"],
    );
}

#[test]
fn what_is_odd_is_asked_after_once() {
    let keys = "11 90<enter>";
    let app = shown(keys, USUAL, &["Enter again saves it as it is. To check:"]);
    assert_eq!(app.stock.stock().book().entries().len(), 0);
    let app = shown(&format!("{keys}<enter>"), USUAL, &["> Haaf Bell"]);
    assert_eq!(app.stock.stock().book().entries().len(), 1);
}

#[test]
fn a_plant_that_is_not_shown_is_named_and_noted() {
    let app = shown(
        "aHaaf Drift<enter>37 byre<enter>",
        USUAL,
        &["> Haaf Drift", "7 put in store"],
    );
    assert_eq!(app.stock.stock().subjects().len(), 1);
}

#[test]
fn an_entry_is_taken_back_and_made_again_and_the_list_follows() {
    let mut app = app(Keeping::Session);
    let on_hand = |app: &App| {
        let informed = app.choose.informed_stock().list;
        informed.list()[0].on_hand
    };
    play(&mut app, "343<enter><esc>");
    assert_eq!(on_hand(&app), Some(43));
    play(&mut app, "u");
    assert_eq!(on_hand(&app), Some(10));
    play(&mut app, "<c-r>");
    assert_eq!(on_hand(&app), Some(43));
    play(&mut app, "u");
    assert_eq!(on_hand(&app), Some(10));
}

/// Nothing is called saved before it is on the disk.
#[test]
fn what_is_not_saved_says_so() {
    let mut app = app(Keeping::Folder);
    let effect = play(&mut app, "243<enter>");
    assert_eq!(effect, Some(Effect::AddStock));
    app.update(Message::NotStocked("the disk is full".to_string()));
    must_show(
        &screen(&app, USUAL),
        "full",
        &["Not saved: the disk is full.", "43"],
    );
    play(&mut app, "<enter>");
    app.update(Message::Stocked);
    must_show(
        &screen(&app, USUAL),
        "saved",
        &["43 with an eye, divided (saved)"],
    );
}

#[test]
fn the_shelf_is_found_by_words_and_told_in_full() {
    shown(
        "343 byre<enter><esc>/byre<enter>",
        USUAL,
        &[
            "1 plant with \"byre\": 43 here, 43 free to sell",
            "> Ebb Kist",
        ],
    );
    shown(
        "343<enter><esc><up><enter>",
        USUAL,
        &["Everything in full", "Lifted in 2026", "Over the winter"],
    );
    shown("", (44, 20), &["> Ebb Kist", "in store"]);
    shown(
        "343 byre<enter>",
        (140, 45),
        &["promised", "lost  where", "byre"],
    );
}
