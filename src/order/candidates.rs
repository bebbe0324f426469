//! What of the list can serve the plan or lower its cost, and the plan as an integer program.

use super::aside::SetAside;
use super::model::{Candidate, Demand, Model, Pack, STEM, Supplier, TryOut};
use super::plan::Plan;
use super::promise::Whole;
use super::terms::Terms;
use crate::problem::Wrong;
use crate::variety::closeness;

mod fillers;
mod offered;
mod reading;
mod words;

use fillers::fillers;
use offered::Offered;
use reading::Reading;

pub use reading::Match;
pub use words::ListContext;
pub(super) use words::{forms, looked_up};

/// The varieties that can serve a plan or fill an order up, and the program.
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
    /// The most packs of each offer that may be bought, whether or not the program has use for so many.
    pub offered: Vec<u64>,
    /// Each variety's needs.
    pub matches: Vec<Vec<Match>>,
    /// How sure each need is to be, 0 to 1.
    pub sure: Vec<f64>,
    /// Events and rounds that are to be met as one.
    pub wholes: Vec<Whole>,
    /// What no order can meet, of which the program asks less than the plan: nothing before it is settled.
    pub aside: SetAside,
    /// Sentences on what was left out or assumed.
    pub notes: Vec<String>,
}

impl Candidates {
    /// Reads a plan against a list. Taken in is what serves a need, is to be tried or is fixed, and
    /// what can lower the cost by filling an order up ([`super::Padding`]).
    ///
    /// # Errors
    /// Each word of the plan that means nothing, with its place in the plan: forms, uses, colours, what
    /// is fixed.
    pub fn of(plan: &Plan, terms: ListContext<'_>) -> Result<Candidates, Vec<Wrong>> {
        let reading = Reading::of(plan, terms)?;
        Ok(Candidates::taken(&reading, None))
    }

    /// The same as if one variety, by its place in the list, were not in it.
    ///
    /// # Errors
    /// As for [`Candidates::of`].
    pub fn without(
        plan: &Plan,
        terms: ListContext<'_>,
        row: usize,
    ) -> Result<Candidates, Vec<Wrong>> {
        let reading = Reading::of(plan, terms)?;
        Ok(Candidates::taken(&reading, Some(row)))
    }

    /// The plan as a program with every offer of the list that is open on the day of the order,
    /// whatever use it is of, for a solver that takes nothing from [`Candidates::of`].
    ///
    /// # Errors
    /// As for [`Candidates::of`].
    pub fn whole(plan: &Plan, terms: ListContext<'_>) -> Result<Model, Vec<Wrong>> {
        let reading = Reading::of(plan, terms)?;
        let mut found = Candidates::none(&reading);
        for row in 0..terms.list.len() {
            found.add(
                &reading,
                row,
                reading.matches(row),
                &reading.offered(row).open,
            );
        }
        found.add_trials(&reading);
        Ok(found.model)
    }

    fn taken(reading: &Reading<'_>, leave: Option<usize>) -> Candidates {
        let mut found = Candidates::none(reading);
        let rows = || (0..reading.terms.list.len()).filter(|row| Some(*row) != leave);
        let matches: Vec<(usize, Vec<Match>)> = rows()
            .map(|row| (row, reading.matches(row)))
            .filter(|(row, matches)| !matches.is_empty() || reading.is_wanted(*row))
            .collect();
        let mut taken = matches.iter().map(|one| one.0).peekable();
        let others = rows().filter(|row| taken.next_if_eq(row).is_none());
        let mut fillers = fillers(reading, others).into_iter().peekable();
        let mut closed = 0;
        for (row, matches) in matches {
            while let Some((filler, offers)) = fillers.next_if(|filler| filler.0 < row) {
                found.add_filler(reading, filler, &offers);
            }
            let offered = reading.offered(row);
            closed += offered.closed;
            found.add(reading, row, matches, &offered.open);
        }
        for (filler, offers) in fillers {
            found.add_filler(reading, filler, &offers);
        }
        found.add_trials(reading);
        found.note(reading.plan, closed);
        found.model.limit_packs();
        found
    }

