//! All that is told of a season under way.

use jiff::civil::Date;

use super::{Cut, Free, Going, Left, Prior, SoFar, chances_left, free_to_sell, going};
use crate::order::candidates::Candidates;
use crate::order::plan::Plan;
use crate::order::risk::{SEASONS, Spreads};
use crate::order::solution::Order;
use crate::variety::Varieties;

/// How a season goes.
#[derive(Debug, Clone, PartialEq)]
pub struct SeasonSoFar {
    /// What was cut against what was planned.
    pub going: Going,
    /// What it says of the yields.
    pub so_far: SoFar,
    /// The chances of the promises with weeks to come.
    pub left: Vec<Left>,
    /// The seasons drawn for them.
    pub seasons: u32,
    /// What no need takes, by week to come.
    pub free: Vec<Free>,
}

impl SeasonSoFar {
    /// By the cuts up to `until`, or all of them, of what an order plants; candidates and order are of the plan
    /// [as it was made](Plan::before_its_season). `None` where no cut of its season is of what it plants.
    pub fn of(
        plan: &Plan,
        candidates: &Candidates,
        list: &Varieties,
        order: &Order,
        cuts: &[Cut],
        until: Option<Date>,
    ) -> Option<SeasonSoFar> {
        let going = going(plan, candidates, list, order, cuts, until)?;
        let prior = Prior::of(plan, candidates, list, order, Spreads::assumed());
        let so_far = SoFar::of(&prior, &going.counted);
        let day = until.unwrap_or(going.day);
        Some(SeasonSoFar {
            left: chances_left(plan, candidates, list, order, &so_far, day, SEASONS),
            free: free_to_sell(plan, candidates, list, order, &so_far, day),
            seasons: SEASONS,
            going,
            so_far,
        })
    }
}

impl Plan {
    /// The plan without what its own season gave, which is held against what was planned without it.
    pub fn before_its_season(mut self) -> Plan {
        let year = self.season.weeks_of();
        self.season.counted.retain(|count| count.year != Some(year));
        self
    }
}
