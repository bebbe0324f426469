//! The Row page: the trial row, what each seedling's entries add up to, and quick entry on a walk
//! along it.

mod adding;
mod comparing;
mod cutting;
mod detail;
mod drawn;
mod entering;
mod filling;
mod forms;
mod jumped;
mod keeping;
mod order;
mod quick;
mod sequence;
mod slip;
mod sown;
mod states;
mod table;
mod view;
mod whole;

use std::collections::BTreeMap;
use std::sync::LazyLock;

use jiff::civil::Date;

use crate::colour::Vocabulary;
use crate::form::{Keyer, Traits};
use crate::history::History;
use crate::measure::SizeUnits;
use crate::measure::day::DayOrder;
use crate::screen::tags_page::on_tags::OnTags;
use crate::tag::ClaimSources;
use crate::trial::{
    Advice, BloomDays, Evidence, EvidenceContext, Lasting, Neighbours, Next, Number, Release,
    Subject, Trial, Whole,
};
use crate::variety::{FormNote, Text, Uses, Varieties, Variety};

use super::Effect;
use super::bloom::Portraits;
use super::keeping::Keeping;
use super::keys::Mode;
use super::kit::cursor::{Cursor, Movement};
use super::kit::line::Line;
use sequence::Order;
use slip::Slip;
use states::{Done, Of, Pending, Turn};

/// The row and what it is worked out under.
#[derive(Debug, Clone)]
pub struct Plot {
    /// The row.
    pub trial: Trial,
    /// The rules that bloom answers are read and weighed under.
    pub keyer: Keyer,
    /// The colour words.
    pub words: Vocabulary,
    /// The grower's release gate.
    pub release: Release,
    /// The units to show lengths in, and in which a bare number is read.
    pub units: SizeUnits,
    /// The day as the program began.
    pub today: Date,
    /// Which of day and month comes first, where that is settled.
    pub days: Option<DayOrder>,
    /// No entry gets a smaller number: a damaged one may hold it.
    pub least_id: u32,
    /// When blooms are to be had, where that is known.
    pub bloom_days: Option<BloomDays>,
}

/// The Row page's state. What a subject's entries add up to is worked out when they change.
#[derive(Debug, Clone)]
pub struct RowPage {
    plot: Plot,
    keeping: Keeping,
    /// The list's colours; worked out when the page is first needed, and the sums with them.
    neighbours: Option<Neighbours>,
    /// The forms that the list has for varieties on trial.
    listed: BTreeMap<Text, FormNote>,
    sums: Vec<Sum>,
    order: Order,
    /// Words that a subject must hold to be shown.
    words: String,
    /// The places in `sums` of what is shown, in order.
    shown: Vec<usize>,
    cursor: Cursor,
    /// The day and the observer of the entries to come.
    day: Date,
    /// Whether the grower named that day, or meant it when it was asked after.
    day_is_told: bool,
    by: Option<Text>,
    line: Option<Line<Of>>,
    /// Seedlings that are filled in.
    slip: Option<Box<Slip>>,
    /// The plant of which it was asked whether it is to be dropped.
    dropping: Option<Number>,
    /// What the edge was asked to save.
    pending: Option<Pending>,
    /// Why the last save failed.
    failed: Option<String>,
    /// Entries made here that can be taken back, and those taken back that can be made again.
    history: History<Done>,
    /// Varieties of which more was seen than the Choose page was told.
    news: Vec<Subject>,
    note: Option<String>,
    /// Plants picked to be compared, in the order of picking, and what came of it when it was asked.
    compared: Vec<Subject>,
    lasting: Option<Lasting>,
    /// The row as a whole when it was last asked for.
    whole: Option<Whole>,
    /// The bloom of the plant under the cursor.
    portraits: Portraits,
}

/// A subject, and what its entries add up to.
#[derive(Debug, Clone)]
struct Sum {
    evidence: Evidence,
    advice: Advice,
    next: Next,
}

/// What can happen on the Row page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum RowMessage {
    /// Begin to note one kind of observation along the row.
    Walk(char),
    /// Note a decision.
    Decide,
    /// Add seedlings on a line.
    Add,
    /// Note stems cut in the beds, variety by variety.
    Cut,
    /// Add seedlings on a slip.
    AddOnSlip,
    /// Change the seedling.
    Change,
    /// Add one like it.
    Copy,
    /// Drop it.
    DropSeedling,
    /// Pick the plant to be compared, or not.
    Pick,
    /// Set the day and the observer.
    Day,
    /// Look for words.
    Find,
    /// The next order.
    Sort,
    /// Take back the last entry.
    TakeBack,
    /// Make it again.
    Redo,
    /// Give the line.
    Give,
    /// Drop the line.
    Drop,
}

