//! The form that each plant is taken to have: the row's own, or the list's.

use super::{RowPage, Sum};
use crate::trial::account::{Plant, Wording};
use crate::trial::{Subject, Taken};
use crate::variety::{FormNote, Varieties};

impl RowPage {
    /// Takes the form that the list has for a plant that is, or will be, on trial.
    pub(super) fn look_up(&mut self, subject: &Subject, list: &Varieties) {
        let Subject::Variety(name) = subject else {
            return;
        };
        let record = list.find(name).map(|at| &list.list()[at]);
        let note = record.and_then(|one| one.form_note_under(&self.plot.keyer.set));
        self.listed.extend(note.map(|note| (name.clone(), note)));
    }

    /// The form that the list has for a plant.
    pub(super) fn form_listed(&self, subject: &Subject) -> Option<&FormNote> {
        match subject {
            Subject::Variety(name) => self.listed.get(name),
            Subject::Seedling(_) => None,
        }
    }

    /// A plant as it stands, to be told.
    pub(super) fn plant<'a>(&'a self, sum: &'a Sum) -> Plant<'a> {
        Plant {
            evidence: &sum.evidence,
            advice: &sum.advice,
            listed: self.form_listed(&sum.evidence.subject),
        }
    }

    /// What plants are told by.
    pub(super) fn by(&self) -> Wording<'_> {
        Wording {
            keyer: &self.plot.keyer,
            credence: self.plot.release.least.credence,
            units: self.plot.units,
        }
    }

    /// The form that a plant is taken to have.
    pub(super) fn taken<'a>(&'a self, sum: &'a Sum) -> Option<Taken<'a>> {
        self.plant(sum).taken(&self.by())
    }

    /// The form of a plant of the row as far as it is settled, once the page is open; `None` where
    /// nobody looked.
    pub(in crate::screen) fn form_of(&self, subject: &Subject) -> Option<&str> {
        let of = |sum: &&Sum| sum.evidence.subject == *subject;
        match self.taken(self.sums.iter().find(of)?)? {
            Taken::Likeliest(_) => Some("not yet known"),
            taken => Some(taken.name(&self.plot.keyer.set)),
        }
    }
}
