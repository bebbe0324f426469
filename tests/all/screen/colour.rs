//! Colour helps and never tells alone, and whatever is written is read on its ground: on every page, in
//! all that it can be doing.

use std::collections::BTreeMap;

use ratatui::buffer::{Buffer, Cell};
use ratatui::style::{Color, Modifier};

use trug::colour::{Ground, LEGIBLE, Srgb, contrast};
use trug::screen::App;
use trug::screen::theme::{Role, Theme};

use super::random_keys::opened_in;
use super::sizes::{OPEN, buffer, played};

const SIZES: [(u16, u16); 2] = [(80, 24), (140, 45)];

/// Every page in all that it can be doing, drawn in a theme.
fn drawn(start: &App) -> impl Iterator<Item = (String, Buffer)> {
    let pages = OPEN.iter().flat_map(|open| SIZES.map(|size| (open, size)));
    pages.map(move |((name, keys), size)| {
        let app = played(start, keys, size);
        (format!("{name} at {size:?}"), buffer(&app, size))
    })
}

fn rows(buffer: &Buffer) -> impl Iterator<Item = &[Cell]> {
    buffer.content().chunks(usize::from(buffer.area.width))
}

/// The words of a row that are in one of these styles, run by run, with which it is.
fn judged(row: &[Cell], judges: &[(Color, Modifier)]) -> Vec<(usize, String)> {
    let style = |cell: &Cell| {
        let own = (cell.fg, cell.modifier);
        judges.iter().position(|judge| *judge == own)
    };
    let runs = row.chunk_by(|one, other| style(one) == style(other));
    runs.filter_map(|run| {
        let words: String = run.iter().map(Cell::symbol).collect();
        Some((style(&run[0])?, words.trim().to_string()))
    })
    .collect()
}

fn words(buffer: &Buffer) -> String {
    let symbols = buffer.content().iter().map(Cell::symbol);
    symbols.collect::<String>().split_whitespace().collect()
}

#[test]
fn the_same_words_never_mean_two_things_by_their_colour() {
    let theme = Theme::AllColours(Some(Ground::Dark));
    let judges = [Role::Fits, Role::Doubt, Role::Wrong].map(|role| {
        let style = theme.style(role);
        (style.fg.expect("a colour"), style.add_modifier)
    });
    let (coloured, plain) = (opened_in(theme), opened_in(Theme::Plain));
    let mut seen = [0; 3];
    for ((page, with), (_, without)) in drawn(&coloured).zip(drawn(&plain)) {
        let without = words(&without);
        let mut means: BTreeMap<String, usize> = BTreeMap::new();
        for (judge, text) in rows(&with).flat_map(|row| judged(row, &judges)) {
            if text.is_empty() {
                continue;
            }
            seen[judge] += 1;
            // Without colour the same words stand there, if they are not cut elsewhere.
            let told: String = text.split_whitespace().collect();
            let is_cut = text.contains('\u{2026}');
            assert!(
                is_cut || without.contains(&told),
                "{page}: {text:?} is not on\n{without}"
            );
            let before = *means.entry(text.clone()).or_insert(judge);
            assert_eq!(before, judge, "{page}: {text:?} means two things");
        }
    }
    assert!(seen.iter().all(|count| *count > 20), "{seen:?}");
}

#[test]
fn whatever_is_written_is_read_on_light_and_on_dark() {
    for (ground, backs) in [
        (Ground::Dark, ["#000000", "#2e3440"]),
        (Ground::Light, ["#ffffff", "#eeeeee"]),
    ] {
        let start = opened_in(Theme::AllColours(Some(ground)));
        for (page, buffer) in drawn(&start) {
            for cell in buffer.content() {
                let is_word = cell.symbol().chars().any(char::is_alphanumeric);
                if !is_word {
                    continue;
                }
                assert!(!cell.modifier.contains(Modifier::DIM), "{page}: {cell:?}");
                let Some(front) = fixed(cell.fg) else {
                    continue;
                };
                for back in backs {
                    let back = fixed(cell.bg).unwrap_or_else(|| back.parse().expect("a colour"));
                    let found = contrast(front, back);
                    assert!(found >= LEGIBLE, "{page}: {cell:?} on {back}: {found:.2}");
                }
            }
        }
    }
}

fn fixed(colour: Color) -> Option<Srgb> {
    match colour {
        Color::Rgb(r, g, b) => Some(Srgb::new(r, g, b)),
        Color::Reset => None,
        other => panic!("{other:?} is none of the theme's"),
    }
}
