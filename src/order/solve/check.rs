//! The exact check of an answer, in whole numbers, apart from the search.

use super::transport::{Sharing, Week};
use crate::order::model::{Choice, Model};

/// What an answer breaks.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Fault {
    /// An offer's packs are outside what may be bought.
    Packs(usize),
    /// More plants of a variety than tubers, or than may be planted.
    Plants(usize),
    /// The beds are too small.
    Bed,
    /// It costs more than there is.
    Money,
    /// A supplier's least order is not met.
    LeastOrder(usize),
    /// Too little of a group is planted.
    Trial(usize),
    /// A need counts a variety that cannot serve it.
    Counted(usize, usize),
    /// A need has too few varieties or forms in a week.
    TooFew(usize, usize),
    /// A variety has too few stems in a week for the needs that count it.
    Reserved(usize, usize),
    /// A need lacks stems in a week.
    Stems(usize, usize),
}

impl Model {
    /// Everything that an answer breaks; empty where it holds.
    pub fn faults(&self, choice: &Choice) -> Vec<Fault> {
        let mut faults = self.buying_faults(choice);
        for week in 0..self.weeks {
            faults.extend(self.counting_faults(choice, week));
            if faults.is_empty() {
                let (_, sharing) = self.shared(choice, week);
                let lacking = (0..self.needs.len()).filter(|need| sharing.lacks[*need] > 0);
                faults.extend(lacking.map(|need| Fault::Stems(need, week)));
            }
        }
        faults
    }

    fn buying_faults(&self, choice: &Choice) -> Vec<Fault> {
        let mut faults = Vec::new();
        for (at, (offer, packs)) in self.offers.iter().zip(&choice.packs).enumerate() {
            if !(offer.least..=offer.most).contains(packs) {
                faults.push(Fault::Packs(at));
            }
        }
        let tubers = self.tubers(&choice.packs);
        for (at, (tubers, plants)) in tubers.iter().zip(&choice.plants).enumerate() {
            if plants > tubers
                || self.varieties[at]
                    .most_plants
                    .is_some_and(|most| *plants > most)
            {
                faults.push(Fault::Plants(at));
            }
        }
        if self
            .places
            .is_some_and(|places| choice.plants.iter().sum::<u64>() > places)
        {
            faults.push(Fault::Bed);
        }
        if self
            .money
            .is_some_and(|money| self.cost(&choice.packs) > money)
        {
            faults.push(Fault::Money);
        }
        for (at, (worth, _)) in self.bill(&choice.packs).into_iter().enumerate() {
            let bought = (self.offers.iter().zip(&choice.packs))
                .any(|(offer, packs)| offer.supplier == at && *packs > 0);
            if bought && worth < self.suppliers[at].least {
                faults.push(Fault::LeastOrder(at));
            }
        }
        for (at, group) in self.trials.iter().enumerate() {
            let plants: u64 = group.varieties.iter().map(|one| choice.plants[*one]).sum();
            if plants < group.plants {
                faults.push(Fault::Trial(at));
            }
        }
        faults
    }

    fn counting_faults(&self, choice: &Choice, week: usize) -> Vec<Fault> {
        let mut faults = Vec::new();
        let mut reserved = vec![0; self.varieties.len()];
        for (at, need) in self
            .needs
            .iter()
            .enumerate()
            .filter(|one| one.1.counts() && one.1.runs(week))
        {
            let counted = choice.counting(at, week);
            let unable = counted
                .iter()
                .filter(|one| !self.varieties[**one].serves.contains(&at));
            faults.extend(unable.map(|one| Fault::Counted(at, *one)));
            let mut forms: Vec<usize> = Vec::new();
            let flowering = counted
                .iter()
                .filter(|one| self.varieties[**one].yields[week] > 0);
            let mut varieties = 0;
            for one in flowering {
                varieties += 1;
                forms.push(self.varieties[*one].form);
                reserved[*one] += need.each;
            }
            forms.sort_unstable();
            forms.dedup();
            if varieties < need.varieties || (forms.len() as u64) < need.forms {
                faults.push(Fault::TooFew(at, week));
            }
        }
        for (at, reserved) in reserved.into_iter().enumerate() {
            if reserved > self.varieties[at].yields[week] * choice.plants[at] {
                faults.push(Fault::Reserved(at, week));
            }
        }
        faults
    }

    /// What is left of a week to share out when the varieties that count have given what they must,
    /// in thousandths of a stem, and how it is shared. Arcs are in the order of varieties.
    pub(crate) fn shared(&self, choice: &Choice, week: usize) -> (Week, Sharing) {
        let supply = (self.varieties.iter().zip(&choice.plants))
            .map(|(one, plants)| one.yields[week] * plants);
        let mut left = Week {
            supply: supply.map(signed).collect(),
            demand: self
                .needs
                .iter()
                .map(|need| signed(need.stems[week]))
                .collect(),
            arcs: vec![Vec::new(); self.needs.len()],
        };
        for (at, one) in self
            .varieties
            .iter()
            .enumerate()
            .filter(|(at, _)| choice.plants[*at] > 0)
        {
            for need in one.serving(self, week) {
                let mut limit = self.needs[need].limit(week).map_or(i64::MAX, signed);
                if choice.counting(need, week).binary_search(&at).is_ok() {
                    let reserved = signed(self.needs[need].reserved(week));
                    left.supply[at] -= reserved;
                    left.demand[need] -= reserved;
                    limit = limit.saturating_sub(reserved);
                }
                left.arcs[need].push((at, limit));
            }
        }
        // What must be given may be more than is needed.
        left.demand
            .iter_mut()
            .for_each(|demand| *demand = (*demand).max(0));
        let sharing = left.share();
        (left, sharing)
    }
}

/// Thousandths as the flow has them; what does not fit is without end.
fn signed(thousandths: u64) -> i64 {
    i64::try_from(thousandths).unwrap_or(i64::MAX)
}
