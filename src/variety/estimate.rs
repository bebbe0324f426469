//! A number of a variety, estimated from what its form leads one to expect, what is stated of it and
//! what was observed.
//!
//! `(k * expected + s * stated + n * observed) / (k + s + n)`: the mean of what is expected, worth
//! `k` observations, of what somebody states, worth `s`, and of `n` observations of the variety's own.
//! So the expectation speaks where nothing was observed and gives way as evidence grows, and a
//! statement never grows: ten lists that copy one another are worth as much as one.

use super::evidence::{Days, Weather, WeatherKind};
use super::extent::{Extent, Reach};
use super::record::Variety;
use super::stated::Named;
use super::text::Text;
use super::uses::{Expected, Quantity, Uses};
use crate::form::RuleSet;
use crate::measure::SizeUnits;
use crate::measure::sample::Sample;

/// A number, and on what it rests.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Estimate<'a> {
    /// What is reckoned with.
    pub value: f64,
    /// What the form leads one to expect.
    pub expected: Option<f64>,
    /// What somebody states.
    pub stated: Option<StatedFigure<'a>>,
    /// The mean observed.
    pub observed: Option<f64>,
    /// How many observations that is of.
    pub count: f64,
}

/// A figure as it is stated: the ends of its span, the same twice where it is one.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct StatedFigure<'a> {
    /// The least that anybody states.
    pub low: f64,
    /// The most.
    pub high: f64,
    /// Who is first to state it, where that was noted.
    pub by: Option<&'a Text>,
    /// How many more state it.
    pub others: usize,
}

impl<'a> Estimate<'a> {
    /// What is known of a number of a variety whose form leads one to expect this; `None` where
    /// nothing is.
    pub(super) fn of(
        quantity: Quantity,
        variety: &'a Variety,
        expected: Option<&Expected>,
        rules: &RuleSet,
        uses: &Uses,
    ) -> Option<Estimate<'a>> {
        let expected = expectation(quantity, expected, variety, rules);
        let stated = StatedFigure::of(quantity, variety);
        let seen = observation(quantity, variety);
        let grounds = [
            expected.map(|value| (value, uses.weighs(quantity))),
            stated.map(|figure| (figure.middle(), uses.stated())),
            seen,
        ];
        Some(Estimate {
            value: weighted_mean(&grounds)?,
            expected,
            stated,
            observed: seen.map(|(mean, _)| mean),
            count: seen.map_or(0.0, |(_, count)| count),
        })
    }

    /// On what it rests, in words: what was observed, what is stated, and what is expected of the
    /// form so called.
    pub(super) fn ground(&self, quantity: Quantity, form_name: &str, units: SizeUnits) -> String {
        let shown = |value| quantity.shown(value, units);
        let observed = self.observed.map(|observed| {
            let (one, many) = quantity.counted();
            let noun = if self.count == 1.0 { one } else { many };
            format!("{} observed of {} {noun}", shown(observed), self.count)
        });
        let stated = self.stated.map(|figure| figure.in_words(quantity, units));
        if observed.is_none() && stated.is_none() {
            return format!("expected of {form_name}");
        }
        let expected = self.expected;
        let expected = expected.map(|value| format!("{} expected of {form_name}", shown(value)));
        let grounds = [observed, stated, expected].into_iter().flatten();
        grounds.collect::<Vec<_>>().join(", ")
    }
}

impl<'a> StatedFigure<'a> {
    /// What is stated of a number of a variety, in centimetres, millimetres or days as it is reckoned.
    fn of(quantity: Quantity, variety: &'a Variety) -> Option<StatedFigure<'a>> {
        let tenths =
            |(reach, by): Named<'a, Reach>| (reach.low().mm() / 10.0, reach.high().mm() / 10.0, by);
        let whole = |(reach, by): Named<'a, Reach>| (reach.low().mm(), reach.high().mm(), by);
        let days = |(days, by): Named<'a, Days>| (days.get(), days.get(), by);
        match quantity {
            Quantity::Diameter => StatedFigure::together(variety.stated_diameters().map(whole)),
            Quantity::Height => StatedFigure::together(variety.stated_heights().map(tenths)),
            Quantity::Stem => StatedFigure::together(variety.stated_stems().map(tenths)),
            Quantity::Vase => StatedFigure::together(variety.stated_vase().map(days)),
            // Nobody states how many blooms the wind damages.
            Quantity::Stands => None,
        }
    }

    fn together(
        all: impl Iterator<Item = (f64, f64, Option<&'a Text>)>,
    ) -> Option<StatedFigure<'a>> {
        let figures = all.map(|(low, high, by)| StatedFigure {
            low,
            high,
            by,
            others: 0,
        });
        figures.reduce(|one, other| StatedFigure {
            low: one.low.min(other.low),
            high: one.high.max(other.high),
            by: one.by.or(other.by),
            others: one.others + 1,
        })
    }

    fn middle(&self) -> f64 {
        f64::midpoint(self.low, self.high)
    }

    /// `40 to 60 cm stated by Oar Bulbs and 1 more`.
    fn in_words(&self, quantity: Quantity, units: SizeUnits) -> String {
        let high = quantity.shown(self.high, units);
        let span = match self.low < self.high {
            true => format!("{} to {high}", quantity.figure(self.low, units).0),
            false => high,
        };
        let more = match self.others {
            0 => String::new(),
            others => format!(" and {others} more"),
        };
        match self.by {
            Some(by) => format!("{span} stated by {by}{more}"),
            None => format!("{span} stated"),
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
            (Quantity::Diameter, SizeUnits::In) => (format!("{:.1}", value / units.in_mm()), "in"),
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
    let sold = variety.stated_sizes().next();
    let span = rules
        .size_words
        .iter()
        .find(|(word, _)| Some(word.as_str()) == sold.map(|(sold, _)| sold.as_str()));
    match (figure, span) {
        (Some(figure), Some((_, span))) => {
            Some(figure.clamp(span.low.to_f64(), span.high.to_f64()))
        }
        (figure, _) => figure,
    }
}

/// The mean observed here, and of how many observations.
fn observation(quantity: Quantity, variety: &Variety) -> Option<(f64, f64)> {
    let in_cm = |measured: &[Extent]| {
        let millimetres: Vec<f64> = measured.iter().map(|one| one.mm()).collect();
        let sample = Sample::of(&millimetres)?;
        Some((sample.mean / 10.0, sample.count as f64))
    };
    match quantity {
        Quantity::Diameter => {
            let sample = variety.diameter()?;
            Some((sample.mean, sample.count as f64))
        }
        Quantity::Stem => in_cm(&variety.stem_lengths),
        Quantity::Height => in_cm(&variety.plant_heights),
        Quantity::Vase => {
            let vase = variety.vase?;
            Some((vase.days.get(), f64::from(vase.stems?.get())))
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
            (open > 0.0).then(|| (1.0 - sum(|one| one.damaged) / open, open))
        }
    }
}

/// The mean of values, each with its weight; `None` where none is known. One alone is itself.
fn weighted_mean(grounds: &[Option<(f64, f64)>]) -> Option<f64> {
    let known = || grounds.iter().flatten();
    let weight: f64 = known().map(|(_, weight)| weight).sum();
    match known().count() {
        0 => None,
        1 => known().next().map(|(value, _)| *value),
        _ => Some(known().map(|(value, weight)| value * weight).sum::<f64>() / weight),
    }
}
