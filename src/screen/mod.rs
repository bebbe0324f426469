//! The screen: pages as state. `update` does no input or output, and `view` changes nothing.
//!
//! Nothing here touches the terminal but `terminal`, and nothing touches a file.

pub mod abilities;
mod bloom;
pub mod choose_page;
mod drawing;
mod easel;
mod effect;
pub mod filling;
pub mod half_keyed;
pub mod import;
pub mod jump;
mod jumping;
mod keeping;
pub mod key_page;
pub mod keys;
pub mod kit;
mod leaving;
mod lengths;
mod links;
mod living;
mod message;
pub mod order_page;
mod own;
mod owning;
pub mod picture;
pub mod row_page;
mod seeing;
mod sheet;
mod sheet_drawing;
pub mod stock_page;
pub mod tags_page;
pub mod terminal;
pub mod theme;
mod turning;
mod turns;
pub mod window;

use ratatui::crossterm::event::KeyEvent;

use crate::form::Keyer;
use crate::measure::SizeUnits;
use crate::measure::day::Calendar;
use crate::variety::exchange::OwnWords;
use choose_page::{ChoosePage, Stock};
use easel::Easel;
pub use effect::Effect;
use filling::FillingMessage;
use half_keyed::HalfKeyed;
use jump::Jump;
pub use keeping::Keeping;
use key_page::KeyPage;
use keys::Mode;
use kit::cursor::Movement;
use kit::line::Edit;
pub use message::{Message, Page};
use order_page::OrderPage;
pub use own::Own;
use own::{Asked, OwnSlip};
use row_page::{Plot, RowPage};
use sheet::{Sheet, SheetKind};
use stock_page::{Shelf, StockPage};
use tags_page::{Supply, TagsPage};
use theme::Theme;
use turns::Turns;

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
    /// The Stock page.
    pub stock: StockPage,
    /// The Tags page.
    pub tags: TagsPage,
    /// The settings and the folder, the slip of them that is open, and what was asked of the edge.
    own: Own,
    slip: Option<OwnSlip>,
    asked: Option<Asked>,
    /// In which order the pages made their changes.
    turns: Turns,
    /// Whether leaving was refused once, because a change is not saved, and nothing was typed since.
    warned: bool,
    sheet: Option<Sheet>,
    /// The jump line over the page, where it is open.
    jump: Option<Jump>,
    size: (u16, u16),
    /// What the blooms of the pages are drawn on.
    easel: Easel,
}

impl App {
    /// Opens on the Key page under the first rule set, with an empty list. All rule sets share one
    /// table of traits.
    pub fn new(first: Keyer, others: Vec<Keyer>, units: SizeUnits, theme: Theme) -> App {
        App {
            page: Page::Key,
            choose: ChoosePage::new(Stock::empty(first.set.clone(), units), Keeping::Session),
            row: RowPage::new(Plot::empty(first.clone(), units), Keeping::Session),
            order: OrderPage::without_order(Keeping::Session, Calendar::FILES),
            stock: StockPage::new(Shelf::empty(), Keeping::Session),
            tags: TagsPage::new(Supply::embedded()),
            own: Own::unknown(),
            slip: None,
            asked: None,
            turns: Turns::default(),
            warned: false,
            key: KeyPage::new(first, others, units),
            sheet: None,
            jump: None,
            size: (80, 24),
            easel: Easel::new(theme),
        }
    }

    /// With a list to choose from, and where changes to it go.
    pub fn with_list(mut self, stock: Stock, keeping: Keeping) -> App {
        self.choose = ChoosePage::new(stock, keeping);
        self
    }

    /// With the grower's own words for what tables say, or the sentence that says why they cannot be read.
    pub fn with_own_words(mut self, words: Result<OwnWords, String>) -> App {
        self.choose.remember(words);
        self
    }

    /// With a trial row, where entries go, and what could not be read of it.
    pub fn with_row(mut self, plot: Plot, keeping: Keeping, problems: Vec<String>) -> App {
        self.row = RowPage::new(plot, keeping).with_problems(problems);
        self.tell_choose();
        self
    }

    /// With a stock book, and where entries go; the list is informed by it.
    pub fn with_stock(mut self, shelf: Shelf, keeping: Keeping) -> App {
        self.stock = StockPage::new(shelf, keeping);
        self.tell_stores();
        self
    }

    /// With an order to settle or the sentence that says why there is none, and where changes go.
    pub fn with_order(
        mut self,
        plan: Result<crate::order::Plan, String>,
        keeping: Keeping,
        days: Calendar,
    ) -> App {
        self.order = OrderPage::new(plan, keeping, days);
        self
    }

