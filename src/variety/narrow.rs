//! Narrowing: a list of conditions that all hold, each of which can be taken back.

use std::fmt;

use super::bits::Rows;
use super::facet::Facet;
use super::index::Index;
use super::rank::nearest;
use super::words::Query;
use crate::colour::{Target, distance_to_target, lower_bound_to_target};

/// One condition on the list.
#[derive(Debug, Clone, PartialEq)]
pub enum Narrowing {
    /// Every word is found in the name or the raiser, one slip forgiven.
    Words(String),
    /// Within a distance (CIEDE2000) of the nearest of some colours.
    Colour {
        /// The colours as they were asked for.
        asked: String,
        /// What they mean.
        targets: Vec<Target>,
        /// The distance.
        within: f64,
    },
    /// The facet has one of these values.
    Facet {
        /// The facet.
        facet: Facet,
        /// The values.
        values: Vec<String>,
    },
}

/// How many varieties each value of a facet would leave if it were picked next.
#[derive(Debug, Clone, PartialEq)]
pub struct Left<'a> {
    /// The facet.
    pub facet: Facet,
    /// Its values in the order shown, with the varieties that each would leave.
    pub values: Vec<(&'a str, usize)>,
}

/// The one narrowing to drop when nothing is left.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Mend {
    /// Its place among the narrowings.
    pub drop: usize,
    /// How many varieties that brings.
    pub brings: usize,
}

impl Narrowing {
    /// The facet has this value.
    pub fn facet(facet: Facet, value: &str) -> Narrowing {
        Narrowing::Facet {
            facet,
            values: vec![value.to_string()],
        }
    }
}

impl Index {
    /// The rows for which every narrowing holds.
    pub fn narrowed(&self, narrowings: &[Narrowing]) -> Rows {
        let mut rows = Rows::all(self.len());
        for narrowing in narrowings {
            rows.keep(&self.holding(narrowing));
        }
        rows
    }

    /// What each facet's values would leave of `rows`.
    pub fn left(&self, rows: &Rows) -> Vec<Left<'_>> {
        let left = |facet: Facet| Left {
            facet,
            values: self.columns[facet as usize].counts(rows),
        };
        Facet::ALL.into_iter().map(left).collect()
    }

    /// Which one narrowing to drop so that most come back, the last of equals; `None` where no one
    /// of them is enough, or where something is left as it is.
    pub fn mend(&self, narrowings: &[Narrowing]) -> Option<Mend> {
        let holding: Vec<Rows> = narrowings.iter().map(|one| self.holding(one)).collect();
        let without = |drop: Option<usize>| {
            let mut rows = Rows::all(self.len());
            let kept = holding
                .iter()
                .enumerate()
                .filter(|(at, _)| Some(*at) != drop);
            kept.for_each(|(_, other)| rows.keep(other));
            rows.count()
        };
        if without(None) > 0 {
            return None;
        }
        let drops = (0..narrowings.len()).map(|drop| Mend {
            drop,
            brings: without(Some(drop)),
        });
        drops
            .filter(|mend| mend.brings > 0)
            .max_by_key(|mend| mend.brings)
    }

    fn holding(&self, narrowing: &Narrowing) -> Rows {
        match narrowing {
            Narrowing::Words(text) => self.names.matching(&Query::new(text)),
            Narrowing::Facet { facet, values } => self.columns[*facet as usize].rows(values),
            Narrowing::Colour {
                targets, within, ..
            } => Rows::of(self.len(), |row| {
                let colours = self.colours(row);
                nearest(targets, |target| lower_bound_to_target(colours, target)) <= *within
                    && nearest(targets, |target| distance_to_target(colours, target)) <= *within
            }),
        }
    }
}

/// As a condition that a person reads: `words pom`, `colour peach within 5`, `form ball or pompon`.
impl fmt::Display for Narrowing {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Narrowing::Words(text) => write!(f, "words {text}"),
            Narrowing::Colour { asked, within, .. } => write!(f, "colour {asked} within {within}"),
            Narrowing::Facet { facet, values } => {
                write!(f, "{} {}", facet.id(), values.join(" or "))
            }
        }
    }
}
