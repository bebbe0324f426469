//! An order pared down until the money is enough: what there is to show where the search for the
//! least shortfall has found nothing, or nothing as good.

use super::model::{Choice, Model, STEM, TryOut};
use super::solve::check::Fault;

/// The share of an offer's packs that is given up in one step, at least one.
const STEP: u64 = 8;

impl Model {
    /// Gives up packs of `choice`, those first by which the fewest stems are lost for the money,
    /// until it is within the money; `None` where what must be bought costs more. It counts no
    /// varieties: stems go where they are needed.
    pub(super) fn pared(&self, choice: &Choice) -> Option<Choice> {
        let mut pared = choice.as_it_comes();
        let Some(money) = self.money else {
            return Some(pared);
        };
        let mut lacks = self.stems_short(&pared);
        while self.cost(&pared.packs) > money {
            let before = self.cost(&pared.packs);
            let fewer = (0..self.offers.len()).filter_map(|at| self.with_fewer(&pared, at));
            let scored = fewer.filter_map(|fewer| {
                let saved = before
                    .checked_sub(self.cost(&fewer.packs))
                    .filter(|saved| *saved > 0)?;
                let short = self.stems_short(&fewer);
                let lost = short.saturating_sub(lacks) as f64 / saved as f64;
                // What is to be tried goes last.
                let untried = self.untried(&fewer) > self.untried(&pared);
                let lost = if untried { f64::MAX } else { lost };
                Some((lost, short, fewer))
            });
            let (_, short, fewer) = scored.min_by(|one, other| one.0.total_cmp(&other.0))?;
            (lacks, pared) = (short, fewer);
        }
        Some(pared)
    }

    /// The choice with the varieties that count as serving a need, as another choice has them, where
    /// they are planted and this takes no more than a stem from the needs.
    pub(super) fn counted_as(&self, choice: &Choice, other: &Choice) -> Choice {
        let mut counted = choice.as_it_comes();
        counted.counted = vec![Vec::new(); self.needs.len()];
        let mut lacks = self.lacks(&counted);
        for need in (0..self.needs.len()).filter(|need| self.needs[*need].counts()) {
            let mut more = counted.clone();
            let planted = |one: &usize| choice.plants[*one] > 0;
            let in_week = |week| {
                let counting = other.counting(need, week).iter().copied();
                counting.filter(planted).collect()
            };
            more.counted[need] = (0..self.weeks).map(in_week).collect();
            let reserved = |fault: &Fault| matches!(fault, Fault::Reserved(..));
            let lacked = self.lacks(&more);
            if lacked <= lacks + STEM && !self.faults(&more).iter().any(reserved) {
                (counted, lacks) = (more, lacked);
            }
        }
        counted
    }

    /// The choice without the packs of which nothing is planted, the dearest first, unless fewer
    /// would cost more, or be too small an order.
    pub(super) fn trimmed(&self, choice: &Choice) -> Choice {
        let mut trimmed = choice.clone();
        let mut offers: Vec<usize> = (0..self.offers.len()).collect();
        offers.sort_by_key(|at| std::cmp::Reverse(self.offers[*at].price));
        for at in offers {
            let offer = &self.offers[at];
            let tubers = self.tubers(&trimmed.packs)[offer.variety];
            let spare = tubers.saturating_sub(trimmed.plants[offer.variety]);
            let over = trimmed.packs[at].saturating_sub(offer.least);
            let mut packs = trimmed.packs.clone();
            packs[at] -= over.min(spare / offer.tubers.max(1));
            let worth = self.bill(&packs)[offer.supplier].0;
            let taken = worth == 0 || worth >= self.suppliers[offer.supplier].least;
            if taken && self.cost(&packs) <= self.cost(&trimmed.packs) {
                trimmed.packs = packs;
            }
        }
        trimmed
    }

    /// Thousandths of a stem that needs lack over all weeks.
    pub(super) fn stems_short(&self, choice: &Choice) -> u64 {
        self.lacks(&choice.as_it_comes())
    }

    /// The same, what is kept for the varieties that count kept for them.
    pub(super) fn lacks(&self, choice: &Choice) -> u64 {
        let lacks = |week: usize| -> i64 { self.shared(choice, week).1.lacks.iter().sum() };
        (0..self.weeks).map(|week| lacks(week).unsigned_abs()).sum()
    }

    /// Groups to be tried of which too little is planted.
    fn untried(&self, choice: &Choice) -> usize {
        let planted = |one: &usize| choice.plants[*one];
        let lacks =
            |group: &&TryOut| group.varieties.iter().map(planted).sum::<u64>() < group.plants;
        self.trials.iter().filter(lacks).count()
    }

    /// Only what must be bought, and the grower's own tubers planted as far as the beds go.
    pub(super) fn own_alone(&self) -> Choice {
        let packs: Vec<u64> = self.offers.iter().map(|offer| offer.least).collect();
        let mut places = self.places.unwrap_or(u64::MAX);
        let plant = |(at, tubers): (usize, u64)| {
            let plants = tubers.min(self.useful_plants(at)).min(places);
            places -= plants;
            plants
        };
        let plants = self
            .tubers(&packs)
            .into_iter()
            .enumerate()
            .map(plant)
            .collect();
        Choice {
            packs,
            plants,
            counted: Vec::new(),
        }
    }

