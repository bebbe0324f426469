//! Conditions on a bloom, as a rule set writes them, and the blocks where they hold.
//!
//! ```text
//! centre=closed, tip=pointed, roll=back, rolled over cactus-roll
//! roll=flat or rolled under flat-roll
//! roll=forward, not (tubed or line=incurved)
//! ```
//! A comma and `and` mean the same and bind tighter than `or`. A number may be a limit's name.

mod reader;

pub use reader::Reader;

use super::space::{Block, Scale, Span};
use crate::measure::Exact;

/// The most blocks that one condition may need; a rule past it is too tangled to be proved.
pub const MOST_BLOCKS: usize = 20_000;

/// The most parts that one condition may be made of, words spelt out.
pub const MOST_PARTS: usize = 10_000;

/// What a bloom must show.
#[derive(Debug, Clone, PartialEq)]
pub enum Condition {
    /// Every one of these; everything where there are none.
    All(Vec<Condition>),
    /// At least one of these; nothing where there are none.
    Any(Vec<Condition>),
    /// Not this.
    Not(Box<Condition>),
    /// The trait with this index has one of the states of the mask.
    States(usize, u64),
    /// The trait with this index has a number in the span.
    Number(usize, Span),
}

/// Some blocks, parted by a condition.
#[derive(Debug, Clone, Default)]
pub struct Parted {
    /// Where it holds.
    pub inside: Vec<Block>,
    /// Where it does not.
    pub outside: Vec<Block>,
}

impl Condition {
    /// Parts disjoint blocks into disjoint blocks where the condition holds and where it does not,
    /// or `None` where that would take more than [`MOST_BLOCKS`]. A trait that does not apply
    /// fulfils no test of its value.
    pub fn part(&self, scales: &[Scale], blocks: Vec<Block>) -> Option<Parted> {
        if blocks.len() > MOST_BLOCKS {
            return None;
        }
        let parted = match self {
            Condition::States(index, states) => {
                part_by(*index, scales[*index].states(*states), &blocks)
            }
            Condition::Number(index, span) => {
                part_by(*index, scales[*index].touched(*span), &blocks)
            }
            Condition::Not(condition) => condition.part(scales, blocks)?.turned(),
            Condition::All(conditions) => {
                let mut parted = Parted {
                    inside: blocks,
                    outside: Vec::new(),
                };
                for condition in conditions {
                    let next = condition.part(scales, parted.inside)?;
                    parted.inside = next.inside;
                    parted.outside.extend(next.outside);
                }
                parted
            }
            Condition::Any(conditions) => {
                let mut parted = Parted {
                    inside: Vec::new(),
                    outside: blocks,
                };
                for condition in conditions {
                    let next = condition.part(scales, parted.outside)?;
                    parted.outside = next.outside;
                    parted.inside.extend(next.inside);
                }
                parted
            }
        };
        (parted.inside.len() + parted.outside.len() <= MOST_BLOCKS).then_some(parted)
    }

    /// How many tests and joints the condition is made of.
    pub fn parts(&self) -> usize {
        match self {
            Condition::All(list) | Condition::Any(list) => {
                1 + list.iter().map(Condition::parts).sum::<usize>()
            }
            Condition::Not(condition) => 1 + condition.parts(),
            Condition::States(..) | Condition::Number(..) => 1,
        }
    }

    /// Every number that the condition names, with the index of its trait.
    pub fn cuts(&self, into: &mut Vec<(usize, Exact)>) {
        match self {
            Condition::All(list) | Condition::Any(list) => list.iter().for_each(|c| c.cuts(into)),
            Condition::Not(condition) => condition.cuts(into),
            Condition::States(..) => {}
            Condition::Number(index, span) => {
                into.extend([(*index, span.low), (*index, span.high)])
            }
        }
    }
}

impl Parted {
    fn turned(self) -> Parted {
        Parted {
            inside: self.outside,
            outside: self.inside,
        }
    }
}

fn part_by(index: usize, mask: u64, blocks: &[Block]) -> Parted {
    let narrowed = |mask| {
        blocks
            .iter()
            .filter_map(|b| b.narrowed(index, mask))
            .collect()
    };
    Parted {
        inside: narrowed(mask),
        outside: narrowed(!mask),
    }
}
