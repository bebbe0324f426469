//! Close to a limit: which limits the answers come near, and what would settle the side.

use super::answer::{Answer, Answers};
use super::belief::{Belief, Keyer};
use super::part;
use super::space::{Atom, Span};
use super::traits::{Kind, Trait};
use super::verdict::Status;
use crate::measure::Exact;
use crate::measure::sample::Sample;

/// The level of the intervals that are shown.
pub const LEVEL: f64 = 0.95;
/// More blooms than these are no advice that anybody follows: what they should settle may be read as
/// either. Assumed.
pub const MOST_MORE: usize = 30;
/// What is said in place of such advice.
pub const READ_AS_EITHER: &str = "more blooms would not settle it: read it as either";
/// A chance of less than this on the far side of a limit is not called close.
const LEAST_CHANCE: f64 = 0.01;
/// A single value within this share of a limit is called close. Assumed.
const NEAR_LENGTH: (i64, i64) = (1, 10);
/// Below this many rows a miscount is not to be expected. Assumed.
const LEAST_COUNT: i64 = 4;

/// A limit that the answers come near.
#[derive(Debug, Clone, PartialEq)]
pub struct Close {
    /// The trait.
    pub index: usize,
    /// The limit, in the trait's own unit.
    pub limit: Exact,
    /// The form below the limit and the form above it, as the other answers stand.
    pub forms: [usize; 2],
    /// Which of the two a bloom exactly on the limit is.
    pub on_limit: usize,
    /// The chance (0 to 1) that the true mean is on the upper side; `None` from one value.
    pub chance: Option<f64>,
    /// How far the mean, or the one value, is from the limit; `None` for a range across it.
    pub distance: Option<Exact>,
    /// The range across it; `None` for values.
    pub range: Option<Span>,
    /// How many more blooms should settle the side, by Stein's rule; `None` from one value or
    /// where no number would.
    pub more: Option<usize>,
}

impl Keyer {
    /// What is noted of a limit on which the answers lie exactly: elsewhere it changes nothing.
    pub fn note(&self, close: &Close) -> Option<&str> {
        let exactly = close.distance == Some(Exact::zero());
        let note = self.set.note_of(&close.forms, close.index, close.limit);
        note.filter(|_| exactly)
    }

    /// The limits that the answers come near and that part two forms here.
    pub fn close(&self, answers: &Answers) -> Vec<Close> {
        let given = answers
            .iter()
            .filter_map(|(index, answer)| Some((index, answer, answer.span()?)));
        given
            .flat_map(|(index, answer, span)| self.close_in(answers, index, answer, span))
            .collect()
    }

    fn close_in(&self, answers: &Answers, index: usize, answer: &Answer, span: Span) -> Vec<Close> {
        let one = self.set.traits.get(index);
        let scale = &self.set.scales()[index];
        let (atoms, reached) = (scale.atoms(), answer.mask(scale));
        let pairs = atoms
            .windows(2)
            .enumerate()
            .filter_map(|(at, pair)| match pair {
                [Atom::Span(low), Atom::Span(high)] => Some((at, limit_between(*low, *high))),
                _ => None,
            });
        let near: Vec<(usize, Exact)> = pairs
            .filter(|(at, limit)| match answer {
                // A range says itself how sure it is: close is what it reaches across.
                Answer::Range(_) => reached >> at & 0b11 == 0b11,
                _ => is_near(one, answer, span, *limit),
            })
            .collect();
        if near.is_empty() {
            return Vec::new();
        }
        let mut rest = answers.clone();
        rest.take_back(index);
        // Where the other answers alone leave nothing, no limit is what parts the forms.
        if self.set.verdict(&rest).status == Status::None {
            return Vec::new();
        }
        let belief = self.belief(&rest);
        let close = near.into_iter().filter_map(|(at, limit)| {
            let forms = self.parted(&rest, index, at, &belief)?;
            // The limit belongs to the upper atom where that atom begins with it.
            let on_limit = forms[usize::from(
                matches!(atoms[at + 1], Atom::Span(high) if high.low == limit && high.low_in),
            )];
            Some(close_call(
                one,
                answer,
                Close {
                    index,
                    limit,
                    forms,
                    on_limit,
                    chance: None,
                    distance: None,
                    range: Some(span).filter(|_| matches!(answer, Answer::Range(_))),
                    more: None,
                },
            ))
        });
        close.collect()
    }

