//! How well a variety fits a use, and why.
//!
//! Fitness is the weighted geometric mean of the shares of the wants. A want of which nothing is known
//! counts as the middle of the list ([`super::middles`]); of a plant by itself, where no list is known,
//! it is left out. Where no want is known there is no fitness.

use super::estimate::Estimate;
use super::middles::Thousandths;
use super::record::{FormKnown, Variety};
use super::uses::{Quantity, Use, Uses, Want, Wanted};
use crate::form::{Answer, RuleSet};
use crate::measure::{SizeUnits, percent};

/// From this share on a variety is said to fit a use.
pub const FITS: f64 = 0.7;
/// Under this share a want speaks against.
const AGAINST: f64 = 0.4;

/// What is known of a variety that uses ask about.
#[derive(Debug, Clone, PartialEq)]
pub struct Known<'a> {
    form: Option<(usize, &'a str)>,
    /// Whether the form was keyed by the grower, not stated or guessed.
    form_keyed: bool,
    form_name: &'a str,
    centre: Option<(&'a str, bool)>,
    numbers: [Option<Estimate<'a>>; 5],
}

/// Which way a want speaks.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum Side {
    /// For the use.
    For,
    /// Between.
    Middling,
    /// Against it.
    Against,
    /// Nothing is known: it neither helps nor rules out.
    Unknown,
}

/// On what ground a plant may be said to fit a use.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum FitBasis {
    /// By what was seen on it.
    Own,
    /// As is expected of its form.
    Expected,
}

/// How much must be observed of a plant for it to be seen on it.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Enough {
    /// Blooms measured.
    pub blooms: usize,
    /// Stems tested in the vase; as many measured for their length.
    pub stems: usize,
    /// Whether it stood wind and rain as far as is asked.
    pub stood: bool,
    /// The share of all that a use wants, by weight, 0 to 1.
    pub share: f64,
}

/// One want of a use, and how the variety meets it.
#[derive(Debug, Clone, PartialEq)]
pub struct Reason {
    /// Which way it speaks.
    pub side: Side,
    /// 0 to 1; `None` where nothing is known.
    pub share: Option<f64>,
    /// The want's part of the whole weight, 0 to 1.
    pub weight: f64,
    /// In plain words, and whether it is expectation or was observed.
    pub text: String,
}

impl<'a> Known<'a> {
    /// What is known of `variety` under `rules`.
    pub fn of(variety: &'a Variety, rules: &'a RuleSet, uses: &'a Uses) -> Known<'a> {
        let form_at = variety.form_under(rules);
        let form = form_at.map(|at| &rules.forms[at]);
        let expected = form.and_then(|form| uses.expected(&form.id));
        let seen = observed_centre(variety, rules).map(|centre| (centre, true));
        let from_form = expected.and_then(|expected| Some((expected.centre.as_deref()?, false)));
        Known {
            form: form_at.zip(form.map(|form| form.id.as_str())),
            form_keyed: form_at.is_some_and(|at| form_is_keyed(variety, at, rules)),
            form_name: form.map_or("its form", |form| form.name.as_str()),
            centre: seen.or(from_form),
            numbers: Quantity::ALL
                .map(|quantity| Estimate::of(quantity, variety, expected, rules, uses)),
        }
    }

    /// The index of its form in the rule set; `None` where it is unknown.
    pub fn form(&self) -> Option<usize> {
        self.form.map(|(at, _)| at)
    }

    /// The estimate of a number; `None` where nothing is known of it.
    pub fn number(&self, quantity: Quantity) -> Option<Estimate<'a>> {
        self.numbers[quantity as usize]
    }

