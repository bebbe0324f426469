//! What no order can meet, whatever the beds and the money, set aside before the search, so that the rest is
//! ordered as if it were not asked for.
//!
//! Of a need that can be met in some of its weeks those weeks are ordered for. Of one that can be met in none the
//! most that there is is ordered for, as long as the others can be met beside it; else nothing is. What is left
//! over of the others' stems goes to it in any case.

use super::aside::{Aside, OfNone, Rest, SetAside};
use super::candidates::Candidates;
use super::model::Demand;
use super::reach::Reach;

impl Candidates {
    /// What a need asks for, set aside or not.
    pub(super) fn asked(&self, need: usize) -> &Demand {
        let aside = self.aside.of(need);
        aside.map_or(&self.model.needs[need], |aside| &aside.asked)
    }

    /// The same with what no order can meet set aside.
    pub(super) fn set_aside(mut self, of_none: OfNone) -> Candidates {
        let plants = self.model.plants_to_be_had(&self.offered);
        let needs = 0..self.model.needs.len();
        let aside: Vec<(Aside, Demand)> = needs
            .filter_map(|need| self.beyond(need, &plants, of_none))
            .collect();
        let had = |trial: &usize| -> u64 {
            let own = self.model.trials[*trial].varieties.iter();
            own.fold(0, |sum, one| sum.saturating_add(plants[*one]))
        };
        let trials = 0..self.model.trials.len();
        let trials: Vec<(usize, u64)> = { trials.map(|trial| (trial, had(&trial))) }
            .filter(|(trial, had)| *had < self.model.trials[*trial].plants)
            .collect();
        if aside.is_empty() && trials.is_empty() {
            return self;
        }
        for (one, lowered) in &aside {
            self.model.needs[one.need] = lowered.clone();
        }
        for (trial, had) in &trials {
            self.model.trials[*trial].plants = *had;
        }
        self.model.limit_packs_anew(&self.offered);
        self.aside = SetAside {
            needs: aside.into_iter().map(|one| one.0).collect(),
            trials: trials.into_iter().map(|one| one.0).collect(),
            of_none,
        };
        self
    }

    /// A need with the weeks in which it cannot be met, and what is left of it to order for; `None` where it
    /// can be met in all of them.
    fn beyond(&self, need: usize, plants: &[u64], of_none: OfNone) -> Option<(Aside, Demand)> {
        let model = &self.model;
        let asked = &model.needs[need];
        let runs: Vec<usize> = (0..model.weeks).filter(|week| asked.runs(*week)).collect();
        let meets =
            |demand: &Demand, week: &usize| model.reach(plants, need, *week).meets(demand, *week);
        let beyond: Vec<usize> = { runs.iter().copied() }
            .filter(|week| !meets(asked, week))
            .collect();
        if beyond.is_empty() {
            return None;
        }
        let mut left = asked.clone();
        let kept = if beyond.len() < runs.len() {
            beyond.iter().for_each(|week| left.stems[*week] = 0);
            Rest::OtherWeeks
        } else {
            self.lower(need, plants, &mut left);
            if of_none == OfNone::Nothing {
                left.stems.fill(0);
            }
            match left.asks() {
                true => Rest::Most,
                false => Rest::Nothing,
            }
        };
        let aside = Aside {
            need,
            weeks: beyond.iter().map(|week| self.weeks[*week]).collect(),
            kept,
            asked: asked.clone(),
        };
        Some((aside, left))
    }

    /// Lowers what a need asks for to the most that there is: as many of the varieties and forms as its best
    /// week can have, in the weeks that have as many.
    fn lower(&self, need: usize, plants: &[u64], left: &mut Demand) {
        let reach = |week: usize| self.model.reach(plants, need, week);
        let runs = (0..self.model.weeks).filter(|week| left.runs(*week));
        let runs: Vec<usize> = runs.collect();
        let most = |count: fn(&Reach) -> u64| {
            let counts = runs.iter().map(|week| count(&reach(*week)));
            counts.max().unwrap_or(0).max(1)
        };
        left.varieties = left.varieties.min(most(|reach| reach.varieties));
        left.forms = left.forms.min(most(|reach| reach.forms));
        let asked = left.clone();
        for week in runs {
            let reach = reach(week);
            let stems = match reach.has_kinds(&asked) {
                true => reach.stems.min(asked.stems[week]),
                false => 0,
            };
            left.stems[week] = stems;
            // The most from one stays as many stems, of fewer a greater share.
            if let (Some(limit), true) = (asked.limit(week), stems > 0) {
                let share = limit.saturating_mul(100).div_ceil(stems).min(100);
                left.most_from_one = left.most_from_one.map(|own| own.max(share));
            }
        }
    }
}
