//! The screen: pages as state. `update` does no input or output, and `view` changes nothing.
//!
//! Nothing here touches the terminal but `terminal`, and nothing touches a file.

mod between;
mod bloom;
pub mod choose_page;
mod drawing;
mod keeping;
pub mod key_page;
pub mod keys;
mod lengths;
pub mod order_page;
pub mod row_page;
pub mod tags_page;
pub mod terminal;
pub mod text;
pub mod theme;

use ratatui::crossterm::event::KeyEvent;
use ratatui::layout::Rect;

use crate::form::Keyer;
use crate::measure::SizeUnits;
use choose_page::{ChooseMessage, ChoosePage, Stock};
pub use keeping::Keeping;
use key_page::{KeyMessage, KeyPage};
use keys::Place;
use order_page::{OrderMessage, OrderPage, Outcome};
use row_page::{Plot, RowMessage, RowPage};
use tags_page::{Supply, TagsMessage, TagsPage};
use theme::Theme;

/// Why the Order page is empty where nothing was laid on it.
const NO_ORDER: &str =
    "the folder has no order.ron; `trug order --begin` lays one out to be filled in";

/// The least window in which a page can be worked.
pub const LEAST: (u16, u16) = (60, 16);

/// Everything that the screen shows.
#[derive(Debug, Clone)]
pub struct App {
    /// The page that is open.
    pub page: Page,
    /// The Key page.
    pub key: KeyPage,
    /// The Choose page.
    pub choose: ChoosePage,
    /// The Row page.
    pub row: RowPage,
    /// The Order page.
    pub order: OrderPage,
    /// The Tags page.
    pub tags: TagsPage,
    /// Whether leaving was refused once, because a change is not saved.
    warned: bool,
    sheet: Option<Sheet>,
    size: (u16, u16),
    theme: Theme,
}

/// A page; only pages that work are here.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Page {
    /// Key a bloom.
    Key,
    /// Choose varieties.
    Choose,
    /// Note and judge the trial row.
    Row,
    /// Settle the order.
    Order,
    /// Print tags.
    Tags,
}

impl Page {
    /// Every page, in the order of the tabs.
    pub const ALL: &'static [Page] = &[Page::Key, Page::Choose, Page::Row, Page::Order, Page::Tags];

    /// The page's name.
    pub fn name(self) -> &'static str {
        match self {
            Page::Key => "Key",
            Page::Choose => "Choose",
            Page::Row => "Row",
            Page::Order => "Order",
            Page::Tags => "Tags",
        }
    }

    fn step(self, by: usize) -> Page {
        let at = Page::ALL.iter().position(|page| *page == self);
        Page::ALL[(at.unwrap_or(0) + by) % Page::ALL.len()]
    }
}

/// Everything that can happen.
#[derive(Debug, Clone, PartialEq)]
pub enum Message {
    /// Leave.
    Quit,
    /// Show the keys.
    OpenHelp,
    /// Show all that can be said of the bloom.
    OpenWhy,
    /// Explain the words of the question.
    OpenWords,
    /// Show varieties, or plants of the row, side by side.
    OpenCompare,
    /// Show the whole list by colour.
    OpenColours,
    /// Show the trial row as a whole.
    OpenWhole,
    /// Show the order's season by week, with the chances of each need.
    OpenSeason,
    /// Show which tags are refused, and why.
    OpenRefused,
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
    /// For the Choose page.
    Choose(ChooseMessage),
    /// For the Row page.
    Row(RowMessage),
    /// For the Order page.
    Order(OrderMessage),
    /// What a task of the Order page came to.
    Worked(Box<Outcome>),
    /// The order is on the disk.
    OrderSaved,
    /// It could not be saved, and why, as a sentence.
    OrderNotSaved(String),
    /// For the Tags page.
    Tags(TagsMessage),
    /// The file of tags is written.
    Printed,
    /// It could not be written, and why, as a sentence.
    NotPrinted(String),
    /// Note the keyed bloom of a plant of the row.
    NoteBloom,
    /// The entry, or the seedling, is on the disk.
    Entered,
    /// It could not be saved, and why, as a sentence.
    NotEntered(String),
    /// The list is on the disk.
    Saved,
    /// The list could not be saved, and why, as a sentence.
    NotSaved(String),
}

/// What only the edge can do.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Effect {
    /// End the program.
    Quit,
    /// Save [`ChoosePage::list`], and answer [`Message::Saved`] or [`Message::NotSaved`].
    SaveVarieties,
    /// Put [`RowPage::pending_entry`] on the disk, and answer [`Message::Entered`] or
    /// [`Message::NotEntered`].
    AddEntry,
    /// Save [`RowPage::pending_seedlings`], and answer the same.
    SaveSeedlings,
    /// Save [`OrderPage::plan`], and answer [`Message::OrderSaved`] or [`Message::OrderNotSaved`].
    SaveOrder,
    /// Write [`TagsPage::pending`], and answer [`Message::Printed`] or [`Message::NotPrinted`].
    PrintTags,
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
    Words,
    Compare,
    Colours,
    Whole,
    Season,
    Refused,
}

impl App {
    /// Opens on the Key page under the first rule set, with an empty list. All rule sets share one
    /// table of traits.
    pub fn new(first: Keyer, others: Vec<Keyer>, units: SizeUnits, theme: Theme) -> App {
        App {
            page: Page::Key,
            choose: ChoosePage::new(Stock::empty(first.set.clone(), units), Keeping::Session),
            row: RowPage::new(Plot::empty(first.clone(), units), Keeping::Session),
            order: OrderPage::new(Err(NO_ORDER.to_string()), Keeping::Session),
            tags: TagsPage::new(Supply::embedded()),
            warned: false,
            key: KeyPage::new(first, others, units),
            sheet: None,
            size: (80, 24),
            theme,
        }
    }

