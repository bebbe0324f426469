//! One week: can the stems that grow be shared out so that every need has its own?
//!
//! A flow from varieties to needs. Where a need cannot be filled, the search for a way to fill it
//! has reached some needs and some varieties: together those needs want more than those varieties
//! give and the limits on the others let through, which is the inequality that is broken (Gale, A
//! theorem on flows in networks, Pacific J. Math. 7:1073-1082, 1957; from memory).

use std::collections::VecDeque;

/// How needs or varieties were reached.
type Ways = [Option<(usize, usize)>];

/// A week's stems and needs, in any one unit.
#[derive(Debug, Clone, Default)]
pub(crate) struct Week {
    /// What each variety gives.
    pub(crate) supply: Vec<i64>,
    /// What each need wants.
    pub(crate) demand: Vec<i64>,
    /// By need: the varieties that can serve it, and the most it may take of each.
    pub(crate) arcs: Vec<Vec<(usize, i64)>>,
}

/// A sharing out of the stems.
#[derive(Debug, Clone, Default)]
pub(crate) struct Sharing {
    /// By need, along its arcs.
    pub(crate) flow: Vec<Vec<i64>>,
    /// What each need still lacks.
    pub(crate) lacks: Vec<i64>,
    /// What each variety has left.
    pub(crate) left: Vec<i64>,
    /// For each need that lacks something, why.
    pub(crate) cuts: Vec<Cut>,
}

/// Needs that want more than there is for them.
#[derive(Debug, Clone, PartialEq, Eq, PartialOrd, Ord, Default)]
pub(crate) struct Cut {
    /// The needs, rising.
    pub(crate) needs: Vec<usize>,
    /// The varieties that have given them all they have, rising; the others are at their limits.
    pub(crate) through: Vec<usize>,
}

impl Week {
    /// Shares the stems out; as much as can be where not all needs can be filled.
    pub(crate) fn share(&self) -> Sharing {
        let mut sharing = Sharing {
            flow: self.arcs.iter().map(|arcs| vec![0; arcs.len()]).collect(),
            lacks: self.demand.clone(),
            left: self.supply.clone(),
            cuts: Vec::new(),
        };
        // By variety: its arcs as (need, place along the need's arcs).
        let mut serves = vec![Vec::new(); self.supply.len()];
        for (need, arcs) in self.arcs.iter().enumerate() {
            for (place, (variety, _)) in arcs.iter().enumerate() {
                serves[*variety].push((need, place));
            }
        }
        // First each need in turn takes from the varieties that serve the fewest others.
        for need in 0..self.demand.len() {
            let mut places: Vec<usize> = (0..self.arcs[need].len()).collect();
            places.sort_by_key(|place| serves[self.arcs[need][*place].0].len());
            for place in places {
                let (variety, most) = self.arcs[need][place];
                let give = sharing.left[variety]
                    .min(most)
                    .min(sharing.lacks[need])
                    .max(0);
                sharing.flow[need][place] = give;
                sharing.left[variety] -= give;
                sharing.lacks[need] -= give;
            }
        }
        for need in 0..self.demand.len() {
            while sharing.lacks[need] > 0 {
                if let Some(cut) = self.fill(need, &serves, &mut sharing) {
                    sharing.cuts.push(cut);
                    break;
                }
            }
        }
        sharing
    }

    /// Brings a need one more lot of stems, others making way; or says why it cannot be.
    fn fill(
        &self,
        start: usize,
        serves: &[Vec<(usize, usize)>],
        sharing: &mut Sharing,
    ) -> Option<Cut> {
        // How each was reached: a need by the place at which a variety gives it stems that it could
        // give elsewhere; a variety by the need and place that could take more of it.
        let mut need_from: Vec<Option<(usize, usize)>> = vec![None; self.demand.len()];
        let mut variety_from: Vec<Option<(usize, usize)>> = vec![None; self.supply.len()];
        let mut reached = vec![false; self.demand.len()];
        let mut queue = VecDeque::from([start]);
        reached[start] = true;
        while let Some(need) = queue.pop_front() {
            for (place, (variety, most)) in self.arcs[need].iter().enumerate() {
                if variety_from[*variety].is_some() || sharing.flow[need][place] >= *most {
                    continue;
                }
                variety_from[*variety] = Some((need, place));
                if sharing.left[*variety] > 0 {
                    self.push_along(start, *variety, (&need_from, &variety_from), sharing);
                    return None;
                }
                for (other, place) in &serves[*variety] {
                    if !reached[*other] && sharing.flow[*other][*place] > 0 {
                        reached[*other] = true;
                        need_from[*other] = Some((*variety, *place));
                        queue.push_back(*other);
                    }
                }
            }
        }
        Some(Cut {
            needs: (0..reached.len()).filter(|need| reached[*need]).collect(),
            through: (0..variety_from.len())
                .filter(|one| variety_from[*one].is_some())
                .collect(),
        })
    }

