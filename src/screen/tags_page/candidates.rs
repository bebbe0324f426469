//! What can be tagged, looking for some of it, and picking.

use super::TagsPage;
use crate::screen::kit::cursor::{Cursor, Movement};
use crate::screen::row_page::RowPage;
use crate::tag::Grounds;
use crate::trial::Subject;
use crate::variety::{Variety, folded};

/// The most tags that are printed at once.
const MOST: usize = 1000;

/// One that can be tagged.
#[derive(Debug, Clone)]
pub(super) struct Candidate {
    pub(super) subject: Subject,
    /// How it stands: `kept`, `shortlist`.
    pub(super) stands: &'static str,
    /// Its form as far as it is known; empty where nobody looked.
    pub(super) form: String,
}

/// Everything of the row and the list: kept seedlings, those on trial, varieties, culled seedlings.
pub(super) fn of(grounds: &Grounds<'_>, row: &RowPage) -> Vec<Candidate> {
    let seedlings = grounds.trial.seedlings().iter().map(|seedling| {
        let subject = Subject::Seedling(seedling.number);
        let decision = grounds.trial.decision(&subject);
        let stands = decision.map_or("on trial", |(_, decision)| decision.fate.done());
        Candidate {
            form: row.form_of(&subject).unwrap_or_default().to_string(),
            subject,
            stands,
        }
    });
    let set = &grounds.under.keyer.set;
    let varieties = grounds.list.list().iter().map(|variety| Candidate {
        subject: Subject::Variety(variety.name.clone()),
        stands: stands(variety),
        form: match variety.form_under(set) {
            Some(form) => set.forms[form].name.clone(),
            None => String::new(),
        },
    });
    let mut all: Vec<Candidate> = seedlings.collect();
    all.sort_by(|a, b| a.subject.cmp(&b.subject));
    all.extend(varieties);
    all.sort_by_key(|one| match one.stands {
        "kept" => 0,
        "held" | "on trial" => 1,
        "culled" => 3,
        _ => 2,
    });
    all
}

fn stands(variety: &Variety) -> &'static str {
    let unlicensed = variety.protected == Some(true) && variety.licence.is_none();
    match (&variety.shortlist, variety.on_hand) {
        _ if unlicensed => "protected",
        (Some(_), _) => "shortlist",
        (None, Some(1..)) => "on hand",
        (None, _) => "listed",
    }
}

impl TagsPage {
    /// Shows what holds the words, the cursor on this one where it is among them.
    pub(super) fn show(&mut self, subject: Option<&Subject>) {
        let words = folded(&self.words);
        let words: Vec<&str> = words.split_whitespace().collect();
        let holds = |at: &usize| {
            let one = &self.all[*at];
            let text = || folded(&format!("{} {} {}", one.subject, one.stands, one.form));
            words.is_empty() || {
                let text = text();
                words.iter().all(|word| text.contains(word))
            }
        };
        self.shown = (0..self.all.len()).filter(holds).collect();
        let is = |at: &usize| Some(&self.all[*at].subject) == subject;
        let at = self.shown.iter().position(is);
        self.cursor = Cursor::on(at.unwrap_or(0));
    }

    pub(super) fn pick(&mut self) {
        let Some(subject) = self.subject().cloned() else {
            return;
        };
        self.by_hand = true;
        if !self.picked.remove(&subject) {
            if self.picked.len() >= MOST {
                return self.say(format!("{MOST} are picked: print those first."));
            }
            self.picked.insert(subject);
        }
        self.cursor.go(Movement::Down, self.shown.len(), 0);
    }

    /// Picks all that are shown; where all are picked already, lets them go.
    pub(super) fn pick_shown(&mut self) {
        let shown = self.shown.iter().map(|at| self.all[*at].subject.clone());
        let new: Vec<Subject> = shown.filter(|one| !self.picked.contains(one)).collect();
        if self.picked.len() + new.len() > MOST {
            let count = self.shown.len();
            return self.say(format!(
                "That would be {count}, and at most {MOST} are printed at once: / narrows what is shown."
            ));
        }
        self.by_hand = true;
        match new.is_empty() {
            true => {
                let shown = self.shown.iter().map(|at| &self.all[*at].subject);
                for subject in shown {
                    self.picked.remove(subject);
                }
            }
            false => self.picked.extend(new),
        }
    }
}
