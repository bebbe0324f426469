//! A plan as it is, and how else it could be with what the grower settled by hand let go: each with all that
//! could then be had.

use jiff::civil::Date;

use super::why::Why;
use crate::order::candidates::{Candidates, ListContext};
use crate::order::plan::Plan;

/// A plan as it could be, and the plants of each variety that could then be had.
pub(super) struct Had {
    pub(super) candidates: Candidates,
    pub(super) plants: Vec<u64>,
}

impl Had {
    fn of(plan: &Plan, against: ListContext<'_>) -> Option<Had> {
        Some(Had::with(Candidates::of(plan, against).ok()?))
    }

    fn with(candidates: Candidates) -> Had {
        let plants = candidates.model.plants_to_be_had(&candidates.offered);
        Had { candidates, plants }
    }

    pub(super) fn meets(&self, need: usize, week: usize) -> bool {
        let model = &self.candidates.model;
        let reach = model.reach(&self.plants, need, week);
        reach.meets(&model.needs[need], week)
    }
}

/// The plan, and how else it could be with what the grower settled by hand let go.
pub(super) struct Ways<'a> {
    pub(super) plan: &'a Plan,
    pub(super) against: ListContext<'a>,
    pub(super) own: Had,
    /// Each with what is let go in it.
    pub(super) freed: Vec<(Freed, Had)>,
}

#[derive(Debug, Clone, Copy)]
pub(super) enum Freed {
    Fixed,
    Shortlist,
    Closed,
    LeastOrders,
}

impl<'a> Ways<'a> {
    /// `None` where the plan cannot be read.
    pub(super) fn of(plan: &'a Plan, against: ListContext<'a>) -> Option<Ways<'a>> {
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

    /// What keeps a need from being met that is met if this is let go.
    pub(super) fn let_go(&self, freed: Freed, need: usize) -> Why {
        match freed {
            Freed::Fixed => Why::Fixed,
            Freed::Shortlist => Why::NotOnShortlist,
            Freed::Closed => Why::Closed {
                on: self.closed(need),
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

    /// The varieties that serve a need, by their places.
    pub(super) fn serving(&self, need: usize) -> Vec<usize> {
        let model = &self.own.candidates.model;
        let serves = |at: &usize| model.varieties[*at].serves.contains(&need);
        (0..model.varieties.len()).filter(serves).collect()
    }

    /// The last day on which an offer of these closed before the orders go out.
    fn closed(&self, need: usize) -> Option<Date> {
        let rows = { self.serving(need).into_iter() }.map(|at| self.own.candidates.rows[at]);
        let list = self.against.list.list();
        let offers = rows.flat_map(|row| &list[row].offers);
        let closed = offers.filter_map(|offer| offer.closes);
        closed.filter(|closes| *closes < self.plan.ordered).max()
    }
}