    /// With a list to choose from, and where changes to it go.
    pub fn with_list(mut self, stock: Stock, keeping: Keeping) -> App {
        self.choose = ChoosePage::new(stock, keeping);
        self
    }

    /// With a trial row, where entries go, and what could not be read of it.
    pub fn with_row(mut self, plot: Plot, keeping: Keeping, problems: Vec<String>) -> App {
        self.row = RowPage::new(plot, keeping).with_problems(problems);
        self.tell_choose();
        self
    }

    /// With an order to settle or the sentence that says why there is none, and where changes go.
    pub fn with_order(mut self, plan: Result<crate::order::Plan, String>, keeping: Keeping) -> App {
        self.order = OrderPage::new(plan, keeping);
        self
    }

    /// With what tags are printed on, and where files go.
    pub fn with_supply(mut self, supply: Supply) -> App {
        self.tags = TagsPage::new(supply);
        self
    }

    /// The message of a key press as things stand.
    pub fn message(&self, event: KeyEvent) -> Option<Message> {
        keys::dispatch(event, &self.places())
    }

    /// Takes a message in, and draws the blooms that are seen from now on.
    pub fn update(&mut self, message: Message) -> Option<Effect> {
        let effect = self.take(message);
        self.portray();
        effect
    }

    fn take(&mut self, message: Message) -> Option<Effect> {
        match message {
            Message::Quit => return self.quit(),
            Message::OpenHelp => self.open(SheetKind::Help),
            Message::OpenWhy => self.open(SheetKind::Why),
            Message::OpenWords => self.open(SheetKind::Words),
            Message::CloseSheet => self.sheet = None,
            Message::Scroll(by) => self.scroll(by),
            Message::OpenCompare if self.can_compare() => self.open(SheetKind::Compare),
            Message::OpenCompare => {}
            Message::OpenColours => self.open(SheetKind::Colours),
            Message::OpenWhole => {
                self.row.sum_up();
                self.open(SheetKind::Whole);
            }
            Message::OpenSeason => {
                self.order.draw_seasons();
                self.open(SheetKind::Season);
            }
            Message::OpenRefused => self.open(SheetKind::Refused),
            Message::NextPage => self.go_to(self.page.step(1)),
            Message::PreviousPage => self.go_to(self.page.step(Page::ALL.len() - 1)),
            Message::Resize(width, height) => {
                self.size = (width, height);
                self.choose.resize(height);
                self.row.resize(height);
                self.order.resize(height);
                self.tags.resize(height);
                self.scroll(0);
            }
            Message::Key(message) => self.key.update(message),
            Message::Choose(message) => return self.choose.update(message),
            Message::Row(message) => return self.update_row(message),
            Message::Order(message) => return self.order.update(message),
            Message::Worked(outcome) => self.order.take(*outcome),
            Message::OrderSaved => self.order.saved(),
            Message::OrderNotSaved(why) => self.order.not_saved(why),
            Message::Tags(message) => return self.update_tags(message),
            Message::Printed => self.tags.printed(),
            Message::NotPrinted(why) => self.tags.not_printed(why),
            Message::NoteBloom => self.note_bloom(),
            Message::Entered => self.entered(),
            Message::NotEntered(why) => self.row.not_entered(why),
            Message::Saved => self.choose.saved(),
            Message::NotSaved(why) => self.choose.not_saved(why),
        }
        None
    }

    /// Leaves; at the first asking not with a change that is not saved.
    fn quit(&mut self) -> Option<Effect> {
        if self.choose.is_unsaved() && !self.warned {
            self.warned = true;
            self.sheet = None;
            self.go_to(Page::Choose);
            self.choose.warn();
            return None;
        }
        if self.order.is_unsaved() && !self.warned {
            self.warned = true;
            self.sheet = None;
            self.go_to(Page::Order);
            self.order.warn();
            return None;
        }
        Some(Effect::Quit)
    }

    /// Opens a page, which may have to be worked out first.
    fn go_to(&mut self, page: Page) {
        self.page = page;
        match page {
            Page::Key => {}
            Page::Choose => self.choose.open(),
            Page::Row => self.row.open(self.choose.list()),
            Page::Order => {
                let choose = &self.choose;
                self.order.open(|| choose.informed_stock(), choose.list());
            }
            Page::Tags => self.open_tags(),
        }
    }

    /// Which places of the table are open, the nearest first.
    fn places(&self) -> Vec<Place> {
        if self.sheet.is_some() {
            return vec![Place::Sheet, Place::Anywhere];
        }
        let place = self.page_place();
        let mut places = vec![place];
        if matches!(
            place,
            Place::Asking | Place::Choosing | Place::Rowing | Place::Ordering | Place::Tagging
        ) {
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
            Page::Choose => self.choose.place(),
            Page::Row => self.row.place(),
            Page::Order => self.order.place(),
            Page::Tags => self.tags.place(),
        }
    }

    /// Whether the page has something picked to compare; it says what to do where it has not.
    fn can_compare(&mut self) -> bool {
        match self.page {
            Page::Choose => self.choose.can_compare(),
            Page::Row => self.row.can_compare(),
            Page::Key | Page::Order | Page::Tags => false,
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
        let seen = usize::from(drawing::sheet_area(Rect::new(0, 0, width, height)).height);
        let last = rows.saturating_sub(seen);
        let top = top.saturating_add_signed(by.into()).min(last);
        self.sheet = Some(Sheet { kind, top });
    }
}

#[cfg(test)]
mod bloom_tests;
#[cfg(test)]
mod tests;
