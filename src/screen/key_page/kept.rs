//! Blooms that were half keyed when the screen last ended: offered, gone on with or dropped.

use super::{At, Entry, KeyPage};
use crate::form::{Answer, Answers};
use crate::screen::half_keyed::HalfKeyed;
use crate::screen::kit::line::{Edit, Line};

impl KeyPage {
    /// Offers what was kept.
    pub(in crate::screen) fn offer(&mut self, blooms: Vec<HalfKeyed>) {
        self.offered = blooms;
    }

    /// Those that were offered and need not be kept any longer.
    pub fn settled(&self) -> &[HalfKeyed] {
        &self.settled
    }

    /// The bloom in hand; `None` where nothing is answered and no number is half typed.
    pub fn half_keyed(&self, day: &str) -> Option<HalfKeyed> {
        let traits = &self.keyer().set.traits;
        let look = |(index, answer): (usize, &Answer)| {
            let one = traits.get(index);
            format!("{}={}", one.id, answer.print(one))
        };
        let answers = self.answers.iter().flat_map(|(index, _)| {
            let looks = self.answers.looks(index);
            looks.map(move |answer| look((index, answer)))
        });
        let typed = match (&self.entry, self.asked()) {
            (Entry::Line(line), Some(index)) => {
                Some((traits.get(index).id.clone(), line.text().to_string()))
            }
            _ => None,
        };
        let bloom = HalfKeyed {
            day: day.to_string(),
            answers: answers.collect(),
            typed,
        };
        Some(bloom).filter(|bloom| !bloom.is_empty())
    }

    /// Goes on with what is in hand on a page that was open before: its answers and the half typed
    /// number, and what need not be offered again.
    pub(in crate::screen) fn take_over(&mut self, before: &KeyPage) {
        self.settled = before.settled.clone();
        let settled = &self.settled;
        self.offered.retain(|bloom| !settled.contains(bloom));
        let Some(bloom) = before.half_keyed("") else {
            return;
        };
        self.answers = self.answers_of(&bloom).0;
        self.go_to(At::Next);
        self.refresh();
        self.type_on(&bloom);
    }

    /// What is offered now, in a sentence: only where no bloom is in hand.
    pub(super) fn offered(&self) -> Option<String> {
        let bloom = self.offered.first()?;
        let more = match self.offered.len() {
            1 => String::new(),
            count => format!(" ({} more)", count - 1),
        };
        self.answers.is_empty().then(|| {
            format!(
                "A bloom half keyed on {} is kept: k goes on with it, x drops it{more}.",
                bloom.day
            )
        })
    }

    /// Goes on with what is offered. An undo puts it aside again, as a new bloom would be.
    pub(super) fn go_on(&mut self) {
        if !self.answers.is_empty() {
            return self.say("A bloom is in hand: s notes it, n starts a new one.");
        }
        let Some(bloom) = self.settle() else { return };
        let (answers, unread) = self.answers_of(&bloom);
        if !answers.is_empty() {
            self.remember();
        }
        self.answers = answers;
        self.go_to(At::Next);
        self.refresh();
        self.type_on(&bloom);
        self.say(&match unread {
            0 => format!("Going on with the bloom of {}.", bloom.day),
            unread => format!(
                "Going on with the bloom of {}; {unread} of its answers could not be read.",
                bloom.day
            ),
        });
    }

    /// Drops what is offered.
    pub(super) fn let_go(&mut self) {
        if !self.answers.is_empty() {
            return self
                .say("A bloom is in hand: Backspace takes its answers back, n starts a new one.");
        }
        if let Some(bloom) = self.settle() {
            self.say(&format!("Dropped the bloom of {}.", bloom.day));
        }
    }

    /// Takes the first that is offered.
    fn settle(&mut self) -> Option<HalfKeyed> {
        if self.offered.is_empty() {
            self.say("No bloom is kept from before.");
            return None;
        }
        let bloom = self.offered.remove(0);
        self.settled.push(bloom.clone());
        Some(bloom)
    }

    /// Its answers under this table of traits, and how many are none.
    fn answers_of(&self, bloom: &HalfKeyed) -> (Answers, usize) {
        let traits = &self.keyer().set.traits;
        let mut answers = Answers::default();
        let mut unread = 0;
        for pair in &bloom.answers {
            match Answers::read_pair(pair, traits) {
                Ok((index, answer)) => answers.look_again(index, answer),
                Err(_) => unread += 1,
            }
        }
        (answers, unread)
    }

    /// Opens the line that was half typed.
    fn type_on(&mut self, bloom: &HalfKeyed) {
        let Some((id, text)) = &bloom.typed else {
            return;
        };
        let traits = &self.keyer().set.traits;
        let number = traits
            .find(id)
            .filter(|index| traits.get(*index).states().is_empty());
        let Some(index) = number else { return };
        if self.asked() != Some(index) {
            let again = false;
            self.go_to(At::Chosen { index, again });
        }
        let mut line = Line::new((), "");
        line.edit(&Edit::Write(text.clone()));
        self.entry = Entry::Line(line);
    }
}
