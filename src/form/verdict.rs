//! The strict verdict: what the rules allow, given answers that are all taken as right.
//!
//! A form is possible exactly when some complete observation within the answers falls in it. Forms
//! are disjoint blocks and answers leave one block, so that is a question of masks that meet.

use super::answer::{Answer, Answers};
use super::rules::RuleSet;
use super::space::{Block, bits};

/// What the rules say of a bloom.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Verdict {
    /// How far the bloom is keyed.
    pub status: Status,
    /// Indices of the forms that the rules still allow, rising.
    pub possible: Vec<usize>,
}

/// How far a bloom is keyed.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Status {
    /// One form is left.
    Settled(usize),
    /// Several forms are left.
    Open,
    /// The answers leave no form.
    None,
}

/// Answers that cannot all be right.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Conflict {
    /// A smallest set of answered traits that excludes every form; in the order of the table.
    pub traits: Vec<usize>,
    /// For each of these traits, the atoms that would leave a form if only that answer changed;
    /// 0 where no change of that answer alone mends it.
    pub mends: Vec<(usize, u64)>,
    /// Whether the answers agree with each other and the rule set has a gap where they meet.
    pub gap: bool,
}

impl RuleSet {
    /// Keys strictly: exact over certain answers, choices, ranges and unknowns.
    pub fn verdict(&self, answers: &Answers) -> Verdict {
        self.verdict_in(&answers.block(&self.scales))
    }

    /// Keys a block of observations strictly.
    pub fn verdict_in(&self, block: &Block) -> Verdict {
        Verdict {
            status: self.status_in(block),
            possible: self.met.forms(block),
        }
    }

    /// How far a block of observations is keyed, without the list of what it leaves open.
    pub fn status_in(&self, block: &Block) -> Status {
        match self.met.ends(block) {
            None => Status::None,
            Some((first, last)) if first == last => Status::Settled(first),
            Some(_) => Status::Open,
        }
    }

    /// A smallest set of answered traits that excludes the form, in the order of the table; empty
    /// where the form is possible.
    pub fn ruled_out_by(&self, answers: &Answers, form: usize) -> Vec<usize> {
        smallest_excluding(&self.forms[form].blocks, &answers.block(&self.scales))
    }

    /// Which answers cannot stand together, and what would mend it; `None` where a form is left.
    pub fn conflict(&self, answers: &Answers) -> Option<Conflict> {
        let block = answers.block(&self.scales);
        let keyed: Vec<Block> = self
            .forms
            .iter()
            .flat_map(|form| form.blocks.clone())
            .collect();
        if keyed.iter().any(|own| own.meets(&block)) {
            return None;
        }
        let gap = self.valid.iter().any(|own| own.meets(&block));
        let traits = smallest_excluding(&keyed, &block);
        let mend = |index: &usize| {
            let mut freed = block;
            freed.0[*index] = self.scales[*index].full() & !self.scales[*index].absent();
            let left = keyed
                .iter()
                .filter_map(|own| own.meet(&freed))
                .fold(0, |m, b| m | b.0[*index]);
            (*index, left)
        };
        let mends = traits.iter().map(mend).collect();
        Some(Conflict { traits, mends, gap })
    }

    /// The word for the bloom's size, where the answers leave one.
    pub fn size_of(&self, answers: &Answers) -> Option<&str> {
        let index = self.traits.find("diameter")?;
        self.size_word(answers.get(index).and_then(Answer::span)?)
    }
}

/// A smallest set of traits in which every block of `blocks` misses `block`: a minimum hitting
/// set, found by trying sets of rising size. A trait hits a block where their masks do not meet.
fn smallest_excluding(blocks: &[Block], block: &Block) -> Vec<usize> {
    let misses = |own: &Block| -> u64 {
        let missed = own
            .0
            .iter()
            .zip(block.0)
            .enumerate()
            .filter(|(_, (own, other))| *own & other == 0);
        missed.map(|(index, _)| 1_u64 << index).sum()
    };
    let mut sets: Vec<u64> = blocks.iter().map(misses).collect();
    sets.sort_unstable();
    sets.dedup();
    if sets.contains(&0) || sets.is_empty() {
        return Vec::new();
    }
    let usable: Vec<usize> = bits(sets.iter().fold(0, |all, set| all | set)).collect();
    for size in 1..=usable.len() {
        if let Some(found) = hitting(&sets, &usable, size, 0) {
            return bits(found).collect();
        }
    }
    // OK because all usable traits together hit every block.
    usable
}

