//! The Choose page: the grower's list, narrowed, ranked, and marked for the shortlist.

mod asking;
mod detail;
mod drawn;
mod entering;
mod facets;
mod filling;
mod importing;
mod jumped;
mod keeping;
mod moving;
mod picking;
mod remembered;
mod sentence;
mod shown;
mod side;
mod slip;
mod strip;
mod table;
mod view;

use std::collections::BTreeMap;
use std::sync::Arc;

use crate::colour::Vocabulary;
use crate::form::RuleSet;
use crate::history::History;
use crate::measure::SizeUnits;
use crate::order::Pieces;
use crate::stock::KnownStore;
use crate::variety::{
    BloomSeason, By, Facet, Index, IndexContext, Names, Narrowing, QueryCache, Step, Uses,
    Varieties, Variety, folded,
};

use super::Effect;
use super::bloom::Portraits;
use super::import::{ImportMessage, Importing};
use super::keeping::{Keeper, Keeping};
use super::keys::Mode;
use super::kit::cursor::Cursor;
use super::kit::line::Line;
pub(in crate::screen) use keeping::Renewed;
use remembered::Remembered;
use shown::Shown;
pub(in crate::screen) use slip::Named;
use slip::Slip;

/// What the stock book has of varieties of the list, by their names without case and accents.
pub(super) type Stores = BTreeMap<String, KnownStore>;

/// The list and what it is worked out under.
#[derive(Debug, Clone)]
pub struct Stock {
    /// The list.
    pub list: Varieties,
    /// The rules that forms and size words come from.
    pub rules: RuleSet,
    /// The uses.
    pub uses: Uses,
    /// The colour words.
    pub words: Vocabulary,
    /// What pieces of work take in stems: for the order, which is read with the list.
    pub pieces: Pieces,
    /// Saleable stems that a plant gives in a season, where a variety's own figure is unknown.
    pub stems_a_plant: f64,
    /// The chance at which a need of the order is to be met, where it does not say.
    pub sure: f64,
    /// The units to show lengths in.
    pub units: SizeUnits,
    /// When varieties are expected in bloom; `None` where no season is planned.
    pub season: Option<BloomSeason>,
}

/// The Choose page's state. What is shown is worked out when what is asked changes.
#[derive(Debug, Clone)]
pub struct ChoosePage {
    stock: Stock,
    /// Records of the list with what the trial row saw of them taken in: to choose by, never saved.
    seen: BTreeMap<usize, Variety>,
    stores: Arc<Stores>,
    keeper: Keeper,
    history: History<Step>,
    /// Rows whose records changed, and whether rows came or went, since that was last asked.
    renewed: Vec<usize>,
    list_moved: bool,
    /// Worked out when the page is first needed.
    index: Option<Index>,
    /// The names by themselves, for the jump line, until there is an index.
    names: Option<Names>,
    /// More was seen since the list was last asked.
    stale: bool,
    held: QueryCache,
    narrowings: Vec<Narrowing>,
    use_at: Option<usize>,
    /// The order that was picked; `None`: by all that was asked.
    by: Option<By>,
    shown: Shown,
    /// The cursor among what is left.
    cursor: Cursor,
    /// Rows of the window.
    rows: usize,
    /// Rows of the list picked to be compared, in the order of picking.
    compared: Vec<usize>,
    entry: Entry,
    /// A file that is read into the list.
    import: Importing,
    remembered: Remembered,
    note: Option<String>,
    /// The row of which it was asked whether it is to be dropped.
    dropping: Option<usize>,
    /// The bloom of the variety under the cursor.
    portraits: Portraits,
}

/// What is half entered.
#[derive(Debug, Clone)]
enum Entry {
    /// Nothing.
    Nothing,
    /// A line.
    Line(Line<Of>),
    /// A facet's values, and where the cursor is among them.
    Values { facet: Facet, at: Cursor },
    /// A variety that is filled in.
    Slip(Box<Slip>),
    /// The uses; the first is none.
    Uses { at: Cursor },
    /// A file is read into the list.
    Import,
}

/// What a line is for.
#[derive(Debug, Clone, PartialEq)]
enum Of {
    /// Words in the name, and the narrowings as they were before.
    Words(Vec<Narrowing>),
    /// A colour.
    Colour,
    /// A note on the shortlist.
    Note,
    /// The notes on the variety.
    Notes,
    /// Tubers on hand.
    OnHand,
}

