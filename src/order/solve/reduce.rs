//! The model made smaller without a change to its answer.
//!
//! - A week falls away where another week is at least as hard: every need wants as much there and
//!   every variety gives no more. A sharing out of the harder week, scaled down, serves the easier.
//! - Varieties that no condition tells apart (the same stems by week, the same needs, no limit on
//!   one variety, no count of varieties or forms, no trial) become one, and their equal offers one
//!   with all their packs. This also takes out choices that differ only in whose pack it is.
//! - What serves no need and no trial, or cannot be had, falls away. Where it may fill an order up to
//!   its least worth or to free postage, its packs become one column a supplier (`fill`).

use std::collections::BTreeMap;

use crate::order::model::{Candidate, Choice, Demand, Model, Pack};

mod fill;

pub(super) use fill::{Fill, common};

/// A smaller model and the way back.
#[derive(Debug, Clone)]
pub(super) struct Reduced {
    pub(super) model: Model,
    /// By variety of the smaller model: those of the larger, of what only fills orders up none.
    varieties: Vec<Vec<usize>>,
    /// By offer of the smaller model, the fills apart: those of the larger.
    offers: Vec<Vec<usize>>,
    /// By week of the larger model: the week of the smaller that makes sure of it.
    weeks: Vec<Option<usize>>,
    /// What the last offers of the smaller model stand for.
    pub(super) fills: Vec<Fill>,
}

impl Reduced {
    /// The smaller model that has the same orders.
    pub(super) fn of(model: &Model) -> Reduced {
        Reduced::to_weeks(model, hardest_weeks(model))
    }

    /// The smaller model with every week in which something is needed, for what is counted by week.
    pub(super) fn with_all_weeks(model: &Model) -> Reduced {
        let needed = |week: &usize| model.needs.iter().any(|need| need.runs(*week));
        Reduced::to_weeks(model, (0..model.weeks).filter(needed).collect())
    }

    fn to_weeks(model: &Model, weeks: Vec<usize>) -> Reduced {
        let (varieties, filling) = useful_varieties(model, &weeks);
        let mut place = vec![None; model.varieties.len()];
        for (at, members) in varieties.iter().enumerate() {
            members.iter().for_each(|member| place[*member] = Some(at));
        }
        // One variety of which nothing is planted has the packs of all that only fills orders up.
        let filler = varieties.len();
        let mut equal: BTreeMap<(usize, usize, u64, u64), Vec<usize>> = BTreeMap::new();
        let mut by_supplier: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
        for (at, offer) in model
            .offers
            .iter()
            .enumerate()
            .filter(|(_, offer)| offer.most > 0)
        {
            if let Some(variety) = place[offer.variety] {
                let key = (variety, offer.supplier, offer.tubers, offer.price);
                equal.entry(key).or_default().push(at);
            } else if filling[offer.variety] && model.suppliers[offer.supplier].takes_padding() {
                by_supplier.entry(offer.supplier).or_default().push(at);
            }
        }
        let mut fills = Vec::new();
        for (supplier, offers) in by_supplier {
            match Fill::of(model, supplier, &offers) {
                Some(fill) => fills.push(fill),
                None => offers.into_iter().for_each(|at| {
                    let key = (filler, supplier, 1, model.offers[at].price);
                    equal.entry(key).or_default().push(at);
                }),
            }
        }
        let sum = |offers: &[usize], of: fn(&Pack) -> u64| {
            offers.iter().map(|at| of(&model.offers[*at])).sum()
        };
        let offers = equal
            .iter()
            .map(|((variety, supplier, tubers, price), offers)| Pack {
                variety: *variety,
                supplier: *supplier,
                price: *price,
                tubers: *tubers,
                least: sum(offers, |one| one.least),
                most: sum(offers, |one| one.most),
            })
            .chain(fills.iter().map(|fill| fill.pack(filler)));
        let short = |values: &[u64]| weeks.iter().map(|week| values[*week]).collect();
        let candidate = |members: &Vec<usize>| {
            let first = &model.varieties[members[0]];
            let all = members.iter().map(|member| &model.varieties[*member]);
            Candidate {
                yields: short(&first.yields),
                on_hand: all.clone().map(|one| one.on_hand).sum(),
                merit: all.map(|one| one.merit).max().unwrap_or(0),
                ..first.clone()
            }
        };
        let mut smaller = Model {
            weeks: weeks.len(),
            suppliers: model.suppliers.clone(),
            varieties: varieties.iter().map(candidate).collect(),
            offers: offers.collect(),
            needs: model.needs.clone(),
            trials: model.trials.clone(),
            places: model.places,
            money: model.money,
        };
        if smaller.offers.iter().any(|offer| offer.variety == filler) {
            smaller.varieties.push(Candidate {
                yields: vec![0; weeks.len()],
                most_plants: Some(0),
                ..Candidate::default()
            });
        }
        smaller
            .needs
            .iter_mut()
            .for_each(|need| need.stems = short(&need.stems));
        for group in &mut smaller.trials {
            group.varieties = group
                .varieties
                .iter()
                .filter_map(|one| place[*one])
                .collect();
            group.varieties.sort_unstable();
        }
        // A sharing out of the week that is no easier serves this one too, with the same that count.
        let sure = |week: usize| {
            let own = weeks.iter().position(|kept| *kept == week);
            let needed = model.needs.iter().any(|need| need.runs(week));
            let harder = || weeks.iter().position(|kept| no_easier(model, *kept, week));
            own.or_else(|| harder().filter(|_| needed))
        };
        Reduced {
            weeks: (0..model.weeks).map(sure).collect(),
            model: smaller,
            varieties,
            offers: equal.into_values().collect(),
            fills,
        }
    }

