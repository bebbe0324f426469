//! The Key page: one bloom, its answers, and what they add up to.

mod find;
mod forms;
mod given;
mod middle;
mod typed;
mod view;
mod words;

use crate::form::{Answer, Answers, Keyer, Reading, Trait};
use crate::measure::SizeUnits;

use super::keys::Place;

/// The Key page's state. The reading is made when the answers or the rules change.
#[derive(Debug, Clone)]
pub struct KeyPage {
    keyers: Vec<Keyer>,
    rules: usize,
    units: SizeUnits,
    answers: Answers,
    past: Vec<Answers>,
    future: Vec<Answers>,
    at: At,
    entry: Entry,
    note: Option<String>,
    reading: Reading,
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
#[derive(Debug, Clone, PartialEq, Eq)]
enum Entry {
    /// Nothing.
    Nothing,
    /// States marked so far, as a mask.
    Marks(u64),
    /// A line for a number, and why it was refused.
    Line {
        text: String,
        problem: Option<String>,
    },
    /// A search for a trait, and where its cursor is.
    Find { text: String, at: usize },
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
    /// Write a character.
    Type(char),
    /// Erase the last character.
    Erase,
    /// Give what was entered, or change the answer under the cursor.
    Give,
    /// Drop what was entered, or go to the next question.
    Drop,
    /// Take an answer back.
    TakeBack,
    /// Back over the answers, or up a list.
    Up,
    /// Forward over the answers, or down a list.
    Down,
    /// Look for a trait.
    Find,
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
            past: Vec::new(),
            future: Vec::new(),
            at: At::Next,
            entry: Entry::Nothing,
            note: None,
            reading,
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

    /// Where keys are looked for.
    pub fn place(&self) -> Place {
        match self.entry {
            Entry::Line { .. } => Place::Typing,
            Entry::Find { .. } => Place::Finding,
            _ => Place::Asking,
        }
    }