    /// The likeliest forms that only the lower and only the upper of two neighbouring atoms allow.
    fn parted(
        &self,
        rest: &Answers,
        index: usize,
        at: usize,
        belief: &Belief,
    ) -> Option<[usize; 2]> {
        let block = rest.block(self.set.scales());
        let allowed = |at: usize| {
            let narrowed = block.narrowed(index, 1 << at);
            narrowed
                .map(|block| self.set.verdict_in(&block).possible)
                .unwrap_or_default()
        };
        let (below, above) = (allowed(at), allowed(at + 1));
        let share = |form: &&usize| belief.shares[**form];
        let only = |own: &[usize], other: &[usize]| -> Option<usize> {
            let mut own = own
                .iter()
                .filter(|form| !other.contains(form))
                .collect::<Vec<_>>();
            own.sort_by(|a, b| share(b).total_cmp(&share(a)));
            own.first().map(|form| **form)
        };
        Some([only(&below, &above)?, only(&above, &below)?])
    }
}

/// The number that parts two neighbouring atoms: the one exact end that they share, or for counts
/// the last number of the lower.
fn limit_between(low: Span, high: Span) -> Exact {
    if high.low_in && high.low == low.high {
        high.low
    } else {
        low.high
    }
}

fn is_near(one: &Trait, answer: &Answer, span: Span, limit: Exact) -> bool {
    if let Answer::Values(values) = answer
        && values.len() > 1
    {
        let chance = sample(values).and_then(|s| chance_above(one, s, limit));
        let chance = chance.unwrap_or(0.5);
        return chance.min(1.0 - chance) >= LEAST_CHANCE;
    }
    // One value, or the mean of several: both ends are the same.
    let apart = if span.low <= limit {
        limit - span.low
    } else {
        span.low - limit
    };
    match one.kind {
        Kind::Length(_) => apart <= limit * Exact::ratio(NEAR_LENGTH.0, NEAR_LENGTH.1),
        Kind::Share => apart <= Exact::whole(part::BY_EYE),
        Kind::Count(..) => apart <= Exact::whole(1) && limit >= Exact::whole(LEAST_COUNT),
        Kind::OneOf(_) => false,
    }
}

/// The chance that the true mean is on the upper side; of a length by the law of lengths.
fn chance_above(one: &Trait, sample: Sample, limit: Exact) -> Option<f64> {
    match one.kind {
        Kind::Length(_) => sample.chance_of_length(limit.to_f64()),
        Kind::Share | Kind::Count(..) | Kind::OneOf(_) => sample.chance_at_least(limit.to_f64()),
    }
}

fn close_call(one: &Trait, answer: &Answer, bare: Close) -> Close {
    let Answer::Values(values) = answer else {
        return bare;
    };
    let (Some(mean), Some(sample)) = (Exact::mean(values), sample(values)) else {
        return bare;
    };
    let distance = if mean < bare.limit {
        bare.limit - mean
    } else {
        mean - bare.limit
    };
    let needed = sample.needed_for(distance.to_f64(), LEVEL);
    Close {
        chance: chance_above(one, sample, bare.limit),
        distance: Some(distance),
        more: needed
            .map(|needed| needed - sample.count)
            .filter(|more| *more > 0),
        ..bare
    }
}

