//! What is wished for, changed: wider colours, an earlier planting, a lesser fitness, fewer weeks or stems.

use super::change::{By, Edit, Mend, edited};
use super::lacking::{Lacking, Lacks};
use crate::measure::day;
use crate::order::Need;
use crate::order::candidates::{Candidates, ListContext};
use crate::order::item::Item;
use crate::order::plan::Plan;
use crate::order::tried::{Patience, Tried, can_be_met};
use crate::variety::Money;

/// The widest that colours are tried.
const WIDEST: u32 = 24;
/// The most weeks earlier.
const EARLIEST: u32 = 6;
/// Hundredths of fitness.
const WHOLE: u32 = 100;

/// A plan whose edits are tried.
pub(super) struct Trial<'a, 'b> {
    pub(super) plan: &'a Plan,
    pub(super) against: ListContext<'a>,
    pub(super) patience: &'a mut Patience<'b>,
}

impl Trial<'_, '_> {
    /// Whether every need can be met by the edited plan within its bed and money.
    fn works(&mut self, edits: &[Edit]) -> Tried {
        let sound = edited(self.plan, edits)
            .ok()
            .filter(|plan| plan.problems().is_empty());
        let Some(Ok(candidates)) = sound.map(|plan| Candidates::of(&plan, self.against)) else {
            return Tried::Unknown;
        };
        can_be_met(&candidates, self.patience)
    }

    /// The least of `1..=most` with which its edits do, where the most does, and whether less is proved not to:
    /// what more of it lets in only grows, so halves of the way are tried.
    fn least(&mut self, most: u32, edits: &dyn Fn(u32) -> Vec<Edit>) -> Option<(u32, bool, Money)> {
        let Tried::Does(mut cost) = self.works(&edits(most)) else {
            return None;
        };
        let (mut short, mut by, mut least) = (0, most, true);
        while by - short > 1 {
            let middle = (short + by) / 2;
            match self.works(&edits(middle)) {
                Tried::Does(found) => (by, cost) = (middle, found),
                Tried::Fails => (short, least) = (middle, true),
                Tried::Unknown => (short, least) = (middle, false),
            }
        }
        Some((by, least, cost))
    }

    /// A wider colour lets in all that a narrower one does.
    pub(super) fn wider_colours(&mut self) -> Option<Mend> {
        let plan = self.plan;
        let edits = |by: u32| wider(plan, by);
        if edits(WIDEST).is_empty() {
            return None;
        }
        let (wider, least, cost) = self.least(WIDEST, &edits)?;
        Some(Mend::alone(By::Colour { wider, least }, edits(wider), cost))
    }

    /// The fewest weeks earlier that do.
    pub(super) fn planted_earlier(&mut self) -> Option<Mend> {
        let mut least = true;
        for weeks in 1..=EARLIEST {
            let edits = earlier(self.plan, weeks);
            match self.works(&edits) {
                Tried::Does(cost) => {
                    let made = edited(self.plan, &edits).ok()?;
                    let frost = made.season.frost_after_planting();
                    let by = By::Earlier {
                        weeks,
                        frost,
                        least,
                    };
                    return Some(Mend::alone(by, edits, cost));
                }
                Tried::Fails => least = true,
                Tried::Unknown => least = false,
            }
        }
        None
    }

    /// The least that fitness is to be lowered by, of each need that falls short and asks for a use.
    pub(super) fn less_fit(&mut self, lacking: &Lacking) -> Option<Mend> {
        let plan = self.plan;
        let edits = |by: u32| less_fit(plan, lacking, by);
        if edits(WHOLE).is_empty() {
            return None;
        }
        let (lower, least, cost) = self.least(WHOLE, &edits)?;
        let by = By::Fitness { lower, least };
        Some(Mend::alone(by, edits(lower), cost))
    }

    /// Needs asked for only in the weeks in which they can be met.
    pub(super) fn fewer_weeks(&mut self, narrowed: Narrowed) -> Option<Mend> {
        if narrowed.edits.is_empty() {
            return None;
        }
        let Tried::Does(cost) = self.works(&narrowed.edits) else {
            return None;
        };
        Some(Mend::alone(narrowed.by, narrowed.edits, cost))
    }

