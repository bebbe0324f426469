//! Lines of a chart as rows of a page.

use super::text::Row;
use crate::chart::{Ink, Line};
use crate::screen::theme::Role;

/// The lines as rows.
pub(in crate::screen) fn rows<'a>(lines: impl IntoIterator<Item = &'a Line>) -> Vec<Row> {
    lines.into_iter().map(row).collect()
}

/// One line as a row.
pub(in crate::screen) fn row(line: &Line) -> Row {
    let pieces = line.pieces();
    pieces.fold(Row::default(), |row, (text, ink)| row.with(text, role(ink)))
}

fn role(ink: Ink) -> Role {
    match ink {
        Ink::Words => Role::Plain,
        Ink::Names => Role::Quiet,
        Ink::Rule => Role::Line,
        Ink::Bar => Role::Bar,
        Ink::Range => Role::Range,
        Ink::RangeOnBar => Role::RangeOnBar,
        Ink::Need => Role::Need,
        Ink::NeedOnBar => Role::NeedOnBar,
        Ink::Sure => Role::Fits,
        Ink::Unsure => Role::Doubt,
        Ink::Short => Role::Short,
        Ink::Colour(colour) => Role::Petal(Some(colour), None),
    }
}
