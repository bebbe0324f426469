//! The next question: the one with most expected information about the form.

use super::answer::Answers;
use super::belief::Keyer;
use super::condition::Condition;
use super::space::{Block, bits};
use super::verdict::Status;

/// A question that tells less than this many bits tells nothing.
const LEAST_BITS: f64 = 1e-6;
/// A question that tells this share of what the best one does is as good: effort decides. Our own
/// choice; `benches/questions.rs` shows what it costs in questions.
const NEARLY: f64 = 0.8;

/// A question worth asking.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Question {
    /// The trait to ask of.
    pub index: usize,
    /// What the answer is expected to tell of the form, in bits.
    pub bits: f64,
}

impl Keyer {
    /// The next question, or `None` where the form is settled or nothing more can tell.
    ///
    /// While the rules leave several forms, only questions that can rule one out are asked, with
    /// answers taken as right; once the answers contradict each other, any question that tells.
    pub fn ask(&self, answers: &Answers) -> Option<Question> {
        let verdict = self.set.verdict(answers);
        let block = answers.block(self.set.scales());
        let open =
            |index: &usize| answers.get(*index).is_none() && self.applies(answers, &block, *index);
        let unasked = (0..self.reports.len()).filter(open);
        match verdict.status {
            Status::Settled(_) => None,
            Status::Open => {
                let telling = unasked.filter(|index| self.can_rule_out(&block, *index));
                self.best(telling.map(|index| (index, self.information_in(&block, index))))
            }
            Status::None => {
                let evidence = self.evidence(answers);
                self.best(unasked.map(|index| (index, self.information(&evidence, index))))
            }
        }
    }

    /// What to look at once more: the question, asked before or not, that tells most when any
    /// answer may be mistaken. `None` where nothing more can tell.
    pub fn check(&self, answers: &Answers) -> Option<Question> {
        let block = answers.block(self.set.scales());
        let evidence = self.evidence(answers);
        let asked = |index: usize| evidence[index].is_some();
        let open = |index: &usize| {
            asked(*index) || answers.get(*index).is_none() && self.applies(answers, &block, *index)
        };
        let questions = (0..self.reports.len()).filter(open);
        self.best(questions.map(|index| (index, self.information(&evidence, index))))
    }

    /// Whether a question makes sense: the trait may apply, and what it hangs on was asked. How
    /// much is rolled is not asked before whether anything rolls.
    pub fn makes_sense(&self, answers: &Answers, index: usize) -> bool {
        self.applies(answers, &answers.block(self.set.scales()), index)
    }

    fn applies(&self, answers: &Answers, block: &Block, index: usize) -> bool {
        let one = self.set.traits.get(index);
        let mut hangs_on = Vec::new();
        for gate in one.only_where.iter().chain(&one.zero_where) {
            gate.names(&mut hangs_on);
        }
        if hangs_on.iter().any(|other| answers.get(*other).is_none()) {
            return false;
        }
        let absent = self.set.scales()[index].absent();
        let met: Vec<Block> = self
            .set
            .valid()
            .iter()
            .filter_map(|own| own.meet(block))
            .collect();
        // Where the answers contradict each other, nothing says that the trait does not apply.
        absent == 0 || met.is_empty() || met.iter().any(|left| left.0[index] & !absent != 0)
    }

    /// Whether some answer would rule out a form that is possible in `block`.
    fn can_rule_out(&self, block: &Block, index: usize) -> bool {
        let absent = self.set.scales()[index].absent();
        let mut reach: Vec<u64> = vec![0; self.set.forms.len()];
        for own in self.blocks.iter().filter(|own| own.block.meets(block)) {
            reach[own.form] |= own.block.0[index] & block.0[index] & !absent;
        }
        let mut possible = reach.into_iter().filter(|mask| *mask != 0);
        let Some(first) = possible.next() else {
            return false;
        };
        possible.any(|mask| mask != first)
    }

    /// The most telling question; of those nearly as telling, the one that takes least effort.
    fn best(&self, questions: impl Iterator<Item = (usize, f64)>) -> Option<Question> {
        let questions: Vec<Question> = questions
            .filter(|(_, bits)| *bits > LEAST_BITS)
            .map(|(index, bits)| Question { index, bits })
            .collect();
        let most = questions
            .iter()
            .map(|question| question.bits)
            .fold(0.0, f64::max);
        let nearly = questions
            .into_iter()
            .filter(|question| question.bits >= most * NEARLY);
        let effort = |question: &Question| self.set.traits.get(question.index).effort;
        nearly.min_by(|a, b| effort(a).cmp(&effort(b)).then(b.bits.total_cmp(&a.bits)))
    }

    /// Expected information about the form in bits, of an answer that is right.
    fn information_in(&self, block: &Block, index: usize) -> f64 {
        let atoms = self.reports[index].len();
        let mut joint = vec![0.0; atoms * self.set.forms.len()];
        for own in self.blocks.iter() {
            let Some(met) = own.block.meet(block) else {
                continue;
            };
            let weights = &self.weights[own.shape];
            let others: f64 = (0..self.reports.len())
                .filter(|other| *other != index)
                .map(|other| super::weight::mask_weight(&weights[other], met.0[other]))
                .product();
            for at in bits(met.0[index]) {
                joint[at * self.set.forms.len() + own.form] +=
                    own.scale * others * weights[index][at];
            }
        }
        mutual_information(&joint, self.set.forms.len())
    }