    /// The state of its centre, observed or expected; `None` where it is unknown.
    pub(super) fn centre(&self) -> Option<&'a str> {
        self.centre.map(|(state, _)| state)
    }

    /// Fitness for a use by what is known of it alone, 0 to 1; `None` where no want of it is known.
    pub fn fitness(&self, one: &Use) -> Option<f64> {
        self.fitness_among(one, &[])
    }

    /// The same where what is unknown counts as the middle of a list: by want, as
    /// [`Middles::of`](super::Middles::of) tells it.
    pub fn fitness_among(&self, one: &Use, middles: &[Option<f64>]) -> Option<f64> {
        let mut own = RowShares::default();
        own.take(&one.wants, one.wants.iter().map(|want| self.share(want)));
        own.fitness(&one.wants, middles)
    }

    /// Why: the wants of a use, those that speak for it first, the unknown last; the weightier
    /// before the lighter. What is unknown is told to be taken as the middle of the list where it is,
    /// as in [`Known::fitness_among`]. Lengths are told in `units`.
    pub fn reasons(&self, one: &Use, middles: &[Option<f64>], units: SizeUnits) -> Vec<Reason> {
        let whole: f64 = one.wants.iter().map(|want| want.weight).sum();
        let nothing = one.wants.iter().all(|want| self.share(want).is_none());
        let middle = |at: usize| middles.get(at).copied().flatten().filter(|_| !nothing);
        let reason = |(at, want): (usize, &Want)| {
            let share = self.share(want);
            let side = match share {
                None => Side::Unknown,
                Some(share) if share >= FITS => Side::For,
                Some(share) if share >= AGAINST => Side::Middling,
                Some(_) => Side::Against,
            };
            let text = match (share, middle(at)) {
                (None, Some(middle)) => format!(
                    "unknown: nothing is known of {}: taken as the middle of your list, {}",
                    want.of.noun(),
                    percent(middle)
                ),
                _ => format!("{}: {}", side.word(), self.words(want, units)),
            };
            Reason {
                side,
                share,
                weight: want.weight / whole,
                text,
            }
        };
        let mut reasons: Vec<Reason> = one.wants.iter().enumerate().map(reason).collect();
        reasons.sort_by(|a, b| a.side.cmp(&b.side).then(b.weight.total_cmp(&a.weight)));
        reasons
    }

    /// On what ground it may be said to fit a use or not: its own where its heaviest want (every one
    /// of several as heavy) and as large a share of all its wants as is asked were observed on it;
    /// else its form. `None` where neither is known: of an unknown form nothing is expected.
    pub fn ground(&self, one: &Use, enough: &Enough) -> Option<FitBasis> {
        let weight = |want: &&Want| want.weight;
        let all: f64 = one.wants.iter().map(|want| want.weight).sum();
        let seen = || one.wants.iter().filter(|want| self.observed(want, enough));
        let heaviest = one.wants.iter().map(|want| want.weight);
        let heaviest = heaviest.fold(0.0, f64::max);
        let of_heaviest = one.wants.iter().filter(|want| want.weight >= heaviest);
        let mut of_heaviest = of_heaviest.map(|want| self.observed(want, enough));
        let share = seen().map(|want| weight(&want)).sum::<f64>() / all;
        if of_heaviest.all(|seen| seen) && share >= enough.share {
            return Some(FitBasis::Own);
        }
        self.form.map(|_| FitBasis::Expected)
    }

    /// Whether the form that it is known to have was keyed by the grower; `None` where none is known.
    pub(super) fn form_seen(&self) -> Option<bool> {
        self.form.map(|_| self.form_keyed)
    }

    /// Whether the centre that it is known to have was observed; `None` where none is known.
    pub(super) fn centre_seen(&self) -> Option<bool> {
        self.centre.map(|(_, seen)| seen)
    }

    pub(super) fn share(&self, want: &Want) -> Option<f64> {
        match &want.of {
            Wanted::Form(likes) => self.form.map(|(_, form)| likes.of(form)),
            Wanted::Centre(likes) => self.centre.map(|(centre, _)| likes.of(centre)),
            Wanted::Number(quantity, curve) => {
                self.numbers[*quantity as usize].map(|estimate| curve.at(estimate.value))
            }
        }
    }

    /// Whether a want rests on what was observed of the variety: its keyed form, enough counted
    /// blooms or stems; not on what its form leads one to expect, nor on what somebody states.
    fn observed(&self, want: &Want, enough: &Enough) -> bool {
        let counted = |quantity: Quantity, least: usize| {
            let estimate = self.numbers[quantity as usize];
            estimate.is_some_and(|one| one.observed.is_some() && one.count >= least as f64)
        };
        match &want.of {
            Wanted::Form(_) => self.form_keyed,
            Wanted::Centre(_) => self.centre.is_some_and(|(_, observed)| observed),
            Wanted::Number(quantity @ Quantity::Diameter, _) => counted(*quantity, enough.blooms),
            Wanted::Number(quantity @ (Quantity::Vase | Quantity::Stem), _) => {
                counted(*quantity, enough.stems)
            }
            Wanted::Number(quantity @ Quantity::Stands, _) => enough.stood && counted(*quantity, 1),
            // A seedling is often one plant, which has one height.
            Wanted::Number(quantity @ Quantity::Height, _) => counted(*quantity, 1),
        }
    }

    fn words(&self, want: &Want, units: SizeUnits) -> String {
        match (&want.of, self.centre) {
            (Wanted::Form(_), _) if self.form.is_none() => "its form".to_string(),
            (Wanted::Form(_), _) => format!("its form is {}", self.form_name),
            (Wanted::Centre(_), None) => "its centre".to_string(),
            (Wanted::Centre(_), Some((centre, true))) => {
                format!("its centre is {centre} (observed)")
            }
            (Wanted::Centre(_), Some((centre, false))) => {
                format!("its centre is {centre} (expected of {})", self.form_name)
            }
            (Wanted::Number(quantity, _), _) => match self.numbers[*quantity as usize] {
                None => quantity.subject().to_string(),
                Some(estimate) => format!(
                    "{} {} ({})",
                    quantity.subject(),
                    quantity.shown(estimate.value, units),
                    estimate.ground(*quantity, self.form_name, units)
                ),
            },
        }
    }
}

