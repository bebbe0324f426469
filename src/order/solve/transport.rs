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

/// Which needs a variety can serve, and from which a need takes first: the same however many stems there are.
#[derive(Debug, Clone)]
pub(crate) struct Routes {
    /// By variety: its arcs as (need, place along the need's arcs).
    serves: Vec<Vec<(usize, usize)>>,
    /// By need: the places along its arcs, those of the varieties first that serve the fewest others.
    places: Vec<Vec<usize>>,
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
        let routes = self.routes();
        let mut sharing = self.nothing_shared();
        for need in 0..self.demand.len() {
            self.take_at_hand(need, &routes, &mut sharing);
        }
        for need in 0..self.demand.len() {
            self.take_all(need, &routes.serves, &mut sharing);
        }
        sharing
    }

    /// The same with each of these needs in turn filled as far as can be before the next: none gives way to
    /// one after it. As much is shared in all.
    #[cfg(test)]
    pub(crate) fn share_in_turn(&self, turns: &[usize], routes: &Routes) -> Sharing {
        let mut sharing = self.nothing_shared();
        for need in turns {
            self.take_at_hand(*need, routes, &mut sharing);
            self.take_all(*need, &routes.serves, &mut sharing);
        }
        sharing
    }

    /// The routes that stems can take.
    pub(crate) fn routes(&self) -> Routes {
        let mut serves = vec![Vec::new(); self.supply.len()];
        for (need, arcs) in self.arcs.iter().enumerate() {
            for (place, (variety, _)) in arcs.iter().enumerate() {
                serves[*variety].push((need, place));
            }
        }
        let places = |arcs: &Vec<(usize, i64)>| {
            let mut places: Vec<usize> = (0..arcs.len()).collect();
            places.sort_by_key(|place| serves[arcs[*place].0].len());
            places
        };
        let places = self.arcs.iter().map(places).collect();
        Routes { serves, places }
    }

    fn nothing_shared(&self) -> Sharing {
        Sharing {
            flow: self.arcs.iter().map(|arcs| vec![0; arcs.len()]).collect(),
            lacks: self.demand.clone(),
            left: self.supply.clone(),
            cuts: Vec::new(),
        }
    }

    /// Gives a need what is left of the varieties that can serve it.
    fn take_at_hand(&self, need: usize, routes: &Routes, sharing: &mut Sharing) {
        for place in &routes.places[need] {
            let (variety, most) = self.arcs[need][*place];
            let give = sharing.left[variety]
                .min(most)
                .min(sharing.lacks[need])
                .max(0);
            sharing.flow[need][*place] = give;
            sharing.left[variety] -= give;
            sharing.lacks[need] -= give;
        }
    }

    /// Gives a need all that it lacks, the others making way and losing nothing; as much as can be.
    fn take_all(&self, need: usize, serves: &[Vec<(usize, usize)>], sharing: &mut Sharing) {
        while sharing.lacks[need] > 0 {
            if let Some(cut) = self.fill(need, serves, sharing) {
                sharing.cuts.push(cut);
                break;
            }
        }
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

        /// However many of the needs that come first are looked at, they have together as much as if there
        /// were no others; so what the next one has is what that adds.
        #[test]
        fn in_turn_no_need_loses_to_one_after_it(week in any_week(), backwards in any::<bool>()) {
            let mut turns: Vec<usize> = (0..week.demand.len()).collect();
            if backwards {
                turns.reverse();
            }
            let sharing = week.share_in_turn(&turns, &week.routes());
            for first in 1..=turns.len() {
                let mut alone = week.clone();
                turns[first..].iter().for_each(|need| alone.demand[*need] = 0);
                let lacks: i64 = turns[..first].iter().map(|need| sharing.lacks[*need]).sum();
                prop_assert_eq!(lacks, worst_excess(&alone));
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
