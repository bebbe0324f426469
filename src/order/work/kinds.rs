//! An event and a round.

use std::num::NonZeroU32;

use jiff::civil::{Date, Weekday};

use crate::measure::day;
use crate::variety::Text;

/// Pieces on one day, or on the same day of every week.
#[derive(Debug, Clone, PartialEq)]
pub struct Work {
    /// What it is called, each by another name.
    pub name: Text,
    /// The day or the days on which the pieces are wanted.
    pub when: When,
    /// The pieces, at least one.
    pub pieces: Vec<Count>,
    /// Its colours, the first the main one: of each stem any of them will do, but where a piece splits
    /// its stems among them. Any colour where there are none.
    pub colours: Vec<Text>,
    /// How far (CIEDE2000) a variety may be from them.
    pub within: Option<f64>,
    /// Days before its day on which the stems are cut; the plan's own where it is not said.
    pub cut_before: Option<u8>,
    /// The chance, 0 to 1, that it is to have all its stems.
    pub sure: Option<f64>,
}

/// When pieces are wanted.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum When {
    /// On one day: an event.
    On(Date),
    /// Every week on one day of it: a round.
    Every {
        /// The day of the week.
        day: Weekday,
        /// No day before this one.
        from: Date,
        /// No day after this one.
        to: Date,
    },
}

/// So many of a piece, by its name.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Count(
    /// How many: of a round on each of its days.
    pub NonZeroU32,
    /// The name of the piece.
    pub Text,
);

/// How sure an event is to have its stems where it is not said: it comes once. Our own choice.
const SURE: f64 = 0.95;

impl Work {
    /// Whether it comes once.
    pub fn is_event(&self) -> bool {
        matches!(self.when, When::On(_))
    }

    /// `event` or `round`.
    pub fn kind(&self) -> &'static str {
        match self.when {
            When::On(_) => "event",
            When::Every { .. } => "round",
        }
    }

    /// The chance, 0 to 1, that it is to have all its stems; `None` of a round that says none.
    pub fn sureness(&self) -> Option<f64> {
        self.sure.or(self.is_event().then_some(SURE))
    }
}

impl When {
    /// The dates that it is told by.
    pub fn dates(self) -> Vec<Date> {
        match self {
            When::On(day) => vec![day],
            When::Every { from, to, .. } => vec![from, to],
        }
    }

    /// Its first and its last day; `None` where a round has no day from its first to its last date.
    pub fn ends(self) -> Option<(Date, Date)> {
        match self {
            When::On(day) => Some((day, day)),
            When::Every { day, from, to } => {
                let ahead = from.weekday().until(day);
                let back = day.until(to.weekday());
                let (first, last) = (
                    day::later(from, ahead.into()),
                    day::later(to, -i64::from(back)),
                );
                (first <= last).then_some((first, last))
            }
        }
    }

    /// The field of the file that its first day, or its last, stands in.
    pub(in crate::order) fn field(self, of_last: bool) -> &'static str {
        match self {
            When::On(_) => "on",
            When::Every { .. } if of_last => "to",
            When::Every { .. } => "from",
        }
    }
}