    /// A step fewer packs of an offer; where its supplier would not take so small an order, none of
    /// that supplier.
    fn with_fewer(&self, choice: &Choice, at: usize) -> Option<Choice> {
        let offer = &self.offers[at];
        let over = choice.packs[at]
            .checked_sub(offer.least)
            .filter(|over| *over > 0)?;
        let mut fewer = choice.clone();
        fewer.packs[at] -= over.div_ceil(STEP);
        let worth = self.bill(&fewer.packs)[offer.supplier].0;
        if worth < self.suppliers[offer.supplier].least {
            for (own, packs) in self.offers.iter().zip(&mut fewer.packs) {
                if own.supplier == offer.supplier {
                    *packs = own.least;
                }
            }
        }
        let tubers = self.tubers(&fewer.packs);
        for (plants, tubers) in fewer.plants.iter_mut().zip(tubers) {
            *plants = (*plants).min(tubers);
        }
        Some(fewer)
    }
}

#[cfg(test)]
mod tests {
    use super::super::model::{Candidate, Demand, Pack, Supplier};
    use super::*;

    fn model(money: u64) -> Model {
        let candidate = |name: &str, stems: u64| Candidate {
            name: name.to_string(),
            yields: vec![stems * STEM; 2],
            serves: vec![0],
            ..Candidate::default()
        };
        let pack = |variety: usize, price: u64| Pack {
            variety,
            price,
            tubers: 1,
            most: 20,
            ..Pack::default()
        };
        Model {
            weeks: 2,
            suppliers: vec![Supplier {
                name: "Oar".to_string(),
                postage: 5,
                least: 20,
                ..Supplier::default()
            }],
            varieties: vec![candidate("Haaf", 2), candidate("Ebb", 1)],
            offers: vec![pack(0, 10), pack(1, 10)],
            needs: vec![Demand {
                stems: vec![12 * STEM; 2],
                ..Demand::default()
            }],
            money: Some(money),
            ..Model::default()
        }
    }

    /// Worked by hand: four of the fruitful kind and four of the other are 85 with postage; of 65
    /// there is enough for six, and what goes is of the kind that gives half as much.
    #[test]
    fn what_gives_least_for_its_money_goes_first() {
        let full = Choice {
            packs: vec![4, 4],
            plants: vec![4, 4],
            counted: vec![Vec::new()],
        };
        let model = model(65);
        assert_eq!(model.stems_short(&full), 0);
        let pared = model.pared(&full).expect("within the money");
        assert_eq!(
            (pared.packs.clone(), pared.plants.clone()),
            (vec![4, 2], vec![4, 2])
        );
        assert_eq!(model.stems_short(&pared), 2 * 2 * STEM);
        // What is to be tried goes last, fruitful or not.
        let mut trying = self::model(65);
        trying.trials.push(TryOut {
            name: "odd".to_string(),
            varieties: vec![1],
            plants: 4,
        });
        let pared = trying.pared(&full).expect("within the money");
        assert_eq!(pared.packs, vec![2, 4]);
        // Under the least order and its postage nothing is bought at all.
        let none = super::tests::model(24)
            .pared(&full)
            .expect("nothing costs nothing");
        assert_eq!(none.packs, vec![0, 0]);
        assert_eq!(model.own_alone().packs, vec![0, 0]);
    }

    #[test]
    fn a_need_keeps_its_varieties_where_that_takes_no_stems() {
        let mut model = model(200);
        (model.needs[0].varieties, model.needs[0].each) = (2, STEM);
        let choice = |plants: [u64; 2], counted: Vec<usize>| Choice {
            packs: plants.to_vec(),
            plants: plants.to_vec(),
            counted: vec![vec![counted; 2]],
        };
        let other = choice([4, 4], vec![0, 1]);
        let bare = |plants: [u64; 2]| choice(plants, Vec::new());
        let counted = |plants: [u64; 2]| model.counted_as(&bare(plants), &other);
        assert_eq!(counted([4, 3]), choice([4, 3], vec![0, 1]));
        assert_eq!(counted([6, 0]), choice([6, 0], vec![0]));
    }

    #[test]
    fn packs_of_which_nothing_is_planted_are_not_bought() {
        let mut model = model(200);
        let bought = |packs: [u64; 2]| Choice {
            packs: packs.to_vec(),
            plants: vec![4, 0],
            counted: vec![Vec::new()],
        };
        assert_eq!(model.trimmed(&bought([6, 4])).packs, vec![4, 0]);
        // What is fixed stays, and so does what makes the order large enough.
        model.offers[1].least = 1;
        assert_eq!(model.trimmed(&bought([6, 4])).packs, vec![4, 1]);
        (model.suppliers[0].least, model.offers[1].least) = (60, 0);
        assert_eq!(model.trimmed(&bought([4, 4])).packs, vec![4, 4]);
    }

    #[test]
    fn what_must_be_bought_stays() {
        let mut model = model(20);
        model.offers[0].least = 4;
        let full = Choice {
            packs: vec![4, 4],
            plants: vec![4, 4],
            counted: vec![Vec::new()],
        };
        assert_eq!(model.pared(&full), None);
    }
}