    /// Expected information about the form in bits, of one more look that may be mistaken.
    fn information(&self, evidence: &[Option<Vec<f64>>], index: usize) -> f64 {
        let forms = self.set.forms.len();
        let reports = &self.reports[index];
        let mut joint = vec![0.0; reports.len() * forms];
        for own in &self.blocks {
            let others = (0..self.reports.len()).filter(|other| *other != index);
            let others: f64 = others
                .map(|other| self.factor(own, other, evidence))
                .product();
            for truth in bits(own.block.0[index]).take_while(|at| *at < reports.len()) {
                let seen = evidence[index]
                    .as_ref()
                    .map_or(1.0, |likelihood| likelihood[truth]);
                let weight = own.scale * others * self.weights[own.shape][index][truth] * seen;
                for (told, chance) in reports[truth].iter().enumerate() {
                    joint[told * forms + own.form] += weight * chance;
                }
            }
        }
        mutual_information(&joint, forms)
    }
}

impl Condition {
    /// The traits that the condition tests.
    pub(super) fn names(&self, into: &mut Vec<usize>) {
        match self {
            Condition::All(list) | Condition::Any(list) => list.iter().for_each(|c| c.names(into)),
            Condition::Not(condition) => condition.names(into),
            Condition::States(index, _) | Condition::Number(index, _) => into.push(*index),
        }
    }
}

/// The mutual information, in bits, of rows (answers) and columns (classes) of a table of weights;
/// `columns` of them a row. The weights need not sum to 1.
pub fn mutual_information(joint: &[f64], columns: usize) -> f64 {
    let mut classes = vec![0.0; columns];
    let mut rest = 0.0;
    let mut total = 0.0;
    for row in joint.chunks(columns) {
        let weight: f64 = row.iter().sum();
        for (class, cell) in classes.iter_mut().zip(row) {
            *class += cell;
        }
        rest += weight * entropy(row);
        total += weight;
    }
    if total > 0.0 {
        entropy(&classes) - rest / total
    } else {
        0.0
    }
}

/// The entropy, in bits, of weights that need not sum to 1.
pub fn entropy(weights: &[f64]) -> f64 {
    let total: f64 = weights.iter().sum();
    let term = |weight: &f64| {
        let share = weight / total;
        -share * share.log2()
    };
    weights
        .iter()
        .filter(|weight| **weight > 0.0)
        .map(term)
        .sum()
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::{Answer, RuleSet};

    /// Quinlan, Induction of decision trees, Machine Learning 1:81-106, 1986: the 14 Saturday
    /// mornings, counts of (play, no play) by each attribute's values. Exact values are our own
    /// arithmetic from the counts; printed texts round intermediate results.
    #[test]
    fn quinlans_gains() {
        let close =
            |found: f64, printed: f64| assert!((found - printed).abs() < 1e-6, "{found} {printed}");
        close(entropy(&[9., 5.]), 0.940286);
        close(mutual_information(&[2., 3., 4., 0., 3., 2.], 2), 0.246750);
        close(mutual_information(&[3., 4., 6., 1.], 2), 0.151836);
        close(mutual_information(&[6., 2., 3., 3.], 2), 0.048127);
        close(mutual_information(&[2., 2., 4., 2., 3., 1.], 2), 0.029223);
    }

    fn keyer() -> Keyer {
        Keyer::even(RuleSet::embedded().remove(0))
    }

    fn asked(keyer: &Keyer, text: &str) -> Option<String> {
        let pairs: Vec<&str> = text.split_whitespace().collect();
        let answers = Answers::read(&pairs, &keyer.set.traits).expect(text);
        keyer
            .ask(&answers)
            .map(|q| keyer.set.traits.get(q.index).id.clone())
    }

    #[test]
    fn a_trait_is_asked_only_where_it_applies_and_once() {
        let keyer = keyer();
        assert_eq!(
            asked(&keyer, "centre=open rows=1 roll=flat diameter=3in").as_deref(),
            Some("collar")
        );
        assert_eq!(asked(&keyer, "centre=pincushion diameter=3in"), None);
        let passed = asked(&keyer, "centre=open rows=1 roll=flat collar=? diameter=3in");
        assert_eq!(passed, None);
        // No rule of the set looks at the width of a floret or the heart.
        let mut answers = Answers::default();
        let mut seen = Vec::new();
        while let Some(question) = keyer.ask(&answers) {
            seen.push(keyer.set.traits.get(question.index).id.clone());
            answers.set(question.index, Answer::CannotTell);
        }
        assert!(!seen.contains(&"width".to_string()) && !seen.contains(&"heart".to_string()));
        assert_eq!(seen.len(), 11);
    }

    #[test]
    fn a_contradiction_does_not_stop_the_questions() {
        let keyer = keyer();
        assert!(asked(&keyer, "roll=flat rolled=30").is_some());
    }
}
