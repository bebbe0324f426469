//! Fitness of a whole list for every use.

use hashbrown::HashMap;

use super::fitness::{Known, geometric_mean};
use super::uses::{Use, Uses, Wanted};

type FormAndCentre<'a> = (Option<usize>, Option<&'a str>);

/// Fitness of many varieties for every use. What a use makes of a form or a centre is looked up
/// when the first variety of that form and centre comes.
pub(super) struct Fitting<'a> {
    uses: &'a [Use],
    /// By form and centre: the logarithm of the share of every want of every use, in order. Those
    /// of numbers are not looked up here.
    shares: HashMap<FormAndCentre<'a>, Vec<Option<f64>>>,
}

impl<'a> Fitting<'a> {
    pub(super) fn new(uses: &'a Uses) -> Fitting<'a> {
        Fitting {
            uses: uses.list(),
            shares: HashMap::new(),
        }
    }

    /// What [`Known::fitness`] says for each use, in `fitness`.
    pub(super) fn fit(&mut self, known: &Known<'a>, fitness: &mut Vec<Option<f64>>) {
        let wants = || self.uses.iter().flat_map(|one| &one.wants);
        let key = (known.form(), known.centre());
        let mut shares = self
            .shares
            .entry(key)
            .or_insert_with(|| wants().map(|want| known.log_share(want)).collect())
            .iter();
        fitness.clear();
        fitness.extend(self.uses.iter().map(|one| {
            let of_words = one.wants.iter().zip(&mut shares);
            geometric_mean(of_words.map(|(want, share)| match want.of {
                Wanted::Number(..) => (want, known.log_share(want)),
                Wanted::Form(_) | Wanted::Centre(_) => (want, *share),
            }))
        }));
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::RuleSet;
    use crate::variety::Varieties;

    #[test]
    fn what_was_looked_up_for_one_serves_the_next() {
        let (rules, uses) = (&RuleSet::embedded()[0], &Uses::embedded());
        let text = r#"[
  (name: "A", form: (id: "ball", known: stated)),
  (name: "B"),
  (name: "C", form: (id: "ball", known: stated), vase: (days: 3, stems: 40), stem: "30cm"),
  (name: "D", form: (id: "single", known: stated), bloom: "centre=open"),
  (name: "E", vase: (days: 9)),
]"#;
        let list = Varieties::read("varieties.ron", text).expect("a list");
        let (mut fitting, mut fitness) = (Fitting::new(uses), Vec::new());
        for variety in list.list() {
            let known = Known::of(variety, rules, uses);
            fitting.fit(&known, &mut fitness);
            let alone: Vec<_> = uses.list().iter().map(|one| known.fitness(one)).collect();
            assert_eq!(fitness, alone, "{}", variety.name);
        }
    }
}
