//! Lines that are typed: an observation along the row, a decision, the day, words to look for.

use super::quick::{self, QUICK};
use super::{Of, RowPage, Sum};
use crate::measure::day::{self, Calendar};
use crate::screen::Effect;
use crate::screen::kit::cursor::Movement;
use crate::screen::kit::line::{Edit, Line};
use crate::trial::read::{Draft, Reader};
use crate::trial::{Decision, EntryContext, Fate, Observation, Subject, What};
use crate::variety::{Text, Varieties};

impl RowPage {
    pub(super) fn begin_walk(&mut self, digit: char) {
        let Some(kind) = quick::of_digit(digit) else {
            return;
        };
        match self.refusal() {
            Some(refusal) => self.say(refusal),
            None if self.subject().is_none() => self.say("There is no seedling here: a adds one."),
            None => self.begin(Of::Walk(kind), String::new()),
        }
    }

    pub(super) fn begin_decision(&mut self) {
        match (self.refusal(), self.chosen()) {
            (Some(refusal), _) => self.say(refusal),
            (None, None) => self.say("There is no seedling here: a adds one."),
            (None, Some(sum)) => {
                let advised = advised(sum);
                self.begin(Of::Decide, advised);
            }
        }
    }

    /// Asks whose bloom this is. The plant under the cursor is the likeliest, but for the first of the
    /// table, where the cursor is before anybody chose one.
    pub fn begin_bloom(&mut self, seen: Observation, list: &Varieties) {
        self.open(list);
        if let Some(refusal) = self.refusal() {
            return self.say(refusal);
        }
        let first = self.cursor.row(self.shown.len()) == 0;
        let chosen = self.subject().filter(|_| !first);
        let likely = chosen.map(|subject| subject.to_string());
        self.begin(Of::Bloom(Box::new(seen)), likely.unwrap_or_default());
    }

    /// Begins a line that offers this text.
    pub(super) fn begin(&mut self, of: Of, text: String) {
        self.line = Some(Line::offering(of, text));
    }

    /// The line goes on at the plant that the cursor came to: a walk with nothing noted, a decision
    /// with what is advised of it, a bloom with its number. What was typed was for the one before.
    pub(super) fn line_goes_on(&mut self) {
        let Some(line) = &self.line else { return };
        let offered = match (&line.of, self.chosen()) {
            (Of::Walk(_), _) => String::new(),
            (Of::Decide, Some(sum)) => advised(sum),
            (Of::Bloom(_), Some(sum)) => sum.evidence.subject.to_string(),
            (Of::Decide | Of::Bloom(_), None) | (Of::Add | Of::Cut | Of::Day | Of::Find(_), _) => {
                return;
            }
        };
        if let Some(line) = &mut self.line {
            line.offer(offered);
        }
    }

    pub(super) fn day_as_words(&self) -> String {
        let by = self.by.as_ref().map(|by| format!(" {by}"));
        format!("{}{}", self.day, by.unwrap_or_default())
    }

    /// Edits the line; the row follows the words that are looked for.
    pub(in crate::screen) fn edit(&mut self, edit: &Edit, list: &Varieties) {
        self.note = None;
        let Some(line) = &mut self.line else {
            return self.edit_slip(edit, list);
        };
        if line.edit(edit) && matches!(line.of, Of::Find(_)) {
            self.words = line.text().to_string();
            self.show();
        }
    }

    pub(super) fn drop_line(&mut self) {
        if let Some(Of::Find(before)) = self.line.take().map(|line| line.of) {
            self.words = before;
        }
        let chosen = self.subject();
        self.show();
        self.go_to(chosen.as_ref());
    }

    pub(super) fn give(&mut self, list: &Varieties) -> Option<Effect> {
        let line = self.line.clone()?;
        let text = line.text().trim();
        let given = match &line.of {
            Of::Find(_) => {
                self.line = None;
                return None;
            }
            Of::Day => self.set_day(text),
            Of::Add => {
                let text = text.to_string();
                return self.add(&text, list);
            }
            Of::Cut => {
                let text = text.to_string();
                return self.cut(&text, list);
            }
            // Nothing typed: this plant has nothing to note, the next one may.
            Of::Walk(_) if text.is_empty() => {
                self.go_on("");
                return None;
            }
            Of::Walk(kind) => {
                let draft = self.draft(*kind, text);
                return self.enter_or_tell(draft, self.subject(), list);
            }
            Of::Decide => {
                let draft = decision(text);
                return self.enter_or_tell(draft, self.subject(), list);
            }
            Of::Bloom(seen) => {
                let subject = text.parse::<Subject>().map_err(|error| error.to_string());
                if let Ok(Subject::Seedling(number)) = subject
                    && self.plot.trial.seedling(number).is_none()
                {
                    let effect = self.add_for_bloom(number);
                    let added = self.plot.trial.seedling(number).is_some();
                    return if added { self.give(list) } else { effect };
                }
                let draft = subject.as_ref().map_err(String::clone).map(|_| Draft {
                    date: None,
                    by: None,
                    corrects: None,
                    what: What::Observed((**seen).clone()),
                });
                return self.enter_or_tell(draft, subject.ok(), list);
            }
        };
        match given {
            Ok(told) => {
                self.line = None;
                self.say(told);
            }
            Err(problem) => self.refuse(problem),
        }
        None
    }

