//! The Tags page: what is to be tagged, on what, and each tag as it will print.

mod by_book;
mod candidates;
mod drawn;
mod entering;
mod making;
pub(super) mod on_tags;
mod picking;
mod preview;
mod table;
mod view;

use std::collections::{BTreeMap, BTreeSet};

use crate::measure::SizeUnits;
use crate::paper::Page;
use crate::stock::{ForSale, Stock as Book};
use crate::tag::{
    ClaimSources, Copies, Kind, Label, LabelSheet, Placing, Refused, SaleOrder, Says, Selling,
    Stock,
};
use crate::trial::Subject;
use crate::variety::NamingRules;

use super::Effect;
use super::bloom::Portraits;
use super::keys::Mode;
use super::kit::cursor::{Cursor, Movement};
use super::kit::line::Line;
use super::row_page::RowPage;
use candidates::Candidate;
use on_tags::OnTags;

/// What tags are printed on, and where files go.
#[derive(Debug, Clone)]
pub struct Supply {
    /// The kinds of tag and the sheets.
    pub stock: Stock,
    /// What names are written by.
    pub naming: NamingRules,
    /// The id of the grower's usual paper.
    pub paper: String,
    /// The folder in which a file goes whose name has none, as it is told.
    pub folder: String,
}

/// The Tags page's state.
#[derive(Debug, Clone)]
pub struct TagsPage {
    supply: Supply,
    /// Who sells, and for how much.
    selling: Selling,
    /// Everything that can be tagged.
    all: Vec<Candidate>,
    /// Words that a candidate must hold to be shown.
    words: String,
    /// The places in `all` of what is shown.
    shown: Vec<usize>,
    cursor: Cursor,
    picked: BTreeSet<Subject>,
    /// Whether the grower picked; until then all kept seedlings are.
    by_hand: bool,
    /// What the stock book has of everybody.
    book: BTreeMap<Subject, ForSale>,
    /// Whether tags are as many as the book has free, at the price that it asks.
    by_book: bool,
    /// The kind of tag: its place in the stock.
    kind: usize,
    /// The sheet that was chosen for each kind, where one was: its id.
    sheets: BTreeMap<String, String>,
    /// The units of lengths.
    units: SizeUnits,
    placing: Placing,
    copies: Copies,
    coloured: bool,
    /// What can be said of those that were needed so far.
    said: BTreeMap<Subject, Says>,
    /// Their labels, of the kind and on the sheet that are chosen.
    labels: BTreeMap<Subject, Result<Label, Refused>>,
    line: Option<Line<Of>>,
    /// What the edge was asked to write.
    pending: Option<Printing>,
    note: Option<String>,
    /// The drawing on the tag under the cursor.
    portraits: Portraits,
}

/// A file to be written.
#[derive(Debug, Clone, PartialEq)]
pub struct Printing {
    /// Its name as it was typed; it ends in `.pdf`, `.svg`, `.csv` or `.txt`.
    pub name: String,
    /// Whether a file of that name may be replaced.
    pub replace: bool,
    /// What a program that opens it shows as its title.
    pub title: String,
    /// What is in it.
    pub content: Content,
    /// What it is, as the grower is told once it is written.
    told: String,
}

/// What is in a file.
#[derive(Debug, Clone, PartialEq)]
pub enum Content {
    /// Pages, as PDF or SVG by the file's name.
    Pages(Vec<Page>),
    /// Rows of cells, as CSV.
    Table(Vec<Vec<String>>),
    /// Plain text.
    Text(String),
}

/// What a line is for.
#[derive(Debug, Clone, PartialEq)]
enum Of {
    /// The name of the file for the tags.
    Print,
    /// The name of the file for a test page.
    TestPage,
    /// How far all is moved.
    Offset,
    /// How many copies: of this plant, or of all.
    Copies(Option<Subject>),
    /// What one costs: of this plant, or of all.
    Price(Option<Subject>),
    /// The label of the first sheet to begin at.
    From,
    /// The name of the file for a price list, and how it is ordered.
    Prices(SaleOrder),
    /// Words to look for; those before, and where the cursor was.
    Find(String, Option<Subject>),
}

/// What can happen on the Tags page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum TagsMessage {
    /// The kind with this digit.
    Kind(char),
    /// The next sheet or roll of the kind.
    Sheet,
    /// In colour, or black on white.
    Coloured,
    /// Set how far all is moved.
    Offset,
    /// Set how many copies there are of the one under the cursor.
    CopiesOfOne,
    /// Set how many copies there are of each.
    CopiesOfAll,
    /// Number the copies, or not.
    Numbered,
    /// Set what one of those under the cursor costs.
    PriceOfOne,
    /// Set what each costs.
    PriceOfAll,
    /// Set the label to begin at.
    From,
    /// Go by the stock book, or no longer.
    ByBook,
    /// Write a price list of what is for sale.
    Prices(SaleOrder),
    /// Pick the one under the cursor, or let it go.
    Pick,
    /// Pick all that are shown, or let them go.
    PickShown,
    /// Look for words.
    Find,
    /// Print what is picked.
    Print,
    /// Print a page to align the sheet by.
    TestPage,
    /// Give the line.
    Give,
    /// Drop the line.
    Drop,
}