/// What can happen on the Choose page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum ChooseMessage {
    /// Look for words in the names.
    Words,
    /// Ask for a colour.
    Colour,
    /// Let the colour be so much farther away.
    Farther(i8),
    /// Pick a value of a facet.
    Facets,
    /// Pick a use to rank for.
    Uses,
    /// The next order.
    Sort,
    /// Take back the last narrowing.
    TakeBack,
    /// Drop the one narrowing that leaves nothing.
    Mend,
    /// Put the variety on the shortlist, or take it off.
    Mark,
    /// Add a variety.
    Add,
    /// Change the variety.
    Change,
    /// Add one that is like it.
    Copy,
    /// Drop it from the list.
    DropVariety,
    /// Write the note on the shortlist.
    Note,
    /// Write the notes on the variety.
    Notes,
    /// Count the tubers on hand.
    OnHand,
    /// Pick the variety to be compared, or not.
    Pick,
    /// Undo.
    Undo,
    /// Redo.
    Redo,
    /// Give what was entered.
    Give,
    /// Drop what was entered.
    Drop,
    /// Let this value hold beside those picked.
    Also,
    /// So many facets on.
    Facet(i8),
    /// Read a file into the list.
    BeginImport,
    /// While one is read in.
    Import(ImportMessage),
}

impl ChoosePage {
    /// A page over a list, nothing asked yet.
    pub fn new(stock: Stock, keeping: Keeping) -> ChoosePage {
        ChoosePage {
            stock,
            seen: BTreeMap::new(),
            stores: Arc::default(),
            keeper: Keeper::new(keeping),
            history: History::default(),
            renewed: Vec::new(),
            list_moved: false,
            index: None,
            names: None,
            stale: false,
            held: QueryCache::default(),
            narrowings: Vec::new(),
            use_at: None,
            by: None,
            shown: Shown::default(),
            cursor: Cursor::default(),
            rows: 24,
            compared: Vec::new(),
            entry: Entry::Nothing,
            import: Importing::default(),
            remembered: Remembered::default(),
            note: None,
            dropping: None,
            portraits: Portraits::default(),
        }
    }

    /// Works out what the page needs, once, and looks again where more was seen since.
    pub fn open(&mut self) {
        if self.index.is_none() {
            let index = match self.seen.is_empty() {
                true => Index::new(&self.stock.list, self.stock.grounds()),
                false => Index::new(&self.informed(), self.stock.grounds()),
            };
            self.index = Some(index);
            self.names = None;
            self.stale = true;
        }
        if self.stale {
            self.stale = false;
            self.ask();
        }
    }

    /// The list as it stands.
    pub fn list(&self) -> &Varieties {
        &self.stock.list
    }

    /// The uses that the list is ranked for.
    pub(super) fn uses(&self) -> &Uses {
        &self.stock.uses
    }

    /// Takes in what the trial row has seen: the place in the list, and the record with it. Only
    /// what hangs on those records is worked out, and what is shown when the page is next opened.
    pub fn take_evidence(&mut self, records: Vec<(usize, Variety)>) {
        for (row, record) in records {
            let record = self.with_store(record);
            if let Some(index) = &mut self.index {
                let replaced = index.put(row, &record, self.stock.grounds());
                self.held.look_again(index, &replaced);
                self.stale = true;
            }
            self.seen.insert(row, record);
        }
    }

    /// Takes in what the stock book has of the list's varieties; gives the rows of which it has something else
    /// now. What the trial row saw of those is to be taken in again.
    pub fn take_stores(&mut self, stores: Vec<KnownStore>) -> Vec<usize> {
        let named = stores.into_iter().map(|one| (folded(&one.variety), one));
        let named: Stores = named.collect();
        let before = std::mem::replace(&mut self.stores, Arc::new(named));
        let both = before.iter().chain(self.stores.iter());
        let other = both.filter(|(name, _)| before.get(*name) != self.stores.get(*name));
        let rows = other.filter_map(|(_, store)| self.stock.list.find(&store.variety));
        let mut rows: Vec<usize> = rows.collect();
        rows.sort_unstable();
        rows.dedup();
        let list = self.stock.list.list();
        let records = rows.iter().map(|row| (*row, list[*row].clone()));
        let records = records.collect();
        self.take_evidence(records);
        rows
    }

    /// What the stock book has of varieties of the list.
    pub(super) fn stores(&self) -> Arc<Stores> {
        Arc::clone(&self.stores)
    }

