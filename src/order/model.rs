//! The order as an integer program, in whole numbers throughout: money in hundredths, stems in
//! thousandths of a stem, so that every sum can be checked exactly.
//!
//! Choose packs of each offer and plants of each variety, at least cost, such that
//! - no more is planted than is bought and on hand, and no more than the bed holds;
//! - in every week the stems that grow can be shared out so that each need has what it asks for,
//!   a stem serving one need, and no variety giving a need more than its most;
//! - a need that asks for several varieties or forms has, in each of its weeks, so many that give
//!   it so many stems each, in every week whichever can;
//! - of each group to be tried enough is planted;
//! - each supplier's least order is met, and its postage paid, unless the order is worth its
//!   free-over limit;
//! - the money is enough.

/// Thousandths of a stem in a stem.
pub const STEM: u64 = 1000;

/// The program.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Model {
    /// How many weeks there are.
    pub weeks: usize,
    /// Who sells.
    pub suppliers: Vec<Supplier>,
    /// The varieties that may be planted.
    pub varieties: Vec<Candidate>,
    /// What may be bought.
    pub offers: Vec<Pack>,
    /// What is needed.
    pub needs: Vec<Demand>,
    /// Groups of which some are to be planted whatever the needs.
    pub trials: Vec<TryOut>,
    /// Plants that the beds hold; `None` where that is no limit.
    pub places: Option<u64>,
    /// Hundredths that may be spent; `None` where that is no limit.
    pub money: Option<u64>,
}

/// A supplier's terms, in hundredths.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Supplier {
    /// The name.
    pub name: String,
    /// Postage on an order.
    pub postage: u64,
    /// The worth of an order from which postage is free.
    pub free_over: Option<u64>,
    /// The least worth of an order.
    pub least: u64,
}

/// A variety that may be planted.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Candidate {
    /// The name.
    pub name: String,
    /// Which form it counts as.
    pub form: usize,
    /// Tubers on hand that are expected to be fit to plant.
    pub on_hand: u64,
    /// Saleable thousandths of a stem that each plant set out gives, by week.
    pub yields: Vec<u64>,
    /// The needs that it can serve, rising.
    pub serves: Vec<usize>,
    /// How well it suits the best of them, 0 to 1000: decides among orders of equal cost.
    pub merit: u64,
    /// The most plants of it; `None` where only tubers and bed limit them.
    pub most_plants: Option<u64>,
}

/// One supplier's offer of one variety.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Pack {
    /// Place among the varieties.
    pub variety: usize,
    /// Place among the suppliers.
    pub supplier: usize,
    /// Price in hundredths.
    pub price: u64,
    /// Tubers in it; at least 1.
    pub tubers: u64,
    /// The least that may be bought.
    pub least: u64,
    /// The most that may be bought.
    pub most: u64,
}

/// One need.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Demand {
    /// The name.
    pub name: String,
    /// Thousandths of a stem, by week; 0 where it needs none.
    pub stems: Vec<u64>,
    /// The most of a week's stems from one variety, in hundredths of the need.
    pub most_from_one: Option<u64>,
    /// Varieties that must give it stems in each of its weeks.
    pub varieties: u64,
    /// Forms that must give it stems in each of its weeks.
    pub forms: u64,
    /// Thousandths of a stem a week that a variety must give it to count as one.
    pub each: u64,
}

/// A group of which some plants are to be grown.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct TryOut {
    /// What it is called.
    pub name: String,
    /// Its varieties, rising.
    pub varieties: Vec<usize>,
    /// The least number of plants of them together.
    pub plants: u64,
}

/// An answer to the model.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Choice {
    /// Packs by offer.
    pub packs: Vec<u64>,
    /// Plants by variety.
    pub plants: Vec<u64>,
    /// By need and week, the varieties that count as serving it, rising; empty, or not there, where it
    /// asks for no number.
    pub counted: Vec<Vec<Vec<usize>>>,
}

impl Choice {
    /// The same with stems shared out as they come: no variety is kept for a count.
    pub(super) fn as_it_comes(&self) -> Choice {
        Choice {
            counted: Vec::new(),
            ..self.clone()
        }
    }

    /// The varieties that count as serving a need in a week, rising.
    pub fn counting(&self, need: usize, week: usize) -> &[usize] {
        let weeks = self.counted.get(need);
        weeks
            .and_then(|weeks| weeks.get(week))
            .map_or(&[], |counted| counted)
    }
}

impl Demand {
    /// Whether it needs stems in the week.
    pub fn runs(&self, week: usize) -> bool {
        self.stems[week] > 0
    }

    /// Whether it asks for stems in any week: of what is set aside whole nothing is left.
    pub fn asks(&self) -> bool {
        self.stems.iter().any(|stems| *stems > 0)
    }

