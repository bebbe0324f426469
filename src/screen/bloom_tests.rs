//! The blooms on the pages: keys in, screen out.

use ratatui::Terminal;
use ratatui::backend::TestBackend;
use ratatui::buffer::Buffer;
use ratatui::style::Modifier;

use super::*;
use crate::draw::{points_to, view_for};
use crate::form::RuleSet;
use crate::screen::tests::{USUAL, is_drawn, play, screen};
use crate::variety::Varieties;

const LIST: &str = include_str!("../../catalogue/varieties.ron");
const LARGE: (u16, u16) = (140, 45);

/// A screen of this size over the demo's list, after these keys.
fn app(keys: &str, size: (u16, u16), theme: Theme) -> App {
    let mut sets = RuleSet::embedded().into_iter();
    let keyer = Keyer::even(sets.next().expect("a rule set"));
    let others = sets.map(Keyer::even).collect();
    let stock = Stock {
        list: Varieties::read("varieties.ron", LIST).expect("the demo's list"),
        ..Stock::empty(keyer.set.clone(), SizeUnits::Mm)
    };
    let mut app = App::new(keyer, others, SizeUnits::Mm, theme).with_list(stock, Keeping::Session);
    app.update(Message::Resize(size.0, size.1));
    play(&mut app, keys);
    app
}

fn buffer(app: &App, size: (u16, u16)) -> Buffer {
    let mut terminal = Terminal::new(TestBackend::new(size.0, size.1)).expect("a test backend");
    let draw = terminal.draw(|frame| app.view(frame));
    draw.expect("a test backend");
    terminal.backend().buffer().clone()
}

/// How many characters of a drawing are on the screen.
pub(super) fn drawn(shown: &str) -> usize {
    shown.chars().filter(|c| is_drawn(*c)).count()
}

#[test]
fn every_question_is_drawn_in_the_view_that_shows_it_with_an_arrow_to_it() {
    for one in RuleSet::embedded()[0].traits.list() {
        let id = &one.id;
        let keys = format!("/{id}<enter>");
        for size in [USUAL, LARGE] {
            let app = app(&keys, size, Theme::Plain);
            let shown = screen(&app, size);
            let view = match view_for(id) {
                crate::draw::View::Face => "face",
                crate::draw::View::Side => "side",
            };
            let told = format!("{view}; {}", points_to(id).expect("an arrow"));
            assert!(shown.contains(&told), "{told}\n{shown}");
            // A single seen from the side is little more than its stem.
            assert!(drawn(&shown) > 20, "{id}\n{shown}");
            let buffer = buffer(&app, size);
            let below_the_list = buffer.content().iter().skip(usize::from(size.0) * 9);
            let marked = below_the_list.filter(|cell| {
                let symbol = cell.symbol().chars().next().unwrap_or(' ');
                cell.modifier.contains(Modifier::BOLD) && is_drawn(symbol)
            });
            assert!(marked.count() > 1, "nothing points to {id}\n{shown}");
        }
    }
}

#[test]
fn the_drawing_follows_the_answers_and_words_come_first() {
    let of = |keys: &str| {
        let app = app(keys, USUAL, Theme::Plain);
        let shown = screen(&app, USUAL);
        let dots: String = shown.chars().filter(|c| is_drawn(*c)).collect();
        (shown, dots)
    };
    let (_, closed) = of("1/roll<enter>");
    let (_, open) = of("2/roll<enter>");
    assert!(!closed.is_empty() && closed != open);
    assert_eq!(of("1u/roll<enter>").1, of("/roll<enter>").1);
    // Where much is said there is no room for a drawing, and everything is said.
    let (shown, dots) = of(
        "1/roll<enter>2/rolled<enter>53<enter>/tip<enter>1/outline<enter>1/set<enter>1d89 90 85<enter>",
    );
    assert!(dots.is_empty(), "{shown}");
    // Nor in a window of the least size.
    let small = app("1", super::tests::LEAST, Theme::Plain);
    assert_eq!(drawn(&screen(&small, super::tests::LEAST)), 0);
}