/// A set of `size` more traits that hits every set of `sets`, the first in the table's order.
fn hitting(sets: &[u64], usable: &[usize], size: usize, chosen: u64) -> Option<u64> {
    if sets.iter().all(|set| set & chosen != 0) {
        return Some(chosen);
    }
    if size == 0 {
        return None;
    }
    let with = |(at, index): (usize, &usize)| {
        hitting(sets, &usable[at + 1..], size - 1, chosen | 1 << index)
    };
    usable.iter().enumerate().find_map(with)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn sets() -> [RuleSet; 2] {
        RuleSet::embedded().try_into().expect("two sets")
    }

    fn answers(set: &RuleSet, text: &str) -> Answers {
        let pairs: Vec<&str> = text.split_whitespace().collect();
        Answers::read(&pairs, &set.traits).expect(text)
    }

    fn key(set: &RuleSet, text: &str) -> String {
        let verdict = set.verdict(&answers(set, text));
        let ids: Vec<&str> = verdict
            .possible
            .iter()
            .map(|f| set.forms[*f].id.as_str())
            .collect();
        ids.join(" ")
    }

    /// The definitions' own examples: an observation and its form under both sets.
    #[test]
    fn the_definitions_examples_key_to_their_forms() {
        let ball = "centre=closed outline=globe tip=rounded set=regular roll=forward heart=round";
        let [trade, register] = sets();
        for (bloom, inch, mm) in [
            (format!("{ball} rolled=90 diameter=3.5in"), "ball", "ball"),
            (format!("{ball} rolled=90 diameter=88.8mm"), "miniature-ball", "ball"),
            (format!("{ball} rolled=100 diameter=2in"), "pompon", "ball"),
            (format!("{ball} rolled=100 diameter=48mm"), "pompon", "pompon"),
            ("centre=closed tip=pointed roll=back rolled=55 line=straight heart=round diameter=140mm".into(), "straight-cactus", "semi-cactus"),
            ("centre=open rows=1 collar=petaloid roll=flat diameter=1.9in".into(), "micro-collarette", "collerette"),
            ("centre=open rows=3 collar=none diameter=4in".into(), "peony", "peony"),
            ("centre=open rows=8 collar=none diameter=4in".into(), "novelty-open", "peony"),
            ("centre=pincushion diameter=75mm".into(), "anemone", "anemone"),
            ("centre=closed tip=split roll=back rolled=60 diameter=6in".into(), "laciniated", "fimbriated"),
        ] {
            assert_eq!(key(&trade, &bloom), inch, "{bloom}");
            assert_eq!(key(&register, &bloom), mm, "{bloom}");
        }
    }

    #[test]
    fn an_unknown_that_cannot_matter_does_not_keep_a_form_open() {
        let [trade, _] = sets();
        assert_eq!(
            key(&trade, "centre=open rows=6 diameter=4in"),
            "novelty-open"
        );
        assert_eq!(
            key(&trade, "centre=open rows=2..9 collar=none diameter=4in"),
            "peony novelty-open"
        );
        assert_eq!(
            key(&trade, "centre=pincushion diameter=1in..3in"),
            "anemone micro-anemone"
        );
    }

    #[test]
    fn contradictions_are_named_with_what_would_mend_them() {
        let [trade, _] = sets();
        let conflict = trade
            .conflict(&answers(&trade, "centre=closed roll=flat rolled=30"))
            .expect("a conflict");
        let named: Vec<&str> = conflict
            .traits
            .iter()
            .map(|t| trade.traits.get(*t).id.as_str())
            .collect();
        assert_eq!(named, ["roll", "rolled"]);
        assert_eq!(conflict.mends[0].1, 0b110, "forward or back");
        assert_eq!(conflict.mends[1].1, 0b1, "0 %");
        assert!(!conflict.gap);
        assert_eq!(
            trade.conflict(&answers(&trade, "roll=back rolled=30")),
            None
        );
    }

    #[test]
    fn a_form_is_ruled_out_by_as_few_answers_as_can_be() {
        let [trade, _] = sets();
        let given = answers(
            &trade,
            "centre=closed tip=rounded set=regular roll=back rolled=60 diameter=4in",
        );
        let by = |form: &str| {
            let traits = trade.ruled_out_by(&given, trade.find(form).expect(form));
            traits
                .iter()
                .map(|t| trade.traits.get(*t).id.clone())
                .collect::<Vec<_>>()
                .join(" ")
        };
        assert_eq!(by("single"), "centre");
        assert_eq!(by("pompon"), "roll");
        assert_eq!(by("waterlily"), "rolled");
        assert_eq!(by("straight-cactus"), "tip");
        assert_eq!(by("formal-decorative"), "roll rolled");
        assert_eq!(by("novelty-fully-double"), "");
    }
}
