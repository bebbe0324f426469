//! What of the list can serve the plan, and the plan as an integer program.

use super::model::{Candidate, Demand, Model, Pack, STEM, Supplier, TryOut};
use super::plan::Plan;
use crate::variety::{Grounds, Index, Varieties, Variety, closeness};

mod words;

use words::{Asked, check_fixed, forms, looked_up};

/// What a plan is read against.
#[derive(Clone, Copy)]
pub struct Against<'a> {
    /// The grower's list.
    pub list: &'a Varieties,
    /// Its columns.
    pub index: &'a Index,
    /// What they were worked out under.
    pub grounds: Grounds<'a>,
}

/// How a variety meets a need.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Match {
    /// Place of the need.
    pub need: usize,
    /// Fitness for its use; `None` where no use is asked or nothing is known.
    pub fitness: Option<f64>,
    /// CIEDE2000 from its colours; `None` where none is asked.
    pub distance: Option<f64>,
}

/// The varieties that can serve a plan, and the program.
#[derive(Debug, Clone, PartialEq)]
pub struct Candidates {
    /// The program. Its varieties and offers are in the order of `rows` and `offers`.
    pub model: Model,
    /// The weeks of the year that the program's weeks are.
    pub weeks: Vec<u8>,
    /// Each variety's place in the list.
    pub rows: Vec<usize>,
    /// Each variety's weeks from planting to the first cut.
    pub first_cuts: Vec<u32>,
    /// Each offer's place among its variety's offers.
    pub offers: Vec<usize>,
    /// Each variety's needs.
    pub matches: Vec<Vec<Match>>,
    /// Sentences on what was left out or assumed.
    pub notes: Vec<String>,
}

impl Candidates {
    /// Reads a plan against a list.
    ///
    /// # Errors
    /// A sentence for each word of the plan that means nothing: forms, uses, colours, what is fixed.
    pub fn of(plan: &Plan, terms: Against<'_>) -> Result<Candidates, Vec<String>> {
        let mut wrong = Vec::new();
        let asked: Vec<Asked> = plan
            .needs
            .iter()
            .map(|need| looked_up(need, terms, &mut wrong))
            .collect();
        let tried = forms(&plan.tried, "try", terms, &mut wrong);
        check_fixed(plan, terms, &mut wrong);
        if !wrong.is_empty() {
            return Err(wrong);
        }
        let first = plan
            .needs
            .iter()
            .map(|need| need.weeks.0)
            .min()
            .unwrap_or(1);
        let last = plan
            .needs
            .iter()
            .map(|need| need.weeks.1)
            .max()
            .unwrap_or(first);
        let weeks: Vec<u8> = (first..=last).collect();
        let mut found = Candidates {
            model: Model {
                weeks: weeks.len(),
                needs: plan.needs.iter().map(|need| demand(need, &weeks)).collect(),
                places: Some(plan.places()),
                money: plan.money.map(|money| money.in_hundredths()),
                ..Model::default()
            },
            weeks,
            rows: Vec::new(),
            first_cuts: Vec::new(),
            offers: Vec::new(),
            matches: Vec::new(),
            notes: Vec::new(),
        };
        let suppliers = plan.suppliers.iter().map(|terms| Supplier {
            name: terms.name.to_string(),
            postage: terms.postage.in_hundredths(),
            free_over: terms.free_over.map(|over| over.in_hundredths()),
            least: terms.least.map_or(0, |least| least.in_hundredths()),
        });
        found.model.suppliers = suppliers.collect();
        let distances: Vec<_> = asked
            .iter()
            .map(|one| terms.index.distances(&one.targets))
            .collect();
        let mut closed = 0;
        for (row, variety) in terms.list.list().iter().enumerate() {
            let form = variety.form_under(terms.grounds.rules);
            let meets = |(at, need): (usize, &super::Need)| {
                let fitness = asked[at]
                    .use_at
                    .map(|use_at| terms.index.fitness(row, use_at));
                let of_colours = !asked[at].targets.is_empty();
                let distance = of_colours.then(|| distances[at].of(row));
                let fits =
                    fitness.is_none_or(|fitness| fitness.unwrap_or(0.0) >= need.least_fitness());
                let near = distance.is_none_or(|distance| distance <= need.reach());
                let shaped = need.forms.is_empty()
                    || form.is_some_and(|form| asked[at].forms.contains(&form));
                (fits && near && shaped).then(|| Match {
                    need: at,
                    fitness: fitness.flatten(),
                    distance,
                })
            };
            let matches: Vec<Match> = plan.needs.iter().enumerate().filter_map(meets).collect();
            let fixed = plan.fixed.iter().any(|fixed| fixed.variety == variety.name);
            let to_try = form.is_some_and(|form| tried.contains(&form));
            if matches.is_empty() && !fixed && !to_try {
                continue;
            }
            closed += found.add(plan, terms, row, matches);
        }
        if closed > 0 {
            found.notes.push(format!(
                "{closed} offers close before {} and are left out.",
                plan.ordered
            ));
        }
        for one in &found.model.suppliers[plan.suppliers.len()..] {
            found.notes.push(format!(
                "{} has no terms in the plan: no postage and no least order are assumed.",
                one.name
            ));
        }
        for (form, name) in tried.iter().zip(&plan.tried) {
            let of_form = |at: &usize| found.model.varieties[*at].form == *form;
            let varieties = (0..found.rows.len()).filter(of_form).collect();
            found.model.trials.push(TryOut {
                name: name.to_string(),
                varieties,
                plants: 1,
            });
        }
        found.model.limit_packs();
        Ok(found)
    }

