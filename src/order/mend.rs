//! Where not every need can be met: what would mend it, each worked out by solving again.
//!
//! A mend is an edit of the plan in the words that a grower types. What is tried is the edited plan
//! and nothing else, so that what is advised does what it said when it is made.

use std::cell::Cell;

use super::candidates::{Candidates, ListContext};
use super::item::Item;
use super::model::Model;
use super::plan::Plan;
use super::settle::{Settled, Status};
use super::solve::{Progress, Solved, Stop, fewest_plants, least_cost};
use crate::measure::day::{self, Calendar};
use crate::variety::Money;

/// One change that lets every need be met, with all else as it is. It has been found to do; that
/// nothing less would is proved only where [`Mend::is_least`] says so, as each search has an end.
#[derive(Debug, Clone, PartialEq)]
pub struct Mend {
    /// What is changed, and by how much.
    pub by: By,
    /// The edits of the plan that make it.
    pub edits: Vec<Edit>,
    /// An order of the edited plan that meets every need costs at most this.
    pub cost: Money,
}

/// A figure of the plan and what is typed for it: what [`Item::set`] takes.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Edit {
    /// The figure.
    pub item: Item,
    /// Its value in words.
    pub value: String,
}

/// What a mend changes.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum By {
    /// More places in the beds.
    Bed {
        /// Places more that do.
        places: u64,
        /// Proved: with fewer places more than these it cannot be done.
        at_least: u64,
    },
    /// More money.
    Money {
        /// Money more that does.
        more: Money,
        /// Proved: with less more than this it cannot be done.
        at_least: Money,
    },
    /// Colours wider by this, to the nearest whole step.
    Colour {
        /// CIEDE2000 more for each need that asks for a colour.
        wider: u32,
        /// Whether it is proved that a step less does not do.
        least: bool,
    },
    /// Planted earlier.
    Earlier {
        /// Weeks earlier.
        weeks: u32,
        /// The chance, 0 to 1, that the last frost comes after that planting.
        frost: f64,
        /// Whether it is proved that a week less does not do.
        least: bool,
    },
}

/// The widest that colours are tried.
const WIDEST: u32 = 24;
/// The most weeks earlier.
const EARLIEST: u32 = 6;
/// Nodes that one question may take. There are some fifteen questions.
const NODES: usize = 1_000;
/// Places of a bed that is long enough for anything.
const AMPLE: u64 = 100_000;

impl Mend {
    /// Whether it is proved that nothing less would do.
    pub fn is_least(&self) -> bool {
        match self.by {
            By::Bed { places, at_least } => places == at_least,
            By::Money { more, at_least } => more == at_least,
            By::Colour { least, .. } | By::Earlier { least, .. } => least,
        }
    }

    /// The plan with the mend made.
    ///
    /// # Errors
    /// A sentence where the edits are of another plan.
    pub fn made(&self, plan: &Plan) -> Result<Plan, String> {
        edited(plan, &self.edits)
    }
}

impl Edit {
    /// The edit as `trug order --set` takes it: `planted=2027-04-15`.
    pub fn words(&self, plan: &Plan) -> String {
        format!("{}={}", self.name(plan), self.value)
    }

    /// The edit for people: `planted: 2027-04-15`.
    pub fn described(&self, plan: &Plan) -> String {
        format!("{}: {}", self.name(plan), self.value)
    }

    fn name(&self, plan: &Plan) -> String {
        let name = self.item.name(plan);
        name.strip_prefix("bed, ").unwrap_or(&name).to_string()
    }
}

fn edited(plan: &Plan, edits: &[Edit]) -> Result<Plan, String> {
    { edits.iter() }.try_fold(plan.clone(), |plan, edit| {
        edit.item.set(&plan, &edit.value, &Calendar::FILES)
    })
}

/// What came of trying a change.
enum Tried {
    /// It does, at this cost.
    Does(Money),
    /// It is proved that it does not.
    Fails,
    /// Neither was found in the time given.
    Unknown,
}

