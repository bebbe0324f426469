//! A text over the page: what it is, where it is scrolled to, and what is looked for in it.

use ratatui::layout::Constraint::{Fill, Length};
use ratatui::layout::Rect;

use super::keys::{self, Mode};
use super::kit::area;
use super::kit::cursor::{Cursor, Movement};
use super::kit::line::{Edit, Line};
use super::kit::text::Row;
use super::theme::Role;

/// Half of this is scrolled by a page of a sheet.
const WINDOW: usize = 20;
/// The columns of what is looked for among the keys.
const SOUGHT: usize = 18;

/// A text over the page, scrolled to a row.
#[derive(Debug, Clone)]
pub(super) struct Sheet {
    pub(super) kind: SheetKind,
    top: Cursor,
    /// What is looked for in it.
    sought: Line<()>,
}

/// What the text is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum SheetKind {
    /// The keys.
    Help,
    /// Everything on what the cursor is on.
    Why,
    /// The words of a question.
    Words,
    /// Varieties or plants side by side.
    Compare,
    /// The list by colour.
    Colours,
    /// The life of a variety.
    Life,
    /// The trial row as a whole.
    Whole,
    /// The order's season.
    Season,
    /// Tags that are refused.
    Refused,
}

impl Sheet {
    /// From its first row on, with nothing looked for.
    pub(super) fn new(kind: SheetKind) -> Sheet {
        Sheet {
            kind,
            top: Cursor::default(),
            sought: Line::new((), ""),
        }
    }

    /// What is looked for in it.
    pub(super) fn sought(&self) -> &str {
        self.sought.text()
    }

    /// Scrolls it, where so many rows may stand at its top.
    pub(super) fn go(&mut self, movement: Movement, places: usize) {
        self.top.go(movement, places, WINDOW);
    }

    /// The row at its top, where so many may stand there.
    pub(super) fn top(&self, places: usize) -> usize {
        self.top.row(places)
    }

    /// What the keys mean on it.
    pub(super) fn mode(&self) -> Mode {
        match self.kind {
            SheetKind::Help => Mode::Helping,
            _ => Mode::Sheet,
        }
    }

    /// Edits what is looked for; only the help has a line for it.
    pub(super) fn edit(&mut self, edit: &Edit) {
        // The key that begins a search elsewhere is no part of the words.
        let begins = *edit == Edit::Write("/".to_string()) && self.sought.text().is_empty();
        if self.kind == SheetKind::Help && !begins && self.sought.edit(edit) {
            self.top = Cursor::default();
        }
    }

    fn title(&self, here: Mode) -> String {
        match self.kind {
            SheetKind::Help => return format!("Keys: {}", keys::title(here).to_lowercase()),
            SheetKind::Why => "Everything in full",
            SheetKind::Words => "What the words mean",
            SheetKind::Compare => "Side by side",
            SheetKind::Colours => "The list by colour",
            SheetKind::Life => "Its life",
            SheetKind::Whole => "The row as a whole",
            SheetKind::Season => "The season",
            SheetKind::Refused => "Tags",
        }
        .to_string()
    }

    /// The head of its frame.
    pub(super) fn head(&self, here: Mode) -> Row {
        let row = Row::of(self.title(here), Role::Heading);
        match self.kind {
            SheetKind::Help => row.with("  / ", Role::Key).and(self.sought.typed(SOUGHT)),
            _ => row,
        }
    }

    /// How it is closed.
    pub(super) fn closes(&self) -> &'static str {
        match self.kind {
            SheetKind::Help if !self.sought.text().is_empty() => "Esc clears",
            _ => "Esc closes",
        }
    }
}

/// The columns of a sheet's text in a window of so many.
pub(super) fn sheet_columns(width: u16) -> usize {
    let (columns, _) = area::size(text_area(area::window(width, u16::MAX)));
    columns.max(1)
}

/// Where a sheet's text is: between header and footer and its frame's two rows, from where words
/// begin.
pub(super) fn text_area(window: Rect) -> Rect {
    let [_, text, _] = area::rows(window, [Length(2), Fill(1), Length(2)]);
    area::inset(text)
}