fn sample(values: &[Exact]) -> Option<Sample> {
    let values: Vec<f64> = values.iter().map(|value| value.to_f64()).collect();
    Sample::of(&values)
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::RuleSet;
    use crate::measure::SizeUnits;

    fn close(text: &str) -> Vec<(String, String, [String; 2], Close)> {
        let keyer = Keyer::even(RuleSet::embedded().remove(0));
        let pairs: Vec<&str> = text.split_whitespace().collect();
        let answers = Answers::read(&pairs, &keyer.set.traits).expect(text);
        let name = |form: usize| keyer.set.forms[form].id.clone();
        let told = |close: Close| {
            let id = keyer.set.traits.get(close.index).id.clone();
            (id, close.limit.to_string(), close.forms.map(name), close)
        };
        keyer.close(&answers).into_iter().map(told).collect()
    }

    const BALL: &str = "centre=closed outline=globe tip=rounded set=regular roll=forward rolled=90";

    #[test]
    fn one_bloom_near_a_limit_says_how_far() {
        let calls = close(&format!("{BALL} diameter=90mm"));
        let [(id, limit, forms, call)] = &calls[..] else {
            panic!("{calls:?}")
        };
        assert_eq!((id.as_str(), limit.as_str()), ("diameter", "88.9"));
        assert_eq!(forms, &["miniature-ball", "ball"]);
        assert_eq!(call.on_limit, call.forms[1], "3.5 in is a ball");
        assert_eq!(call.distance, Some(Exact::ratio(11, 10)));
        assert_eq!((call.chance, call.more), (None, None));
        assert!(close(&format!("{BALL} diameter=120mm")).is_empty());
    }

    /// Published lists differ on a ball of exactly 3.5 in: over it, or at least. Common practice, no
    /// source. That is said where it decides, and nowhere else.
    #[test]
    fn on_a_limit_on_which_lists_differ_that_is_said() {
        let keyer = Keyer::even(RuleSet::embedded().remove(0));
        let told = |diameter: &str| {
            let pairs = format!("{BALL} diameter={diameter}");
            let pairs: Vec<&str> = pairs.split_whitespace().collect();
            let answers = Answers::read(&pairs, &keyer.set.traits).expect("a bloom");
            let calls = keyer.close(&answers);
            let told = calls
                .iter()
                .map(|call| keyer.close_sentence(call, SizeUnits::In));
            told.collect::<Vec<_>>().join(" ")
        };
        for exactly in ["3.5in", "88.9mm", "3.4in,3.6in"] {
            let told = told(exactly);
            assert!(
                told.contains("exactly on it ball") && told.contains("lists differ"),
                "{told}"
            );
        }
        for beside in ["89mm", "3.4in", "3.4in,3.5in", "80mm..95mm", "2in"] {
            let told = told(beside);
            assert!(!told.contains("lists differ"), "{told}");
        }
    }

    #[test]
    fn several_blooms_give_the_chance_and_how_many_more_to_measure() {
        let calls = close(&format!("{BALL} diameter=87mm,91mm,89mm,92mm"));
        let call = &calls[0].3;
        let chance = call.chance.expect("four blooms");
        assert!((0.5..0.95).contains(&chance), "{chance}");
        // s = 2.2174, t(3, 95 %) = 3.1824, mean 0.85 mm from the limit: (3.1824 * 2.2174 / 0.85)^2
        // is 68.9, so 69 blooms in all by Stein's rule; our own arithmetic.
        assert_eq!(call.more, Some(65));
    }

    #[test]
    fn a_share_and_a_range_come_near_too() {
        let cactus = "centre=closed tip=pointed roll=back line=straight set=regular diameter=140mm";
        let calls = close(&format!("{cactus} rolled=53"));
        assert_eq!(calls[0].2, ["semi-cactus", "straight-cactus"]);
        assert_eq!(
            calls[0].3.on_limit, calls[0].3.forms[0],
            "50 % itself is semi-cactus"
        );
        let calls = close(&format!("{BALL} diameter=80mm..95mm"));
        assert_eq!((calls.len(), calls[0].3.distance), (1, None));
    }
}