/// What is known of one row for one use.
#[derive(Debug, Clone, PartialEq, Default)]
pub(super) struct RowShares {
    /// By want.
    pub(super) shares: Vec<Thousandths>,
    /// The weighted sum of the logarithms of those that are known.
    pub(super) sum: f64,
}

impl RowShares {
    /// Takes the shares of the wants, what it had before dropped.
    pub(super) fn take(&mut self, wants: &[Want], shares: impl Iterator<Item = Option<f64>>) {
        self.shares.clear();
        self.sum = 0.0;
        for (want, share) in wants.iter().zip(shares) {
            self.shares
                .push(share.map_or(Thousandths::UNKNOWN, Thousandths::of));
            self.sum += share.map_or(0.0, |share| want.weight * logarithm(share));
        }
    }

    fn fitness(&self, wants: &[Want], middles: &[Option<f64>]) -> Option<f64> {
        let known = self.shares.iter().map(|share| share.is_known());
        let weights = wants.iter().map(|want| want.weight);
        finished(self.sum, weights.zip(known), middles)
    }
}

/// The weighted geometric mean: of the sum of the logarithms that are known and, for the wants that are
/// not (each with its weight and whether it is known), of the middles. `None` where none is known.
pub(super) fn finished(
    mut sum: f64,
    wants: impl Iterator<Item = (f64, bool)>,
    middles: &[Option<f64>],
) -> Option<f64> {
    let (mut known, mut weight) = (0.0, 0.0);
    for (at, (own, is_known)) in wants.enumerate() {
        if is_known {
            known += own;
        } else if let Some(Some(middle)) = middles.get(at) {
            sum += own * logarithm(*middle);
            weight += own;
        }
    }
    (known > 0.0).then(|| (sum / (known + weight)).exp())
}

/// Minus infinity of nothing at all.
fn logarithm(share: f64) -> f64 {
    // Most shares are whole, and a logarithm takes its time.
    if share == 1.0 { 0.0 } else { share.ln() }
}

impl Side {
    /// The word before the reason.
    pub fn word(self) -> &'static str {
        match self {
            Side::For => "for",
            Side::Middling => "middling",
            Side::Against => "against",
            Side::Unknown => "unknown",
        }
    }
}