    /// Puts what the stock book has of these rows into their records, beside what the trial row saw.
    fn see_stores(&mut self, rows: impl IntoIterator<Item = usize>) {
        if self.stores.is_empty() {
            return;
        }
        let known = rows.into_iter().filter_map(|row| {
            let record = self.known(row);
            let has = self.stores.contains_key(&folded(&record.name));
            has.then(|| (row, record.clone()))
        });
        let known = known.collect();
        self.take_evidence(known);
    }

    fn with_store(&self, record: Variety) -> Variety {
        match self.stores.get(&folded(&record.name)) {
            Some(store) => store.in_record(record),
            None => record,
        }
    }

    /// The season that is planned is another: when varieties are in bloom is worked out anew.
    pub(super) fn take_season(&mut self, season: Option<BloomSeason>) {
        if season != self.stock.season {
            self.stock.season = season;
            self.held = QueryCache::default();
            if self.index.take().is_some() {
                self.open();
            }
        }
    }

    /// The stock with what the trial row has seen in its list.
    pub(super) fn informed_stock(&self) -> Stock {
        Stock {
            list: self.informed(),
            ..self.stock.clone()
        }
    }

    /// The list with what the trial row has seen.
    fn informed(&self) -> Varieties {
        let mut list = self.stock.list.clone();
        for (row, record) in &self.seen {
            // OK because the record's name is the one that was there.
            let _ = list.replace(*row, record.clone());
        }
        list
    }

    /// What is known of a variety, the trial row's evidence with it.
    fn known(&self, row: usize) -> &Variety {
        self.seen.get(&row).unwrap_or(&self.stock.list.list()[row])
    }

    /// What the keys mean now.
    pub fn mode(&self) -> Mode {
        match self.entry {
            Entry::Nothing => Mode::Choosing,
            Entry::Line(_) => Mode::Writing,
            Entry::Values { .. } | Entry::Uses { .. } => Mode::Picking,
            Entry::Slip(_) => Mode::Filling,
            Entry::Import => self.import.mode(),
        }
    }

    /// The window has so many rows now.
    pub fn resize(&mut self, rows: u16) {
        self.rows = rows.into();
        if self.index.is_some() {
            self.rank_enough();
        }
    }

    /// Takes a message in.
    pub(super) fn update(&mut self, message: ChooseMessage, named: Named<'_>) -> Option<Effect> {
        use ChooseMessage as C;
        self.open();
        self.note = None;
        if message != C::DropVariety {
            self.dropping = None;
        }
        match message {
            C::Words => self.begin_words(),
            C::Colour => self.begin_colour(),
            C::Farther(by) => self.farther(by),
            C::Facets => self.begin_values(Facet::Form),
            C::Uses => self.begin_uses(),
            C::Sort => self.next_order(),
            C::TakeBack => self.take_back(),
            C::Mend => self.mend(),
            C::Mark => return self.mark(),
            C::Add => self.begin_adding(),
            C::Change => self.begin_changing(),
            C::Copy => self.begin_copying(),
            C::DropVariety => return self.drop_variety(named),
            C::Note => self.begin_line(Of::Note),
            C::Notes => self.begin_line(Of::Notes),
            C::OnHand => self.begin_line(Of::OnHand),
            C::Pick => self.pick(),
            C::Undo => return self.undo(),
            C::Redo => return self.redo(),
            C::Give => return self.give(),
            C::Drop => self.drop_entry(),
            C::Also => self.also(),
            C::Facet(by) => self.step_facet(by),
            C::BeginImport => return self.begin_import(),
            C::Import(message) => return self.update_import(message),
        }
        None
    }

    /// The row of the list under the cursor; `None` where nothing is left.
    fn row(&self) -> Option<usize> {
        let place = self.cursor.row(self.shown.found);
        let at = place.checked_sub(self.shown.first)?;
        self.shown.ranked.get(at).map(|one| one.row)
    }

    pub(super) fn say(&mut self, note: impl Into<String>) {
        self.note = Some(note.into());
    }
}

impl Stock {
    /// An empty list under these rules.
    pub fn empty(rules: RuleSet, units: SizeUnits) -> Stock {
        Stock {
            list: Varieties::default(),
            rules,
            uses: Uses::embedded(),
            words: Vocabulary::embedded(),
            pieces: Pieces::embedded(),
            stems_a_plant: 1.0,
            sure: crate::order::USUALLY_SURE,
            season: None,
            units,
        }
    }

    pub(super) fn grounds(&self) -> IndexContext<'_> {
        IndexContext {
            rules: &self.rules,
            uses: &self.uses,
            words: &self.words,
            stems_a_plant: self.stems_a_plant,
            season: self.season.as_ref(),
        }
    }
}

#[cfg(test)]
mod tests;
