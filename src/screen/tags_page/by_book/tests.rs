use super::*;
use crate::problem::read_ron;
use crate::screen::stock_page::Shelf;
use crate::screen::tags_page::tests::{WIDE, app};
use crate::screen::tests::{must_show, play, screen};
use crate::screen::theme::Theme;
use crate::screen::{App, Effect, Keeping, Message};
use crate::trial::Trial;

/// A stock book beside the row and the list of the tests of tags; invented.
const BOOK: &str = r#"[
  (id: 1, date: "2026-10-20", of: "24-001", year: 2026, what: happened((divided: 12, keep: 5, price: "4.50"))),
  (id: 2, date: "2026-10-20", of: "24-002", year: 2026, what: happened((divided: 4, promised: 4, to: "Jessie"))),
  (id: 3, date: "2026-10-20", of: "25-001", year: 2026, what: happened((divided: 6))),
]"#;

/// On the Tags page, beside the book.
fn beside_the_book() -> App {
    let mut app = app(Theme::Plain);
    app.update(Message::Resize(WIDE.0, WIDE.1));
    let entries = read_ron("stock.journal", BOOK).expect("entries");
    let stock = Stock::read(entries, &Trial::default()).0;
    let shelf = Shelf {
        stock,
        ..Shelf::empty()
    };
    app = app.with_stock(shelf, Keeping::Session);
    app.update(Message::NextPage);
    app.update(Message::PreviousPage);
    app
}

fn shows(app: &App, seen: &[&str]) {
    must_show(&screen(app, WIDE), "", seen);
}

#[test]
fn tags_are_as_many_as_are_free_at_the_price_of_the_book_and_what_is_typed_goes_before_it() {
    let mut app = beside_the_book();
    shows(
        &app,
        &[
            "All 2 kept seedlings: 2 sale tags",
            "7 free at 4.50, 5 kept back; as of 2026-10-20",
        ],
    );
    play(&mut app, "b");
    // The culled one is for sale by the book, and refused on a tag for a buyer.
    let told = "2 plants for sale by the stock book: 7 sale tags on 1 page; 1 refused (r).";
    shows(&app, &[told, "7 copies", "4.50", "by the stock book (b)"]);
    play(&mut app, "n<c-u>2<enter>v<c-u>6<enter>");
    shows(
        &app,
        &["by the stock book: 2 sale tags", "2 copies", "6.00"],
    );
    play(&mut app, "b");
    shows(&app, &["All 2 kept seedlings: 3 sale tags"]);
}

#[test]
fn a_price_list_is_written_as_pages_or_as_a_table() {
    let mut app = beside_the_book();
    assert_eq!(play(&mut app, "w<enter>"), Some(Effect::PrintTags));
    let printing = app.tags.pending().expect("a file");
    assert_eq!(
        (&*printing.name, &*printing.title),
        ("prices.pdf", FOR_SALE)
    );
    assert!(matches!(&printing.content, Content::Pages(pages) if pages.len() == 1));
    app.update(Message::Printed);
    // 24-002 is all promised, 25-001 is culled.
    shows(
        &app,
        &["Wrote prices.pdf: a price list of 1 plant on 1 page; 2 withheld"],
    );
    assert_eq!(
        play(&mut app, "W<c-u>list.csv<enter>"),
        Some(Effect::PrintTags)
    );
    let Some(Content::Table(rows)) = app.tags.pending().map(|one| &one.content) else {
        panic!("expected a table");
    };
    assert_eq!((rows.len(), &*rows[1][0]), (2, "24-001"));
    app.update(Message::Printed);
    play(&mut app, "w<c-u>list.txt<enter>");
    shows(&app, &["expected a name that ends in .pdf, .svg or .csv"]);
}

#[test]
fn an_empty_book_has_nothing_to_go_by() {
    let mut app = app(Theme::Plain);
    app.update(Message::Resize(WIDE.0, WIDE.1));
    play(&mut app, "b");
    shows(
        &app,
        &[
            "The stock book has nothing that is free to sell",
            "All 2 kept seedlings",
        ],
    );
    assert_eq!(play(&mut app, "w<enter>"), None);
    shows(&app, &["the stock book has nothing that is free to sell"]);
}
