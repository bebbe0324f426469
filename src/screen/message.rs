//! Everything that can happen on the screen.

use super::abilities::Abilities;
use super::choose_page::ChooseMessage;
use super::filling::FillingMessage;
use super::import::Found;
use super::jump::JumpMessage;
use super::key_page::KeyMessage;
use super::kit::cursor::Movement;
use super::kit::line::Edit;
use super::order_page::{OrderMessage, Outcome};
use super::picture::Painted;
use super::row_page::RowMessage;
use super::stock_page::StockMessage;
use super::tags_page::TagsMessage;

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
    /// Note tubers from lifting to sale.
    Stock,
    /// Print tags.
    Tags,
}

impl Page {
    /// Every page, in the order of the tabs.
    pub const ALL: &'static [Page] = &[
        Page::Key,
        Page::Choose,
        Page::Row,
        Page::Order,
        Page::Stock,
        Page::Tags,
    ];

    /// The page's name.
    pub fn name(self) -> &'static str {
        match self {
            Page::Key => "Key",
            Page::Choose => "Choose",
            Page::Row => "Row",
            Page::Order => "Order",
            Page::Stock => "Stock",
            Page::Tags => "Tags",
        }
    }

    /// The least windows, columns and rows, in which it can be worked: any of them will do. What is
    /// done in the garden has room on a telephone.
    pub(super) fn least(self) -> &'static [(u16, u16)] {
        match self {
            Page::Key | Page::Choose | Page::Row | Page::Stock => &[(60, 16), (44, 20)],
            Page::Order | Page::Tags => &[(60, 16)],
        }
    }

    /// Whether a window of so many columns and rows has room for the page.
    pub(super) fn has_room(self, (width, height): (u16, u16)) -> bool {
        let least = self.least().iter();
        let mut fits = least.map(|least| width >= least.0 && height >= least.1);
        fits.any(|fits| fits)
    }

    /// The page so many on; after the last comes the first.
    pub(super) fn step(self, by: usize) -> Page {
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
    /// Show what is narrowed of the list by colour.
    OpenColours,
    /// Show the life of the variety under the cursor.
    OpenLife,
    /// Show the trial row as a whole.
    OpenWhole,
    /// Show the order's season by week, with the chances of each need.
    OpenSeason,
    /// Show which tags are refused, and why.
    OpenRefused,
    /// Take back the last change of the records, wherever it was made.
    Undo,
    /// Do again what was taken back last.
    Redo,
    /// Open the slip of the settings.
    OpenSettings,
    /// Open the slip of a folder of the grower's own.
    OpenStart,
    /// Put the sheet away.
    CloseSheet,
    /// Clear what is looked for in the help; where nothing is, put the help away.
    ClearHelp,
    /// To the next page.
    NextPage,
    /// To the page before.
    PreviousPage,
    /// The window has this many columns and rows now.
    Resize(u16, u16),
    /// The terminal said this of itself.
    Sees(Abilities),
    /// The picture of this number was made, or cannot be.
    Painted(u32, Option<Painted>),
    /// Move: what is read on a sheet, else the cursor of the page.
    Move(Movement),
    /// Edit the line that is typed on the page.
    Edit(Edit),
    /// For the slip that is filled in on the page.
    Fill(FillingMessage),
    /// A text was pasted: it goes to the line that is typed, and is never a command.
    Pasted(String),
    /// For the jump line.
    Jump(JumpMessage),
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
    /// For the Stock page.
    Stock(StockMessage),
    /// The entry of the stock book is on the disk.
    Stocked,
    /// It could not be saved, and why, as a sentence.
    NotStocked(String),
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
    /// The settings are on the disk.
    SettingsSaved,
    /// Settings could not be saved, or a folder not be made, and why, as a clause.
    NotKept(String),
    /// The screen was opened anew and goes on: there is nothing else to do.
    GoesOn,
    /// What was found where the edge looked.
    Looked(Box<Found>),
    /// The grower's own words are on the disk, or why not, as a sentence.
    WordsSaved(Result<(), String>),
    /// The list is on the disk.
    Saved,
    /// The list could not be saved, and why, as a sentence.
    NotSaved(String),
}