    pub(super) fn enter_or_tell(
        &mut self,
        draft: Result<Draft, String>,
        subject: Option<Subject>,
        list: &Varieties,
    ) -> Option<Effect> {
        match (draft, subject) {
            (Err(problem), _) => {
                self.refuse(problem);
                None
            }
            (Ok(_), None) => {
                self.refuse("There is no seedling here: a adds one.".to_string());
                None
            }
            (Ok(draft), Some(subject)) => self.enter(draft, subject, list),
        }
    }

    fn enter(&mut self, draft: Draft, subject: Subject, list: &Varieties) -> Option<Effect> {
        let day_is_told = self.day_is_told || draft.date.is_some();
        let mut entry = draft.entry(self.next_id(), subject, self.day);
        entry.by = entry.by.or_else(|| self.by.clone());
        let grounds = EntryContext {
            rules: &self.plot.keyer.set,
            list,
            words: &self.plot.words,
            units: self.plot.units,
            today: self.plot.today,
            day_is_told,
            bloom_days: self.plot.bloom_days,
        };
        let doubts = self.plot.trial.check(&entry, &grounds);
        self.look_up(&entry.of, list);
        let line = self.line.as_mut()?;
        let insists = line.is_doubted();
        if !line.stands_against(&doubts) {
            return None;
        }
        // What was asked about the day once holds for the walk.
        self.day_is_told |= insists;
        self.ask_to_save(entry)
    }

    pub(super) fn refuse(&mut self, problem: String) {
        if let Some(line) = &mut self.line {
            line.refuse(problem);
        }
    }

    /// The walk goes on at the next plant; at the last one it ends, and says so behind `told`.
    pub(super) fn go_on(&mut self, told: &str) {
        if self.cursor.row(self.shown.len()) + 1 < self.shown.len() {
            self.step(Movement::Down, 0);
            return self.say(told);
        }
        self.drop_line();
        self.say(format!("{told} That was the last one of the row.").trim_start());
    }

    fn draft(&self, kind: usize, text: &str) -> Result<Draft, String> {
        let units = self.plot.units;
        let reader = Reader {
            traits: &self.plot.keyer.set.traits,
            bare: Some(units),
            days: self.calendar(),
        };
        let words = (QUICK[kind].words)(text, units)?;
        reader.read(&words).map_err(|error| error.to_string())
    }

    pub(super) fn calendar(&self) -> Calendar {
        Calendar::noting(self.plot.today, self.plot.days)
    }

    fn set_day(&mut self, text: &str) -> Result<String, String> {
        let (typed, by) = day::leading(text, &self.calendar())?;
        let day = typed.day;
        if day > self.plot.today {
            return Err(format!(
                "found {day}, expected a day up to today, {}",
                self.plot.today
            ));
        }
        self.by = match by {
            "" => None,
            by => Some(Text::new(by).map_err(|error| error.to_string())?),
        };
        self.day = day;
        self.day_is_told = true;
        Ok(format!(
            "What you note from now on is of {}.",
            self.day_as_words()
        ))
    }
}

/// What the gate advises, as a line begins with it.
fn advised(sum: &Sum) -> String {
    format!("{} ", sum.advice.fate.word())
}

/// `keep` and perhaps why.
fn decision(text: &str) -> Result<Draft, String> {
    let (fate, reason) = text.split_once(' ').unwrap_or((text, ""));
    let fate: Fate = fate
        .parse()
        .map_err(|_| format!("found {fate:?}, expected keep, hold or cull, and perhaps why"))?;
    let reason = match reason.trim() {
        "" => None,
        reason => Some(Text::new(reason).map_err(|error| error.to_string())?),
    };
    Ok(Draft {
        date: None,
        by: None,
        corrects: None,
        what: What::Decided(Decision { fate, reason }),
    })
}
