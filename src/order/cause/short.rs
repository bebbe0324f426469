//! Why an order is short of needs that could each be met by itself: beds, money, what is fixed, least orders; and
//! the needs that compete for them. Each is found by settling the plan with something let go or left out.

use super::why::{Cause, Means, Scope, Why};
use crate::order::candidates::{Candidates, ListContext};
use crate::order::model::Model;
use crate::order::plan::Plan;
use crate::order::settle::Settled;
use crate::order::solve::check::Fault;
use crate::order::tried::{Patience, Tried, met};

/// A need by its place, and the weeks in which the order at hand is short of it.
type Short = (usize, Vec<u8>);

/// The causes of what an order is short of beside what was set aside.
pub(super) fn short(
    plan: &Plan,
    against: ListContext<'_>,
    settled: &Settled,
    patience: &mut Patience<'_>,
) -> Vec<Cause> {
    let short = short_needs(settled);
    if short.is_empty() {
        return Vec::new();
    }
    let model = &settled.candidates.model;
    let whole = of_all(plan, against, settled, patience);
    let mut competing = Competing::of(model, patience);
    let of_need = |(need, weeks): Short| {
        let alone = competing.alone(need);
        let (why, competes) = match (&whole, alone) {
            (Some(why @ (Why::Fixed | Why::LeastOrder { .. })), _) => (why.clone(), Vec::new()),
            (_, Tried::Unknown) => (Why::Unknown, Vec::new()),
            (_, Tried::Fails) => {
                let only = only(model, &[need]);
                let means = too_small(&only, competing.patience);
                let why = means.map(|means| Why::TooSmall {
                    means,
                    scope: Scope::Alone,
                });
                (why.unwrap_or(Why::Unknown), Vec::new())
            }
            (whole, Tried::Does(_)) => {
                let why = whole.clone().unwrap_or(Why::Unknown);
                (why, competing.with(need))
            }
        };
        Cause {
            need,
            weeks,
            why,
            competes,
        }
    };
    short.into_iter().map(of_need).collect()
}

/// What the order at hand is short of, of what was not set aside: stems, varieties or forms.
fn short_needs(settled: &Settled) -> Vec<Short> {
    let candidates = &settled.candidates;
    let model = &candidates.model;
    let order = settled.order.as_ref();
    let faults = order.map_or(Vec::new(), |order| model.faults(&order.choice));
    let of_need = |need: usize| {
        let weeks = candidates.weeks.iter().enumerate();
        let is_short = |(at, week): &(usize, &u8)| {
            let aside = settled.aside().of(need);
            let is_aside = aside.is_some_and(|aside| aside.weeks.contains(week));
            // Without an order it is short of everything.
            let of_stems = order.map_or(model.needs[need].runs(*at), |order| {
                let mut weekly = order.weekly.iter();
                let own = weekly.find(|one| one.need == need && one.week == **week);
                own.is_some_and(|own| own.short() > 0.0)
            });
            !is_aside && (of_stems || faults.contains(&Fault::TooFew(need, *at)))
        };
        let weeks: Vec<u8> = weeks.filter(is_short).map(|(_, week)| *week).collect();
        (!weeks.is_empty()).then_some((need, weeks))
    };
    (0..model.needs.len()).filter_map(of_need).collect()
}

/// Why not all that was not set aside can be met together; `None` where that was not found.
fn of_all(
    plan: &Plan,
    against: ListContext<'_>,
    settled: &Settled,
    patience: &mut Patience<'_>,
) -> Option<Why> {
    let model = &settled.candidates.model;
    if !plan.fixed.is_empty() {
        let free = Plan {
            fixed: Vec::new(),
            ..plan.clone()
        };
        let free = Candidates::of(&free, against).ok()?;
        let free = free.set_aside(settled.aside().of_none);
        if let Tried::Does(_) = met(&free.model, patience) {
            return Some(Why::Fixed);
        }
    }
    if model.suppliers.iter().any(|supplier| supplier.least > 0) {
        let mut free = model.clone();
        { free.suppliers.iter_mut() }.for_each(|supplier| supplier.least = 0);
        if let Tried::Does(_) = met(&free, patience) {
            return Some(Why::LeastOrder {
                suppliers: too_small_orders(model, patience),
            });
        }
    }
    too_small(model, patience).map(|means| Why::TooSmall {
        means,
        scope: Scope::Together,
    })
}

/// The suppliers whose least order alone stands in the way; all that have one where no one alone does.
fn too_small_orders(model: &Model, patience: &mut Patience<'_>) -> Vec<String> {
    let with_least = |at: &usize| model.suppliers[*at].least > 0;
    let all: Vec<usize> = (0..model.suppliers.len()).filter(with_least).collect();
    let mut in_the_way = |at: &usize| {
        let mut free = model.clone();
        free.suppliers[*at].least = 0;
        matches!(met(&free, patience), Tried::Does(_))
    };
    let own: Vec<usize> = { all.iter().copied() }
        .filter(|at| in_the_way(at))
        .collect();
    let told = if own.is_empty() { all } else { own };
    let name = |at: usize| model.suppliers[at].name.clone();
    told.into_iter().map(name).collect()
}

