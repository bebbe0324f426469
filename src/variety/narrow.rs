//! Narrowing: a list of conditions that all hold, each of which can be taken back.

use std::fmt;

use super::bits::Rows;
use super::facet::Facet;
use super::index::Index;
use super::shades::Measured;
use crate::colour::Target;
use crate::matching::Query;

/// One condition on the list.
#[derive(Debug, Clone, PartialEq)]
pub enum Narrowing {
    /// Every word is found in the name, the raiser, the form or the colours, as [`crate::matching`] finds it.
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

    /// Whether it narrows by this facet.
    pub fn is_of(&self, facet: Facet) -> bool {
        matches!(self, Narrowing::Facet { facet: own, .. } if *own == facet)
    }

    /// What looking at a row costs, least first.
    fn cost(&self) -> u8 {
        match self {
            Narrowing::Facet { .. } => 0,
            Narrowing::Words(_) => 1,
            Narrowing::Colour { .. } => 2,
        }
    }
}

impl Index {
    /// The rows for which every narrowing holds.
    pub fn narrowed(&self, narrowings: &[Narrowing]) -> Rows {
        let mut rows = Rows::all(self.len());
        // The costly come last, when few rows are left to look at.
        let mut order: Vec<&Narrowing> = narrowings.iter().collect();
        order.sort_by_key(|one| one.cost());
        for narrowing in order {
            self.keep(&mut rows, narrowing, &Measured::default());
        }
        rows
    }

    /// What each facet's values would leave of `rows`.
    pub fn left(&self, rows: &Rows) -> Vec<Left<'_>> {
        let others = (2 * rows.count() > self.len()).then(|| rows.others());
        let left = |facet: Facet| Left {
            facet,
            values: self.columns[facet as usize].counts(rows, others.as_ref()),
        };
        Facet::ALL.into_iter().map(left).collect()
    }

    /// What the values of one facet would leave of `rows`.
    pub fn left_of(&self, facet: Facet, rows: &Rows) -> Left<'_> {
        Left {
            facet,
            values: self.columns[facet as usize].counts(rows, None),
        }
    }

    /// Keeps those of `rows` for which the narrowing holds, by what was measured already where that
    /// is against the same colours.
    pub(super) fn keep(&self, rows: &mut Rows, narrowing: &Narrowing, measured: &Measured) {
        match narrowing {
            Narrowing::Facet { facet, values } => {
                self.columns[*facet as usize].keep(rows, values);
            }
            Narrowing::Words(text) => {
                let query = Query::new(text);
                *rows = self.search(&query, rows).rows;
            }
            Narrowing::Colour {
                targets, within, ..
            } => {
                let distances = match measured.targets == *targets {
                    true => self.measured(measured),
                    false => self.distances(targets),
                };
                rows.retain(|row| distances.within(row, *within));
            }
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