/// Whether the grower keyed a bloom to the form that the variety has.
fn form_is_keyed(variety: &Variety, form: usize, rules: &RuleSet) -> bool {
    match variety
        .form
        .as_ref()
        .filter(|note| rules.find(&note.id) == Some(form))
    {
        Some(note) => note.known == FormKnown::Keyed,
        None => variety.keyed_under(rules) == Some(form),
    }
}

/// The state of the centre, where the grower answered it for certain.
fn observed_centre<'a>(variety: &Variety, rules: &'a RuleSet) -> Option<&'a str> {
    variety.bloom.as_ref()?;
    let index = rules.traits.find("centre")?;
    let states = rules.traits.get(index).states();
    match variety.answers(&rules.traits).ok()?.get(index)? {
        Answer::States(mask) if mask.count_ones() == 1 => {
            Some(states.get(mask.trailing_zeros() as usize)?.id.as_str())
        }
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::variety::list::Varieties;

    fn known_of(record: &str, check: impl Fn(&Known<'_>, &Uses)) {
        let (rules, uses) = (&RuleSet::embedded()[0], &Uses::embedded());
        let list = Varieties::read("v", &format!("[(name: \"A\", {record})]")).expect(record);
        check(&Known::of(&list.list()[0], rules, uses), uses);
    }

    fn fitness(record: &str, id: &str) -> f64 {
        let found = std::cell::Cell::new(0.0);
        known_of(record, |known, uses| {
            let one = &uses.list()[uses.find(id).expect(id)];
            found.set(known.fitness(one).expect(record));
        });
        found.get()
    }

    #[test]
    fn evidence_outweighs_expectation_as_it_grows() {
        let vase = |record: &str| {
            let found = std::cell::Cell::new(0.0);
            known_of(record, |known, _| {
                found.set(known.number(Quantity::Vase).expect("a ball").value);
            });
            found.get()
        };
        let ball = |rest: &str| vase(&format!("form: (id: \"ball\", known: stated), {rest}"));
        assert_eq!(ball(""), 8.0);
        // (6 * 8 + 6 * 5) / 12 and (6 * 8 + 54 * 5) / 60; a stated figure is worth 3 stems.
        assert_eq!(ball("vase: (days: 5, stems: 6)"), 6.5);
        assert_eq!(ball("vase: (days: 5, stems: 54)"), 5.3);
        assert_eq!(ball("vase: (days: 5)"), 7.0);
    }

    /// Statements of common practice, no source: each use's own forms lead, and the misfits trail.
    #[test]
    fn trade_practice_holds() {
        let of = |form: &str| format!("form: (id: \"{form}\", known: stated)");
        for (better, worse, id) in [
            ("miniature-ball", "single", "market-bunch"),
            ("ball", "informal-decorative", "market-bunch"),
            ("pompon", "ball", "worn"),
            ("waterlily", "ball", "floating"),
            ("anemone", "pompon", "low-bowl"),
            ("laciniated", "ball", "accent"),
            ("collarette", "pompon", "pollinators"),
            ("semi-cactus", "incurved-cactus", "exposed"),
            ("collarette", "incurved-cactus", "border"),
            ("informal-decorative", "pompon", "event-focal"),
            ("pompon", "laciniated", "filler"),
        ] {
            let (more, less) = (fitness(&of(better), id), fitness(&of(worse), id));
            assert!(
                more > less && more >= FITS,
                "{id}: {better} {more}, {worse} {less}"
            );
        }
        let giant = format!("{}, size: \"giant\"", of("informal-decorative"));
        assert!(fitness(&giant, "market-bunch") < AGAINST);
        assert_eq!(fitness(&giant, "worn"), 0.0);
    }

    #[test]
    fn the_unknown_neither_helps_nor_rules_out_and_is_listed() {
        known_of("vase: (days: 8, stems: 10)", |known, uses| {
            let bunch = &uses.list()[1];
            assert_eq!(known.fitness(bunch), Some(1.0));
            let told: Vec<String> = known
                .reasons(bunch, &[], SizeUnits::Mm)
                .into_iter()
                .map(|r| r.text)
                .collect();
            assert_eq!(
                told,
                [
                    "for: in the vase 8.0 days (8.0 days observed of 10 stems)",
                    "unknown: bloom across",
                    "unknown: its form",
                    "unknown: cut stem",
                ]
            );
            assert_eq!(
                known.fitness(&uses.list()[uses.find("pollinators").expect("a use")]),
                None
            );
        });
    }

    /// `diameters: [...]` of so many blooms of 46 mm.
    fn blooms(count: usize) -> String {
        format!("diameters: [{}]", "\"46mm\",".repeat(count))
    }

    #[test]
    fn a_use_is_its_own_where_its_heaviest_want_was_seen_often_enough() {
        use FitBasis::{Expected, Own};
        let keyed = "form: (id: \"pompon\", known: keyed)";
        let stated = "form: (id: \"pompon\", known: stated)";
        let vase = |stems: u32| format!("vase: (days: 8, stems: {stems})");
        let worn = "worn";
        for (record, id, ground) in [
            // The heaviest want of worn is the diameter, of the market bunch the vase.
            (format!("{keyed}, {}", blooms(10)), worn, Some(Own)),
            (format!("{keyed}, {}", blooms(9)), worn, Some(Expected)),
            (
                format!("{keyed}, {}", blooms(10)),
                "market-bunch",
                Some(Expected),
            ),
            (
                format!("{keyed}, {}, {}", blooms(10), vase(10)),
                "market-bunch",
                Some(Own),
            ),
            (
                format!("{keyed}, {}, {}", blooms(10), vase(9)),
                "market-bunch",
                Some(Expected),
            ),
            // Half of all that is wanted, and not of what is known: the vase alone is 4 of 11.
            (vase(10), "market-bunch", None),
            // Form and diameter weigh alike in a low bowl: one of them is not enough.
            (
                format!("{stated}, {}", blooms(10)),
                "low-bowl",
                Some(Expected),
            ),
            (format!("{keyed}, {}", blooms(10)), "low-bowl", Some(Own)),
            (blooms(10), worn, Some(Own)),
            (blooms(9), worn, None),
        ] {
            known_of(&record, |known, uses| {
                let one = &uses.list()[uses.find(id).expect(id)];
                let enough = Enough {
                    blooms: 10,
                    stems: 10,
                    stood: false,
                    share: 0.5,
                };
                assert_eq!(known.ground(one, &enough), ground, "{id}: {record}");
            });
        }
    }

    #[test]
    fn a_stated_span_is_told_as_one_in_the_units_asked_for() {
        let record = "form: (id: \"ball\", known: stated), stem: \"40-60cm\"";
        for (units, stem) in [
            (SizeUnits::Mm, "for: cut stem 50 cm (40 to 60 cm stated)"),
            (SizeUnits::In, "for: cut stem 20 in (16 to 24 in stated)"),
        ] {
            known_of(record, |known, uses| {
                let reasons = known.reasons(&uses.list()[1], &[], units);
                let told: Vec<&str> = reasons.iter().map(|one| one.text.as_str()).collect();
                assert!(told.contains(&stem), "{told:?}");
            });
        }
    }

    #[test]
    fn reasons_say_what_was_observed_and_what_is_expected() {
        known_of(
            "form: (id: \"ball\", known: keyed), diameters: [\"96mm\", \"98mm\"], stem: \"30cm\"",
            |known, uses| {
                let told: Vec<String> = known
                    .reasons(&uses.list()[1], &[], SizeUnits::Mm)
                    .into_iter()
                    .map(|r| r.text)
                    .collect();
                assert_eq!(
                    told,
                    [
                        "for: in the vase 8.0 days (expected of ball)",
                        "for: bloom across 100 mm (97 mm observed of 2 blooms, 102 mm expected of ball)",
                        "for: its form is ball",
                        "against: cut stem 30 cm (30 cm stated)",
                    ]
                );
            },
        );
    }
}
