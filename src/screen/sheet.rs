//! A text over the page, in a frame that says what it is, how it is closed, and what of it is seen.

use ratatui::buffer::Buffer;
use ratatui::layout::Constraint::{Fill, Length};
use ratatui::layout::Rect;

use super::keys::{self, Mode};
use super::kit::area;
use super::kit::cursor::{Cursor, Movement};
use super::kit::line::{Edit, Line};
use super::kit::part::{Part, lined};
use super::kit::text::Row;
use super::theme::{Role, Theme};
use super::{App, Page};

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
    /// The trial row as a whole.
    Whole,
    /// The order's season.
    Season,
    /// Tags that are refused.
    Refused,
}

impl Sheet {
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
            SheetKind::Whole => "The row as a whole",
            SheetKind::Season => "The season",
            SheetKind::Refused => "Tags",
        }
        .to_string()
    }

    fn head(&self, here: Mode) -> Row {
        let row = Row::of(self.title(here), Role::Heading);
        match self.kind {
            SheetKind::Help => row.with("  / ", Role::Key).and(self.sought.typed(SOUGHT)),
            _ => row,
        }
    }

    fn closes(&self) -> &'static str {
        match self.kind {
            SheetKind::Help if !self.sought.text().is_empty() => "Esc clears",
            _ => "Esc closes",
        }
    }
}

impl App {
    pub(super) fn open(&mut self, kind: SheetKind) {
        self.sheet = Some(Sheet {
            kind,
            top: Cursor::default(),
            sought: Line::new((), ""),
        });
    }

    /// Clears what is looked for in the help, else puts it away.
    pub(super) fn clear_help(&mut self) {
        match self.sheet.take() {
            Some(sheet) if !sheet.sought.text().is_empty() => self.open(sheet.kind),
            _ => {}
        }
    }

    pub(super) fn scroll(&mut self, movement: Movement) {
        let places = self.sheet.as_ref().map(|sheet| self.places(sheet));
        if let (Some(sheet), Some(places)) = (&mut self.sheet, places) {
            sheet.top.go(movement, places, WINDOW);
        }
    }

    /// How many rows of a sheet may stand at its top: after the last of them all the rest is seen.
    fn places(&self, sheet: &Sheet) -> usize {
        let (_, seen) = self.room();
        self.rows_of(sheet).len().saturating_sub(seen) + 1
    }

    /// The columns and rows that a sheet's text has.
    fn room(&self) -> (usize, usize) {
        let (width, height) = self.size;
        area::size(text_area(area::window(width, height)))
    }

    fn rows_of(&self, sheet: &Sheet) -> Vec<Row> {
        let (columns, rows) = self.room();
        let columns = columns.max(1);
        match sheet.kind {
            SheetKind::Help => keys::help(self.page_mode(), sheet.sought.text(), (columns, rows)),
            SheetKind::Why => match self.page {
                Page::Key => self.key.why(columns),
                Page::Choose => self.choose.why(columns),
                Page::Row => self.row.why(columns),
                Page::Order => self.order.why(columns),
                Page::Tags => self.tags.why(columns),
            },
            SheetKind::Words => self.key.explained(columns),
            SheetKind::Compare => match self.page {
                Page::Row => self.row.side_by_side(columns),
                _ => self.choose.compared(columns),
            },
            SheetKind::Colours => self.choose.colours_of_all(columns),
            SheetKind::Whole => self.row.whole(columns),
            SheetKind::Season => self.order.season(columns),
            SheetKind::Refused => self.tags.all_refused(columns),
        }
    }

    /// Draws the sheet in its frame.
    pub(super) fn draw_sheet(
        &self,
        sheet: &Sheet,
        window: Rect,
        buffer: &mut Buffer,
        theme: Theme,
    ) {
        let [_, head, _, foot, _] = area::rows(
            window,
            [Length(1), Length(1), Fill(1), Length(1), Length(1)],
        );
        let text = text_area(window);
        let (_, seen) = area::size(text);
        let rows = self.rows_of(sheet);
        let all = rows.len();
        let top = sheet.top.row(all.saturating_sub(seen) + 1);
        let columns = window.width.into();
        let closes = Row::of(sheet.closes(), Role::Key);
        let title = lined(sheet.head(self.page_mode()), closes, columns);
        Part::bare(vec![title]).paint(head, buffer, theme);
        let told = match all > seen {
            true => {
                let last = (top + seen).min(all);
                let told = format!("{} to {last} of {all}", top + 1);
                let told = Row::of(told, Role::Doubt);
                lined(told, Row::of("Down, Up, Page Down", Role::Key), columns)
            }
            false => lined(Row::default(), Row::default(), columns),
        };
        Part::bare(vec![told]).paint(foot, buffer, theme);
        let rows = rows.into_iter().skip(top).take(seen).collect();
        Part::bare(rows).paint(text, buffer, theme);
    }
}

/// The columns of a sheet's text in a window of so many.
pub(super) fn sheet_columns(width: u16) -> usize {
    usize::from(width).saturating_sub(2).max(1)
}

/// Where a sheet's text is: between header and footer and its frame's two rows, a column free at each
/// side.
fn text_area(window: Rect) -> Rect {
    let [_, text, _] = area::rows(window, [Length(2), Fill(1), Length(2)]);
    let [_, text, _] = area::columns(text, 0, [Length(1), Fill(1), Length(1)]);
    text
}
