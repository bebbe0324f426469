//! How pages are laid out: words begin in one column, what is chosen is so over its whole width, no row is
//! blank over a table, and figures of a column stand under each other.

use ratatui::buffer::Buffer;
use ratatui::style::Modifier;

use super::sizes::{OPEN, Picture, SIZES, at_the_key_page};

/// The column in which words begin.
const EDGE: usize = 2;
/// The columns in which a row of a table has a name.
const LEAST: usize = 20;
/// In narrower windows the footer has the keys that stay in as few letters as there are.
const NARROW: u16 = 80;
/// Heads of columns whose cells are figures.
const FIGURES: [&str; 7] = [
    "a stem", "on hand", "fit %", "mean in", "vase d", "damage %", "away",
];
/// The pages with a table at their left, and their first heads.
const TABLES: [(&str, &str); 3] = [("choose", "name"), ("row", "plant"), ("tags", "plant")];

fn pictures() -> Vec<Picture> {
    let start = at_the_key_page();
    let open = OPEN.iter();
    open.flat_map(|open| SIZES.map(|size| Picture::of(&start, *open, size)))
        .filter(Picture::has_page)
        .collect()
}

/// From where to where the cells of a row are in reverse; each run by itself.
fn runs(buffer: &Buffer, y: u16) -> Vec<(u16, u16)> {
    let is_chosen = |x: &u16| buffer[(*x, y)].modifier.contains(Modifier::REVERSED);
    let chosen: Vec<u16> = (0..buffer.area.width).filter(is_chosen).collect();
    let runs = chosen.chunk_by(|one, other| one + 1 == *other);
    runs.map(|run| (run[0], run[run.len() - 1])).collect()
}

#[test]
fn what_is_chosen_is_so_over_the_whole_width_of_its_list() {
    let mut seen = 0;
    for picture in pictures() {
        let buffer = picture.buffer();
        let width = buffer.area.width;
        for y in 1..buffer.area.height {
            for (from, to) in runs(&buffer, y) {
                // A letter under a cursor, and what is written over.
                let list = buffer[(from, y)].symbol() == ">";
                if !list {
                    continue;
                }
                seen += 1;
                let beside = |x: u16| x >= width || ends_there(&buffer, x);
                assert!(beside(to + 1), "row {y} ends in {to}\n{}", picture.told());
            }
        }
    }
    assert!(seen > 60, "{seen}");
}

/// Whether a part ends before this column: it is blank in all rows of the page, a line goes down there, or
/// the head of another part begins soon behind it.
fn ends_there(buffer: &Buffer, x: u16) -> bool {
    let symbol = |x: u16, y: u16| buffer[(x.min(buffer.area.width - 1), y)].symbol();
    let mut rows = 2..buffer.area.height - 1;
    let is_blank = rows.clone().all(|y| symbol(x, y) == " ");
    let has_line = rows
        .clone()
        .any(|y| (x..x + 2).any(|x| symbol(x, y) == "\u{2502}"));
    let has_head =
        rows.any(|y| symbol(x, y) == " " && (x + 1..x + 4).any(|x| symbol(x, y) == "\u{2500}"));
    is_blank || has_line || has_head
}

#[test]
fn no_row_is_blank_between_what_a_page_says_and_its_table() {
    for picture in pictures() {
        let Some((_, head)) = TABLES.iter().find(|(name, _)| *name == picture.name) else {
            continue;
        };
        let rows = &picture.rows;
        let table = rows
            .iter()
            .position(|row| row.trim_start().starts_with(head));
        let table = table.unwrap_or_else(|| panic!("no {head:?} in\n{}", picture.told()));
        let blank = rows[..table + 2].iter().position(|row| row.is_empty());
        assert_eq!(blank, None, "{}", picture.told());
    }
}

#[test]
fn words_begin_in_one_column_on_every_page_and_sheet() {
    for picture in pictures() {
        // The Key page has columns of its own, and a list that is typed in its brackets.
        let is_key = picture.name.starts_with("key") && !picture.rows[1].contains("Esc closes");
        if is_key {
            continue;
        }
        let footer = usize::from(picture.size.0 < NARROW);
        let rows = &picture.rows[..picture.rows.len() - footer];
        for (at, row) in rows.iter().enumerate() {
            let before: String = row.chars().take(EDGE).collect();
            let bare = before.chars().all(|c| " >^v\u{2500}!x+".contains(c));
            let framed = before.starts_with(['\u{250c}', '\u{2502}', '\u{2514}']);
            assert!(
                bare || framed,
                "row {at} begins with {before:?}\n{}",
                picture.told()
            );
        }
    }
}

#[test]
fn figures_of_a_column_end_under_its_head_and_their_points_stand_under_each_other() {
    let mut columns = 0;
    for picture in pictures() {
        let heads = picture.rows.iter().position(|row| {
            let row = row.trim_start();
            row.starts_with("name ") || row.starts_with("plant ")
        });
        let Some(heads) = heads else { continue };
        let table: Vec<Vec<char>> = { picture.rows[heads..].iter() }
            .take_while(|row| !row.starts_with('\u{2500}'))
            .take_while(|row| row.chars().take(LEAST).any(|c| c != ' '))
            .map(|row| row.chars().collect())
            .collect();
        let head: String = table[0].iter().collect();
        for name in FIGURES {
            let Some(at) = head.find(&format!(" {name}")) else {
                continue;
            };
            let end = head[..at].chars().count() + name.chars().count();
            columns += 1;
            let cells = table[1..].iter().filter(|row| row.len() > end);
            let mut points = Vec::new();
            for row in cells {
                let text: String = row[..=end]
                    .iter()
                    .rev()
                    .take_while(|c| **c != ' ')
                    .collect();
                let told = || {
                    format!(
                        "{name} in {:?}\n{}",
                        row.iter().collect::<String>(),
                        picture.told()
                    )
                };
                assert!(!text.is_empty(), "no figure ends under {}", told());
                points.extend(text.find('.'));
            }
            points.dedup();
            assert!(
                points.len() <= 1,
                "points of {name} at {points:?}\n{}",
                picture.told()
            );
        }
    }
    assert!(columns > 20, "{columns}");
}
