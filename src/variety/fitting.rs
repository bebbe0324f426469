//! What is known of the rows of a whole list for every use.

use hashbrown::HashMap;

use super::fitness::{Known, RowShares};
use super::uses::{Use, Uses, Wanted};

type FormAndCentre<'a> = (Option<usize>, Option<&'a str>);

/// Shares of many varieties for every use. What a use makes of a form or a centre is looked up
/// when the first variety of that form and centre comes.
pub(super) struct Fitting<'a> {
    uses: &'a [Use],
    /// By form and centre: the share of every want of every use, in order. Those of numbers are not
    /// looked up here.
    shares: HashMap<FormAndCentre<'a>, Vec<Option<f64>>>,
    row: Vec<RowShares>,
}

impl<'a> Fitting<'a> {
    pub(super) fn new(uses: &'a Uses) -> Fitting<'a> {
        Fitting {
            uses: uses.list(),
            shares: HashMap::new(),
            row: vec![RowShares::default(); uses.list().len()],
        }
    }

    /// What is known of a variety, by use.
    pub(super) fn fit(&mut self, known: &Known<'a>) -> &[RowShares] {
        let wants = || self.uses.iter().flat_map(|one| &one.wants);
        let key = (known.form(), known.centre());
        let mut shares = self
            .shares
            .entry(key)
            .or_insert_with(|| wants().map(|want| known.share(want)).collect())
            .iter();
        for (one, row) in self.uses.iter().zip(&mut self.row) {
            let of_words = one.wants.iter().zip(&mut shares);
            let shares = of_words.map(|(want, share)| match want.of {
                Wanted::Number(..) => known.share(want),
                Wanted::Form(_) | Wanted::Centre(_) => *share,
            });
            row.take(&one.wants, shares);
        }
        &self.row
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
        let mut fitting = Fitting::new(uses);
        for variety in list.list() {
            let known = Known::of(variety, rules, uses);
            let alone: Vec<RowShares> = { uses.list().iter() }
                .map(|one| {
                    let mut own = RowShares::default();
                    own.take(&one.wants, one.wants.iter().map(|want| known.share(want)));
                    own
                })
                .collect();
            assert_eq!(fitting.fit(&known), alone, "{}", variety.name);
        }
    }
}