    /// With what was settled of the order before.
    pub fn with_settled(mut self, kept: Vec<crate::order::Kept>) -> App {
        self.order = self.order.with_kept(kept);
        self
    }

    /// With no order yet: one can be begun.
    pub fn without_order(mut self, keeping: Keeping, days: Calendar) -> App {
        self.order = OrderPage::without_order(keeping, days);
        self
    }

    /// With what tags are printed on, and where files go.
    pub fn with_supply(mut self, supply: Supply) -> App {
        self.tags = TagsPage::new(supply);
        self.tags.set_selling(self.own.settings.selling());
        self
    }

    /// With blooms that were half keyed when the screen last ended, to be offered.
    pub fn with_half_keyed(mut self, blooms: Vec<HalfKeyed>) -> App {
        self.key.offer(blooms);
        self
    }

    /// The message of a key press as things stand.
    pub fn message(&self, event: KeyEvent) -> Option<Message> {
        keys::dispatch(event, self.mode())
    }

    /// Takes a message in, and draws the blooms that are seen from now on.
    pub fn update(&mut self, message: Message) -> Option<Effect> {
        let before = self.depths();
        let effect = self.take(message);
        self.follow_turns(before);
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
            Message::ClearHelp => self.clear_help(),
            Message::OpenCompare if self.can_compare() => self.open(SheetKind::Compare),
            Message::OpenCompare => {}
            Message::Undo => return self.undo(),
            Message::Redo => return self.redo(),
            Message::OpenSettings => self.open_settings(),
            Message::OpenStart => self.open_start(),
            Message::SettingsSaved => self.settings_saved(),
            Message::NotKept(why) => self.not_kept(why),
            Message::GoesOn => {}
            Message::OpenColours => self.open(SheetKind::Colours),
            Message::OpenLife => self.open(SheetKind::Life),
            Message::OpenWhole => {
                self.row.sum_up();
                self.open(SheetKind::Whole);
            }
            Message::OpenSeason => self.open_season(),
            Message::OpenRefused => self.open(SheetKind::Refused),
            Message::NextPage => self.go_to(self.page.step(1)),
            Message::PreviousPage => self.go_to(self.page.step(Page::ALL.len() - 1)),
            Message::Resize(width, height) => {
                self.size = (width, height);
                self.choose.resize(height);
                self.easel.anew();
            }
            Message::Sees(abilities) => self.see(abilities),
            Message::Painted(id, painted) => self.hang(id, painted),
            Message::Move(movement) => self.go(movement),
            Message::Edit(edit) => return self.edit(&edit),
            Message::Fill(message) => return self.fill(message),
            Message::Pasted(text) => return self.paste(text),
            Message::Jump(message) => return self.update_jump(message),
            Message::Key(message) => self.key.update(message),
            Message::Choose(message) => return self.update_choose(message),
            Message::Row(message) => return self.update_row(message),
            Message::Order(message) => return self.order.update(message),
            Message::Worked(outcome) => self.order.take(*outcome),
            Message::OrderSaved => self.order.saved(),
            Message::OrderNotSaved(why) => self.order.not_saved(why),
            Message::Stock(message) => return self.update_stock(message),
            Message::Stocked => self.stocked(),
            Message::NotStocked(why) => self.stock.not_entered(why),
            Message::Tags(message) => return self.update_tags(message),
            Message::Printed => self.tags.printed(),
            Message::NotPrinted(why) => self.tags.not_printed(why),
            Message::NoteBloom => self.note_bloom(),
            Message::Entered => return self.entered(),
            Message::NotEntered(why) => self.row.not_entered(why),
            Message::Looked(found) => self.choose.found(*found),
            Message::WordsSaved(saved) => return self.choose.words_saved(saved),
            Message::Saved => self.choose.saved(),
            Message::NotSaved(why) => self.choose.not_saved(why),
        }
        None
    }

    /// Opens a page, which may have to be worked out first.
    fn go_to(&mut self, page: Page) {
        self.page = page;
        match page {
            Page::Key => {}
            Page::Choose => {
                let season = self.order.plan().map(|plan| plan.season.in_bloom());
                self.choose.take_season(season);
                self.choose.open();
            }
            Page::Row => self.row.open(self.choose.list()),
            Page::Order => {
                let choose = &self.choose;
                let today = self.row.today();
                self.order
                    .open(|| choose.informed_stock(), choose.list(), today);
                self.order.set_palette(self.choose.palette());
            }
            Page::Stock => self.open_stock(),
            Page::Tags => self.open_tags(),
        }
    }

    /// What the keys mean now. Where the page has no room to be drawn none acts on it.
    fn mode(&self) -> Mode {
        match &self.sheet {
            _ if !self.page.has_room(self.size) => self.without_room(),
            Some(sheet) => sheet.mode(),
            None => self.page_mode(),
        }
    }

    /// Where the page has no room: to another that has leads a key.
    fn without_room(&self) -> Mode {
        match Page::ALL.iter().any(|page| page.has_room(self.size)) {
            true => Mode::Narrow,
            false => Mode::Small,
        }
    }

    fn page_mode(&self) -> Mode {
        match self.page {
            _ if self.slip.is_some() => Mode::Filling,
            _ if self.jump.is_some() => Mode::Jumping,
            Page::Key => self.key.mode(),
            Page::Choose => self.choose.mode(),
            Page::Row => self.row.mode(),
            Page::Order => self.order.mode(),
            Page::Stock => self.stock.mode(),
            Page::Tags => self.tags.mode(),
        }
    }

    /// Scrolls the sheet, else moves the cursor of the page.
    fn go(&mut self, movement: Movement) {
        if self.sheet.is_some() {
            return self.scroll(movement);
        }
        let window = usize::from(self.size.1);
        if let Some(jump) = &mut self.jump {
            return jump.go(movement, window);
        }
        match self.page {
            _ if self.slip.is_some() => self.go_own(movement, window),
            Page::Key => self.key.go(movement),
            Page::Choose => self.choose.go(movement, window),
            Page::Row => self.row.go(movement, window, self.choose.list()),
            Page::Order => self.order.go(movement, window),
            Page::Stock => self.stock.go(movement, window),
            Page::Tags => self.move_in_tags(movement, window),
        }
    }

    /// Edits the line that is typed on the sheet or the page, where one is.
    fn edit(&mut self, edit: &Edit) -> Option<Effect> {
        if let Some(sheet) = &mut self.sheet {
            sheet.edit(edit);
            return None;
        }
        self.warned = false;
        match self.page {
            _ if self.slip.is_some() => self.edit_own(edit),
            _ if self.jump.is_some() => self.edit_jump(edit),
            Page::Key => self.key.edit(edit),
            Page::Choose => return self.choose.edit(edit),
            Page::Row => self.row.edit(edit, self.choose.list()),
            Page::Order => self.order.edit(edit),
            Page::Stock => self.stock.edit(edit),
            Page::Tags => self.edit_in_tags(edit),
        }
        None
    }

    /// Does what was asked with the slip that is open on the page.
    fn fill(&mut self, message: FillingMessage) -> Option<Effect> {
        self.warned = false;
        match self.page {
            _ if self.slip.is_some() => self.fill_own(message),
            Page::Key | Page::Stock | Page::Tags => None,
            Page::Choose => self.fill_choose(message),
            Page::Row => self.row.fill(message, self.choose.list()),
            Page::Order => self.order.fill(message),
        }
    }

    /// Writes what was pasted on the line that is typed; a question for a number begins one. Nothing
    /// is done with it where no line takes it, or where it is not seen what does.
    fn paste(&mut self, text: String) -> Option<Effect> {
        if matches!(self.mode(), Mode::Small | Mode::Narrow | Mode::Sheet) {
            return None;
        }
        let effect = self.edit(&Edit::Write(text));
        if !self.mode().with().contains(&Mode::Line) {
            self.say("What was pasted is left out: no line is open to take it.");
        }
        effect
    }

    /// Says something on the page that is open, until the next key.
    fn say(&mut self, note: &str) {
        match self.page {
            Page::Key => self.key.say(note),
            Page::Choose => self.choose.say(note),
            Page::Row => self.row.say(note),
            Page::Order => self.order.say(note),
            Page::Stock => self.stock.say(note),
            Page::Tags => self.tags.say(note),
        }
    }

    /// Whether the page has something picked to compare; it says what to do where it has not.
    fn can_compare(&mut self) -> bool {
        match self.page {
            Page::Choose => self.choose.can_compare(),
            Page::Row => self.row.can_compare(),
            Page::Key | Page::Order | Page::Stock | Page::Tags => false,
        }
    }
}

#[cfg(test)]
mod bloom_tests;
#[cfg(test)]
pub(crate) mod tests;