    /// Takes a message in.
    pub fn update(&mut self, message: KeyMessage) {
        self.note = None;
        match message {
            KeyMessage::Digit(digit) => self.digit(digit),
            KeyMessage::CannotTell => self.pass(),
            KeyMessage::Mark => self.mark(),
            KeyMessage::Type(c) => self.write(c),
            KeyMessage::Erase => self.erase(),
            KeyMessage::Give => self.enter(),
            KeyMessage::Drop => self.drop_entry(),
            KeyMessage::TakeBack => self.take_back(),
            KeyMessage::Up => self.step(-1),
            KeyMessage::Down => self.step(1),
            KeyMessage::Find => {
                self.entry = Entry::Find {
                    text: String::new(),
                    at: 0,
                }
            }
            KeyMessage::Measure => self.measure(),
            KeyMessage::LookAgain => self.look_again(),
            KeyMessage::Rules => self.next_rules(),
            KeyMessage::New => self.new_bloom(),
            KeyMessage::Undo => self.undo(),
            KeyMessage::Redo => self.redo(),
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

    fn say(&mut self, note: &str) {
        self.note = Some(note.to_string());
    }
}

/// Entering an answer.
impl KeyPage {
    fn digit(&mut self, digit: char) {
        let Some(index) = self.asked() else {
            return self.say("Nothing is asked now: n starts a new bloom, Up goes back to an answer, / finds a trait.");
        };
        let states = self.trait_at(index).states().len();
        if states == 0 {
            return self.write(digit);
        }
        let number = digit.to_digit(10).unwrap_or(0) as usize;
        if number == 0 {
            return self.pass();
        }
        if number > states {
            return self.note = Some(format!(
                "There is no {number} here: 1 to {states}, or 0 if you can't tell."
            ));
        }
        match &mut self.entry {
            Entry::Marks(mask) => *mask ^= 1 << (number - 1),
            _ => self.give(index, Answer::States(1 << (number - 1))),
        }
    }

    fn pass(&mut self) {
        match self.asked() {
            // A second look that tells nothing leaves the first as it was.
            Some(_) if self.is_again() => self.drop_entry(),
            Some(index) => self.give(index, Answer::CannotTell),
            None => self.digit('0'),
        }
    }

    fn mark(&mut self) {
        let Some(index) = self.asked() else {
            return self.digit('0');
        };
        if self.trait_at(index).states().is_empty() {
            return self.say("This one is a number: for a choice give a range, such as 4-7.");
        }
        let begun = match self.answers.get(index) {
            Some(Answer::States(mask)) if !self.is_again() => *mask,
            _ => 0,
        };
        if !matches!(self.entry, Entry::Marks(_)) {
            self.entry = Entry::Marks(begun);
        }
    }

    fn write(&mut self, c: char) {
        match &mut self.entry {
            Entry::Line { text, problem } => {
                text.push(c);
                *problem = None;
            }
            Entry::Find { text, at } => {
                text.push(c);
                *at = 0;
            }
            Entry::Nothing | Entry::Marks(_) => {
                let number = self
                    .asked()
                    .is_some_and(|index| self.trait_at(index).states().is_empty());
                if number {
                    self.entry = Entry::Line {
                        text: c.to_string(),
                        problem: None,
                    };
                }
            }
        }
    }

    fn erase(&mut self) {
        match &mut self.entry {
            Entry::Line { text, problem } => {
                typed::erase_last(text);
                *problem = None;
                if text.is_empty() {
                    self.entry = Entry::Nothing;
                }
            }
            Entry::Find { text, at } => {
                typed::erase_last(text);
                *at = 0;
            }
            Entry::Nothing | Entry::Marks(_) => {}
        }
    }

    fn enter(&mut self) {
        if let Entry::Find { text, at } = &self.entry {
            let found = find::matches(&self.keyer().set.traits, text);
            match found.get(*at) {
                Some(index) => self.go_to(At::Chosen {
                    index: *index,
                    again: false,
                }),
                None => self.say("No trait is like that: Backspace erases, Esc goes back."),
            }
            return;
        }
        let Some(index) = self.asked() else {
            return self.digit('0');
        };
        match &self.entry {
            Entry::Line { text, .. } => match typed::read(text, self.trait_at(index), self.units) {
                Ok(answer) => self.give(index, answer),
                Err(problem) => {
                    self.entry = Entry::Line {
                        text: text.clone(),
                        problem: Some(problem.to_string()),
                    };
                }
            },
            Entry::Marks(0) => self
                .say("Nothing is marked: press the numbers of the states that it may be, or Esc."),
            Entry::Marks(mask) => self.give(index, Answer::States(*mask)),
            _ => self.begin_change(index),
        }
    }

    /// Opens the answer under the cursor as it was given, to be changed.
    fn begin_change(&mut self, index: usize) {
        let one = self.trait_at(index);
        match (self.answers.get(index), one.states().is_empty()) {
            (Some(Answer::Values(_) | Answer::Range(_)), true) if !self.is_again() => {
                let text = self
                    .answers
                    .get(index)
                    .map(|answer| answer.print(one))
                    .unwrap_or_default();
                self.entry = Entry::Line {
                    text,
                    problem: None,
                };
            }
            (Some(Answer::States(_)), false) if !self.is_again() => self.mark(),
            (_, true) => self.say("Type a number, or press Space if you can't tell."),
            (_, false) => self.say("Press the number of what you see, or Space if you can't tell."),
        }
    }

    fn give(&mut self, index: usize, answer: Answer) {
        self.remember();
        match self.is_again() {
            true => self.answers.look_again(index, answer),
            false => self.answers.set(index, answer),
        }
        self.go_to(At::Next);
        self.refresh();
    }

    fn drop_entry(&mut self) {
        match self.entry {
            Entry::Nothing => self.at = At::Next,
            _ => self.entry = Entry::Nothing,
        }
        if self.is_again() {
            self.at = At::Next;
        }
    }
}

/// Moving, changing and taking back.
impl KeyPage {
    fn go_to(&mut self, at: At) {
        self.at = at;
        self.entry = Entry::Nothing;
    }

    fn step(&mut self, by: isize) {
        if let Entry::Find { text, at } = &mut self.entry {
            let last = find::matches(&self.keyers[self.rules].set.traits, text)
                .len()
                .saturating_sub(1);
            *at = at.saturating_add_signed(by).min(last);
            return;
        }
        let given: Vec<usize> = self.answers.iter().map(|(index, _)| index).collect();
        let here = match self.at {
            At::Chosen { index, .. } => given.iter().position(|one| *one == index),
            At::Next => None,
        };
        let there = here.unwrap_or(given.len()).saturating_add_signed(by);
        self.go_to(match given.get(there) {
            Some(index) => At::Chosen {
                index: *index,
                again: false,
            },
            None => At::Next,
        });
    }

    fn take_back(&mut self) {
        if matches!(self.entry, Entry::Marks(_)) {
            return self.entry = Entry::Nothing;
        }
        let under = match self.at {
            At::Chosen { index, .. } => self.answers.get(index).map(|_| index),
            At::Next => self.answers.iter().next_back().map(|(index, _)| index),
        };
        let Some(index) = under else {
            self.at = At::Next;
            return self.say("There is no answer here to take back.");
        };
        self.remember();
        self.answers.take_back(index);
        self.note = Some(format!(
            "Took back: {}. u brings it back.",
            self.trait_at(index).id
        ));
        self.go_to(At::Next);
        self.refresh();
    }

    fn measure(&mut self) {
        match self.keyer().set.traits.find("diameter") {
            Some(index) => self.go_to(At::Chosen {
                index,
                again: false,
            }),
            None => self.say("This table of traits has no diameter."),
        }
    }

    fn look_again(&mut self) {
        let answered = match self.at {
            At::Chosen {
                index,
                again: false,
            } => self.answers.get(index).map(|_| index),
            _ => None,
        };
        let check = self.reading.check.map(|question| question.index);
        match answered.or(check) {
            _ if self.answers.is_empty() => self.say("There is no answer yet to look at again."),
            Some(index) => self.go_to(At::Chosen {
                index,
                again: self.answers.get(index).is_some(),
            }),
            None => self.say("No second look would tell more."),
        }
    }

    fn next_rules(&mut self) {
        if self.keyers.len() == 1 {
            return self.say("There is only this one rule set.");
        }
        self.rules = (self.rules + 1) % self.keyers.len();
        self.refresh();
        // A question that the other rules would not ask next is not kept half entered.
        self.entry = Entry::Nothing;
        self.note = Some(format!("The same answers by {}.", self.rules_name()));
    }

    fn new_bloom(&mut self) {
        if self.answers.is_empty() {
            return self.say("This is a new bloom already.");
        }
        self.remember();
        self.answers = Answers::default();
        self.go_to(At::Next);
        self.refresh();
        self.say("A new bloom. u brings the last one back.");
    }

    fn remember(&mut self) {
        self.past.push(self.answers.clone());
        self.future.clear();
    }

    fn undo(&mut self) {
        let Some(before) = self.past.pop() else {
            return self.say("There is nothing to undo.");
        };
        let after = std::mem::replace(&mut self.answers, before);
        self.future.push(after);
        self.go_to(At::Next);
        self.refresh();
        self.say("Undone. Ctrl-R does it again.");
    }

    fn redo(&mut self) {
        let Some(after) = self.future.pop() else {
            return self.say("There is nothing to redo.");
        };
        let before = std::mem::replace(&mut self.answers, after);
        self.past.push(before);
        self.go_to(At::Next);
        self.refresh();
    }
}