    /// Whether it asks for a number of varieties or forms.
    pub fn counts(&self) -> bool {
        self.varieties > 1 || self.forms > 1
    }

    /// The most thousandths from one variety in the week; `None` where there is no limit.
    pub fn limit(&self, week: usize) -> Option<u64> {
        let share = self.most_from_one?;
        Some((self.stems[week] * share / 100).max(self.reserved(week)))
    }

    /// What a variety that counts must give it in the week.
    pub fn reserved(&self, week: usize) -> u64 {
        if self.counts() && self.runs(week) {
            self.each
        } else {
            0
        }
    }
}

impl Candidate {
    /// The needs that it serves and that run in the week, where it flowers.
    pub fn serving<'a>(
        &'a self,
        model: &'a Model,
        week: usize,
    ) -> impl Iterator<Item = usize> + 'a {
        let flowers = self.yields[week] > 0;
        let needs = self.serves.iter().copied();
        needs.filter(move |need| flowers && model.needs[*need].runs(week))
    }
}

impl Model {
    /// The plants of a variety beyond which more can never help.
    pub fn useful_plants(&self, variety: usize) -> u64 {
        let candidate = &self.varieties[variety];
        let for_week = |week: usize| {
            let wanted = candidate.serving(self, week).map(|need| {
                let need = &self.needs[need];
                let all = need.stems[week].max(need.reserved(week));
                need.limit(week).map_or(all, |limit| all.min(limit))
            });
            let wanted: u64 = wanted.sum();
            if wanted == 0 {
                0
            } else {
                wanted.div_ceil(candidate.yields[week])
            }
        };
        let for_needs = (0..self.weeks).map(for_week).max().unwrap_or(0);
        let tried = self
            .trials
            .iter()
            .filter(|one| one.varieties.binary_search(&variety).is_ok());
        let for_trials = tried.map(|one| one.plants).max().unwrap_or(0);
        let useful = for_needs.max(for_trials);
        useful
            .min(candidate.most_plants.unwrap_or(u64::MAX))
            .min(self.places.unwrap_or(u64::MAX))
    }

    /// Whether each of these needs, by their places, asks for stems in any week.
    pub(super) fn asks_for_all(&self, needs: &[usize]) -> bool {
        needs.iter().all(|need| self.needs[*need].asks())
    }

    /// Raises each offer's most to what is offered, whether or not the program has use for so many.
    pub(super) fn let_buy(&mut self, offered: &[u64]) {
        for (offer, most) in self.offers.iter_mut().zip(offered) {
            offer.most = *most;
        }
    }

    /// Lowers each offer's most to what can be of use: enough tubers for every need alone, or worth
    /// enough alone for the supplier's least order and free postage. No least-cost order has more.
    pub fn limit_packs(&mut self) {
        for at in 0..self.offers.len() {
            let offer = &self.offers[at];
            let planted = self.useful_plants(offer.variety).div_ceil(offer.tubers);
            let supplier = &self.suppliers[offer.supplier];
            let worth = supplier.least.max(supplier.free_over.unwrap_or(0));
            // A free pack makes no order worth more.
            let worthy = worth
                .checked_div(offer.price)
                .map_or(0, |_| worth.div_ceil(offer.price));
            let most = planted.max(worthy).max(offer.least);
            self.offers[at].most = offer.most.min(most);
        }
    }

    /// What the packs cost, by supplier, and the postage.
    pub fn bill(&self, packs: &[u64]) -> Vec<(u64, u64)> {
        let mut worth = vec![0; self.suppliers.len()];
        let mut bought = vec![false; self.suppliers.len()];
        for (offer, packs) in self.offers.iter().zip(packs) {
            worth[offer.supplier] += offer.price * packs;
            bought[offer.supplier] |= *packs > 0;
        }
        let terms = self.suppliers.iter().zip(worth).zip(bought);
        let post = |((supplier, worth), bought): ((&Supplier, u64), bool)| {
            let free = supplier.free_over.is_some_and(|over| worth >= over);
            (worth, if bought && !free { supplier.postage } else { 0 })
        };
        terms.map(post).collect()
    }

    /// What the packs cost with their postage, in hundredths.
    pub fn cost(&self, packs: &[u64]) -> u64 {
        self.bill(packs)
            .iter()
            .map(|(worth, postage)| worth + postage)
            .sum()
    }

    /// Tubers by variety: bought, and on hand.
    pub fn tubers(&self, packs: &[u64]) -> Vec<u64> {
        let mut tubers: Vec<u64> = self.varieties.iter().map(|one| one.on_hand).collect();
        for (offer, packs) in self.offers.iter().zip(packs) {
            tubers[offer.variety] += offer.tubers * packs;
        }
        tubers
    }
}
