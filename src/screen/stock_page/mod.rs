//! The Stock page: everybody's tubers from lifting to sale, and quick entry along the shelf: one digit, one
//! number, the next plant.

mod entering;
mod keeping;
mod quick;
mod table;
mod view;

use std::collections::BTreeMap;

use jiff::civil::Date;

use crate::history::History;
use crate::matching::{Finder, Folded, Query, folded};
use crate::measure::day::{Calendar, DayOrder};
use crate::stock::{Entry, Lifting, Losses, Stock};
use crate::trial::{Fate, Subject, Trial};
use crate::variety::{Text, Varieties};

use super::Effect;
use super::keeping::Keeping;
use super::keys::Mode;
use super::kit::cursor::{Cursor, Movement};
use super::kit::line::Line;

/// The stock book and what entries are read by.
#[derive(Debug, Clone)]
pub struct Shelf {
    /// The book.
    pub stock: Stock,
    /// The day as the program began.
    pub today: Date,
    /// Which of day and month comes first, where that is settled.
    pub days: Option<DayOrder>,
    /// No entry gets a smaller number: a damaged one may hold it.
    pub least_id: u32,
    /// The year of the season that is planned, where there is an order.
    pub planted: Option<i16>,
}

/// Whose tubers there may be, beside those of the book.
#[derive(Debug, Clone, Copy)]
pub(super) struct Plants<'a> {
    pub(super) trial: &'a Trial,
    pub(super) list: &'a Varieties,
}

/// The Stock page's state.
#[derive(Debug, Clone)]
pub struct StockPage {
    shelf: Shelf,
    keeping: Keeping,
    /// Everybody: those of the book, kept seedlings, varieties that the list has on hand, and who was named.
    all: Vec<One>,
    /// What the list itself has on hand.
    listed: BTreeMap<Subject, u32>,
    /// What the winters took of everybody's tubers.
    losses: Losses,
    /// Who was named here and has no entry yet.
    named: Vec<Subject>,
    /// Words that a plant must hold to be shown.
    words: String,
    /// The places in `all` of what is shown.
    shown: Vec<usize>,
    cursor: Cursor,
    /// The day, the place and the observer of the entries to come.
    day: Date,
    place: Option<Text>,
    by: Option<Text>,
    line: Option<Line<Of>>,
    /// The entry that the edge was asked to save.
    pending: Option<Box<Entry>>,
    /// Why the last save failed.
    failed: Option<String>,
    /// The numbers of entries made here that can be taken back, and of those taken back.
    history: History<u32>,
    /// Whether the book has changed since this was last asked.
    changed: bool,
    note: Option<String>,
}

/// A plant, and its tubers that were lifted last.
#[derive(Debug, Clone)]
struct One {
    subject: Subject,
    lifting: Option<Lifting>,
    /// Tubers on hand by the list, where the book has none of it.
    listed: Option<u32>,
}

/// What a line is for.
#[derive(Debug, Clone, PartialEq)]
enum Of {
    /// One kind of event, one plant after the other: its place in [`quick::QUICK`].
    Walk(usize),
    /// A plant that is not shown.
    Add,
    /// The day, and who notes it.
    Day,
    /// Where it happens.
    Place,
    /// Words to look for; those before.
    Find(String),
}

/// What can happen on the Stock page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum StockMessage {
    /// Begin to note one kind of event along the shelf.
    Walk(char),
    /// Name a plant that is not shown.
    Add,
    /// Set the day, and who notes.
    Day,
    /// Set where it happens.
    Place,
    /// Look for words.
    Find,
    /// Take back the last entry.
    TakeBack,
    /// Make it again.
    Redo,
    /// Give the line.
    Give,
    /// Drop the line.
    Drop,
}

impl Shelf {
    /// An empty book.
    pub fn empty() -> Shelf {
        Shelf {
            stock: Stock::default(),
            today: Date::MAX,
            days: None,
            least_id: 1,
            planted: None,
        }
    }
}

impl StockPage {
    /// A page over a book.
    pub fn new(shelf: Shelf, keeping: Keeping) -> StockPage {
        StockPage {
            day: shelf.today,
            losses: shelf.stock.losses(),
            shelf,
            keeping,
            all: Vec::new(),
            listed: BTreeMap::new(),
            named: Vec::new(),
            words: String::new(),
            shown: Vec::new(),
            cursor: Cursor::default(),
            place: None,
            by: None,
            line: None,
            pending: None,
            failed: None,
            history: History::default(),
            changed: false,
            note: None,
        }
    }

    /// The book as it stands.
    pub fn stock(&self) -> &Stock {
        &self.shelf.stock
    }

    /// The year of the season that is planned.
    pub(super) fn planted(&self) -> Option<i16> {
        self.shelf.planted
    }

    /// Takes row and list as they are now.
    pub(super) fn open(&mut self, plants: Plants<'_>) {
        let chosen = self.subject().cloned();
        let listed = plants.list.list().iter();
        let on_hand = listed.filter_map(|one| {
            let tubers = one.on_hand.filter(|tubers| *tubers > 0)?;
            Some((Subject::Variety(one.name.clone()), tubers))
        });
        self.listed = on_hand.collect();
        self.all = self.everybody(plants);
        self.show();
        self.go_to(chosen.as_ref());
    }

