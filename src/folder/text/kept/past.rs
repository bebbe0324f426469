//! The texts that one file had while the program runs, so that a value that comes back gets the very
//! text that it had.

use std::collections::VecDeque;

use super::change::{Change, Digest, digest};
use super::holds::Holds;
use super::splice::Splices;

/// More bytes than these are not kept of one file; what is longest ago is then forgotten.
const MOST_BYTES: usize = 8 << 20;

/// The texts of one file, in a line: a save goes on from the present one, and what was ahead of it,
/// taken back, is then forgotten.
#[derive(Debug, Default)]
pub(in crate::folder) struct Past {
    states: VecDeque<State>,
    /// Which of them is the present one.
    now: usize,
}

/// A value that the file had, and the text that it had it in.
#[derive(Debug)]
struct State {
    value: Digest,
    text: Digest,
    /// What leads to the next one and back.
    on: Splices,
    back: Splices,
}

/// A text to be saved, and what it makes of the past once it is.
#[derive(Debug)]
pub(in crate::folder) struct Next {
    /// The text.
    pub(in crate::folder) text: String,
    then: Then,
}

#[derive(Debug)]
enum Then {
    /// The state of this place is the present one.
    Again(usize),
    /// A state that was not there before.
    New {
        before: State,
        value: Digest,
        text: Digest,
    },
}

impl Past {
    /// What is to be written in place of `text`, for the value that the program would write as `new`.
    pub(in crate::folder) fn next(&self, text: &str, new: &str, holds: Holds) -> Next {
        let value = holds.digest(new);
        if let Some(next) = self.again(text, value) {
            return next;
        }
        let Change {
            text: changed,
            splices,
            before,
        } = holds.change(text, new).unwrap_or_else(|| {
            let anew = holds.anew(text, new);
            Change {
                splices: Splices::whole(text, &anew),
                text: anew,
                before: self.value_of(text, holds),
            }
        });
        let known = self.states.get(self.now).map(|now| now.text);
        let before = State {
            value: before,
            text: known.unwrap_or_else(|| digest([text].into_iter())),
            // OK because what was applied can be taken back.
            back: splices.reversed(text).unwrap_or_default(),
            on: splices,
        };
        let then = Then::New {
            before,
            value,
            text: digest([changed.as_str()].into_iter()),
        };
        Next {
            text: changed,
            then,
        }
    }

    /// The text that a value had, by the nearest way from the present one.
    fn again(&self, text: &str, value: Digest) -> Option<Next> {
        let places = 0..self.states.len();
        let known = places.filter(|at| self.states[*at].value == value);
        let at = known.min_by_key(|at| at.abs_diff(self.now))?;
        let mut own = text.to_string();
        for back in (at..self.now).rev() {
            own = self.states[back].back.applied(&own)?;
        }
        for on in self.now..at {
            own = self.states[on].on.applied(&own)?;
        }
        // What somebody else wrote meanwhile is not what this leads from.
        (digest([own.as_str()].into_iter()) == self.states[at].text).then_some(Next {
            text: own,
            then: Then::Again(at),
        })
    }

    fn value_of(&self, text: &str, holds: Holds) -> Digest {
        match self.states.get(self.now) {
            Some(now) => now.value,
            None => holds.digest_of(text),
        }
    }

    /// Takes up what was saved.
    pub(in crate::folder) fn saved(&mut self, then: Next) {
        let (before, value, text) = match then.then {
            Then::Again(at) => {
                self.now = at;
                return;
            }
            Then::New {
                before,
                value,
                text,
            } => (before, value, text),
        };
        self.states.truncate(self.now);
        self.states.push_back(before);
        self.states.push_back(State {
            value,
            text,
            on: Splices::default(),
            back: Splices::default(),
        });
        self.now = self.states.len() - 1;
        while self.bytes() > MOST_BYTES && self.now > 0 {
            self.states.pop_front();
            self.now -= 1;
        }
    }

    fn bytes(&self) -> usize {
        let each = self.states.iter();
        each.map(|state| size_of::<State>() + state.on.bytes() + state.back.bytes())
            .sum()
    }
}
