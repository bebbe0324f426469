//! The stems of a season shared out among the needs, those first that are to be the surest.

use super::grown::Grown;
use crate::order::model::Model;
use crate::order::solve::transport::{Routes, Sharing, Week};

/// How the stems of so many planted varieties are shared out, week by week.
///
/// A need has its turn by how sure it is to be, then by its place in the plan: where stems lack, what comes
/// later goes without first. A need has no more of a variety than its most from one. How many varieties or
/// forms it has is not asked: that is seen to on average.
#[derive(Clone)]
pub(in crate::order) struct Turns {
    turns: Vec<usize>,
    /// By week, without the stems that there are.
    weeks: Vec<(Week, Routes)>,
}

/// Needs by how sure each is to be, 0 to 1, the surest first.
pub(in crate::order) fn turns(sure: &[f64]) -> Vec<usize> {
    let mut turns: Vec<usize> = (0..sure.len()).collect();
    turns.sort_by(|one, other| sure[*other].total_cmp(&sure[*one]));
    turns
}

impl Turns {
    /// The needs have their turns as they are named, the planted varieties their places as they are here.
    pub(in crate::order) fn of(model: &Model, turns: Vec<usize>, planted: &[usize]) -> Turns {
        let in_week = |week: usize| {
            let demand = model.needs.iter().map(|need| signed(need.stems[week]));
            let mut own = Week {
                supply: vec![0; planted.len()],
                demand: demand.collect(),
                arcs: vec![Vec::new(); model.needs.len()],
            };
            for (at, variety) in planted.iter().enumerate() {
                let serves = model.varieties[*variety].serves.iter();
                for need in serves.filter(|need| model.needs[**need].runs(week)) {
                    let most = model.needs[*need].limit(week).map_or(i64::MAX, signed);
                    own.arcs[*need].push((at, most));
                }
            }
            let routes = own.routes();
            (own, routes)
        };
        Turns {
            turns,
            weeks: (0..model.weeks).map(in_week).collect(),
        }
    }

    /// A week shared out in which the varieties give what grows at a place among seasons and weeks.
    pub(in crate::order) fn shared(
        &mut self,
        week: usize,
        grown: &[&Grown],
        place: usize,
    ) -> Sharing {
        let (own, routes) = &mut self.weeks[week];
        for (supply, grown) in own.supply.iter_mut().zip(grown) {
            *supply = grown[place];
        }
        own.share_in_turn(&self.turns, routes)
    }
}

/// Thousandths as the flow has them; what does not fit is without end.
fn signed(thousandths: u64) -> i64 {
    i64::try_from(thousandths).unwrap_or(i64::MAX)
}