/// Which means are too small for a program; `None` where more of them was not found to do.
fn too_small(model: &Model, patience: &mut Patience<'_>) -> Option<Means> {
    let mut does = |money: Option<u64>, places: Option<u64>| {
        let model = Model {
            money,
            places,
            ..model.clone()
        };
        matches!(met(&model, patience), Tried::Does(_))
    };
    let (money, beds) = (model.money, model.places);
    let [richer, larger] = [does(None, beds), does(money, None)];
    match (richer, larger) {
        (true, true) => Some(Means::Either),
        (true, false) => Some(Means::Money),
        (false, true) => Some(Means::Beds),
        (false, false) => does(None, None).then_some(Means::Both),
    }
}

/// The program with only these needs, and nothing to be tried.
fn only(model: &Model, needs: &[usize]) -> Model {
    let others = (0..model.needs.len()).filter(|need| !needs.contains(need));
    let mut only = without(model, &others.collect::<Vec<usize>>());
    only.trials.clear();
    only
}

/// The program as if these needs were not there.
fn without(model: &Model, needs: &[usize]) -> Model {
    let mut without = model.clone();
    for need in needs {
        without.needs[*need].stems.fill(0);
    }
    without
}

/// Which needs compete: sets of them without which all others can be met, each asked about once.
struct Competing<'a, 'b, 'c> {
    model: &'a Model,
    patience: &'b mut Patience<'c>,
    /// The needs that ask for anything, those that ask for most first.
    needs: Vec<usize>,
    /// Sets without which all others can be met, of one size and the next; `None` before they were sought.
    found: [Option<Vec<Vec<usize>>>; 2],
}

/// The most sets that are told.
const MOST_SETS: usize = 3;
/// The most pairs that are tried.
const MOST_PAIRS: usize = 40;

impl<'a, 'b, 'c> Competing<'a, 'b, 'c> {
    fn of(model: &'a Model, patience: &'b mut Patience<'c>) -> Competing<'a, 'b, 'c> {
        let asks = |need: &usize| model.needs[*need].stems.iter().sum::<u64>();
        let mut needs: Vec<usize> = (0..model.needs.len()).collect();
        needs.retain(|need| asks(need) > 0);
        needs.sort_by_key(|need| std::cmp::Reverse(asks(need)));
        Competing {
            model,
            patience,
            needs,
            found: [None, None],
        }
    }

    /// Whether a need can be met if nothing else is asked for.
    fn alone(&mut self, need: usize) -> Tried {
        met(&only(self.model, &[need]), self.patience)
    }

    /// The smallest sets of others without any one of which a need can be met with all that are left.
    fn with(&mut self, need: usize) -> Vec<Vec<usize>> {
        for size in 1..=2 {
            let sets = self.of_size(size).iter();
            let own: Vec<Vec<usize>> = { sets.filter(|set| !set.contains(&need)) }
                .take(MOST_SETS)
                .cloned()
                .collect();
            if !own.is_empty() {
                return own;
            }
        }
        self.fewest(need).into_iter().collect()
    }

    fn of_size(&mut self, size: usize) -> &[Vec<usize>] {
        let at = size - 1;
        if self.found[at].is_none() {
            let all = &self.needs;
            let sets: Vec<Vec<usize>> = match size {
                1 => all.iter().map(|need| vec![*need]).collect(),
                _ => {
                    let pairs = all.iter().enumerate().flat_map(|(at, one)| {
                        let others = all[at + 1..].iter();
                        others.map(move |other| vec![*one, *other])
                    });
                    pairs.take(MOST_PAIRS).collect()
                }
            };
            let does = |set: &Vec<usize>| {
                let model = without(self.model, set);
                matches!(met(&model, self.patience), Tried::Does(_))
            };
            self.found[at] = Some(sets.into_iter().filter(does).collect());
        }
        self.found[at].as_deref().unwrap_or(&[])
    }

    /// Where more than two must go: all others but those that can be put back, one after the other.
    fn fewest(&mut self, need: usize) -> Option<Vec<usize>> {
        let mut gone: Vec<usize> = self.needs.clone();
        gone.retain(|other| *other != need);
        if !matches!(
            met(&without(self.model, &gone), self.patience),
            Tried::Does(_)
        ) {
            return None;
        }
        // Those that ask for least are put back first.
        for other in self.needs.clone().into_iter().rev() {
            let fewer: Vec<usize> = { gone.iter().copied() }
                .filter(|own| *own != other)
                .collect();
            let back = fewer.len() < gone.len();
            if back
                && matches!(
                    met(&without(self.model, &fewer), self.patience),
                    Tried::Does(_)
                )
            {
                gone = fewer;
            }
        }
        Some(gone)
    }
}
