//! Lines that are typed: an event along the shelf, a plant, the day, the place, words to look for.

use super::quick::{self, QUICK};
use super::{Of, Plants, StockPage};
use crate::measure::day;
use crate::screen::Effect;
use crate::screen::kit::cursor::Movement;
use crate::screen::kit::line::{Edit, Line};
use crate::stock::read::Draft;
use crate::stock::{StockContext, lifting_of};
use crate::trial::Subject;
use crate::variety::Text;

impl StockPage {
    pub(super) fn begin_walk(&mut self, digit: char) {
        let Some(kind) = quick::of_digit(digit) else {
            return;
        };
        match self.refusal() {
            Some(refusal) => self.say(refusal),
            None if self.subject().is_none() => self.say("There is no plant here: a names one."),
            None => self.begin(Of::Walk(kind), String::new()),
        }
    }

    /// Begins a line that offers this text.
    pub(super) fn begin(&mut self, of: Of, text: String) {
        self.line = Some(Line::offering(of, text));
    }

    pub(super) fn day_as_words(&self) -> String {
        let by = self.by.as_ref().map(|by| format!(" {by}"));
        format!("{}{}", self.day, by.unwrap_or_default())
    }

    /// Edits the line; the shelf follows the words that are looked for.
    pub(in crate::screen) fn edit(&mut self, edit: &Edit) {
        self.note = None;
        let Some(line) = &mut self.line else { return };
        if line.edit(edit) && matches!(line.of, Of::Find(_)) {
            self.words = line.text().to_string();
            self.show();
        }
    }

    pub(super) fn drop_line(&mut self) {
        if let Some(Of::Find(before)) = self.line.take().map(|line| line.of) {
            self.words = before;
        }
        let chosen = self.subject().cloned();
        self.show();
        self.go_to(chosen.as_ref());
    }

    pub(super) fn give(&mut self, plants: Plants<'_>) -> Option<Effect> {
        let line = self.line.clone()?;
        let text = line.text().trim();
        let given = match &line.of {
            Of::Find(_) => Ok(String::new()),
            Of::Day => self.set_day(text),
            Of::Place => self.set_place(text),
            Of::Add => self.name(text, plants),
            // Nothing typed: this plant has nothing to note, the next one may.
            Of::Walk(_) if text.is_empty() => {
                self.go_on("");
                return None;
            }
            Of::Walk(kind) => return self.enter(*kind, text, plants),
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

    fn enter(&mut self, kind: usize, text: &str, plants: Plants<'_>) -> Option<Effect> {
        let words = (QUICK[kind].words)(text);
        let draft = words.and_then(|words| {
            Draft::read(&words, &self.calendar()).map_err(|error| error.to_string())
        });
        let draft = match draft {
            Ok(draft) => draft,
            Err(problem) => {
                self.refuse(problem);
                return None;
            }
        };
        let subject = self.subject()?.clone();
        let mut entry = draft.entry(self.next_id(), subject, self.day);
        entry.by = entry.by.or_else(|| self.by.clone());
        entry.place = entry.place.or_else(|| self.place.clone());
        let grounds = StockContext {
            trial: plants.trial,
            list: plants.list,
            today: self.shelf.today,
        };
        let doubts = self.shelf.stock.check(&entry, &grounds);
        if !self.line.as_mut()?.stands_against(&doubts) {
            return None;
        }
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
        self.say(format!("{told} That was the last plant.").trim_start());
    }

    /// Shows a plant of the row or the list that has no entry yet.
    fn name(&mut self, text: &str, plants: Plants<'_>) -> Result<String, String> {
        let subject = text.parse::<Subject>().map_err(|error| error.to_string())?;
        let subject = subject.as_listed(plants.list);
        let today = self.shelf.today;
        let wrong = plants.trial.against(&subject, today, plants.list, today);
        if let Some(wrong) = wrong.into_iter().next() {
            return Err(wrong);
        }
        self.named.push(subject.clone());
        self.words.clear();
        self.open(plants);
        self.go_to(Some(&subject));
        Ok(format!(
            "{subject}: a digit notes what became of its tubers."
        ))
    }

    fn set_day(&mut self, text: &str) -> Result<String, String> {
        let (typed, by) = day::leading(text, &self.calendar())?;
        let (day, today) = (typed.day, self.shelf.today);
        if day > today {
            return Err(format!("found {day}, expected a day up to today, {today}"));
        }
        self.by = filled(by)?;
        self.day = day;
        Ok(format!(
            "What you note from now on is of {}, tubers lifted in {}.",
            self.day_as_words(),
            lifting_of(day)
        ))
    }

    fn set_place(&mut self, text: &str) -> Result<String, String> {
        self.place = filled(text)?;
        Ok(match &self.place {
            Some(place) => format!("What you note from now on is at {place}."),
            None => "What you note from now on is at no place.".to_string(),
        })
    }
}

fn filled(text: &str) -> Result<Option<Text>, String> {
    match text.trim() {
        "" => Ok(None),
        text => Text::new(text).map(Some).map_err(|error| error.to_string()),
    }
}
