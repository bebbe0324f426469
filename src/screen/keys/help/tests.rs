//! The help: what holds here is seen at once, whole where there is room, and found by its words.

use super::*;

const USUAL: (usize, usize) = (78, 20);

fn shown(here: Mode, typed: &str, room: (usize, usize)) -> Vec<String> {
    let rows = help(here, typed, room);
    let rows = rows.iter().map(|row| row.to_string());
    rows.map(|row| row.trim_end().to_string()).collect()
}

/// The rows up to those of elsewhere.
fn here(mode: Mode, room: (usize, usize)) -> Vec<String> {
    let rows = shown(mode, "", room).into_iter();
    rows.take_while(|row| !row.contains("Elsewhere")).collect()
}

#[test]
fn what_holds_here_fits_a_usual_window() {
    for mode in Mode::ALL {
        let rows = here(*mode, USUAL);
        let rows = rows
            .iter()
            .rposition(|row| !row.is_empty())
            .map_or(0, |at| at + 1);
        assert!(rows <= USUAL.1, "{mode:?}: {rows} rows");
    }
}

#[test]
fn no_row_is_wider_than_the_sheet_and_every_key_is_told() {
    for (columns, count) in [(42, 1), (58, 1), (78, 2), (98, 2), (138, 3), (198, 3)] {
        assert_eq!(super::count(columns), count, "{columns}");
        for mode in Mode::ALL {
            let rows = shown(*mode, "", (columns, 40));
            for row in &rows {
                assert!(width(row) <= columns, "{columns}: {row}");
            }
            let heads = PARTS
                .iter()
                .filter(|(_, modes)| BINDINGS.iter().any(|row| modes.contains(&row.mode)));
            for (title, _) in heads {
                assert!(
                    rows.iter().any(|row| row.contains(title)),
                    "{title} at {columns}"
                );
            }
        }
    }
}

#[test]
fn a_key_is_found_by_what_it_does() {
    let found = shown(Mode::Choosing, "notes variety", (58, 20)).join("\n");
    assert!(found.contains("Your notes on the variety"), "{found}");
    assert!(!found.contains("Down a row"), "{found}");
    let none = shown(Mode::Choosing, "zzz", (58, 20)).join("\n");
    assert!(none.contains("No key does anything with \"zzz\""), "{none}");
}
