//! Why a need is not as sure as was asked: in which weeks frost or a late first cut takes it in too many seasons,
//! whatever is ordered; else which means were too small for an order that is; else, where none was found in any
//! beds for any money, what is offered, or what of it the grower's own word keeps away.

use std::cell::LazyCell;

use super::ways::{Freed, Had, Ways};
use super::why::{Cause, Means, Scope, Why};
use crate::order::aside::OfNone;
use crate::order::candidates::{Candidates, ListContext};
use crate::order::plan::Plan;
use crate::order::promise::{Promise, Promised};
use crate::order::risk::{Chances, Grows, Seasons, Spreads, of_seasons};
use crate::order::season::monday;
use crate::order::settle::{Settled, Status};
use crate::variety::Varieties;

/// Seasons that are looked at.
const SEASONS: u32 = 1_000;

/// The causes of the promises that are not met.
pub(super) fn unsure(plan: &Plan, against: ListContext<'_>, settled: &Settled) -> Vec<Cause> {
    let broken = broken(settled);
    if broken.is_empty() {
        return Vec::new();
    }
    let (beyond, others): (Vec<Broken>, Vec<Broken>) =
        broken.into_iter().partition(|one| one.promise.is_beyond());
    let mut causes = Vec::new();
    if !beyond.is_empty() {
        let flowers = Flowers::of(plan, &settled.candidates, against.list);
        let own = beyond.iter();
        causes.extend(own.flat_map(|broken| flowers.causes(plan, &settled.candidates, broken)));
    }
    let unmet = others.into_iter().filter(|one| !one.promise.is_as_aimed());
    let unmet: Vec<Broken> = unmet.collect();
    let whys = match (unmet.is_empty(), too_small(plan, settled)) {
        (true, _) => Vec::new(),
        (false, Some(means)) => {
            let scope = Scope::Surely;
            vec![Why::TooSmall { means, scope }; unmet.len()]
        }
        (false, None) => not_to_be_had(plan, against, &unmet),
    };
    let cause = |(broken, why): (Broken, Why)| Cause {
        need: broken.need,
        weeks: doubtful(settled, broken),
        why,
        competes: Vec::new(),
    };
    causes.extend(unmet.into_iter().zip(whys).map(cause));
    causes
}

/// A promise that is not met, and the need that tells why: of an event whose parts are each as sure as asked,
/// the part that is the least so.
#[derive(Clone, Copy)]
struct Broken {
    promise: Promise,
    need: usize,
}

fn broken(settled: &Settled) -> Vec<Broken> {
    let is_met = |need: &usize| {
        let promise = settled.promise(Promised::Need(*need));
        promise.is_none_or(Promise::is_met)
    };
    let chance = |need: &usize| {
        let promise = settled.promise(Promised::Need(*need));
        promise.map_or(1.0, |promise| promise.chance)
    };
    let of = |promise: &Promise| {
        let need = match promise.of {
            Promised::Need(need) => Some(need),
            Promised::Work(work) => { settled.candidates.wholes.iter() }
                .filter(|whole| whole.work == work && whole.needs.iter().all(is_met))
                .flat_map(|whole| whole.needs.iter().copied())
                .min_by(|one, other| chance(one).total_cmp(&chance(other))),
        };
        let promise = *promise;
        need.map(|need| Broken { promise, need })
    };
    let unmet = settled.promises.iter().filter(|promise| !promise.is_met());
    unmet.filter_map(of).collect()
}

/// Why no order was found that is as sure, in beds of any size for any money: of each promise whether all that
/// can be had would keep it, and if not, what would that is let go.
fn not_to_be_had(plan: &Plan, against: ListContext<'_>, unmet: &[Broken]) -> Vec<Why> {
    let Some(ways) = Ways::of(plan, against) else {
        return vec![Why::Unknown; unmet.len()];
    };
    let chances = |had: &Had| {
        let mut candidates = had.candidates.clone().set_aside(OfNone::Most);
        candidates.model.places = None;
        let numbers = 0..SEASONS;
        let seasons = Seasons::of(plan, &candidates, against.list, Spreads::assumed(), numbers);
        of_seasons(&seasons, &candidates, &had.plants)
    };
    let own = chances(&ways.own);
    // Asked only where all that can be had is not enough.
    let freed = LazyCell::new(|| -> Vec<(Freed, Chances)> {
        let freed = ways.freed.iter();
        freed.map(|(freed, had)| (*freed, chances(had))).collect()
    });
    let share = |chances: &Chances, broken: &Broken| match broken.promise.of {
        Promised::Need(need) => chances.throughout[need],
        Promised::Work(work) => { chances.together.iter() }
            .find(|one| one.0 == work)
            .map_or(0.0, |one| one.1),
    };
    let why = |broken: &Broken| {
        let aim = broken.promise.aim();
        if share(&own, broken) >= aim {
            return Why::Unknown;
        }
        let would = freed.iter().find(|(_, had)| share(had, broken) >= aim);
        match would {
            Some((freed, _)) => ways.let_go(*freed, broken.need),
            None => Why::TooLittleOffered {
                share: share(&own, broken),
            },
        }
    };
    unmet.iter().map(why).collect()
}

