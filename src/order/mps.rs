//! The model as free MPS, so that any solver can check the optimum: the whole of it, every week and
//! every sharing out of stems, with nothing merged, dropped or cut. A plan is written as
//! [`super::Candidates::whole`] has it, every offer of the list among them.
//!
//! An offer of which any number can be had is bounded, for a solver wants a number there: no more
//! packs than fill the beds, or are worth the supplier's least order and free postage by themselves.
//! With more than that, one pack fewer leaves as much planted and every term kept, at no more cost.
//!
//! The objective is money, in the grower's currency. Names are `x` packs of an offer, `p` plants of
//! a variety, `z` stems of a variety for a need in a week, `u` a variety counts for a need in a week,
//! `g` a form does, `s` something is bought of a supplier, `f` its postage is free.

use super::model::{Model, Pack};

mod sheet;

use sheet::ModelText;

/// By week, then variety: the column that says that it counts.
type Counts = Vec<Vec<Option<usize>>>;

impl Model {
    /// The model as text in free MPS.
    pub fn to_mps(&self) -> String {
        let mut sheet = ModelText::default();
        let packs: Vec<usize> = (self.offers.iter().enumerate())
            .map(|(at, one)| {
                let most = Some(self.most_packs(one));
                sheet.whole(format!("x{at}"), one.least, most, one.price)
            })
            .collect();
        let plants: Vec<usize> = (self.varieties.iter().enumerate())
            .map(|(at, one)| sheet.whole(format!("p{at}"), 0, one.most_plants, 0))
            .collect();
        self.write_planting(&mut sheet, &packs, &plants);
        self.write_suppliers(&mut sheet, &packs);
        let counted = self.write_variety_counts(&mut sheet);
        self.write_sharing(&mut sheet, &plants, &counted);
        sheet.text()
    }

    /// The bound on the packs of an offer.
    fn most_packs(&self, offer: &Pack) -> u64 {
        let Some(places) = self.places else {
            return offer.most;
        };
        let terms = &self.suppliers[offer.supplier];
        let worth = terms.least.max(terms.free_over.unwrap_or(0));
        let worthy = match offer.price {
            0 => 0,
            price => worth.div_ceil(price),
        };
        let planted = places.div_ceil(offer.tubers);
        offer.most.min(planted.max(worthy).max(offer.least))
    }

    fn write_planting(&self, sheet: &mut ModelText, packs: &[usize], plants: &[usize]) {
        let mut offers: Vec<Vec<usize>> = vec![Vec::new(); self.varieties.len()];
        for (at, offer) in self.offers.iter().enumerate() {
            offers[offer.variety].push(at);
        }
        for (at, candidate) in self.varieties.iter().enumerate() {
            let row = sheet.row('L', format!("tubers{at}"), whole(candidate.on_hand));
            sheet.put(plants[at], row, 1000);
            for own in &offers[at] {
                sheet.put(packs[*own], row, -whole(self.offers[*own].tubers));
            }
        }
        if let Some(places) = self.places {
            let row = sheet.row('L', "bed".into(), whole(places));
            plants
                .iter()
                .for_each(|column| sheet.put(*column, row, 1000));
        }
        for (at, group) in self.trials.iter().enumerate() {
            let row = sheet.row('G', format!("try{at}"), whole(group.plants));
            group
                .varieties
                .iter()
                .for_each(|one| sheet.put(plants[*one], row, 1000));
        }
    }

    fn write_suppliers(&self, sheet: &mut ModelText, packs: &[usize]) {
        let money = self
            .money
            .map(|money| sheet.row('L', "money".into(), hundredths(money)));
        for (at, supplier) in self.suppliers.iter().enumerate() {
            let used = sheet.whole(format!("s{at}"), 0, Some(1), supplier.postage);
            let least = sheet.row('G', format!("least{at}"), 0);
            sheet.put(used, least, -hundredths(supplier.least));
            let free = supplier.free_over.map(|over| {
                let free = sheet.whole(format!("f{at}"), 0, Some(1), 0);
                sheet.columns[free].cost = -i128::from(supplier.postage);
                let both = sheet.row('L', format!("free{at}"), 0);
                sheet.put(free, both, 1000);
                sheet.put(used, both, -1000);
                let enough = sheet.row('G', format!("over{at}"), 0);
                sheet.put(free, enough, -hundredths(over));
                (free, enough)
            });
            if let Some(money) = money {
                sheet.put(used, money, hundredths(supplier.postage));
                if let Some((free, _)) = free {
                    sheet.put(free, money, -hundredths(supplier.postage));
                }
            }
            for (place, offer) in self.offers.iter().enumerate() {
                if offer.supplier != at {
                    continue;
                }
                let link = sheet.row('L', format!("buys{place}"), 0);
                sheet.put(packs[place], link, 1000);
                sheet.put(used, link, -whole(self.most_packs(offer)));
                let rows = [Some(least), free.map(|(_, enough)| enough), money];
                for row in rows.into_iter().flatten() {
                    sheet.put(packs[place], row, hundredths(offer.price));
                }
            }
        }
    }