/// Every single change that mends it. Each is a search of its own; `stop` ends the one at hand, and
/// none is begun after it.
pub fn mends(
    plan: &Plan,
    against: ListContext<'_>,
    settled: &Settled,
    stop: Stop<'_>,
) -> Vec<Mend> {
    let model = &settled.candidates.model;
    let over = Cell::new(false);
    let mut patience = |progress: Progress| {
        over.set(over.get() || stop(progress));
        over.get() || progress.nodes > NODES
    };
    let mut mends = Vec::new();
    mends.extend(more_bed(plan, against, &mut patience));
    if !over.get() {
        mends.extend(more_money(model, settled.status, &mut patience));
    }
    let mut works = |edits: &[Edit]| {
        if over.get() {
            return Tried::Unknown;
        }
        tried(plan, against, edits, &mut patience)
    };
    mends.extend(wider_colours(plan, &mut works));
    mends.extend(planted_earlier(plan, &mut works));
    mends
}

/// The fewest places more that do, as a longer bed: of those there are the one with most rows, which
/// grows the least.
fn more_bed(plan: &Plan, against: ListContext<'_>, stop: Stop<'_>) -> Option<Mend> {
    let at = (0..plan.beds.len())
        .rev()
        .max_by_key(|at| plan.beds[*at].across())?;
    let longer = |places: u64| -> Option<Vec<Edit>> {
        let value = plan.beds[at].longer(places)?;
        Some(vec![Edit {
            item: Item::Bed(at),
            value,
        }])
    };
    // No offer may be held back by beds that are too small for it.
    let ample = edited(plan, &longer(AMPLE)?).ok()?;
    let mut model = Candidates::of(&ample, against).ok()?.model;
    model.places = None;
    // The least-cost order without a bed does too, where it can be paid for.
    let cheapest = least_cost(&model, stop);
    let paid = model.money.is_none_or(|money| cheapest.value <= money);
    let fewest = fewest_plants(&model, stop);
    let plants = |solved: &Solved| Some(solved.best.as_ref()?.plants.iter().sum::<u64>());
    let found = [plants(&cheapest).filter(|_| paid), plants(&fewest)];
    let (enough, best) = { found.into_iter().zip([&cheapest, &fewest]) }
        .filter_map(|(plants, solved)| Some((plants?, solved.best.as_ref()?)))
        .min_by_key(|(plants, _)| *plants)?;
    let places = enough.checked_sub(plan.places()).filter(|more| *more > 0)?;
    let at_least = fewest.bound.unwrap_or(enough).min(enough);
    Some(Mend {
        by: By::Bed {
            places,
            at_least: at_least.saturating_sub(plan.places()),
        },
        edits: longer(places)?,
        cost: Money::hundredths(model.cost(&best.packs)),
    })
}

/// What the money lacks of the least cost, which settling has proved or which is sought again.
fn more_money(model: &Model, status: Status, stop: Stop<'_>) -> Option<Mend> {
    let money = model.money?;
    let mend = |cost: u64, bound: u64| {
        let more = cost.checked_sub(money).filter(|more| *more > 0)?;
        let cost = Money::hundredths(cost);
        Some(Mend {
            by: By::Money {
                more: Money::hundredths(more),
                at_least: Money::hundredths(bound.saturating_sub(money)),
            },
            edits: vec![Edit {
                item: Item::Money,
                value: cost.to_string(),
            }],
            cost,
        })
    };
    let known = match status {
        Status::Short {
            needed,
            proved: true,
        } => {
            let cost = needed?.in_hundredths();
            return mend(cost, cost);
        }
        Status::Short { needed, .. } => needed.map(Money::in_hundredths),
        _ => None,
    };
    let cheapest = least_cost(model, stop);
    let found = cheapest.best.as_ref().map(|_| cheapest.value);
    let cost = known.into_iter().chain(found).min()?;
    mend(cost, cheapest.bound.unwrap_or(cost).min(cost))
}

