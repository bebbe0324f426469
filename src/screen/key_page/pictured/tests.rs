//! The pictures of answers on the Key page: where they stand, and that no word gives way to them.

use crate::screen::easel::Easel;
use crate::screen::tests::{KEYERS, USUAL, app, is_drawn, play, screen, without_drawing};
use crate::screen::theme::Theme;
use crate::screen::{App, Message};

const WIDE: (u16, u16) = (100, 30);
const LARGE: (u16, u16) = (140, 45);

fn asked(keys: &str, size: (u16, u16), theme: Theme) -> String {
    let mut app: App = app();
    app.easel = Easel::new(theme);
    app.update(Message::Resize(size.0, size.1));
    play(&mut app, keys);
    screen(&app, size)
}

/// What stands left of the forms, row by row.
fn left(shown: &str) -> Vec<String> {
    let halves = shown
        .lines()
        .map(|line| match line.rsplit_once('\u{2502}') {
            Some((left, _)) => left.to_string(),
            None => line.to_string(),
        });
    halves.collect()
}

fn drawn(text: &str) -> usize {
    text.chars().filter(|c| is_drawn(*c)).count()
}

#[test]
fn the_first_question_has_a_line_of_pictures_in_a_window_of_80_by_24() {
    let shown = asked("", USUAL, Theme::Plain);
    let rows = left(&shown);
    let pictured: Vec<&String> = rows.iter().filter(|row| drawn(row) > 8).collect();
    assert_eq!(pictured.len(), 4, "{shown}");
    // Three pictures, each after its key.
    let keyed: Vec<&str> = pictured[0].split_whitespace().collect();
    let keys: Vec<&&str> = keyed.iter().filter(|word| drawn(word) == 0).collect();
    assert_eq!(keys, [&"1", &"2", &"3"], "{shown}");
}

/// Beside its words, or where those are many in a line below them, under its key.
#[test]
fn every_answer_is_pictured_at_its_key_where_there_is_room() {
    for size in [WIDE, LARGE] {
        for one in KEYERS[0].set.traits.list() {
            let shown = asked(&format!("/{}<enter>", one.id), size, Theme::Plain);
            let rows = left(&shown);
            for (at, state) in one.states().iter().enumerate() {
                let key = format!(" {} {}", at + 1, state.id);
                let below = rows.iter().rposition(|row| row.contains(&key));
                let below = below.unwrap_or_else(|| panic!("{key} at {size:?}\n{shown}"));
                let about = match rows[below].contains(&format!("{key}:")) {
                    true => below - 1..=below + 1,
                    false => below + 1..=below + 4,
                };
                let pictured: usize = rows[about].iter().map(|row| drawn(row)).sum();
                assert!(pictured > 5, "{key} at {size:?}\n{shown}");
            }
        }
    }
}

#[test]
fn a_number_has_a_low_a_middle_and_a_high_picture() {
    for (id, told) in [
        ("rows", ["1", "3", "8"]),
        ("rolled", ["25 %", "50 %", "100 %"]),
        ("diameter", ["50.8 mm", "152.4 mm", "254 mm"]),
    ] {
        for size in [USUAL, WIDE, LARGE] {
            let shown = asked(&format!("/{id}<enter>"), size, Theme::Plain);
            let rows = left(&shown);
            let labelled = |row: &&String| told.iter().all(|text| row.contains(text));
            assert!(
                rows.iter().any(|row| labelled(&row)),
                "{id} at {size:?}\n{shown}"
            );
            let pictures: usize = rows.iter().map(|row| drawn(row)).sum();
            assert!(pictures > 20, "{id} at {size:?}\n{shown}");
        }
    }
}

/// In ASCII there are no pictures: what is said there is said beside pictures, too.
#[test]
fn no_word_gives_way_to_a_picture() {
    for one in KEYERS[0].set.traits.list() {
        let keys = format!("1/{}<enter>", one.id);
        for size in [(44, 20), (60, 16), USUAL, WIDE, LARGE] {
            let words = |theme| {
                let shown = without_drawing(&asked(&keys, size, theme));
                let middle = shown
                    .lines()
                    .filter_map(|line| line.split('\u{2502}').nth(1));
                let middle: Vec<&str> = middle.flat_map(str::split_whitespace).collect();
                middle.join(" ")
            };
            let (with, without) = (words(Theme::Plain), words(Theme::Ascii));
            for text in [&one.ask, &one.look]
                .into_iter()
                .chain(one.states().iter().map(|s| &s.means))
            {
                let kept = with.contains(text.as_str()) || !without.contains(text.as_str());
                assert!(kept, "{text} at {size:?}\n{with}");
            }
        }
    }
}

#[test]
fn a_small_window_has_words_alone() {
    for size in [(44, 20), (60, 16)] {
        assert_eq!(
            drawn(&asked("/roll<enter>", size, Theme::Plain)),
            0,
            "{size:?}"
        );
    }
}
