//! What grows in each of the seasons drawn.

use hashbrown::HashMap;
use jiff::civil::Date;

use super::drawn::Drawn;
use super::spreads::Spreads;
use crate::order::candidates::Candidates;
use crate::order::plan::Plan;
use crate::order::season::thousandths;
use crate::variety::{Varieties, Variety};

/// Seasons drawn, whatever is ordered.
pub(in crate::order) struct Seasons<'a> {
    plan: &'a Plan,
    candidates: &'a Candidates,
    list: &'a Varieties,
    drawn: Vec<Drawn>,
}

/// Usable thousandths of a stem of all plants of a variety, by season, then week.
pub(in crate::order) type Grown = Vec<i64>;

impl<'a> Seasons<'a> {
    /// The seasons of these numbers.
    pub(in crate::order) fn of(
        plan: &'a Plan,
        candidates: &'a Candidates,
        list: &'a Varieties,
        spreads: Spreads,
        numbers: std::ops::Range<u32>,
    ) -> Seasons<'a> {
        Seasons {
            plan,
            candidates,
            list,
            drawn: numbers
                .map(|number| Drawn::of(&plan.season, spreads, number))
                .collect(),
        }
    }

    /// How many there are.
    pub(in crate::order) fn len(&self) -> usize {
        self.drawn.len()
    }

    /// What so many plants of a candidate give.
    pub(in crate::order) fn grown(&self, at: usize, plants: u64) -> Grown {
        let season = &self.plan.season;
        let variety = self.variety(at);
        let known = season.knows(variety);
        let (weeks, first) = (&self.candidates.weeks, self.candidates.first_cuts[at]);
        // Many seasons have their frosts on the same days.
        let mut by_frosts: HashMap<(i32, Date), Vec<f64>> = HashMap::new();
        let mut all = Vec::with_capacity(self.drawn.len() * weeks.len());
        for drawn in &self.drawn {
            let own = drawn.of_variety(&variety.name, known);
            let stems = own.stems / season.plants_kept();
            let stand = own.standing(plants) * stems;
            let given = by_frosts
                .entry((drawn.late, drawn.frost))
                .or_insert_with(|| season.given(variety, first, weeks, drawn.late, drawn.frost));
            let stems = given.iter().map(|of_one| thousandths(of_one * stand));
            all.extend(stems.map(|stems| i64::try_from(stems).unwrap_or(i64::MAX)));
        }
        all
    }

    fn variety(&self, at: usize) -> &'a Variety {
        &self.list.list()[self.candidates.rows[at]]
    }
}
