//! The sheet that is open, in a frame that says what it is, how it is closed, and what of it is seen.

use ratatui::buffer::Buffer;
use ratatui::layout::Constraint::{Fill, Length};
use ratatui::layout::Rect;

use super::kit::area;
use super::kit::cursor::Movement;
use super::kit::part::{Part, lined};
use super::kit::text::Row;
use super::sheet::{Sheet, SheetKind, text_area};
use super::theme::{Role, Theme};
use super::{App, Page, keys};

impl App {
    pub(super) fn open(&mut self, kind: SheetKind) {
        self.sheet = Some(Sheet::new(kind));
    }

    /// Clears what is looked for in the help, else puts it away.
    pub(super) fn clear_help(&mut self) {
        match self.sheet.take() {
            Some(sheet) if !sheet.sought().is_empty() => self.open(sheet.kind),
            _ => {}
        }
    }

    pub(super) fn scroll(&mut self, movement: Movement) {
        let places = self.sheet.as_ref().map(|sheet| self.tops(sheet));
        if let (Some(sheet), Some(places)) = (&mut self.sheet, places) {
            sheet.go(movement, places);
        }
    }

    /// How many rows of a sheet may stand at its top: after the last of them all the rest is seen.
    fn tops(&self, sheet: &Sheet) -> usize {
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
            SheetKind::Help => keys::help(self.page_mode(), sheet.sought(), (columns, rows)),
            SheetKind::Why => match self.page {
                Page::Key => self.key.why(columns),
                Page::Choose => self.choose.why(columns),
                Page::Row => self.row.why(columns, self.easel.theme()),
                Page::Order => self.order.why(columns),
                Page::Stock => self.stock.why(columns),
                Page::Tags => self.tags.why(columns),
            },
            SheetKind::Words => self.key.explained(columns),
            SheetKind::Compare => match self.page {
                Page::Row => self.row.side_by_side(columns),
                _ => self.choose.compared(columns),
            },
            SheetKind::Colours => self.choose.by_colour(columns, self.easel.theme()),
            SheetKind::Life => self.life(columns),
            SheetKind::Whole => self.row.whole(columns),
            SheetKind::Season => self.order.season(columns, self.easel.theme()),
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
        let top = sheet.top(all.saturating_sub(seen) + 1);
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
