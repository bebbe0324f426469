//! Why no order can meet a need, whatever the beds and the money: the need alone, with all that can be had.

use jiff::civil::Date;

use super::nearest::nearest;
use super::why::{Cause, Kind, Why, gathered};
use crate::measure::day;
use crate::order::aside::Aside;
use crate::order::candidates::{Candidates, ListContext};
use crate::order::model::STEM;
use crate::order::plan::Plan;
use crate::order::season::monday;

/// A plan as it could be, and the plants of each variety that could then be had.
struct Had {
    candidates: Candidates,
    plants: Vec<u64>,
}

impl Had {
    fn of(plan: &Plan, against: ListContext<'_>) -> Option<Had> {
        Some(Had::with(Candidates::of(plan, against).ok()?))
    }

    fn with(candidates: Candidates) -> Had {
        let plants = candidates.model.plants_to_be_had(&candidates.offered);
        Had { candidates, plants }
    }

    fn meets(&self, need: usize, week: usize) -> bool {
        let model = &self.candidates.model;
        let reach = model.reach(&self.plants, need, week);
        reach.meets(&model.needs[need], week)
    }
}

/// The plan, and how else it could be with what the grower settled by hand let go.
struct Ways<'a> {
    plan: &'a Plan,
    against: ListContext<'a>,
    own: Had,
    /// Each with what is let go in it.
    freed: Vec<(Freed, Had)>,
}

#[derive(Debug, Clone, Copy)]
enum Freed {
    Fixed,
    Shortlist,
    Closed,
    LeastOrders,
}

/// The causes of all that is set aside, need by need; none where the plan cannot be read.
pub(super) fn beyond(plan: &Plan, against: ListContext<'_>, aside: &[Aside]) -> Vec<Cause> {
    if aside.is_empty() {
        return Vec::new();
    }
    let Some(ways) = Ways::of(plan, against) else {
        return Vec::new();
    };
    let of_need = |one: &Aside| {
        let places = ways.own.candidates.weeks.iter();
        let at = |week: &u8| places.clone().position(|own| own == week);
        let whys =
            { one.weeks.iter() }.filter_map(|week| Some((*week, ways.why(one.need, at(week)?))));
        gathered(one.need, whys)
    };
    aside.iter().flat_map(of_need).collect()
}

impl<'a> Ways<'a> {
    fn of(plan: &'a Plan, against: ListContext<'a>) -> Option<Ways<'a>> {
        let own = Had::of(plan, against)?;
        let mut freed = Vec::new();
        if !plan.fixed.is_empty() {
            let fixed = Vec::new();
            let free = Plan {
                fixed,
                ..plan.clone()
            };
            freed.push((Freed::Fixed, Had::of(&free, against)?));
        }
        if plan.shortlist_only {
            let any = Plan {
                shortlist_only: false,
                ..plan.clone()
            };
            freed.push((Freed::Shortlist, Had::of(&any, against)?));
        }
        // Every offer is open on the first of days.
        let open = Plan {
            ordered: Date::MIN,
            ..plan.clone()
        };
        freed.push((Freed::Closed, Had::of(&open, against)?));
        let mut without = own.candidates.clone();
        { without.model.suppliers.iter_mut() }.for_each(|supplier| supplier.least = 0);
        freed.push((Freed::LeastOrders, Had::with(without)));
        Some(Ways {
            plan,
            against,
            own,
            freed,
        })
    }

    /// Why a need cannot be met in a week, by its place among the plan's.
    fn why(&self, need: usize, week: usize) -> Why {
        let Had { candidates, plants } = &self.own;
        let model = &candidates.model;
        let varieties = 0..model.varieties.len();
        let serving: Vec<usize> = varieties
            .filter(|at| model.varieties[*at].serves.contains(&need))
            .collect();
        if serving.is_empty() {
            let nearest = nearest(self.plan, self.against, need);
            return Why::NoVariety { nearest };
        }
        if let Some((freed, _)) = self.freed.iter().find(|(_, had)| had.meets(need, week)) {
            return self.let_go(*freed, need, &serving);
        }
        let held = serving.iter().copied().filter(|at| plants[*at] > 0);
        let held: Vec<usize> = held.collect();
        if held.is_empty() {
            let varieties = serving.len();
            return Why::NotOffered { varieties };
        }
        let demand = &model.needs[need];
        let reach = model.reach(plants, need, week);
        let flowering = held
            .iter()
            .filter(|at| model.varieties[**at].yields[week] > 0);
        let able = flowering.count() as u64;
        let most = demand.most_from_one.unwrap_or(100);
        let too_few = |of, asked, able| Why::TooFewKinds { of, asked, able };
        if able == 0 {
            self.out_of_season(&held, week)
        } else if demand.varieties > 1 && reach.varieties < demand.varieties {
            too_few(Kind::Varieties, demand.varieties, reach.varieties)
        } else if demand.forms > 1 && reach.forms < demand.forms {
            too_few(Kind::Forms, demand.forms, reach.forms)
        } else if reach.from_any >= demand.stems[week] {
            Why::MostFromOne { most, able }
        } else {
            let stems = |thousandths: u64| thousandths as f64 / STEM as f64;
            Why::TooFewTubers {
                gives: stems(reach.stems),
                asked: stems(demand.stems[week]),
            }
        }
    }

    fn let_go(&self, freed: Freed, need: usize, serving: &[usize]) -> Why {
        match freed {
            Freed::Fixed => Why::Fixed,
            Freed::Shortlist => Why::NotOnShortlist,
            Freed::Closed => Why::Closed {
                on: self.closed(serving),
            },
            Freed::LeastOrders => {
                let model = &self.own.candidates.model;
                let sells = |at: &usize| {
                    let mut offers = model.offers.iter();
                    let serves = |variety: usize| model.varieties[variety].serves.contains(&need);
                    offers.any(|offer| offer.supplier == *at && serves(offer.variety))
                };
                let suppliers = 0..model.suppliers.len();
                let small = suppliers.filter(|at| model.suppliers[*at].least > 0 && sells(at));
                Why::LeastOrder {
                    suppliers: small.map(|at| model.suppliers[at].name.clone()).collect(),
                }
            }
        }
    }

    /// The last day on which an offer of these closed before the orders go out.
    fn closed(&self, serving: &[usize]) -> Option<Date> {
        let rows = serving.iter().map(|at| self.own.candidates.rows[*at]);
        let list = self.against.list.list();
        let offers = rows.flat_map(|row| &list[row].offers);
        let closed = offers.filter_map(|offer| offer.closes);
        closed.filter(|closes| *closes < self.plan.ordered).max()
    }

    /// Why none of these flowers in a week.
    fn out_of_season(&self, held: &[usize], week: usize) -> Why {
        let season = &self.plan.season;
        let Some(begins) = monday(season.planted, self.own.candidates.weeks[week]) else {
            return Why::NotInBloom;
        };
        let first_cut = |at: &usize| season.first_cut(self.own.candidates.first_cuts[*at]);
        let first = held.iter().map(first_cut).min().unwrap_or(begins);
        let frost = season.first_frost.middle();
        if day::later(begins, 6) < first {
            Why::BeforeFirstCut { first }
        } else if begins >= frost {
            Why::AfterFrost { frost }
        } else {
            Why::NotInBloom
        }
    }
}
