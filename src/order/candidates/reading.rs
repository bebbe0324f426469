//! A plan with its words looked up in a list.

use super::words::{Asked, ListContext, check_fixed, forms, looked_up};
use crate::order::{Need, Plan};
use crate::problem::{Path, Wrong};
use crate::variety::{Distances, IndexContext, Known, Rests};

/// How a variety meets a need.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Match {
    /// Place of the need.
    pub need: usize,
    /// Fitness for its use; `None` where no use is asked or nothing is known.
    pub fitness: Option<f64>,
    /// On what that rests; `None` where no use is asked.
    pub rests: Option<Rests>,
    /// CIEDE2000 from its colours; `None` where none is asked.
    pub distance: Option<f64>,
}

/// A plan whose words mean something, and what it is read against.
pub(super) struct Reading<'a> {
    pub(super) plan: &'a Plan,
    pub(super) terms: ListContext<'a>,
    /// Forms to be tried.
    pub(super) tried: Vec<usize>,
    /// By need: its words, and distances from its colours.
    asked: Vec<(Asked, Distances<'a>)>,
}

impl<'a> Reading<'a> {
    /// Looks the words up.
    ///
    /// # Errors
    /// Each word that means nothing, with its place in the plan.
    pub(super) fn of(plan: &'a Plan, terms: ListContext<'a>) -> Result<Reading<'a>, Vec<Wrong>> {
        let mut wrong = Vec::new();
        let asked: Vec<Asked> = (plan.needs.iter().enumerate())
            .map(|need| looked_up(need, terms.grounds, &mut wrong))
            .collect();
        let tried = forms(
            &plan.tried,
            ("try", Path::field("try")),
            terms.grounds,
            &mut wrong,
        );
        check_fixed(plan, terms, &mut wrong);
        if !wrong.is_empty() {
            return Err(wrong);
        }
        let distances = |asked: Asked| {
            let distances = terms.index.distances(&asked.targets);
            (asked, distances)
        };
        Ok(Reading {
            plan,
            terms,
            tried,
            asked: asked.into_iter().map(distances).collect(),
        })
    }

    /// The needs that a variety serves.
    pub(super) fn matches(&self, row: usize) -> Vec<Match> {
        let form = self.form(row);
        let meets = |(at, need): (usize, &Need)| {
            let (asked, distances) = &self.asked[at];
            let fitness = (asked.use_at).map(|use_at| self.terms.index.fitness(row, use_at));
            let of_colours = !asked.targets.is_empty();
            let distance = of_colours.then(|| distances.judged(row, need.judged()));
            let fits = fitness.is_none_or(|fitness| fitness.unwrap_or(0.0) >= need.least_fitness());
            let near = distance.is_none_or(|distance| distance <= need.reach());
            let shaped =
                need.forms.is_empty() || form.is_some_and(|form| asked.forms.contains(&form));
            (fits && near && shaped).then(|| Match {
                need: at,
                fitness: fitness.flatten(),
                rests: asked.use_at.map(|use_at| self.rests(row, use_at)),
                distance,
            })
        };
        self.plan
            .needs
            .iter()
            .enumerate()
            .filter_map(meets)
            .collect()
    }

    /// Whether a variety is fixed by hand or of a form to be tried.
    pub(super) fn is_wanted(&self, row: usize) -> bool {
        let name = &self.terms.list.list()[row].name;
        let fixed = self.plan.fixed.iter().any(|fixed| fixed.variety == *name);
        fixed
            || self
                .form(row)
                .is_some_and(|form| self.tried.contains(&form))
    }

    /// On what the fitness of a variety for a use rests.
    fn rests(&self, row: usize, use_at: usize) -> Rests {
        let IndexContext { rules, uses, .. } = self.terms.grounds;
        let known = Known::of(&self.terms.list.list()[row], rules, uses);
        known.rests(&uses.list()[use_at])
    }

    fn form(&self, row: usize) -> Option<usize> {
        let variety = &self.terms.list.list()[row];
        variety.form_under(self.terms.grounds.rules)
    }
}