impl Plot {
    /// An empty row under these rules.
    pub fn empty(keyer: Keyer, units: SizeUnits) -> Plot {
        Plot {
            trial: Trial::default(),
            keyer,
            words: Vocabulary::embedded(),
            release: Release::embedded(),
            units,
            today: Date::MAX,
            days: None,
            least_id: 1,
            bloom_days: None,
        }
    }
}

impl RowPage {
    /// A page over a row.
    pub fn new(plot: Plot, keeping: Keeping) -> RowPage {
        RowPage {
            day: plot.today,
            day_is_told: false,
            plot,
            keeping,
            neighbours: None,
            listed: BTreeMap::new(),
            sums: Vec::new(),
            order: Order::Next,
            words: String::new(),
            shown: Vec::new(),
            cursor: Cursor::default(),
            by: None,
            line: None,
            slip: None,
            dropping: None,
            pending: None,
            failed: None,
            history: History::default(),
            news: Vec::new(),
            note: None,
            compared: Vec::new(),
            lasting: None,
            whole: None,
            portraits: Portraits::default(),
        }
    }

    /// With sentences on what could not be read, to be told first.
    pub(super) fn with_problems(mut self, problems: Vec<String>) -> RowPage {
        self.note = match &problems[..] {
            [] => None,
            [one] => Some(one.clone()),
            [first, rest @ ..] => Some(format!("{first} (and {} more: trug row)", rest.len())),
        };
        self
    }

    /// Works out what the page needs, once.
    pub fn open(&mut self, list: &Varieties) {
        if self.neighbours.is_some() {
            return;
        }
        let keyer = &self.plot.keyer;
        self.neighbours = Some(Neighbours::of(list, &keyer.set, &self.plot.words));
        let subjects = self.plot.trial.subjects();
        for subject in &subjects {
            self.look_up(subject, list);
        }
        let none = Neighbours::default();
        let all = self.plot.trial.evidence_of(&subjects, &self.under(&none));
        let sums = all.into_iter().map(|evidence| self.judged(evidence));
        let sums = sums.collect();
        let chosen = self.subject();
        self.sums = sums;
        self.show();
        self.go_to(chosen.as_ref());
    }

    /// The day as the program began.
    pub(super) fn today(&self) -> Date {
        self.plot.today
    }

    /// The row as it stands.
    pub fn trial(&self) -> &Trial {
        &self.plot.trial
    }

    /// The traits by which its entries are told.
    pub(in crate::screen) fn traits(&self) -> &Traits {
        &self.plot.keyer.set.traits
    }

    /// The records of the list's varieties with what was seen of them, each with its place.
    pub fn records(&self, list: &Varieties) -> Vec<(usize, Variety)> {
        let none = Neighbours::default();
        let under = EvidenceContext {
            keyer: &self.plot.keyer,
            words: &self.plot.words,
            neighbours: &none,
        };
        let credence = self.plot.release.least.credence;
        self.plot.trial.records(list, &under, credence)
    }

    /// The record of a row of the list with what was seen of it; `None` where nothing was.
    pub(super) fn record_of(&self, row: usize, list: &Varieties) -> Option<(usize, Variety)> {
        let name = list.list().get(row)?.name.clone();
        let subject = self.plot.trial.variety_on_trial(&name)?;
        let credence = self.plot.release.least.credence;
        let evidence = self.sum(&subject).evidence;
        evidence.record(&self.plot.keyer, credence, list)
    }

    /// The list has other records: what hangs on them is worked out when the page is next open.
    pub(super) fn list_changed(&mut self) {
        self.neighbours = None;
        self.listed.clear();
    }

    /// Those of the varieties of which more was seen since this was last asked, by the sums that were
    /// worked out then.
    pub(super) fn take_news(&mut self, list: &Varieties) -> Vec<(usize, Variety)> {
        let news = std::mem::take(&mut self.news);
        let credence = self.plot.release.least.credence;
        let record = |subject: &Subject| {
            let sum = self
                .sums
                .iter()
                .find(|sum| sum.evidence.subject == *subject)?;
            sum.evidence.record(&self.plot.keyer, credence, list)
        };
        news.iter().filter_map(record).collect()
    }

