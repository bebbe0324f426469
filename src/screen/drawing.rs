//! The screen drawn: head, page or sheet, footer.

use ratatui::Frame;
use ratatui::buffer::Buffer;
use ratatui::layout::Constraint::{Fill, Length};
use ratatui::layout::Rect;

use super::keeping::{DEMO, UNSAVED};
use super::keys::Mode;
use super::kit::area;
use super::kit::part::Part;
use super::kit::strip;
use super::kit::text::{self, Row, lines};
use super::own::OwnSlip;
use super::theme::Role;
use super::{App, Page, keys};

/// From this width on all pages are named in the head.
const TABS: usize = 60;

impl App {
    /// Draws everything.
    pub fn view(&self, frame: &mut Frame<'_>) {
        let area = frame.area();
        self.draw(area, frame.buffer_mut());
    }

    fn draw(&self, area: Rect, buffer: &mut Buffer) {
        self.draw_cells(area, buffer);
        // Where there are no pixels no cell says anything of a picture.
        if self.easel.pixels().is_some() {
            strip::settle(buffer, |picture| self.easel.painted(picture));
        }
    }

    fn draw_cells(&self, area: Rect, buffer: &mut Buffer) {
        let theme = self.easel.theme();
        if !self.page.has_room((area.width, area.height)) {
            let told = [
                self.no_room(area),
                "There no other key does anything.".to_string(),
            ];
            let rows = told.iter();
            let rows = rows.flat_map(|told| lines(told, Role::Strong, area.width.into()));
            let rows = rows.collect();
            return Part::bare(rows).paint(area, buffer, theme);
        }
        let [header, inner, footer] = area::rows(area, [Length(1), Fill(1), Length(1)]);
        let columns = usize::from(area.width);
        let ends = [(self.header(columns), header), self.footer(footer)];
        for (row, area) in ends {
            Part::bare(vec![row]).paint(area, buffer, theme);
        }
        match (&self.sheet, &self.slip) {
            (None, Some(OwnSlip::Settings(slip))) => slip.draw(inner, buffer, theme),
            (None, Some(OwnSlip::Start(slip))) => slip.draw(inner, buffer, theme),
            (Some(sheet), _) => self.draw_sheet(sheet, area, buffer, theme),
            (None, None) => match self.page {
                Page::Key => self.key.draw(inner, buffer, theme),
                Page::Choose => self.choose.draw(inner, buffer, theme),
                Page::Row => self.row.draw(inner, buffer, theme),
                Page::Order => self.order.draw(inner, buffer, theme),
                Page::Stock => self.stock.draw(inner, buffer, theme),
                Page::Tags => self.tags.draw(inner, buffer, theme),
            },
        }
        if let (None, Some(jump)) = (&self.sheet, &self.jump) {
            jump.draw(inner, buffer, theme);
        }
    }

    /// The keys and where they stand: where words begin everywhere, but in a window in which every column
    /// is needed for those that stay.
    fn footer(&self, area: Rect) -> (Row, Rect) {
        let [_, inner] = area::columns(area, 0, [Length(area::EDGE - 1), Fill(1)]);
        let keys = keys::footer(self.mode(), inner.width.into());
        // Wide, it begins with a blank itself.
        match keys.to_string().starts_with(' ') {
            true => (keys, inner),
            false => (keys::footer(self.mode(), area.width.into()), area),
        }
    }

    /// Why the page is not drawn, and what can be done.
    fn no_room(&self, area: Rect) -> String {
        let least = self.page.least().iter();
        let least: Vec<String> = least
            .map(|(width, height)| format!("{width} by {height}"))
            .collect();
        let (what, other) = match self.mode() {
            Mode::Narrow => (self.page.name(), "go to the next page with Tab, "),
            _ => ("trug", ""),
        };
        let told = format!(
            "This window is {} by {}; {what} needs at least {}. Make it larger, {other}or quit with q or Ctrl-C.",
            area.width,
            area.height,
            least.join(" or ")
        );
        match self.warned {
            true => format!("{UNSAVED} {told}"),
            false => told,
        }
    }

    /// The pages, and what becomes of changes. Where not all that has room, the name of the page and
    /// its place among the others stand for them.
    fn header(&self, columns: usize) -> Row {
        let aside = match self.page {
            Page::Key => format!("by {}", self.key.rules_name()),
            Page::Choose => self.choose.kept(),
            Page::Row => self.row.kept(),
            Page::Order => self.order.kept(),
            Page::Stock => self.stock.kept(),
            Page::Tags => self.tags.kept(),
        };
        let row = match columns >= TABS {
            true => self.tabs(),
            false => self.tab(),
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
        // A column more where it takes all: that a change is not saved must not be cut.
        let told = first_that_fits(&aside, room + 1);
        let gap = room + 1 - text::width(&told);
        row.with(" ".repeat(gap), Role::Plain)
            .with(told, Role::Quiet)
    }

    fn tabs(&self) -> Row {
        let tab = |row: Row, page: &Page| {
            let (name, role) = match *page == self.page {
                true => (format!("[{}]", page.name()), Role::Heading),
                false => (format!(" {} ", page.name()), Role::Quiet),
            };
            row.with(name, role)
        };
        Page::ALL.iter().fold(Row::of("  trug ", Role::Strong), tab)
    }

    fn tab(&self) -> Row {
        let place = Page::ALL.iter().position(|page| *page == self.page);
        let place = place.unwrap_or(0) + 1;
        Row::of(format!("  [{}]", self.page.name()), Role::Heading)
            .with(format!(" {place} of {}", Page::ALL.len()), Role::Quiet)
    }
}

/// The text, or its clauses up to a colon or a comma as far as they have room, or as much as that.
fn first_that_fits(text: &str, columns: usize) -> String {
    let ends = text.rmatch_indices([':', ',']).map(|(at, _)| at);
    let clauses = ends.map(|at| &text[..at]);
    let mut all = std::iter::once(text).chain(clauses);
    let fits = all.find(|clause| text::width(clause) <= columns);
    fits.map_or_else(|| text::cut(text, columns), text::clean)
}

/// Where a page is: between header and footer.
pub(super) fn page_area(area: Rect) -> Rect {
    let [_, page, _] = area::rows(area, [Length(1), Fill(1), Length(1)]);
    page
}