    /// Seedlings by number, then varieties by name.
    fn everybody(&self, plants: Plants<'_>) -> Vec<One> {
        let mut subjects = self.shelf.stock.subjects();
        let seedlings = plants.trial.seedlings().iter();
        let seedlings = seedlings.map(|one| Subject::Seedling(one.number));
        subjects.extend(seedlings.filter(|subject| {
            let decision = plants.trial.decision(subject);
            decision.is_some_and(|(_, decision)| decision.fate == Fate::Keep)
        }));
        subjects.extend(self.listed.keys().cloned());
        subjects.extend(self.named.iter().cloned());
        subjects.sort();
        subjects.dedup();
        subjects.into_iter().map(|one| self.one(one)).collect()
    }

    fn one(&self, subject: Subject) -> One {
        let lifting = self.shelf.stock.last_lifting(&subject);
        let listed = self.listed.get(&subject).copied();
        One {
            listed: listed.filter(|_| lifting.is_none()),
            lifting,
            subject,
        }
    }

    /// Works a plant out anew after its entries changed.
    fn revise(&mut self, subject: &Subject) {
        self.losses = self.shelf.stock.losses();
        let one = self.one(subject.clone());
        match self.all.iter_mut().find(|own| own.subject == *subject) {
            Some(own) => *own = one,
            None => self.all.push(one),
        }
    }

    /// What the keys mean now.
    pub(super) fn mode(&self) -> Mode {
        match &self.line {
            None => Mode::Stocking,
            Some(_) => Mode::Counting,
        }
    }

    /// Takes a message in.
    pub(super) fn update(&mut self, message: StockMessage, plants: Plants<'_>) -> Option<Effect> {
        use StockMessage as S;
        self.note = None;
        match message {
            S::Walk(digit) => self.begin_walk(digit),
            S::Add => self.begin(Of::Add, String::new()),
            S::Day => self.begin(Of::Day, self.day_as_words()),
            S::Place => {
                let place = self.place.as_ref().map(ToString::to_string);
                self.begin(Of::Place, place.unwrap_or_default());
            }
            S::Find => self.begin(Of::Find(self.words.clone()), self.words.clone()),
            S::TakeBack => return self.take_back(),
            S::Redo => return self.make_again(),
            S::Give => return self.give(plants),
            S::Drop => self.drop_line(),
        }
        None
    }

    /// Moves the cursor, in a window of so many rows.
    pub(super) fn go(&mut self, movement: Movement, window: usize) {
        self.note = None;
        self.step(movement, window);
    }

    fn step(&mut self, movement: Movement, window: usize) {
        self.cursor.go(movement, self.shown.len(), window);
        // What was typed was for the plant before.
        if let Some(line) = &mut self.line
            && matches!(line.of, Of::Walk(_))
        {
            line.offer(String::new());
        }
    }

    /// Whether the book has changed since this was last asked.
    pub(super) fn take_changed(&mut self) -> bool {
        std::mem::take(&mut self.changed)
    }

    fn chosen(&self) -> Option<&One> {
        let at = self.shown.get(self.cursor.row(self.shown.len()))?;
        Some(&self.all[*at])
    }

    fn subject(&self) -> Option<&Subject> {
        self.chosen().map(|one| &one.subject)
    }

    /// Finds what is shown, what the words find best first. On a walk nothing moves.
    fn show(&mut self) {
        if let Some(line) = &self.line
            && matches!(line.of, Of::Walk(_))
        {
            return;
        }
        self.shown = match self.words.trim() {
            "" => (0..self.all.len()).collect(),
            words => self.found(words),
        };
        self.cursor = Cursor::on(self.cursor.row(self.shown.len()));
    }

    fn found(&self, words: &str) -> Vec<usize> {
        let query = Query::new(words);
        let names: Vec<(Folded, String)> = { self.all.iter() }
            .map(|one| (Folded::of(&one.subject.to_string()), folded(&told(one))))
            .collect();
        let all = names.iter().map(|(name, told)| (name, told.as_str()));
        let found = Finder::of(&query).ranked(all).into_iter();
        found.map(|(_, at)| at).collect()
    }

    /// The cursor on a plant, where it is shown.
    fn go_to(&mut self, subject: Option<&Subject>) {
        let is = |at: &usize| Some(&self.all[*at].subject) == subject;
        let at = self.shown.iter().position(is);
        self.cursor = at.map_or(self.cursor, Cursor::on);
    }

    fn calendar(&self) -> Calendar {
        Calendar::noting(self.shelf.today, self.shelf.days)
    }

    pub(super) fn say(&mut self, note: impl Into<String>) {
        self.note = Some(note.into()).filter(|note| !note.is_empty());
    }
}

/// What words are looked for in beside the number or the name.
fn told(one: &One) -> String {
    let Some(lifting) = &one.lifting else {
        return "no entry".to_string();
    };
    let places = lifting.places.keys().flatten();
    let people = lifting.promises.iter().filter_map(|one| one.to.as_ref());
    let told: Vec<&str> = places.chain(people).map(|one| one.as_str()).collect();
    told.join(" ")
}

#[cfg(test)]
mod tests;