    /// The program without varieties.
    fn none(reading: &Reading<'_>) -> Candidates {
        let plan = reading.plan;
        let sure = |need: &super::Need| need.sure.unwrap_or(reading.terms.sure);
        let first = plan.needs.iter().map(|need| need.weeks.0).min();
        let last = plan.needs.iter().map(|need| need.weeks.1).max();
        let weeks: Vec<u8> = (first.unwrap_or(1)..=last.or(first).unwrap_or(1)).collect();
        let suppliers = plan.suppliers.iter().map(Terms::as_supplier);
        Candidates {
            model: Model {
                weeks: weeks.len(),
                suppliers: suppliers.collect(),
                needs: plan.needs.iter().map(|need| demand(need, &weeks)).collect(),
                places: Some(plan.places()),
                money: plan.money.map(|money| money.in_hundredths()),
                ..Model::default()
            },
            weeks,
            rows: Vec::new(),
            first_cuts: Vec::new(),
            offers: Vec::new(),
            offered: Vec::new(),
            matches: Vec::new(),
            sure: plan.needs.iter().map(sure).collect(),
            wholes: Whole::all(plan, reading.terms.sure),
            aside: SetAside::default(),
            notes: Vec::new(),
        }
    }

    /// Takes in a variety with its offers.
    fn add(&mut self, reading: &Reading<'_>, row: usize, matches: Vec<Match>, offers: &[Offered]) {
        let Reading { plan, terms, .. } = *reading;
        let variety = &terms.list.list()[row];
        let rules = terms.grounds.rules;
        let form = variety.form_under(rules);
        let id = form.map(|form| rules.forms[form].id.as_str());
        let first = plan.season.weeks_for(&variety.name, id);
        let yields = plan.season.gives(variety, first, &self.weeks);
        let on_hand = f64::from(variety.on_hand.unwrap_or(0));
        let kept = on_hand * plan.keeps(variety.store.as_ref()) / 100.0;
        let merit = matches.iter().map(|one| {
            // Of a use that is asked for nothing known is no merit; where none is, all fit alike.
            let unknown = f64::from(plan.needs[one.need].for_use.is_none());
            closeness(one.fitness.unwrap_or(unknown), one.distance.unwrap_or(0.0))
        });
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
        for offered in offers {
            let offer = &variety.offers[offered.at];
            let supplier = self.supplier(&offer.supplier);
            self.model.offers.push(Pack {
                variety: self.rows.len() - 1,
                supplier,
                price: offer.price.in_hundredths(),
                tubers: offer.pack.get().into(),
                least: offered.least,
                most: offered.most,
            });
            self.offers.push(offered.at);
            self.offered.push(offered.most);
        }
    }

    /// Takes in a variety of which nothing is planted. What is on the shortlist is bought before what
    /// is not.
    fn add_filler(&mut self, reading: &Reading<'_>, row: usize, offers: &[Offered]) {
        self.add(reading, row, Vec::new(), offers);
        if let Some(last) = self.model.varieties.last_mut() {
            last.most_plants = Some(0);
            last.merit = u64::from(reading.terms.list.list()[row].shortlist.is_some());
        }
    }

    fn add_trials(&mut self, reading: &Reading<'_>) {
        for (form, name) in reading.tried.iter().zip(&reading.plan.tried) {
            let of_form = |at: &usize| self.model.varieties[*at].form == *form;
            let varieties = (0..self.rows.len()).filter(of_form).collect();
            self.model.trials.push(TryOut {
                name: name.to_string(),
                varieties,
                plants: 1,
            });
        }
    }

    /// Notes what was left out or assumed.
    fn note(&mut self, plan: &Plan, closed: usize) {
        if closed > 0 {
            self.notes.push(format!(
                "{closed} offers close before {} and are left out.",
                plan.ordered
            ));
        }
        for one in &self.model.suppliers[plan.suppliers.len()..] {
            self.notes.push(format!(
                "{} has no terms in the plan: no postage and no least order are assumed.",
                one.name
            ));
        }
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