    /// The columns that say that a variety counts for a need in a week, by need, week and variety.
    fn write_variety_counts(&self, sheet: &mut ModelText) -> Vec<Counts> {
        let mut counted =
            vec![vec![vec![None; self.varieties.len()]; self.weeks]; self.needs.len()];
        for (at, need) in self
            .needs
            .iter()
            .enumerate()
            .filter(|(_, need)| need.counts())
        {
            for week in (0..self.weeks).filter(|week| need.runs(*week)) {
                let able = self.varieties.iter().enumerate();
                let able = able.filter(|(_, one)| one.yields[week] > 0 && one.serves.contains(&at));
                let mut flowering: Vec<(usize, usize)> = Vec::new();
                for (variety, one) in able {
                    let column = sheet.whole(format!("u{variety}_{at}_{week}"), 0, Some(1), 0);
                    counted[at][week][variety] = Some(column);
                    flowering.push((column, one.form));
                }
                let row = sheet.row('G', format!("varieties{at}_{week}"), whole(need.varieties));
                flowering
                    .iter()
                    .for_each(|(column, _)| sheet.put(*column, row, 1000));
                let mut forms: Vec<usize> = flowering.iter().map(|(_, form)| *form).collect();
                forms.sort_unstable();
                forms.dedup();
                let row = sheet.row('G', format!("forms{at}_{week}"), whole(need.forms));
                for form in forms {
                    let counts = sheet.column(format!("g{form}_{at}_{week}"), Some(1));
                    sheet.put(counts, row, 1000);
                    let link = sheet.row('L', format!("form{form}_{at}_{week}"), 0);
                    sheet.put(counts, link, 1000);
                    let of_form = flowering.iter().filter(|(_, other)| *other == form);
                    of_form.for_each(|(column, _)| sheet.put(*column, link, -1000));
                }
            }
        }
        counted
    }

    fn write_sharing(&self, sheet: &mut ModelText, plants: &[usize], counted: &[Counts]) {
        for week in 0..self.weeks {
            let demand: Vec<Option<usize>> = (self.needs.iter().enumerate())
                .map(|(at, need)| {
                    let rhs = i128::from(need.stems[week]);
                    need.runs(week)
                        .then(|| sheet.row('G', format!("need{at}_{week}"), rhs))
                })
                .collect();
            for (at, candidate) in self.varieties.iter().enumerate() {
                let serving: Vec<usize> = candidate.serving(self, week).collect();
                if serving.is_empty() {
                    continue;
                }
                let grown = sheet.row('L', format!("grown{at}_{week}"), 0);
                sheet.put(plants[at], grown, -i128::from(candidate.yields[week]));
                for need in serving {
                    let stems = sheet.column(format!("z{at}_{need}_{week}"), None);
                    sheet.put(stems, grown, 1000);
                    if let Some(row) = demand[need] {
                        sheet.put(stems, row, 1000);
                    }
                    if let Some(limit) = self.needs[need].limit(week) {
                        let row = sheet.row('L', format!("most{at}_{need}_{week}"), limit.into());
                        sheet.put(stems, row, 1000);
                    }
                    if let Some(counts) = counted[need].get(week).and_then(|own| own[at]) {
                        let row = sheet.row('G', format!("each{at}_{need}_{week}"), 0);
                        sheet.put(stems, row, 1000);
                        sheet.put(counts, row, -i128::from(self.needs[need].each));
                    }
                }
            }
        }
    }
}

/// A whole number in thousandths.
fn whole(number: u64) -> i128 {
    i128::from(number) * 1000
}

/// Hundredths in thousandths.
fn hundredths(number: u64) -> i128 {
    i128::from(number) * 10
}