    /// An answer to the smaller model as one to the larger: of equal varieties the one of the
    /// greatest merit first.
    pub(super) fn expand(&self, model: &Model, choice: &Choice) -> Choice {
        let counted = |need: usize, week: Option<usize>| -> Vec<usize> {
            let counting = week.map_or(&[][..], |week| choice.counting(need, week));
            counting.iter().map(|at| self.varieties[*at][0]).collect()
        };
        let mut whole = Choice {
            packs: vec![0; model.offers.len()],
            plants: vec![0; model.varieties.len()],
            counted: (0..model.needs.len())
                .map(|need| self.weeks.iter().map(|week| counted(need, *week)).collect())
                .collect(),
        };
        let merit = |variety: usize| u64::MAX - model.varieties[variety].merit;
        for (offers, packs) in self.offers.iter().zip(&choice.packs) {
            let mut offers = offers.clone();
            offers.sort_by_key(|at| (merit(model.offers[*at].variety), *at));
            let least: u64 = offers.iter().map(|at| model.offers[*at].least).sum();
            let mut over = packs.saturating_sub(least);
            for at in offers {
                let offer = &model.offers[at];
                let more = over.min(offer.most - offer.least);
                whole.packs[at] = offer.least + more;
                over -= more;
            }
        }
        for (fill, units) in self.fills.iter().zip(&choice.packs[self.offers.len()..]) {
            for (at, packs) in fill.split(*units) {
                whole.packs[at] = packs;
            }
        }
        let tubers = model.tubers(&whole.packs);
        for (members, plants) in self.varieties.iter().zip(&choice.plants) {
            let mut members = members.clone();
            members.sort_by_key(|at| (merit(*at), *at));
            let mut left = *plants;
            for at in members {
                whole.plants[at] = left.min(tubers[at]);
                left -= whole.plants[at];
            }
        }
        whole
    }
}

/// The weeks that are left when those that another makes sure of are taken out.
fn hardest_weeks(model: &Model) -> Vec<usize> {
    let needed = |week: &usize| model.needs.iter().any(|need| need.runs(*week));
    let covered = |week: usize| {
        (0..model.weeks).any(|other| {
            let as_hard = || other < week || !no_easier(model, week, other);
            other != week && no_easier(model, other, week) && as_hard()
        })
    };
    (0..model.weeks)
        .filter(|week| needed(week) && !covered(*week))
        .collect()
}

/// Whether every need wants as much in a week as in the other, and every variety gives no more.
fn no_easier(model: &Model, week: usize, than: usize) -> bool {
    let wanted = |need: &Demand| need.stems[week] >= need.stems[than];
    let gives = |one: &Candidate| one.serves.is_empty() || one.yields[week] <= one.yields[than];
    model.needs.iter().all(wanted) && model.varieties.iter().all(gives)
}

/// What makes varieties one: stems by week, needs, and itself where it is told apart.
type Likeness<'a> = (Vec<u64>, &'a [usize], Option<usize>);

/// The varieties that are of use, those that nothing tells apart together; and by variety whether its
/// tubers are of none, so that its packs only fill an order up.
fn useful_varieties(model: &Model, weeks: &[usize]) -> (Vec<Vec<usize>>, Vec<bool>) {
    let tried = |at: usize| { model.trials.iter() }.any(|group| group.varieties.contains(&at));
    let told_apart = |at: usize, one: &Candidate| {
        let limited = |need: &usize| {
            let need = &model.needs[*need];
            need.most_from_one.is_some() || need.counts()
        };
        one.most_plants.is_some() || one.serves.iter().any(limited) || tried(at)
    };
    let mut buyable = vec![false; model.varieties.len()];
    let mut to_be_bought = vec![false; model.varieties.len()];
    for offer in model.offers.iter().filter(|offer| offer.most > 0) {
        buyable[offer.variety] = true;
        to_be_bought[offer.variety] |= offer.least > 0;
    }
    let mut merged: BTreeMap<Likeness<'_>, Vec<usize>> = BTreeMap::new();
    let mut filling = vec![false; model.varieties.len()];
    for (at, one) in model.varieties.iter().enumerate() {
        let yields: Vec<u64> = weeks.iter().map(|week| one.yields[*week]).collect();
        let serving = weeks
            .iter()
            .any(|week| one.serving(model, *week).next().is_some());
        let to_be_had = (buyable[at] || one.on_hand > 0) && one.most_plants != Some(0);
        if (to_be_had && (serving || tried(at))) || to_be_bought[at] {
            let alone = told_apart(at, one).then_some(at);
            merged
                .entry((yields, &one.serves, alone))
                .or_default()
                .push(at);
        } else {
            filling[at] = buyable[at];
        }
    }
    let mut merged: Vec<Vec<usize>> = merged.into_values().collect();
    merged.sort();
    (merged, filling)
}