/// What the search for an order that is as sure had to have more of; `None` where it found none.
fn too_small(plan: &Plan, settled: &Settled) -> Option<Means> {
    let Status::Unsure {
        takes: Some(takes), ..
    } = settled.status
    else {
        return None;
    };
    let larger = takes.places > plan.places();
    let dearer = plan.money.is_some_and(|money| takes.cost > money);
    Some(match (larger, dearer) {
        (true, true) => Means::Both,
        (true, false) => Means::Beds,
        (false, _) => Means::Money,
    })
}

/// The weeks in which a need lacks stems in more seasons than are asked of all of its weeks together; the worst
/// where no week does.
fn doubtful(settled: &Settled, Broken { promise, need }: Broken) -> Vec<u8> {
    let chances = settled.chances.as_ref();
    let weeks = chances.map_or(&[][..], |chances| &chances.met[need]);
    let under = weeks.iter().filter(|(_, chance)| *chance < promise.sure);
    let under: Vec<u8> = under.map(|one| one.0).collect();
    let worst = weeks.iter().min_by(|one, other| one.1.total_cmp(&other.1));
    match under.is_empty() {
        true => worst.map(|one| one.0).into_iter().collect(),
        false => under,
    }
}

/// By need and week: in how many of the seasons drawn anything flowers that could serve it.
struct Flowers {
    seasons: usize,
    counts: Vec<Vec<usize>>,
}

impl Flowers {
    fn of(plan: &Plan, candidates: &Candidates, list: &Varieties) -> Flowers {
        let model = &candidates.model;
        let seasons = Seasons::of(plan, candidates, list, Spreads::assumed(), 0..SEASONS);
        let cells = seasons.count() * model.weeks;
        let mut any = vec![vec![false; cells]; model.needs.len()];
        for (at, variety) in model.varieties.iter().enumerate() {
            if variety.serves.is_empty() {
                continue;
            }
            let grown = seasons.grown(at, u64::from(SEASONS), 0..seasons.count());
            for need in &variety.serves {
                let both = any[*need].iter_mut().zip(&grown);
                both.for_each(|(any, grown)| *any |= *grown > 0);
            }
        }
        let of_need = |any: Vec<bool>| -> Vec<usize> {
            let of_week = |week: usize| {
                let own = any.iter().skip(week).step_by(model.weeks.max(1));
                own.filter(|any| **any).count()
            };
            (0..model.weeks).map(of_week).collect()
        };
        Flowers {
            seasons: seasons.count(),
            counts: any.into_iter().map(of_need).collect(),
        }
    }

    /// In which weeks too few seasons flower. A frost takes every week after it, and a late first cut every week
    /// before it: so where less than half of the seasons that may be missed is missed in every week by either,
    /// the seasons are there, and the beds are too small to use them.
    fn causes(&self, plan: &Plan, candidates: &Candidates, broken: &Broken) -> Vec<Cause> {
        let Broken { promise, need } = *broken;
        let counts = &self.counts[need];
        let demand = &candidates.model.needs[need];
        let runs = (0..counts.len()).filter(|week| demand.runs(*week));
        let runs: Vec<usize> = runs.collect();
        let missed = |week: usize| 1.0 - counts[week] as f64 / self.seasons.max(1) as f64;
        let by_frost = |week: &usize| {
            let begins = monday(plan.season.planted, candidates.weeks[*week]);
            let frost = &plan.season.first_frost;
            let come = begins.map_or(0.0, |day| 1.0 - frost.chance_after(day));
            come * 2.0 >= missed(*week)
        };
        let may_miss = (1.0 - promise.sure) / 2.0;
        let missing = runs.iter().copied().filter(|week| missed(*week) > may_miss);
        let (late, early): (Vec<usize>, Vec<usize>) = missing.partition(by_frost);
        let cause = |weeks: &[usize], why: Why| Cause {
            need,
            weeks: weeks.iter().map(|week| candidates.weeks[*week]).collect(),
            why,
            competes: Vec::new(),
        };
        let share = |weeks: &[usize]| weeks.iter().map(|week| missed(*week)).fold(0.0, f64::max);
        let mut causes = Vec::new();
        if !early.is_empty() {
            let share = share(&early);
            causes.push(cause(&early, Why::LateFirstCut { share }));
        }
        if !late.is_empty() {
            let share = share(&late);
            causes.push(cause(&late, Why::EarlyFrost { share }));
        }
        if causes.is_empty() && !runs.is_empty() {
            let why = Why::TooSmall {
                means: Means::Beds,
                scope: Scope::Surely,
            };
            causes.push(cause(&runs, why));
        }
        causes
    }
}
