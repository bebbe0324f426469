//! The screen: pages as state. `update` does no input or output, and `view` changes nothing.
//!
//! Nothing here touches the terminal but `terminal`, and nothing touches a file.

pub mod key_page;
pub mod keys;
pub mod terminal;
pub mod text;
pub mod theme;

use ratatui::Frame;
use ratatui::buffer::Buffer;
use ratatui::crossterm::event::KeyEvent;
use ratatui::layout::Rect;

use crate::form::Keyer;
use crate::measure::SizeUnits;
use key_page::{KeyMessage, KeyPage};
use keys::Place;
use text::{Row, paint};
use theme::{Role, Theme};

/// The least window in which a page can be worked.
pub const LEAST: (u16, u16) = (60, 16);

/// Everything that the screen shows.
#[derive(Debug, Clone)]
pub struct App {
    /// The page that is open.
    pub page: Page,
    /// The Key page.
    pub key: KeyPage,
    sheet: Option<Sheet>,
    size: (u16, u16),
    theme: Theme,
}

/// A page; only pages that work are here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Page {
    /// Key a bloom.
    Key,
}

impl Page {
    /// Every page, in the order of the tabs.
    pub const ALL: &'static [Page] = &[Page::Key];

    /// The page's name.
    pub fn name(self) -> &'static str {
        match self {
            Page::Key => "Key",
        }
    }

    fn step(self, by: usize) -> Page {
        let at = Page::ALL.iter().position(|page| *page == self);
        Page::ALL[(at.unwrap_or(0) + by) % Page::ALL.len()]
    }
}

/// Everything that can happen.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Message {
    /// Leave.
    Quit,
    /// Show the keys.
    OpenHelp,
    /// Show all that can be said of the bloom.
    OpenWhy,
    /// Put the sheet away.
    CloseSheet,
    /// Move the sheet by rows; to an end at the extremes.
    Scroll(i16),
    /// To the next page.
    NextPage,
    /// To the page before.
    PreviousPage,
    /// The window has this many columns and rows now.
    Resize(u16, u16),
    /// For the Key page.
    Key(KeyMessage),
}

/// What only the edge can do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Effect {
    /// End the program.
    Quit,
}

/// A text over the page, scrolled so many rows down.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Sheet {
    kind: SheetKind,
    top: usize,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum SheetKind {
    Help,
    Why,
}

impl App {
    /// Opens on the Key page under the first rule set. All rule sets share one table of traits.
    pub fn new(first: Keyer, others: Vec<Keyer>, units: SizeUnits, theme: Theme) -> App {
        App {
            page: Page::Key,
            key: KeyPage::new(first, others, units),
            sheet: None,
            size: (80, 24),
            theme,
        }
    }

    /// The message of a key press as things stand.
    pub fn message(&self, event: KeyEvent) -> Option<Message> {
        keys::dispatch(event, &self.places())
    }

    /// Takes a message in.
    pub fn update(&mut self, message: Message) -> Option<Effect> {
        match message {
            Message::Quit => return Some(Effect::Quit),
            Message::OpenHelp => self.open(SheetKind::Help),
            Message::OpenWhy => self.open(SheetKind::Why),
            Message::CloseSheet => self.sheet = None,
            Message::Scroll(by) => self.scroll(by),
            Message::NextPage => self.page = self.page.step(1),
            Message::PreviousPage => self.page = self.page.step(Page::ALL.len() - 1),
            Message::Resize(width, height) => {
                self.size = (width, height);
                self.scroll(0);
            }
            Message::Key(message) => self.key.update(message),
        }
        None
    }

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
        let inner = Rect {
            y: 1,
            height: area.height - 2,
            ..area
        };
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
            row = row.with(" ", Role::Plain).with(name, role);
        }
        let rules = match self.page {
            Page::Key => self.key.rules_name(),
        };
        let room = columns.saturating_sub(row.width() + 3);
        let told = text::cut(&format!("by {rules}"), room);
        let gap = room + 1 - text::width(&told);
        row.with(" ".repeat(gap), Role::Plain)
            .with(told, Role::Quiet)
    }

    /// Which places of the table are open, the nearest first.
    fn places(&self) -> Vec<Place> {
        if self.sheet.is_some() {
            return vec![Place::Sheet, Place::Anywhere];
        }
        let place = self.page_place();
        let mut places = vec![place];
        if place == Place::Asking {
            places.push(Place::Page);
        }
        if Page::ALL.len() > 1 {
            places.push(Place::Pages);
        }
        places.push(Place::Anywhere);
        places
    }

    fn page_place(&self) -> Place {
        match self.page {
            Page::Key => self.key.place(),
        }
    }

    fn open(&mut self, kind: SheetKind) {
        self.sheet = Some(Sheet { kind, top: 0 });
    }

    fn scroll(&mut self, by: i16) {
        let Some(Sheet { kind, top }) = self.sheet else {
            return;
        };
        let (width, height) = self.size;
        let rows = self.sheet_rows(kind, width).len();
        let seen = usize::from(sheet_area(Rect::new(0, 0, width, height)).height);
        let last = rows.saturating_sub(seen);
        let top = top.saturating_add_signed(by.into()).min(last);
        self.sheet = Some(Sheet { kind, top });
    }

    fn sheet_rows(&self, kind: SheetKind, width: u16) -> Vec<Row> {
        let columns = usize::from(width).saturating_sub(2).max(1);
        match kind {
            SheetKind::Help => keys::help(self.page_place(), columns),
            SheetKind::Why => self.key.why(columns),
        }
    }
}

/// Where a sheet's text is: between header and footer, a column free at each side.
fn sheet_area(area: Rect) -> Rect {
    Rect {
        x: area.x + 1.min(area.width),
        y: area.y + 2.min(area.height),
        width: area.width.saturating_sub(2),
        height: area.height.saturating_sub(4),
    }
}

#[cfg(test)]
mod tests;