    /// What tags are made from, once the page is open.
    pub(super) fn grounds<'a>(
        &'a self,
        list: &'a Varieties,
        uses: &'a Uses,
        tags: &'a OnTags,
    ) -> ClaimSources<'a> {
        static NONE: LazyLock<Neighbours> = LazyLock::new(Neighbours::default);
        ClaimSources {
            list,
            trial: &self.plot.trial,
            under: self.under(&NONE),
            release: &self.plot.release,
            uses,
            practice: &tags.practice,
            naming: &tags.naming,
            selling: &tags.selling,
            units: self.plot.units,
        }
    }

    /// What the keys mean now.
    pub fn mode(&self) -> Mode {
        match &self.line {
            None if self.slip.is_some() => Mode::Filling,
            None => Mode::Rowing,
            Some(_) => Mode::Noting,
        }
    }

    /// Takes a message in; `list` is the grower's list.
    pub fn update(&mut self, message: RowMessage, list: &Varieties) -> Option<Effect> {
        use RowMessage as R;
        self.open(list);
        self.note = None;
        if message != R::DropSeedling {
            self.dropping = None;
        }
        match message {
            R::AddOnSlip => self.begin_sowing(list),
            R::Change => self.begin_changing(list),
            R::Copy => self.begin_copying(list),
            R::DropSeedling => return self.drop_seedling(),
            R::Walk(digit) => self.begin_walk(digit),
            R::Decide => self.begin_decision(),
            R::Add => self.begin_adding(),
            R::Cut => self.begin_cutting(),
            R::Pick => self.pick(),
            R::Day => self.begin(Of::Day, self.day_as_words()),
            R::Find => self.begin(Of::Find(self.words.clone()), self.words.clone()),
            R::Sort => self.next_order(),
            R::TakeBack => return self.take_back(),
            R::Redo => return self.make_again(),
            R::Give => return self.give(list),
            R::Drop => self.drop_line(),
        }
        None
    }

    /// The subject under the cursor; `None` where none is shown.
    fn chosen(&self) -> Option<&Sum> {
        let at = self.shown.get(self.cursor.row(self.shown.len()))?;
        Some(&self.sums[*at])
    }

    fn subject(&self) -> Option<Subject> {
        self.chosen().map(|sum| sum.evidence.subject.clone())
    }

    fn under<'a>(&'a self, none: &'a Neighbours) -> EvidenceContext<'a> {
        EvidenceContext {
            keyer: &self.plot.keyer,
            words: &self.plot.words,
            neighbours: self.neighbours.as_ref().unwrap_or(none),
        }
    }

    fn sum(&self, subject: &Subject) -> Sum {
        let none = Neighbours::default();
        self.judged(self.plot.trial.evidence(subject, &self.under(&none)))
    }

    /// What the gate makes of the evidence, and what is to be done next.
    fn judged(&self, evidence: Evidence) -> Sum {
        let Plot {
            release,
            units,
            today,
            ..
        } = &self.plot;
        let none = Neighbours::default();
        let advice = release.advise(&evidence, &self.under(&none), *units);
        let next = Next::of(&evidence, &advice, release, *today);
        Sum {
            evidence,
            advice,
            next,
        }
    }

    /// Works a subject out anew after its entries changed.
    fn revise(&mut self, subject: &Subject) {
        let at = |sum: &Sum| sum.evidence.subject == *subject;
        match self.sums.iter().position(at) {
            Some(place) => self.sums[place] = self.sum(subject),
            None => self.sums.push(self.sum(subject)),
        }
    }

    /// Moves the cursor, in a window of so many rows.
    pub(super) fn go(&mut self, movement: Movement, window: usize, list: &Varieties) {
        self.note = None;
        self.dropping = None;
        if self.slip.is_some() {
            return self.move_in_slip(movement, window, list);
        }
        self.step(movement, window);
    }

    fn step(&mut self, movement: Movement, window: usize) {
        self.cursor.go(movement, self.shown.len(), window);
        self.line_goes_on();
    }

    /// What was just done, to be said on another page.
    pub fn said_last(&self) -> &str {
        self.note.as_deref().unwrap_or_default()
    }

    pub(super) fn say(&mut self, note: impl Into<String>) {
        self.note = Some(note.into()).filter(|note| !note.is_empty());
    }
}

#[cfg(test)]
mod tests;
