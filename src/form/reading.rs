//! All that can be said of one bloom from its answers, put together.

use super::answer::Answers;
use super::belief::{Keyer, Suspect};
use super::limits::Close;
use super::near::NearMiss;
use super::question::Question;
use super::verdict::{Conflict, Verdict};

/// A bloom's reading.
#[derive(Debug, Clone, PartialEq)]
pub struct Reading {
    /// What the rules say, all answers taken as right.
    pub verdict: Verdict,
    /// The word for its size, where the answers leave one.
    pub size: Option<String>,
    /// Forms that the rules exclude, each with a smallest set of answers that does.
    pub ruled_out: Vec<(usize, Vec<usize>)>,
    /// Every form from the likeliest down, any answer perhaps mistaken; shares sum to 1.
    pub likely: Vec<Likely>,
    /// The next question; `None` where the form is settled or nothing more can tell.
    pub ask: Option<Question>,
    /// The second look that would tell most of whether an answer misleads.
    pub check: Option<Question>,
    /// The answer that most likely misleads.
    pub suspect: Option<Suspect>,
    /// Limits that the answers come near.
    pub close: Vec<Close>,
    /// Named forms that are one or two answers away.
    pub near: Vec<NearMiss>,
    /// Which answers cannot stand together.
    pub conflict: Option<Conflict>,
}

/// A form with its share.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Likely {
    /// The form.
    pub form: usize,
    /// Its share, 0 to 1.
    pub share: f64,
    /// Whether the rules allow it as the answers stand; if not, only a mistake could.
    pub allowed: bool,
}

impl Keyer {
    /// Reads a bloom.
    pub fn read(&self, answers: &Answers) -> Reading {
        let verdict = self.set.verdict(answers);
        let belief = self.belief(answers);
        let excluded = (0..self.set.forms.len()).filter(|form| !verdict.possible.contains(form));
        let ruled_out = excluded
            .map(|form| (form, self.set.ruled_out_by(answers, form)))
            .collect();
        let ranked = belief.ranked().into_iter();
        let likely = ranked
            .map(|(form, share)| Likely {
                form,
                share,
                allowed: verdict.possible.contains(&form),
            })
            .collect();
        Reading {
            size: self.set.size_of(answers).map(str::to_string),
            ruled_out,
            likely,
            ask: self.ask(answers),
            check: self.check(answers),
            suspect: self.suspect(answers),
            close: self.close(answers),
            near: self.near_misses(answers, &belief),
            conflict: self.set.conflict(answers),
            verdict,
        }
    }
}
