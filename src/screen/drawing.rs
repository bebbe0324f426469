//! The screen drawn: head, page or sheet, footer.

use ratatui::Frame;
use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use super::text::{self, Row, paint};
use super::theme::Role;
use super::{App, LEAST, Page, SheetKind, keys};

impl App {
    /// Draws everything.
    pub fn view(&self, frame: &mut Frame<'_>) {
        let area = frame.area();
        self.draw(area, frame.buffer_mut());
    }

    fn draw(&self, area: Rect, buffer: &mut Buffer) {
        if area.width < LEAST.0 || area.height < LEAST.1 {
            let told = format!(
                "This window is {} by {}; trug needs at least {} by {}. Make it larger, or quit with Ctrl-C.",
                area.width, area.height, LEAST.0, LEAST.1
            );
            let rows: Vec<Row> = text::wrap(&told, area.width.into())
                .iter()
                .map(|row| Row::of(row, Role::Strong))
                .collect();
            return paint(&rows, area, buffer, self.theme, "");
        }
        let line = |y| Rect {
            y,
            height: 1,
            ..area
        };
        paint(
            &[self.header(area.width.into())],
            line(0),
            buffer,
            self.theme,
            "",
        );
        let footer = keys::footer(&self.places(), area.width.into());
        paint(&[footer], line(area.height - 1), buffer, self.theme, "");
        let inner = page_area(area);
        match self.sheet {
            Some(sheet) => {
                let rows = self.sheet_rows(sheet.kind, area.width);
                let top = sheet.top.min(rows.len());
                if top > 0 {
                    let above = Row::of(format!(" \u{2026} {top} more above: Up"), Role::Doubt);
                    paint(&[above], line(1), buffer, self.theme, "");
                }
                paint(
                    &rows[top..],
                    sheet_area(area),
                    buffer,
                    self.theme,
                    "below: Down",
                );
            }
            None => match self.page {
                Page::Key => self.key.draw(inner, buffer, self.theme),
                Page::Choose => self.choose.draw(inner, buffer, self.theme),
                Page::Row => self.row.draw(inner, buffer, self.theme),
                Page::Order => self.order.draw(inner, buffer, self.theme),
                Page::Tags => self.tags.draw(inner, buffer, self.theme),
            },
        }
    }

    fn header(&self, columns: usize) -> Row {
        let mut row = Row::of(" trug ", Role::Strong);
        for page in Page::ALL {
            let (name, role) = match *page == self.page {
                true => (format!("[{}]", page.name()), Role::Heading),
                false => (format!(" {} ", page.name()), Role::Quiet),
            };
            row = row.with(name, role);
        }
        let aside = match self.page {
            Page::Key => format!("by {}", self.key.rules_name()),
            Page::Choose => self.choose.kept(),
            Page::Row => self.row.kept(),
            Page::Order => self.order.kept(),
            Page::Tags => self.tags.kept(),
        };
        let room = columns.saturating_sub(row.width() + 3);
        let told = text::cut(&aside, room);
        let gap = room + 1 - text::width(&told);
        row.with(" ".repeat(gap), Role::Plain)
            .with(told, Role::Quiet)
    }

    pub(super) fn sheet_rows(&self, kind: SheetKind, width: u16) -> Vec<Row> {
        let columns = sheet_columns(width);
        match kind {
            SheetKind::Help => keys::help(self.page_place(), columns),
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
}

/// Where a page is: between header and footer.
pub(super) fn page_area(area: Rect) -> Rect {
    Rect {
        y: area.y + 1,
        height: area.height.saturating_sub(2),
        ..area
    }
}

/// The columns of a sheet's text.
pub(super) fn sheet_columns(width: u16) -> usize {
    usize::from(width).saturating_sub(2).max(1)
}

/// Where a sheet's text is: between header and footer, a column free at each side.
pub(super) fn sheet_area(area: Rect) -> Rect {
    Rect {
        x: area.x + 1.min(area.width),
        y: area.y + 2.min(area.height),
        width: area.width.saturating_sub(2),
        height: area.height.saturating_sub(4),
    }
}
