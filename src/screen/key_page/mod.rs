//! The Key page: one bloom, its answers, and what they add up to.

mod answered;
mod browsing;
mod drawn;
mod entering;
mod explained;
mod find;
mod forms;
mod given;
mod jumped;
mod kept;
mod layout;
mod middle;
mod moving;
mod pictured;
mod pictures;
mod settled;
mod typed;
mod view;
mod words;

use crate::form::{Answers, Keyer, Reading, Trait};
use crate::history::History;
use crate::measure::SizeUnits;
use crate::measure::day::Calendar;
use crate::trial::read::Reader;
use crate::trial::{Observation, What};

use super::bloom::Portraits;
use super::half_keyed::HalfKeyed;
use super::keys::Mode;
use super::kit::cursor::Cursor;
use super::kit::line::Line;
use pictures::Pictures;

/// The Key page's state. The reading is made when the answers or the rules change.
#[derive(Debug, Clone)]
pub struct KeyPage {
    keyers: Vec<Keyer>,
    rules: usize,
    units: SizeUnits,
    answers: Answers,
    history: History<Answers>,
    at: At,
    entry: Entry,
    note: Option<String>,
    reading: Reading,
    /// The leading form as it is drawn, or the one that is looked at in the list of forms.
    portraits: Portraits,
    /// What the answers to the question look like.
    pictures: Pictures,
    /// Blooms of before that are offered, the latest first, and those gone on with or dropped.
    offered: Vec<HalfKeyed>,
    settled: Vec<HalfKeyed>,
}

/// Which question is in the middle.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum At {
    /// The one that tells most.
    Next,
    /// One that the grower chose; `again` where it is a second look.
    Chosen { index: usize, again: bool },
}

/// What is half entered.
#[derive(Debug, Clone)]
enum Entry {
    /// Nothing.
    Nothing,
    /// States marked so far, as a mask.
    Marks(u64),
    /// A line for a number.
    Line(Line<()>),
    /// A search for a trait, and where its cursor is.
    Find(Line<()>, Cursor),
    /// The list of forms, and the form that is looked at.
    Browse(Cursor),
}

/// What can happen on the Key page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum KeyMessage {
    /// A digit was pressed at a question.
    Digit(char),
    /// Pass the question.
    CannotTell,
    /// Begin to mark several states.
    Mark,
    /// Begin a line with this character.
    Begin(char),
    /// Give what was entered, or change the answer under the cursor.
    Give,
    /// Drop what was entered, or go to the next question.
    Drop,
    /// Take an answer back.
    TakeBack,
    /// Look for a trait.
    Find,
    /// Look through the forms.
    Browse,
    /// Answer the diameter now.
    Measure,
    /// Look again at what would tell most.
    LookAgain,
    /// The next rule set.
    Rules,
    /// A new bloom.
    New,
    /// Undo.
    Undo,
    /// Redo.
    Redo,
    /// Go on with a bloom that was half keyed before.
    GoOn,
    /// Drop it.
    LetGo,
}

impl KeyPage {
    /// A page with no answer, under the first rule set.
    pub fn new(first: Keyer, others: Vec<Keyer>, units: SizeUnits) -> KeyPage {
        let answers = Answers::default();
        let reading = first.read(&answers);
        let mut keyers = vec![first];
        keyers.extend(others);
        KeyPage {
            keyers,
            rules: 0,
            units,
            answers,
            history: History::default(),
            at: At::Next,
            entry: Entry::Nothing,
            note: None,
            reading,
            portraits: Portraits::default(),
            pictures: Pictures::default(),
            offered: Vec::new(),
            settled: Vec::new(),
        }
    }

    /// The answers as they stand.
    pub fn answers(&self) -> &Answers {
        &self.answers
    }

    /// What the answers add up to under the chosen rules.
    pub fn reading(&self) -> &Reading {
        &self.reading
    }

    /// The rule set's name in plain words.
    pub fn rules_name(&self) -> &str {
        &self.keyer().set.name
    }

    /// What the keys mean now.
    pub fn mode(&self) -> Mode {
        match self.entry {
            Entry::Line(_) => Mode::Typing,
            Entry::Find(..) => Mode::Finding,
            Entry::Browse(_) => Mode::Browsing,
            Entry::Nothing | Entry::Marks(_) => Mode::Asking,
        }
    }

    /// Takes a message in.
    pub fn update(&mut self, message: KeyMessage) {
        self.note = None;
        match message {
            KeyMessage::Digit(digit) => self.digit(digit),
            KeyMessage::CannotTell => self.pass(),
            KeyMessage::Mark => self.mark(),
            KeyMessage::Begin(c) => self.begin(c),
            KeyMessage::Give => self.enter(),
            KeyMessage::Drop => self.drop_entry(),
            KeyMessage::TakeBack => self.take_back(),
            KeyMessage::Find => self.entry = Entry::Find(Line::new((), ""), Cursor::default()),
            KeyMessage::Browse => self.browse(),
            KeyMessage::Measure => self.measure(),
            KeyMessage::LookAgain => self.look_again(),
            KeyMessage::Rules => self.next_rules(),
            KeyMessage::New => self.new_bloom(),
            KeyMessage::Undo => self.undo(),
            KeyMessage::Redo => self.redo(),
            KeyMessage::GoOn => self.go_on(),
            KeyMessage::LetGo => self.let_go(),
        }
    }

    fn keyer(&self) -> &Keyer {
        &self.keyers[self.rules]
    }

    fn trait_at(&self, index: usize) -> &Trait {
        self.keyer().set.traits.get(index)
    }

    /// The trait in the middle, if any is asked.
    fn asked(&self) -> Option<usize> {
        match self.at {
            At::Next => self.reading.ask.map(|question| question.index),
            At::Chosen { index, .. } => Some(index),
        }
    }

    fn is_again(&self) -> bool {
        matches!(self.at, At::Chosen { again: true, .. })
    }

    fn refresh(&mut self) {
        self.reading = self.keyer().read(&self.answers);
    }

    /// The bloom as an entry of the trial row has it.
    ///
    /// # Errors
    /// In a sentence: why there is nothing that can be noted.
    pub fn observation(&self) -> Result<Observation, String> {
        let traits = &self.keyer().set.traits;
        let words = self.answers.print(traits);
        let words: Vec<&str> = words.split_whitespace().collect();
        if words.is_empty() {
            return Err("Nothing is answered yet that could be noted.".to_string());
        }
        let reader = Reader {
            traits,
            bare: None,
            days: Calendar::FILES,
        };
        match reader.read(&words).map_err(|error| error.to_string())?.what {
            What::Observed(seen) => Ok(seen),
            What::Decided(_) | What::Withdrawn => {
                Err("Nothing is answered yet that could be noted.".to_string())
            }
        }
    }

    /// Says something below the question until the next key.
    pub(super) fn say(&mut self, note: &str) {
        self.note = Some(note.to_string());
    }
}

#[cfg(test)]
mod tests;