impl Supply {
    /// What the program has.
    pub fn embedded() -> Supply {
        Supply {
            stock: Stock::embedded(),
            naming: NamingRules::embedded(),
            paper: String::new(),
            folder: String::new(),
        }
    }
}

impl TagsPage {
    /// A page with nothing to tag yet.
    pub fn new(supply: Supply) -> TagsPage {
        let sale = supply.stock.kinds.iter().position(|kind| kind.sold);
        TagsPage {
            kind: sale.unwrap_or(0),
            supply,
            selling: Selling::default(),
            all: Vec::new(),
            words: String::new(),
            shown: Vec::new(),
            cursor: Cursor::default(),
            picked: BTreeSet::new(),
            by_hand: false,
            book: BTreeMap::new(),
            by_book: false,
            sheets: BTreeMap::new(),
            units: SizeUnits::default(),
            placing: Placing::default(),
            copies: Copies::default(),
            coloured: false,
            said: BTreeMap::new(),
            labels: BTreeMap::new(),
            line: None,
            pending: None,
            note: None,
            portraits: Portraits::default(),
        }
    }

    /// What tags say beside what was observed.
    pub(super) fn on_tags(&self) -> OnTags {
        OnTags {
            practice: self.supply.stock.practice.clone(),
            naming: self.supply.naming.clone(),
            selling: self.selling_now(),
        }
    }

    /// Takes in what tags say of the seller, as it is settled; prices of single plants stay.
    pub(super) fn set_selling(&mut self, selling: Selling) {
        let mut price = self.selling.price.clone();
        price.set(None, *selling.price.for_all());
        self.selling = Selling { price, ..selling };
        self.forget_said();
    }

    /// What is said, and so every label, is worked out anew.
    fn forget_said(&mut self) {
        self.said.clear();
        self.labels.clear();
    }

    /// Takes list and row as they are now, beside the stock book that was [taken](TagsPage::take_book).
    pub(super) fn open(&mut self, grounds: &ClaimSources<'_>, row: &RowPage) {
        let under = self.subject().cloned();
        self.units = grounds.units;
        self.all = candidates::of(grounds, row);
        self.forget_said();
        if self.by_hand {
            let known = |subject: &Subject| grounds.find(subject).is_some();
            self.picked.retain(known);
        } else {
            self.pick_usual(grounds);
        }
        self.show(under.as_ref());
        self.make(grounds);
    }

    /// What the keys mean now.
    pub fn mode(&self) -> Mode {
        match &self.line {
            None => Mode::Tagging,
            Some(_) => Mode::Naming,
        }
    }

    /// Takes a message in; what is then to be shown is for [`TagsPage::make`].
    pub(super) fn update(
        &mut self,
        message: TagsMessage,
        grounds: &ClaimSources<'_>,
        book: &Book,
    ) -> Option<Effect> {
        use TagsMessage as T;
        self.note = None;
        match message {
            T::Kind(digit) => self.choose_kind(digit),
            T::Sheet => self.next_sheet(),
            T::Coloured => {
                self.coloured = !self.coloured;
                self.labels.clear();
            }
            T::Pick => self.pick(),
            T::PickShown => self.pick_shown(),
            T::Numbered => {
                self.copies.numbered = !self.copies.numbered;
                self.labels.clear();
            }
            T::ByBook => self.toggle_book(grounds),
            T::Offset
            | T::CopiesOfOne
            | T::CopiesOfAll
            | T::PriceOfOne
            | T::PriceOfAll
            | T::From
            | T::Prices(_)
            | T::Find
            | T::Print
            | T::TestPage => self.begin(message),
            T::Give => return self.give(grounds, book),
            T::Drop => self.drop_line(),
        }
        None
    }

    /// Moves the cursor, in a window of so many rows.
    pub(super) fn go(&mut self, movement: Movement, window: usize) {
        self.note = None;
        self.cursor.go(movement, self.shown.len(), window);
    }

    /// The candidate under the cursor; `None` where none is shown.
    fn chosen(&self) -> Option<&Candidate> {
        let at = self.shown.get(self.cursor.row(self.shown.len()))?;
        Some(&self.all[*at])
    }

    fn subject(&self) -> Option<&Subject> {
        self.chosen().map(|candidate| &candidate.subject)
    }

    /// What is printed: those that are picked, else the one under the cursor.
    fn targets(&self) -> Vec<&Subject> {
        match self.picked.is_empty() {
            true => self.subject().into_iter().collect(),
            false => self.picked.iter().collect(),
        }
    }

    /// The kind that is chosen; `None` where the stock has none.
    fn kind(&self) -> Option<&Kind> {
        self.supply.stock.kinds.get(self.kind)
    }

    /// The sheet that is chosen for the kind.
    fn sheet(&self) -> Option<&LabelSheet> {
        let (stock, kind) = (&self.supply.stock, self.kind()?);
        let chosen = self.sheets.get(&kind.id).and_then(|id| stock.sheet(id));
        chosen.or_else(|| stock.sheet_for(&kind.id, &self.supply.paper))
    }

    pub(super) fn say(&mut self, note: impl Into<String>) {
        self.note = Some(note.into());
    }
}

#[cfg(test)]
mod tests;
