//! Pictures among the cells of a page, and those that are kept.

use std::sync::Arc;

use ratatui::buffer::{Buffer, CellDiffOption};

use super::*;
use crate::draw::bloom::Roll;
use crate::draw::{Bloom, Drawing, Paint, View};
use crate::screen::abilities::{Pixels, Protocol};
use crate::screen::kit::area;
use crate::screen::kit::part::Part;
use crate::screen::kit::strip::settle;
use crate::screen::kit::text::Row;
use crate::screen::theme::{Role, Theme};

/// A bloom whose florets are rolled by so many parts of 200.
fn request(rolled: u32, protocol: Protocol) -> Request {
    let bloom = Bloom {
        roll: Roll::Back,
        rolled: f64::from(rolled) / 200.0,
        ..Bloom::default()
    };
    Request {
        drawing: Arc::new(Drawing::of(&bloom, &Paint::unknown(), View::Face)),
        asked: None,
        size: (4, 2),
        pixels: Pixels {
            protocol,
            cell: (4, 8),
        },
        ground: None,
    }
}

fn painted(id: u32) -> Option<Painted> {
    let request = request(2, Protocol::Sixel);
    Painted::of(&Job { id, request })
}

/// A page of ten columns whose rows these are, drawn where the picture 7 is made.
fn page(rows: Vec<Row>, height: u16, over: &[Row]) -> Buffer {
    let window = area::window(10, height);
    let mut buffer = Buffer::empty(window);
    Part::bare(rows).paint(window, &mut buffer, Theme::Colours(None));
    Part::bare(over.to_vec()).paint(window, &mut buffer, Theme::Colours(None));
    let seven = painted(7).expect("a picture");
    settle(&mut buffer, |picture| (picture == 7).then_some(&seven));
    buffer
}

/// The two rows of a picture, behind a letter.
fn rows(picture: u32) -> Vec<Row> {
    let row = |at| Row::of("####", Role::Plain).in_picture(picture, at);
    { 0..2 }
        .map(|at| Row::of("a", Role::Plain).and(row(at)))
        .collect()
}

/// How many cells are left to a picture, and the text of the others.
fn seen(buffer: &Buffer) -> (usize, String) {
    let cells = buffer.content();
    let pictures = cells
        .iter()
        .filter(|cell| cell.diff_option != CellDiffOption::None);
    let text = cells
        .iter()
        .filter(|cell| cell.diff_option == CellDiffOption::None);
    let text: String = text.map(|cell| cell.symbol()).collect();
    (pictures.count(), text.split_whitespace().collect())
}

#[test]
fn a_picture_is_seen_where_all_of_it_has_room_and_else_its_cells() {
    let whole = page(rows(7), 2, &[]);
    assert_eq!(seen(&whole), (8, "aa".to_string()));
    assert!(whole[(1, 0)].symbol().contains("\x1bP"));
    // Not made yet; cut off below; covered in part; another row between.
    assert_eq!(seen(&page(rows(8), 2, &[])), (0, "a####a####".to_string()));
    assert_eq!(seen(&page(rows(7)[..1].to_vec(), 2, &[])).0, 0);
    let over = [Row::of("ab", Role::Plain)];
    assert_eq!(
        seen(&page(rows(7), 2, &over)),
        (0, "ab###a####".to_string())
    );
    let apart = vec![rows(7)[0].clone(), Row::default(), rows(7)[1].clone()];
    assert_eq!(seen(&page(apart, 3, &[])).0, 0);
    let cut = rows(7).into_iter().map(|row| row.cut(4)).collect();
    assert_eq!(seen(&page(cut, 2, &[])).0, 0);
}

#[test]
fn no_text_of_a_record_places_a_picture() {
    let row = |at: u16| (0..4).map(move |column| format!("#\u{1}7,{column},{at}"));
    let rows = { 0..2 }.map(|at| Row::of(row(at).collect::<String>(), Role::Plain));
    let buffer = page(rows.collect(), 2, &[]);
    assert_eq!(seen(&buffer).0, 0);
    assert!(
        buffer
            .content()
            .iter()
            .all(|cell| !cell.symbol().contains(char::is_control))
    );
}

#[test]
fn what_nobody_sees_any_more_is_not_made_and_what_was_made_is_kept_a_while() {
    let mut album = Album::default();
    let shown = |album: &mut Album, blooms: &[u32]| -> Vec<u32> {
        album.turn();
        let requests = { blooms.iter() }.map(|rolled| request(*rolled, Protocol::Kitty));
        let ids = requests.map(|request| album.show(request)).collect();
        album.close();
        ids
    };
    let first = shown(&mut album, &[2])[0];
    assert_eq!(album.next().map(|job| job.id), Some(first));
    // The cursor went on before it was made: nobody waits for it.
    let second = shown(&mut album, &[3])[0];
    assert_ne!(first, second);
    assert_eq!(album.next().map(|job| job.id), Some(second));
    album.put(first, painted(first));
    assert!(album.painted(first).is_none() && album.take_gone().is_empty());
    album.put(second, painted(second));
    assert!(album.painted(second).is_some() && album.next().is_none());
    // It is there when the cursor comes back, until many others were seen.
    shown(&mut album, &[4]);
    assert_eq!(shown(&mut album, &[3]), [second]);
    assert!(album.next().is_none());
    for rolled in 5..100 {
        let id = shown(&mut album, &[rolled])[0];
        album.put(id, painted(id));
    }
    assert!(album.painted(second).is_none());
    let gone = album.take_gone();
    assert!(gone.contains(&second) && gone.len() > 40, "{gone:?}");
    album.clear();
    assert!(album.take_gone().len() > 40);
}

#[test]
fn what_cannot_be_made_stays_in_cells() {
    let mut album = Album::default();
    let id = album.show(request(2, Protocol::Sixel));
    album.put(id, None);
    assert!(album.next().is_none() && album.painted(id).is_none());
}
