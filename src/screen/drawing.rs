//! The screen drawn: head, page or sheet, footer.

use ratatui::Frame;
use ratatui::buffer::Buffer;
use ratatui::layout::Constraint::{Fill, Length};
use ratatui::layout::Rect;

use super::keeping::{DEMO, UNSAVED};
use super::kit::area;
use super::kit::part::Part;
use super::kit::text::{self, Row, lines};
use super::own::OwnSlip;
use super::theme::Role;
use super::{App, LEAST, Page, SheetKind, is_too_small, keys};

impl App {
    /// Draws everything.
    pub fn view(&self, frame: &mut Frame<'_>) {
        let area = frame.area();
        self.draw(area, frame.buffer_mut());
    }

    fn draw(&self, area: Rect, buffer: &mut Buffer) {
        if is_too_small((area.width, area.height)) {
            let mut told = format!(
                "This window is {} by {}; trug needs at least {} by {}. Make it larger, or quit with q or Ctrl-C: no other key does anything.",
                area.width, area.height, LEAST.0, LEAST.1
            );
            if self.warned {
                told = format!("{UNSAVED} {told}");
            }
            let rows = lines(&told, Role::Strong, area.width.into());
            return Part::bare(rows).paint(area, buffer, self.theme);
        }
        let [header, inner, footer] = area::rows(area, [Length(1), Fill(1), Length(1)]);
        let columns = usize::from(area.width);
        let ends = [
            (self.header(columns), header),
            (keys::footer(self.mode(), columns), footer),
        ];
        for (row, area) in ends {
            Part::bare(vec![row]).paint(area, buffer, self.theme);
        }
        match (self.sheet, &self.slip) {
            (None, Some(OwnSlip::Settings(slip))) => slip.draw(inner, buffer, self.theme),
            (None, Some(OwnSlip::Start(slip))) => slip.draw(inner, buffer, self.theme),
            (Some(sheet), _) => {
                let mut rows = self.sheet_rows(sheet.kind, area.width);
                let top = sheet.top.row(self.sheet_places(sheet.kind));
                if top > 0 {
                    let above = Row::of(format!(" \u{2026} {top} more above: Up"), Role::Doubt);
                    let [over, _] = area::below_head(inner);
                    Part::bare(vec![above]).paint(over, buffer, self.theme);
                }
                let seen = Part::bare(rows.split_off(top.min(rows.len())));
                let area = sheet_area(area);
                seen.more("below: Down").paint(area, buffer, self.theme);
            }
            (None, None) => match self.page {
                Page::Key => self.key.draw(inner, buffer, self.theme),
                Page::Choose => self.choose.draw(inner, buffer, self.theme),
                Page::Row => self.row.draw(inner, buffer, self.theme),
                Page::Order => self.order.draw(inner, buffer, self.theme),
                Page::Tags => self.tags.draw(inner, buffer, self.theme),
            },
        }
        if let (None, Some(jump)) = (self.sheet, &self.jump) {
            jump.draw(inner, buffer, self.theme);
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
        // That nothing is kept is said on every page.
        let aside = match (self.is_demo(), self.page) {
            (true, Page::Key | Page::Tags) => {
                let both = format!("{aside}; {DEMO}");
                let fits = text::width(&both) <= room;
                if fits { both } else { DEMO.to_string() }
            }
            _ => aside,
        };
        let told = text::cut(&aside, room);
        let gap = room + 1 - text::width(&told);
        row.with(" ".repeat(gap), Role::Plain)
            .with(told, Role::Quiet)
    }

    pub(super) fn sheet_rows(&self, kind: SheetKind, width: u16) -> Vec<Row> {
        let columns = sheet_columns(width);
        match kind {
            SheetKind::Help => keys::help(self.page_mode(), columns),
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
    let [_, page, _] = area::rows(area, [Length(1), Fill(1), Length(1)]);
    page
}

/// The columns of a sheet's text.
pub(super) fn sheet_columns(width: u16) -> usize {
    usize::from(width).saturating_sub(2).max(1)
}

/// Where a sheet's text is: between header and footer and a row from each, a column free at each
/// side.
pub(super) fn sheet_area(area: Rect) -> Rect {
    let [_, text, _] = area::rows(area, [Length(2), Fill(1), Length(2)]);
    let [_, text, _] = area::columns(text, 0, [Length(1), Fill(1), Length(1)]);
    text
}
