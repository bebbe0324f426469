//! What a settled order lacks, need by need, for mends that ask for less of it.

use crate::order::model::STEM;
use crate::order::plan::Plan;
use crate::order::settle::Settled;

/// Needs that are not met, by their places.
#[derive(Debug, Clone, Default)]
pub(super) struct Lacking(Vec<Lacks>);

/// What one need lacks.
#[derive(Debug, Clone)]
pub(super) struct Lacks {
    pub(super) need: usize,
    /// Weeks of the year in which no order meets it.
    pub(super) aside: Vec<u8>,
    /// Other weeks of the year in which the order at hand is short of it.
    pub(super) short: Vec<u8>,
    /// Whole stems that the order at hand gives it in its worst week.
    pub(super) given: u32,
}

impl Lacking {
    pub(super) fn of(settled: &Settled) -> Lacking {
        let needs = 0..settled.candidates.model.needs.len();
        let lacks = needs.filter_map(|need| {
            let aside = settled.aside().of(need);
            let aside = aside.map_or(Vec::new(), |aside| aside.weeks.clone());
            let weekly = settled.order.iter().flat_map(|order| &order.weekly);
            let own: Vec<_> = weekly.filter(|one| one.need == need).collect();
            let short = own.iter().filter(|one| one.short() > 0.0);
            let short = short.map(|one| one.week);
            let short: Vec<u8> = short.filter(|week| !aside.contains(week)).collect();
            // As thousandths, for a sum of them is whole.
            let stems = |given: f64| (given * STEM as f64).round() as u32 / STEM as u32;
            let given = own.iter().map(|one| stems(one.given)).min();
            (!aside.is_empty() || !short.is_empty()).then(|| Lacks {
                need,
                aside,
                short,
                given: given.unwrap_or(0),
            })
        });
        Lacking(lacks.collect())
    }

    /// Those that are written as needs: what an event comes to is changed there.
    pub(super) fn free_to_change(&self, plan: &Plan) -> impl Iterator<Item = &Lacks> {
        let own = |lacks: &&Lacks| {
            let need = plan.needs.get(lacks.need);
            need.is_some_and(|need| need.of_work.is_none())
        };
        self.0.iter().filter(own)
    }
}