    /// Takes in a variety with its offers; gives the number of offers that have closed.
    fn add(&mut self, plan: &Plan, terms: Against<'_>, row: usize, matches: Vec<Match>) -> usize {
        let variety = &terms.list.list()[row];
        let rules = terms.grounds.rules;
        let form = variety.form_under(rules);
        let id = form.map(|form| rules.forms[form].id.as_str());
        let first = plan.season.weeks_for(&variety.name, id);
        let yields = plan.season.gives(variety, first, &self.weeks);
        let kept = f64::from(variety.on_hand.unwrap_or(0)) * plan.storage() / 100.0;
        let merit = matches
            .iter()
            .map(|one| closeness(one.fitness.unwrap_or(1.0), one.distance.unwrap_or(0.0)));
        self.model.varieties.push(Candidate {
            name: variety.name.to_string(),
            // Those without a known form count as one form together.
            form: form.unwrap_or(rules.forms.len()),
            on_hand: kept.floor() as u64,
            yields,
            serves: matches.iter().map(|one| one.need).collect(),
            merit: (merit.fold(0.0, f64::max) * 1000.0).round() as u64,
            most_plants: None,
        });
        self.rows.push(row);
        self.first_cuts.push(first);
        self.matches.push(matches);
        self.add_offers(plan, variety)
    }

    fn add_offers(&mut self, plan: &Plan, variety: &Variety) -> usize {
        let mut closed = 0;
        let mut fixed_already: Vec<&str> = Vec::new();
        for (at, offer) in variety.offers.iter().enumerate() {
            let of_this =
                |one: &&super::Fixed| one.variety == variety.name && one.supplier == offer.supplier;
            let fixed = plan.fixed.iter().find(of_this);
            let is_closed = offer.closes.is_some_and(|closes| closes < plan.ordered);
            closed += usize::from(is_closed);
            let barred = plan.shortlist_only && variety.shortlist.is_none() && fixed.is_none();
            if is_closed || barred {
                continue;
            }
            let (mut least, mut most) = (0, u64::from(offer.available.unwrap_or(u32::MAX)));
            if let Some(fixed) = fixed {
                // Of several packs of one supplier the first is the one that is fixed.
                let first = !fixed_already.contains(&offer.supplier.as_str());
                fixed_already.push(&offer.supplier);
                least = if first { u64::from(fixed.packs) } else { 0 };
                most = least;
            }
            let supplier = self.supplier(&offer.supplier);
            self.model.offers.push(Pack {
                variety: self.rows.len() - 1,
                supplier,
                price: offer.price.in_hundredths(),
                tubers: offer.pack.get().into(),
                least,
                most,
            });
            self.offers.push(at);
        }
        closed
    }

    /// The place of a supplier, without terms where the plan says none.
    fn supplier(&mut self, name: &str) -> usize {
        let suppliers = &mut self.model.suppliers;
        suppliers
            .iter()
            .position(|one| one.name == name)
            .unwrap_or_else(|| {
                suppliers.push(Supplier {
                    name: name.to_string(),
                    ..Supplier::default()
                });
                suppliers.len() - 1
            })
    }
}

fn demand(need: &super::Need, weeks: &[u8]) -> Demand {
    let stems = u64::from(need.stems.get()) * STEM;
    let number =
        |least: Option<std::num::NonZeroU8>| least.map_or(1, |least| u64::from(least.get()));
    Demand {
        name: need.name.to_string(),
        stems: weeks
            .iter()
            .map(|week| if need.runs(*week) { stems } else { 0 })
            .collect(),
        most_from_one: need.most_from_one.map(|most| u64::from(most.get())),
        varieties: number(need.varieties),
        forms: number(need.different_forms),
        each: need.each.map_or(STEM, |each| u64::from(each.get()) * STEM),
    }
}