/// A wider colour lets in all that a narrower one does: halves the way to the narrowest that works.
fn wider_colours(plan: &Plan, works: &mut dyn FnMut(&[Edit]) -> Tried) -> Option<Mend> {
    let coloured = plan.needs.iter().enumerate();
    let coloured = coloured.filter(|(_, need)| !need.colours.is_empty());
    let coloured = coloured.map(|(at, need)| (Item::Need(at).written(plan), need));
    let mut coloured: Vec<(Item, &super::Need)> = coloured.collect();
    // What an event comes to is changed at once, and stands together.
    coloured.dedup_by_key(|(item, _)| *item);
    if coloured.is_empty() {
        return None;
    }
    let edits = |by: u32| -> Vec<Edit> {
        let wider = |(item, need): &(Item, &super::Need)| Edit {
            item: *item,
            value: format!("within={}", need.reach() + f64::from(by)),
        };
        coloured.iter().map(wider).collect()
    };
    let Tried::Does(mut cost) = works(&edits(WIDEST)) else {
        return None;
    };
    let (mut short, mut by, mut least) = (0, WIDEST, true);
    while by - short > 1 {
        let middle = (short + by) / 2;
        match works(&edits(middle)) {
            Tried::Does(found) => (by, cost) = (middle, found),
            Tried::Fails => (short, least) = (middle, true),
            Tried::Unknown => (short, least) = (middle, false),
        }
    }
    Some(Mend {
        by: By::Colour { wider: by, least },
        edits: edits(by),
        cost,
    })
}

/// The fewest weeks earlier that do.
fn planted_earlier(plan: &Plan, works: &mut dyn FnMut(&[Edit]) -> Tried) -> Option<Mend> {
    let mut least = true;
    for weeks in 1..=EARLIEST {
        let day = day::later(plan.season.planted, -7 * i64::from(weeks));
        let edits = vec![Edit {
            item: Item::Planted,
            value: day.to_string(),
        }];
        match works(&edits) {
            Tried::Does(cost) => {
                let frost = edited(plan, &edits).ok()?.season.frost_after_planting();
                return Some(Mend {
                    by: By::Earlier {
                        weeks,
                        frost,
                        least,
                    },
                    edits,
                    cost,
                });
            }
            Tried::Fails => least = true,
            Tried::Unknown => least = false,
        }
    }
    None
}

/// Whether every need can be met by the edited plan within its bed and money: any order will do.
fn tried(plan: &Plan, against: ListContext<'_>, edits: &[Edit], stop: Stop<'_>) -> Tried {
    let sound = edited(plan, edits)
        .ok()
        .filter(|plan| plan.problems().is_empty());
    let Some(Ok(candidates)) = sound.map(|plan| Candidates::of(&plan, against)) else {
        return Tried::Unknown;
    };
    let money = candidates.model.money.unwrap_or(u64::MAX);
    let found = least_cost(&candidates.model, &mut |progress| {
        let enough = progress.best.is_some_and(|best| best <= money as f64);
        enough || progress.bound > money as f64 || stop(progress)
    });
    if found.best.is_some() && found.value <= money {
        Tried::Does(Money::hundredths(found.value))
    } else if found.is_impossible() || found.bound.is_some_and(|bound| bound > money) {
        Tried::Fails
    } else {
        Tried::Unknown
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_the_money_lacks_of_a_proved_cost_is_exact() {
        let model = Model {
            money: Some(70_000),
            ..Model::default()
        };
        let status = Status::Short {
            needed: Some(Money::hundredths(71_000)),
            proved: true,
        };
        let more = Money::hundredths(1_000);
        let mend = more_money(&model, status, &mut |_| true).expect("a mend");
        assert_eq!(
            mend.by,
            By::Money {
                more,
                at_least: more
            }
        );
        assert_eq!(mend.edits[0].value, "710.00");
        assert_eq!(mend.cost, Money::hundredths(71_000));
    }
}