    /// As many stems as the order at hand gives.
    pub(super) fn fewer_stems(&mut self, lacking: &Lacking) -> Option<Mend> {
        let mut fewer = 0;
        let mut edits = Vec::new();
        for lacks in lacking.free_to_change(self.plan) {
            let asked = self.plan.needs[lacks.need].stems.get();
            if lacks.given == 0 || lacks.given >= asked {
                continue;
            }
            fewer += asked - lacks.given;
            edits.push(Edit {
                item: Item::Need(lacks.need),
                value: lacks.given.to_string(),
            });
        }
        if edits.is_empty() {
            return None;
        }
        let Tried::Does(cost) = self.works(&edits) else {
            return None;
        };
        Some(Mend::alone(By::Stems { fewer }, edits, cost))
    }
}

/// Needs narrowed to weeks in which they can be met.
#[derive(Debug, Clone)]
pub(super) struct Narrowed {
    pub(super) by: By,
    pub(super) edits: Vec<Edit>,
}

/// Needs narrowed to the longest run of weeks that lack nothing: of what is set aside, or of what the order at
/// hand is short of too.
pub(super) fn narrowed(plan: &Plan, lacking: &Lacking, short_too: bool) -> Narrowed {
    let (mut fewer, mut least, mut edits) = (0, true, Vec::new());
    for lacks in lacking.free_to_change(plan) {
        let (first, last) = plan.needs[lacks.need].weeks;
        let lacks_in =
            |week: &u8| lacks.aside.contains(week) || (short_too && lacks.short.contains(week));
        let Some((from, to)) = longest((first..=last).filter(|week| !lacks_in(week))) else {
            continue;
        };
        if (from, to) == (first, last) {
            continue;
        }
        let given_up = (first..=last).filter(|week| !(from..=to).contains(week));
        for week in given_up {
            fewer += 1;
            least &= lacks.aside.contains(&week);
        }
        edits.push(Edit {
            item: Item::Need(lacks.need),
            value: format!("{from}-{to}"),
        });
    }
    let by = By::Weeks { fewer, least };
    Narrowed { by, edits }
}

/// The longest run of weeks, rising; of runs as long the earliest.
fn longest(weeks: impl Iterator<Item = u8>) -> Option<(u8, u8)> {
    let mut runs: Vec<(u8, u8)> = Vec::new();
    for week in weeks {
        match runs.last_mut() {
            Some((_, last)) if *last + 1 == week => *last = week,
            _ => runs.push((week, week)),
        }
    }
    runs.into_iter().rev().max_by_key(|(from, to)| to - from)
}

/// The edits by which every need that asks for a colour has it wider.
pub(super) fn wider(plan: &Plan, by: u32) -> Vec<Edit> {
    let coloured = plan.needs.iter().enumerate();
    let coloured = coloured.filter(|(_, need)| !need.colours.is_empty());
    let coloured = coloured.map(|(at, need)| (Item::Need(at).written(plan), need));
    let mut coloured: Vec<(Item, &Need)> = coloured.collect();
    // What an event comes to is changed at once, and stands together.
    coloured.dedup_by_key(|(item, _)| *item);
    let edit = |(item, need): &(Item, &Need)| Edit {
        item: *item,
        value: format!("within={}", need.reach() + f64::from(by)),
    };
    coloured.iter().map(edit).collect()
}

/// The edit by which planting is so many weeks earlier.
pub(super) fn earlier(plan: &Plan, weeks: u32) -> Vec<Edit> {
    let day = day::later(plan.season.planted, -7 * i64::from(weeks));
    vec![Edit {
        item: Item::Planted,
        value: day.to_string(),
    }]
}

fn less_fit(plan: &Plan, lacking: &Lacking, by: u32) -> Vec<Edit> {
    let edit = |lacks: &Lacks| {
        let need = &plan.needs[lacks.need];
        need.for_use.as_ref()?;
        let own = (need.least_fitness() * f64::from(WHOLE)).round();
        let less = (own - f64::from(by)).max(0.0) / f64::from(WHOLE);
        Some(Edit {
            item: Item::Need(lacks.need),
            value: format!("fitness={less}"),
        })
    };
    lacking.free_to_change(plan).filter_map(edit).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_need_is_narrowed_to_its_longest_run_of_weeks() {
        assert_eq!(longest([30, 31, 34, 35, 36].into_iter()), Some((34, 36)));
        assert_eq!(longest([30, 31, 34, 35].into_iter()), Some((30, 31)));
        assert_eq!(longest([].into_iter()), None);
    }
}
