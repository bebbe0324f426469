//! Two rule sets side by side: which blooms change form.

use super::belief::Keyer;
use super::met::MetTable;
use super::rules::{RuleSet, scales, valid};
use super::space::{Block, Scale, merged};
use super::weight::block_weight;

/// What changes between two rule sets over the same traits.
#[derive(Debug, Clone)]
pub struct Comparison {
    /// The traits, cut at the numbers of both sets: what the regions are written in.
    pub scales: Vec<Scale>,
    /// Every pair of forms that share a bloom, in the order of the first set's forms.
    pub pairs: Vec<Pair>,
}

/// Blooms that have one form under the first set and another under the second.
#[derive(Debug, Clone, PartialEq)]
pub struct Pair {
    /// The form under the first set.
    pub from: usize,
    /// The form under the second.
    pub to: usize,
    /// How large a share of the first form's blooms goes to the second, as belief weighs them.
    pub share: f64,
    /// Whether the second form takes all of the first and nothing else.
    pub same_blooms: bool,
    /// Which blooms, as disjoint blocks, the heaviest first.
    pub regions: Vec<Block>,
}

impl RuleSet {
    /// Compares two sets, or says why they cannot be.
    pub fn compare(&self, other: &RuleSet) -> Result<Comparison, String> {
        if self.traits != other.traits {
            return Err(format!(
                "found different traits in {} and {}, expected one table of traits for both",
                self.id, other.id
            ));
        }
        let scales = scales(&[self, other])?;
        let (first, second) = (self.recut(&scales)?, other.recut(&scales)?);
        let keyer = Keyer::even(first);
        let mut pairs = Vec::new();
        for (from, form) in keyer.set.forms.iter().enumerate() {
            let weights = &keyer.weights[form.shape];
            let weigh =
                |blocks: &[Block]| blocks.iter().map(|b| block_weight(weights, b)).sum::<f64>();
            for (to, target) in second.forms.iter().enumerate() {
                let shared = form
                    .blocks
                    .iter()
                    .flat_map(|own| target.blocks.iter().filter_map(|b| own.meet(b)));
                let mut regions = merged(shared.collect());
                if regions.is_empty() {
                    continue;
                }
                let volume = |blocks: &[Block]| blocks.iter().map(Block::volume).sum::<u128>();
                let same_blooms = volume(&regions) == volume(&form.blocks)
                    && volume(&regions) == volume(&target.blocks);
                let share = weigh(&regions) / weigh(&form.blocks);
                regions
                    .sort_by(|a, b| block_weight(weights, b).total_cmp(&block_weight(weights, a)));
                pairs.push(Pair {
                    from,
                    to,
                    share,
                    same_blooms,
                    regions,
                });
            }
        }
        Ok(Comparison { scales, pairs })
    }

    /// The same rules in a space cut by `scales`, which are at least as fine.
    fn recut(&self, scales: &[Scale]) -> Result<RuleSet, String> {
        let mut recut = self.clone();
        recut.valid = valid(&self.traits, scales)?;
        let blocks = self.blocks_on(scales, &recut.valid)?;
        for (form, blocks) in recut.forms.iter_mut().zip(blocks) {
            form.blocks = blocks;
        }
        recut.scales = scales.to_vec();
        recut.met = MetTable::of(scales, recut.forms.iter().map(|form| &form.blocks));
        Ok(recut)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn told(first: &RuleSet, second: &RuleSet, from: &str) -> Vec<(String, f64, bool)> {
        let comparison = first.compare(second).expect("one table of traits");
        let form = first.find(from).expect(from);
        let pairs = comparison.pairs.iter().filter(|pair| pair.from == form);
        pairs
            .map(|pair| {
                (
                    second.forms[pair.to].id.clone(),
                    pair.share,
                    pair.same_blooms,
                )
            })
            .collect()
    }

    #[test]
    fn every_bloom_of_a_form_goes_somewhere_and_a_set_equals_itself() {
        let [trade, register] = &RuleSet::embedded()[..] else {
            panic!("two sets")
        };
        for form in &trade.forms {
            let to = told(trade, register, &form.id);
            let total: f64 = to.iter().map(|(_, share, _)| share).sum();
            assert!((total - 1.0).abs() < 1e-9, "{} {to:?}", form.id);
            assert_eq!(told(trade, trade, &form.id), [(form.id.clone(), 1.0, true)]);
        }
        let pompon = told(trade, register, "pompon");
        let ids: Vec<&str> = pompon.iter().map(|(id, ..)| id.as_str()).collect();
        assert!(ids.contains(&"pompon") && ids.contains(&"ball"), "{ids:?}");
    }

    #[test]
    fn an_edited_limit_shows_the_blooms_between_the_old_and_the_new() {
        let [(file, text), _] = RuleSet::embedded_files();
        let traits = super::super::Traits::embedded();
        let old = RuleSet::read(file, text, &traits).expect("embedded");
        let edited = text.replace("\"cactus-roll\": \"50 %\"", "\"cactus-roll\": \"60 %\"");
        let new = RuleSet::read(file, &edited, &traits).expect("edited");
        let comparison = old.compare(&new).expect("one table");
        let changed: Vec<_> = comparison
            .pairs
            .iter()
            .filter(|p| old.forms[p.from].id != new.forms[p.to].id)
            .collect();
        let ids: Vec<_> = changed
            .iter()
            .map(|p| (old.forms[p.from].id.as_str(), new.forms[p.to].id.as_str()))
            .collect();
        assert_eq!(
            ids,
            [
                ("straight-cactus", "semi-cactus"),
                ("micro-straight-cactus", "micro-semi-cactus"),
                ("incurved-cactus", "semi-cactus"),
                ("micro-incurved-cactus", "micro-semi-cactus"),
            ]
        );
        let words = super::super::words::block_words(
            &old.traits,
            &comparison.scales,
            &changed[0].regions[0],
            Default::default(),
        );
        assert!(
            words.contains("rolled over 50 % and at most 60 %"),
            "{words}"
        );
    }
}
