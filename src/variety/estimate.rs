//! A number of a variety, estimated from what its form leads one to expect and what was observed.
//!
//! `(k * expected + n * observed) / (k + n)`: the mean of what is expected, worth `k` observations,
//! and of `n` observations of the variety's own. So the expectation speaks where nothing was
//! observed and gives way as evidence grows.

use super::evidence::{Weather, WeatherKind};
use super::extent::Reach;
use super::record::Variety;
use super::uses::{Expected, Quantity, Uses};
use crate::form::RuleSet;
use crate::measure::SizeUnits;

/// A number, and on what it rests.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate {
    /// What is reckoned with.
    pub value: f64,
    /// What the form leads one to expect.
    pub expected: Option<f64>,
    /// The mean observed.
    pub observed: Option<f64>,
    /// How many observations that is worth.
    pub count: f64,
    /// Whether the observation is a figure that somebody states, without a count.
    pub stated: bool,
    /// The ends of what is stated, where that is a span: the observation is then its middle.
    pub span: Option<(f64, f64)>,
}

/// What is observed of a number.
#[derive(Debug, Clone, Copy)]
struct Observation {
    mean: f64,
    /// `None` of a figure that is stated.
    count: Option<f64>,
    span: Option<(f64, f64)>,
}

impl Estimate {
    /// What is known of a number of a variety whose form leads one to expect this; `None` where
    /// nothing is.
    pub(super) fn of(
        quantity: Quantity,
        variety: &Variety,
        expected: Option<&Expected>,
        rules: &RuleSet,
        uses: &Uses,
    ) -> Option<Estimate> {
        let prior = expectation(quantity, expected, variety, rules);
        let seen = observation(quantity, variety);
        estimate(prior, seen, uses.weighs(quantity), uses.stated())
    }

    /// On what it rests, in words: what was observed and what is expected of the form so called.
    pub(super) fn ground(&self, quantity: Quantity, form_name: &str, units: SizeUnits) -> String {
        let shown = |value| quantity.shown(value, units);
        let expected = |value| format!("{} expected of {form_name}", shown(value));
        let Some(observed) = self.observed else {
            return format!("expected of {form_name}");
        };
        let seen = if let Some((low, high)) = self.span {
            let (low, _) = quantity.figure(low, units);
            format!("{low} to {} stated", shown(high))
        } else if self.stated {
            format!("{} stated", shown(observed))
        } else {
            let (one, many) = quantity.counted();
            let noun = if self.count == 1.0 { one } else { many };
            format!("{} observed of {} {noun}", shown(observed), self.count)
        };
        match self.expected {
            Some(value) => format!("{seen}, {}", expected(value)),
            None => seen,
        }
    }
}

impl Quantity {
    pub(super) fn subject(self) -> &'static str {
        match self {
            Quantity::Diameter => "bloom across",
            Quantity::Stem => "cut stem",
            Quantity::Vase => "in the vase",
            Quantity::Stands => "through wind and rain",
            Quantity::Height => "plant height",
        }
    }

    /// A value with its unit, lengths in the grower's: `97 mm`, `3.8 in`.
    pub(super) fn shown(self, value: f64, units: SizeUnits) -> String {
        let (figure, unit) = self.figure(value, units);
        format!("{figure} {unit}")
    }

    /// A value as a figure no finer than it is known, and its unit.
    fn figure(self, value: f64, units: SizeUnits) -> (String, &'static str) {
        match (self, units) {
            (Quantity::Diameter, SizeUnits::Mm) => (format!("{value:.0}"), "mm"),
            (Quantity::Diameter, SizeUnits::In) => (format!("{:.1}", value / 25.4), "in"),
            (Quantity::Stem | Quantity::Height, SizeUnits::Mm) => (format!("{value:.0}"), "cm"),
            (Quantity::Stem | Quantity::Height, SizeUnits::In) => {
                (format!("{:.0}", value / 2.54), "in")
            }
            (Quantity::Vase, _) => (format!("{value:.1}"), "days"),
            (Quantity::Stands, _) => (format!("{:.0}", value * 100.0), "% of blooms"),
        }
    }

    fn counted(self) -> (&'static str, &'static str) {
        match self {
            Quantity::Diameter | Quantity::Stands => ("bloom", "blooms"),
            Quantity::Stem | Quantity::Vase => ("stem", "stems"),
            Quantity::Height => ("plant", "plants"),
        }
    }
}

/// What to expect of a number: the form's figure; for the diameter brought within the size that
/// the variety is sold under.
fn expectation(
    quantity: Quantity,
    expected: Option<&Expected>,
    variety: &Variety,
    rules: &RuleSet,
) -> Option<f64> {
    let figure = expected.and_then(|expected| expected.numbers[quantity as usize]);
    if quantity != Quantity::Diameter {
        return figure;
    }
    let sold = variety.size.as_deref();
    let span = rules
        .size_words
        .iter()
        .find(|(word, _)| Some(word.as_str()) == sold);
    match (figure, span) {
        (Some(figure), Some((_, span))) => {
            Some(figure.clamp(span.low.to_f64(), span.high.to_f64()))
        }
        (figure, _) => figure,
    }
}

fn observation(quantity: Quantity, variety: &Variety) -> Option<Observation> {
    let of = |mean: f64, count: Option<f64>| Observation {
        mean,
        count,
        span: None,
    };
    let stated = |reach: Reach| Observation {
        mean: reach.middle_mm() / 10.0,
        count: None,
        span: (reach.low() < reach.high())
            .then(|| (reach.low().mm() / 10.0, reach.high().mm() / 10.0)),
    };
    match quantity {
        Quantity::Diameter => {
            let sample = variety.diameter()?;
            Some(of(sample.mean, Some(sample.count as f64)))
        }
        Quantity::Stem => variety.stem.map(stated),
        Quantity::Height => variety.height.map(stated),
        Quantity::Vase => {
            let vase = variety.vase?;
            let stems = vase.stems.map(|stems| f64::from(stems.get()));
            Some(of(vase.days.get(), stems))
        }
        Quantity::Stands => {
            // What the sun scorched says nothing of wind and rain.
            let counts = || {
                variety
                    .weather
                    .iter()
                    .filter(|one| one.kind != WeatherKind::Sun)
            };
            let sum =
                |of: fn(&Weather) -> u32| -> f64 { counts().map(|one| f64::from(of(one))).sum() };
            let open = sum(|one| one.open);
            (open > 0.0).then(|| of(1.0 - sum(|one| one.damaged) / open, Some(open)))
        }
    }
}

fn estimate(
    expected: Option<f64>,
    observed: Option<Observation>,
    k: f64,
    stated: f64,
) -> Option<Estimate> {
    let (mean, count) = match observed {
        None => (None, 0.0),
        Some(seen) => (Some(seen.mean), seen.count.unwrap_or(stated)),
    };
    let value = match (expected, mean) {
        (Some(expected), Some(mean)) => (k * expected + count * mean) / (k + count),
        (Some(one), None) | (None, Some(one)) => one,
        (None, None) => return None,
    };
    Some(Estimate {
        value,
        expected,
        observed: mean,
        count,
        stated: observed.is_some_and(|seen| seen.count.is_none()),
        span: observed.and_then(|seen| seen.span),
    })
}
