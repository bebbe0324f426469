//! Why no order can meet a need, whatever the beds and the money: the need alone, with all that can be had.

use super::nearest::nearest;
use super::ways::{Had, Ways};
use super::why::{Cause, Kind, Why, gathered};
use crate::measure::day;
use crate::order::aside::Aside;
use crate::order::candidates::ListContext;
use crate::order::model::STEM;
use crate::order::plan::Plan;
use crate::order::season::monday;

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

impl Ways<'_> {
    /// Why a need cannot be met in a week, by its place among the plan's.
    fn why(&self, need: usize, week: usize) -> Why {
        let Had { candidates, plants } = &self.own;
        let model = &candidates.model;
        let serving = self.serving(need);
        if serving.is_empty() {
            let nearest = nearest(self.plan, self.against, need);
            return Why::NoVariety { nearest };
        }
        if let Some((freed, _)) = self.freed.iter().find(|(_, had)| had.meets(need, week)) {
            return self.let_go(*freed, need);
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
