//! The most that a need can have in a week, whatever the beds and the money: everything planted that can be
//! bought or is on hand, and nothing else asked for. Where that is too little no order meets it, and where it is
//! enough in each week one order meets them all, for more plants never take a stem away.

use super::model::{Demand, Model};

/// What a need can have in a week.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) struct Reach {
    /// Thousandths of a stem, of no variety more than the most from one.
    pub(super) stems: u64,
    /// Thousandths of a stem if any share might come from one variety.
    pub(super) from_any: u64,
    /// Varieties that can give it as much as each of several must.
    pub(super) varieties: u64,
    /// Their forms.
    pub(super) forms: u64,
}

impl Reach {
    /// Whether it has enough of so many varieties and forms.
    pub(super) fn has_kinds(&self, need: &Demand) -> bool {
        let enough = |asked: u64, able: u64| asked < 2 || able >= asked;
        enough(need.varieties, self.varieties) && enough(need.forms, self.forms)
    }

    /// Whether that meets the need in the week.
    pub(super) fn meets(&self, need: &Demand, week: usize) -> bool {
        self.stems >= need.stems[week] && self.has_kinds(need)
    }
}

impl Model {
    /// By variety: the most plants that there can be, with at most so many packs of each offer. A supplier of
    /// whom all that can be bought is under the least order sells no more than what must be bought.
    pub(super) fn plants_to_be_had(&self, offered: &[u64]) -> Vec<u64> {
        let mut worth = vec![0_u64; self.suppliers.len()];
        for (offer, most) in self.offers.iter().zip(offered) {
            let all = offer.price.saturating_mul(*most);
            worth[offer.supplier] = worth[offer.supplier].saturating_add(all);
        }
        let mut plants: Vec<u64> = self.varieties.iter().map(|one| one.on_hand).collect();
        for (offer, most) in self.offers.iter().zip(offered) {
            let sells = worth[offer.supplier] >= self.suppliers[offer.supplier].least;
            let packs = if sells { *most } else { offer.least };
            let own = &mut plants[offer.variety];
            *own = own.saturating_add(offer.tubers.saturating_mul(packs));
        }
        let most = self.varieties.iter().map(|one| one.most_plants);
        let both = plants.into_iter().zip(most);
        both.map(|(plants, most)| plants.min(most.unwrap_or(u64::MAX)))
            .collect()
    }

    /// What a need can have in a week of so many plants of each variety.
    pub(super) fn reach(&self, plants: &[u64], at: usize, week: usize) -> Reach {
        let need = &self.needs[at];
        let limit = need.limit(week).unwrap_or(u64::MAX);
        let enough = need.reserved(week).max(1);
        let mut reach = Reach::default();
        let mut forms = Vec::new();
        for (one, plants) in self.varieties.iter().zip(plants) {
            let gives = one.yields[week].saturating_mul(*plants);
            if !one.serves.contains(&at) || gives == 0 {
                continue;
            }
            reach.stems = reach.stems.saturating_add(gives.min(limit));
            reach.from_any = reach.from_any.saturating_add(gives);
            if gives >= enough {
                reach.varieties += 1;
                forms.push(one.form);
            }
        }
        forms.sort_unstable();
        forms.dedup();
        reach.forms = forms.len() as u64;
        reach
    }

    /// The most that may be bought as it was offered, lowered again to what can be of use.
    pub(super) fn limit_packs_anew(&mut self, offered: &[u64]) {
        self.let_buy(offered);
        self.limit_packs();
    }
}

#[cfg(test)]
mod tests {
    use super::super::model::{Candidate, Pack, Supplier};
    use super::*;

    fn model() -> Model {
        let candidate = |form: usize, stems: u64| Candidate {
            form,
            yields: vec![0, stems],
            serves: vec![0],
            ..Candidate::default()
        };
        let pack = |variety: usize| Pack {
            variety,
            price: 100,
            tubers: 2,
            ..Pack::default()
        };
        Model {
            weeks: 2,
            suppliers: vec![Supplier::default()],
            varieties: vec![candidate(0, 1500), candidate(1, 500)],
            offers: vec![pack(0), pack(1)],
            needs: vec![Demand {
                stems: vec![10_000; 2],
                varieties: 2,
                forms: 2,
                each: 1000,
                ..Demand::default()
            }],
            ..Model::default()
        }
    }

    /// Worked by hand: three packs of two tubers are six plants of one and a half stems.
    #[test]
    fn all_that_can_be_bought_is_what_a_need_can_have() {
        let mut model = model();
        let plants = model.plants_to_be_had(&[3, 1]);
        assert_eq!(plants, [6, 2]);
        assert_eq!(model.reach(&plants, 0, 0), Reach::default());
        let both = Reach {
            stems: 10_000,
            from_any: 10_000,
            varieties: 2,
            forms: 2,
        };
        assert_eq!(model.reach(&plants, 0, 1), both);
        assert!(both.meets(&model.needs[0], 1));
        // One plant of the second gives less than the stem that each must.
        model.needs[0].most_from_one = Some(50);
        let fewer = model.reach(&[6, 1], 0, 1);
        assert_eq!((fewer.varieties, fewer.stems), (1, 5_500));
        assert!(!fewer.meets(&model.needs[0], 1));
        // Four packs at 1.00 are no order of 5.00.
        model.suppliers[0].least = 500;
        assert_eq!(model.plants_to_be_had(&[3, 1]), [0, 0]);
        assert_eq!(model.plants_to_be_had(&[3, u64::MAX]), [6, u64::MAX]);
    }
}
