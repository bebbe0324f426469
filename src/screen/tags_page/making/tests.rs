//! What is written, and what is refused.

use crate::paper::{Item, Page};
use crate::screen::tags_page::tests::{WIDE, app, check};
use crate::screen::tags_page::{Content, Printing};
use crate::screen::tests::{USUAL, play, screen};
use crate::screen::theme::Theme;
use crate::screen::{App, Effect, Message};

/// What the edge is asked to write after these keys.
fn asked_for(keys: &str) -> Printing {
    let mut app = app(Theme::Plain);
    assert_eq!(play(&mut app, keys), Some(Effect::PrintTags), "{keys}");
    app.tags.pending().expect("something to write").clone()
}

fn words_of(pages: &[Page]) -> String {
    let items = pages.iter().flat_map(|page| &page.items);
    let words = items.filter_map(|item| match item {
        Item::Text(line) => Some(line.text.as_str()),
        _ => None,
    });
    words.collect::<Vec<_>>().join("\n")
}

#[test]
fn all_kept_seedlings_are_printed_by_two_keys() {
    let printing = asked_for("p<enter>");
    assert_eq!(
        (printing.name.as_str(), printing.title.as_str()),
        ("sale-tags.pdf", "Sale tags")
    );
    let Content::Pages(pages) = &printing.content else {
        panic!("{printing:?}");
    };
    let words = words_of(pages);
    assert_eq!(pages.len(), 1);
    assert!(
        words.contains("24-001") && words.contains("24-002"),
        "{words}"
    );
    assert!(
        !words.contains("25-001") && !words.contains("25-002"),
        "{words}"
    );
    check(
        "p<enter>",
        USUAL,
        &["Wrote sale-tags.pdf: 2 sale tags on 1 page."],
    );
}

#[test]
fn copies_are_printed_from_the_label_that_is_left_with_their_numbers_and_prices() {
    let keys = "n<back>9<enter>v<back><back><back><back>6<enter>V<back><back><back><back>4.50<enter>\
                f<back>5<enter>#p<enter>";
    let printing = asked_for(keys);
    let Content::Pages(pages) = &printing.content else {
        panic!("{printing:?}");
    };
    // Four, then six: of 24-001 nine, of 24-002 one.
    assert_eq!(pages.len(), 2);
    let words = words_of(pages);
    let count = |text: &str| words.lines().filter(|line| *line == text).count();
    assert_eq!((count("24-001"), count("24-002")), (9, 1), "{words}");
    assert_eq!((count("6.00"), count("4.50")), (9, 1), "{words}");
    assert_eq!(
        (count("1 of 9"), count("9 of 9"), count("1 of 1")),
        (1, 1, 1)
    );
    assert_eq!(
        words_of(&pages[..1])
            .lines()
            .filter(|line| line.contains(" of 9"))
            .count(),
        4
    );
    check(
        keys,
        USUAL,
        &["Wrote sale-tags.pdf: 10 sale tags on 2 pages."],
    );
    let Content::Table(rows) = asked_for("n<back>9<enter>p<back><back><back>csv<enter>").content
    else {
        panic!("no table");
    };
    assert_eq!((rows[0][2].as_str(), rows[1][2].as_str()), ("copies", "9"));
}

#[test]
fn what_is_refused_says_why() {
    let keys = "/tangle mitten<enter>m";
    check(
        keys,
        USUAL,
        &[
            "3 picked: 2 sale tags on 1 page; 1 refused (r).",
            "! Tangle Mitten",
            "protected",
            "Not printed: it is protected",
        ],
    );
    check(
        &format!("{keys}r"),
        USUAL,
        &["! Tangle Mitten: it is protected and no licence"],
    );
    check("r", USUAL, &["Nothing that was picked is refused."]);
    check(keys, WIDE, &["Refused", "! Tangle Mitten: it is protected"]);
    check(
        &format!("{keys}p<enter>"),
        USUAL,
        &["2 sale tags on 1 page; 1 refused (r)"],
    );
    // A stake stays in the row.
    check(
        &format!("{keys}1"),
        USUAL,
        &["3 picked: 3 row stakes on 1 page."],
    );
    // Nothing else was picked: nothing is written.
    check(
        "mm/tangle mitten<enter>p<enter>",
        USUAL,
        &["no sale tag for Tangle Mitten: it is protected"],
    );
}

#[test]
fn the_name_says_what_is_written() {
    let erased = "<back><back><back>";
    for ending in ["pdf", "SVG"] {
        let printing = asked_for(&format!("p{erased}{ending}<enter>"));
        assert!(matches!(printing.content, Content::Pages(_)), "{ending}");
    }
    let Content::Table(rows) = asked_for(&format!("p{erased}csv<enter>")).content else {
        panic!("no table");
    };
    assert_eq!((rows.len(), rows[0][0].as_str()), (3, "id"));
    let Content::Text(text) = asked_for(&format!("p{erased}txt<enter>")).content else {
        panic!("no text");
    };
    assert!(text.starts_with("Dahlia seedling 24-001\n"), "{text}");
    check(
        &format!("p{erased}doc<enter>"),
        USUAL,
        &["found \"sale-tags.doc\", expected a name that ends in .pdf"],
    );
    check(
        &format!("t{erased}csv<enter>"),
        USUAL,
        &["expected a name that ends in .pdf or .svg"],
    );
}

#[test]
fn a_file_that_is_there_is_replaced_only_when_asked_again() {
    let mut app = app(Theme::Plain);
    let replace = |app: &App| app.tags.pending().map(|printing| printing.replace);
    assert_eq!(play(&mut app, "p<enter>"), Some(Effect::PrintTags));
    assert_eq!(replace(&app), Some(false));
    app.update(Message::NotPrinted("sale-tags.pdf is there".to_string()));
    assert!(screen(&app, USUAL).contains("sale-tags.pdf is there"));
    assert_eq!(play(&mut app, "<enter>"), Some(Effect::PrintTags));
    assert_eq!(replace(&app), Some(true));
    app.update(Message::NotPrinted("no room".to_string()));
    // Another name is another file.
    assert_eq!(
        play(&mut app, "<back><back><back><back>2.pdf<enter>"),
        Some(Effect::PrintTags)
    );
    assert_eq!(replace(&app), Some(false));
    app.update(Message::Printed);
    assert!(screen(&app, USUAL).contains("Wrote sale-tags2.pdf: 2 sale tags"));
}