    /// Moves what can be moved along the way from a variety with stems left back to `start`.
    fn push_along(
        &self,
        start: usize,
        variety: usize,
        (need_from, variety_from): (&Ways, &Ways),
        sharing: &mut Sharing,
    ) {
        let mut gains = Vec::new();
        let mut losses = Vec::new();
        let mut amount = sharing.left[variety].min(sharing.lacks[start]);
        let mut at = variety;
        while let Some((need, place)) = variety_from[at] {
            amount = amount.min(self.arcs[need][place].1 - sharing.flow[need][place]);
            gains.push((need, place));
            let Some((giver, place)) = need_from[need] else {
                break;
            };
            amount = amount.min(sharing.flow[need][place]);
            losses.push((need, place));
            at = giver;
        }
        sharing.left[variety] -= amount;
        sharing.lacks[start] -= amount;
        gains
            .into_iter()
            .for_each(|(need, place)| sharing.flow[need][place] += amount);
        losses
            .into_iter()
            .for_each(|(need, place)| sharing.flow[need][place] -= amount);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn any_week() -> impl Strategy<Value = Week> {
        let arc = prop_oneof![Just(0), Just(i64::MAX), 1..9_i64];
        (1..5_usize, 1..4_usize).prop_flat_map(move |(varieties, needs)| {
            (
                prop::collection::vec(0..9_i64, varieties),
                prop::collection::vec(0..15_i64, needs),
                prop::collection::vec(prop::collection::vec(arc.clone(), varieties), needs),
            )
                .prop_map(|(supply, demand, most)| {
                    let arcs = |row: Vec<i64>| {
                        row.into_iter()
                            .enumerate()
                            .filter(|(_, most)| *most > 0)
                            .collect()
                    };
                    Week {
                        supply,
                        demand,
                        arcs: most.into_iter().map(arcs).collect(),
                    }
                })
        })
    }

    /// What some needs want beyond what all varieties together can give them.
    fn worst_excess(week: &Week) -> i64 {
        let excess = |set: u32| {
            let chosen = |need: &usize| set >> need & 1 == 1;
            let wanted: i64 = (0..week.demand.len())
                .filter(chosen)
                .map(|n| week.demand[n])
                .sum();
            let given = (0..week.supply.len()).map(|variety| {
                let arcs = (0..week.demand.len())
                    .filter(chosen)
                    .flat_map(|n| &week.arcs[n]);
                let through = arcs
                    .filter(|arc| arc.0 == variety)
                    .fold(0_i64, |sum, arc| sum.saturating_add(arc.1));
                through.min(week.supply[variety])
            });
            wanted - given.sum::<i64>()
        };
        (0..1 << week.demand.len()).map(excess).max().unwrap_or(0)
    }

    proptest! {
        #[test]
        fn as_much_is_shared_as_the_worst_set_of_needs_allows(week in any_week()) {
            let sharing = week.share();
            prop_assert_eq!(sharing.lacks.iter().sum::<i64>(), worst_excess(&week));
            prop_assert_eq!(sharing.cuts.is_empty(), worst_excess(&week) == 0);
            let mut used = vec![0; week.supply.len()];
            for (need, arcs) in week.arcs.iter().enumerate() {
                let mut has = 0;
                for (place, (variety, most)) in arcs.iter().enumerate() {
                    let flow = sharing.flow[need][place];
                    prop_assert!((0..=*most).contains(&flow));
                    used[*variety] += flow;
                    has += flow;
                }
                prop_assert_eq!(has + sharing.lacks[need], week.demand[need]);
            }
            for (variety, used) in used.iter().enumerate() {
                prop_assert_eq!(used + sharing.left[variety], week.supply[variety]);
            }
        }

        #[test]
        fn every_cut_is_an_excess(week in any_week()) {
            for cut in week.share().cuts {
                let wanted: i64 = cut.needs.iter().map(|need| week.demand[*need]).sum();
                let through: i64 = cut.through.iter().map(|variety| week.supply[*variety]).sum();
                let others = cut.needs.iter().flat_map(|need| &week.arcs[*need]);
                let others: i64 = others
                    .filter(|(variety, _)| !cut.through.contains(variety))
                    .map(|arc| arc.1)
                    .sum();
                prop_assert!(wanted > through + others);
            }
        }
    }
}