#[test]
fn a_theme_has_its_characters_and_each_takes_one_cell() {
    let block = |c: char| matches!(c, '\u{2580}' | '\u{2584}');
    let dots = |c: char| matches!(c, '\u{2801}'..='\u{28ff}');
    let ascii = |c: char| matches!(c, '#' | 'o' | '\\' | '"');
    type Is<'a> = &'a dyn Fn(char) -> bool;
    // On the Choose page the colours are known, on the Key page they are not.
    for (theme, keys, yes) in [
        (Theme::AllColours(None), "<tab>", &block as Is<'_>),
        (Theme::AllColours(None), "", &dots),
        (Theme::Colours(None), "<tab>", &block),
        (Theme::Colours(None), "", &dots),
        (Theme::Console, "<tab>", &block),
        (Theme::Console, "", &block),
        (Theme::Plain, "<tab>", &dots),
        (Theme::Plain, "", &dots),
        (Theme::Ascii, "<tab>", &ascii),
        (Theme::Ascii, "", &ascii),
    ] {
        let shown = screen(&app(keys, LARGE, theme), LARGE);
        assert!(shown.chars().filter(|c| yes(*c)).count() > 30, "{shown}");
        if theme == Theme::Ascii {
            assert_eq!(drawn(&shown), 0);
        }
        for c in shown.chars().filter(|c| is_drawn(*c)) {
            assert_eq!(unicode_width::UnicodeWidthChar::width(c), Some(1), "{c:?}");
        }
    }
}

#[test]
fn a_variety_is_drawn_in_its_own_colours() {
    let app = app(
        "<tab>/foam nightboat<enter>",
        LARGE,
        Theme::AllColours(None),
    );
    let shown = screen(&app, LARGE);
    assert!(shown.contains("Bloom: "), "{shown}");
    let plum = crate::colour::Vocabulary::embedded()
        .target("plum")
        .expect("a word")
        .centre;
    let near = |cell: &ratatui::buffer::Cell| match cell.fg {
        ratatui::style::Color::Rgb(r, g, b) => {
            let own = crate::colour::Srgb { r, g, b };
            crate::colour::ciede2000(own.into(), plum) < 5.0
        }
        _ => false,
    };
    let petals = buffer(&app, LARGE);
    let petals = petals
        .content()
        .iter()
        .filter(|cell| cell.symbol() == "\u{2580}");
    let petals: Vec<_> = petals.collect();
    let plum = petals.iter().filter(|cell| near(cell)).count();
    // More than half of what is seen of a single is its rays.
    assert!(plum * 2 > petals.len(), "{plum} of {}", petals.len());
}

#[test]
fn the_sheet_of_a_variety_has_its_bloom_beside_the_words() {
    for (keys, size) in [
        ("<tab>w", USUAL),
        ("<tab><down><enter>", USUAL),
        ("<tab>w", LARGE),
    ] {
        let shown = screen(&app(keys, size, Theme::Plain), size);
        assert!(drawn(&shown) > 60, "{keys}\n{shown}");
        let beside = |row: &str| row.contains("form ") && row.chars().any(is_drawn);
        assert!(shown.lines().any(beside), "{keys}\n{shown}");
    }
    let end = screen(&app("<tab>w<end>", USUAL, Theme::Plain), USUAL);
    assert!(end.contains("Down, Up, Page Down"), "{end}");
}

#[test]
fn forms_are_looked_through() {
    for (keys, seen) in [
        ("o", &["> + anemone", "across", "rule", "face", "side"][..]),
        ("o<down><down>", &["> + single"]),
        (
            "o<end>",
            &["> + micro novelty fully d", "novelty fully double"],
        ),
        ("o<end><home>", &["> + anemone"]),
        ("o<pgdn>", &["> + micro collarette"]),
        ("2o<home>", &["> - anemone", "not with centre open"]),
        ("o<esc>", &["> centre ?"]),
        ("oo", &["> centre ?"]),
        ("oq", &["> centre ?"]),
        ("ro", &["> + anemone", "international register"]),
    ] {
        for size in [USUAL, LARGE] {
            let shown = screen(&app(keys, size, Theme::Plain), size);
            for text in seen {
                // A name has room in a large window.
                let text = text.trim_end_matches(" d");
                assert!(shown.contains(text), "{keys}: {text:?} is not on\n{shown}");
            }
        }
    }
    // The answers are as they were.
    let shown = screen(&app("1o<down><esc>", USUAL, Theme::Plain), USUAL);
    assert!(shown.contains("centre closed"), "{shown}");
}

#[test]
fn what_did_not_change_is_not_drawn_again() {
    use super::bloom::{Frame, Portrait, Sitter};
    let sitter = |asked: &str| Sitter {
        asked: Some(asked.to_string()),
        named: String::new(),
        bloom: crate::draw::Bloom::default(),
        paint: crate::draw::Paint::unknown(),
    };
    let frame = |view| Frame {
        view,
        size: (24, 12),
    };
    let mut portrait = Portrait::default();
    let mut easel = super::easel::Easel::new(Theme::Plain);
    let mut made = |asked, view| portrait.show(Some((sitter(asked), frame(view))), &mut easel);
    use crate::draw::View::{Face, Side};
    assert!(made("tip", Face));
    assert!(!made("tip", Face));
    assert!(made("set", Face));
    assert!(made("outline", Side));
    // Neither is marked from the side.
    assert!(made("tip", Side));
    assert!(!made("set", Side));
}
