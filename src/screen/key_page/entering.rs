//! Entering an answer: digits, marks, lines, and giving them.

use super::{At, Entry, KeyPage, find, typed};
use crate::form::Answer;
use crate::screen::kit::cursor::Cursor;
use crate::screen::kit::line::{Edit, Line};

impl KeyPage {
    pub(super) fn digit(&mut self, digit: char) {
        let Some(index) = self.asked() else {
            return self.say("Nothing is asked now: n starts a new bloom, Up goes back to an answer, / finds a trait.");
        };
        let states = self.trait_at(index).states().len();
        if states == 0 {
            return self.begin(digit);
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

    pub(super) fn pass(&mut self) {
        match self.asked() {
            // A second look that tells nothing leaves the first as it was.
            Some(_) if self.is_again() => self.drop_entry(),
            Some(index) => self.give(index, Answer::CannotTell),
            None => self.digit('0'),
        }
    }

    pub(super) fn mark(&mut self) {
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

    /// Begins a line with this text where a number is asked.
    pub(super) fn begin(&mut self, text: impl Into<String>) {
        let states = self.asked().map(|index| self.trait_at(index).states());
        if states.is_some_and(<[_]>::is_empty) {
            self.entry = Entry::Line(Line::new((), text));
        }
    }

    /// Edits what is typed; what is pasted begins a line at a number. One whose last character is
    /// taken away is not begun.
    pub(in crate::screen) fn edit(&mut self, edit: &Edit) {
        self.note = None;
        if let (Edit::Write(_), Entry::Nothing) = (edit, &self.entry) {
            self.begin("");
        }
        match &mut self.entry {
            Entry::Line(line) => {
                line.edit(edit);
                if line.text().is_empty() && *edit == Edit::Erase {
                    self.entry = Entry::Nothing;
                }
            }
            Entry::Find(line, at) => {
                if line.edit(edit) {
                    *at = Cursor::default();
                }
            }
            Entry::Nothing | Entry::Marks(_) | Entry::Browse(_) => {}
        }
    }

    pub(super) fn enter(&mut self) {
        if let Entry::Find(line, at) = &self.entry {
            let found = find::matches(&self.keyer().set.traits, line.text());
            match found.get(at.row(found.len())) {
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
            Entry::Line(line) => match typed::read(line.text(), self.trait_at(index), self.units) {
                Ok(answer) => self.give(index, answer),
                Err(problem) => self.refuse(problem.to_string()),
            },
            Entry::Marks(0) => self
                .say("Nothing is marked: press the numbers of the states that it may be, or Esc."),
            Entry::Marks(mask) => self.give(index, Answer::States(*mask)),
            _ => self.begin_change(index),
        }
    }

    fn refuse(&mut self, problem: String) {
        if let Entry::Line(line) = &mut self.entry {
            line.refuse(problem);
        }
    }

    /// Opens the answer under the cursor as it was given, to be changed.
    pub(super) fn begin_change(&mut self, index: usize) {
        let one = self.trait_at(index);
        match (self.answers.get(index), one.states().is_empty()) {
            (Some(Answer::Values(_) | Answer::Range(_)), true) if !self.is_again() => {
                let given = self.answers.get(index);
                let text = given.map(|answer| answer.print(one)).unwrap_or_default();
                self.entry = Entry::Line(Line::offering((), text));
            }
            (Some(Answer::States(_)), false) if !self.is_again() => self.mark(),
            // A part may be said in words, and letters are commands until a line is begun.
            (_, true) => self.entry = Entry::Line(Line::new((), "")),
            (_, false) => self.say("Press the number of what you see, or Space if you can't tell."),
        }
    }

    pub(super) fn give(&mut self, index: usize, answer: Answer) {
        self.remember();
        match self.is_again() {
            true => self.answers.look_again(index, answer),
            false => self.answers.set(index, answer),
        }
        self.go_to(At::Next);
        self.refresh();
    }

    pub(super) fn drop_entry(&mut self) {
        match self.entry {
            Entry::Nothing => self.at = At::Next,
            _ => self.entry = Entry::Nothing,
        }
        if self.is_again() {
            self.at = At::Next;
        }
    }
}
