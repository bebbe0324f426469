//! Diameters: mean, interval, spread, and the limits between forms that the interval straddles.

use jiff::civil::Date;

use crate::form::Keyer;
use crate::form::limits::{Close, LEVEL, MOST_MORE, READ_AS_EITHER};
use crate::measure::sample::Interval;
use crate::measure::{Exact, Length, SizeUnits};
use crate::trial::entry::Observation;
use crate::trial::statistics::nested::{Basis, Needed, Nested};

/// Measured blooms.
#[derive(Debug, Clone, PartialEq)]
pub struct Diameters {
    /// Mean and interval in millimetres, and what the interval is taken from.
    pub nested: Nested,
    /// The values that mean and interval rest on, mm: the means of the dates where there are
    /// several, since blooms of one day are not independent, else the blooms.
    pub units: Vec<Exact>,
    /// Every bloom, mm, by date.
    pub blooms: Vec<(Date, Vec<Exact>)>,
}

/// A limit between two forms within the interval of the mean.
#[derive(Debug, Clone, PartialEq)]
pub struct Straddle {
    /// The limit.
    pub limit: Length,
    /// The interval that it lies in, mm.
    pub limits: Interval,
    /// The form below the limit and the form above it.
    pub forms: [usize; 2],
    /// The form that the interval must clear: that of the mean as it stands.
    pub likelier: usize,
    /// What should settle it; `None` where it would take more than anybody measures.
    pub needed: Option<Needed>,
    /// Whether so few were measured that the interval may yet narrow fast.
    pub few: bool,
}

/// More days than these are no instruction that anybody follows. Assumed.
const MOST_DAYS: usize = 12;
/// With fewer blooms, or days, than this a wide interval may be one odd bloom's doing. Assumed.
const FEW: usize = 6;

impl Diameters {
    /// Of what was seen, by date; `None` where nothing was measured.
    pub(super) fn of(seen: &[(Date, &Observation)]) -> Option<Diameters> {
        let mut blooms: Vec<(Date, Vec<Exact>)> = Vec::new();
        for (date, observation) in seen {
            let values = observation.diameters.iter().map(|one| one.length().mm());
            match blooms.last_mut() {
                _ if observation.diameters.is_empty() => {}
                Some((last, of_day)) if last == date => of_day.extend(values),
                _ => blooms.push((*date, values.collect())),
            }
        }
        for (_, of_day) in &mut blooms {
            // So that a sum does not hang on the order in which a day's blooms were entered.
            of_day.sort();
        }
        let numbers: Vec<Vec<f64>> = blooms
            .iter()
            .map(|(_, of_day)| of_day.iter().map(|one| one.to_f64()).collect())
            .collect();
        let nested = Nested::of(&numbers)?;
        let units = match nested.basis {
            Basis::Dates(_) => blooms.iter().filter_map(|(_, day)| day_mean(day)).collect(),
            Basis::OneValue | Basis::OneDate => blooms[0].1.clone(),
        };
        Some(Diameters {
            nested,
            units,
            blooms,
        })
    }

    /// How many blooms were measured.
    pub fn count(&self) -> usize {
        self.nested.count
    }

    /// The mean that decides, exact.
    pub fn mean(&self) -> Length {
        // OK because there is at least one value.
        Length::from_mm(Exact::mean(&self.units).unwrap_or(Exact::zero()))
    }

    /// The limits between forms that lie within the interval of the mean, of the close calls; the
    /// nearest to the mean first.
    pub fn straddles(&self, close: &[Close], keyer: &Keyer) -> Vec<Straddle> {
        let Some(limits) = self.nested.limits() else {
            return Vec::new();
        };
        let is_diameter = |close: &&Close| keyer.set.traits.get(close.index).id == "diameter";
        let within = |close: &&Close| {
            let limit = close.limit.to_f64();
            limits.low < limit && limit < limits.high
        };
        let straddle = |close: &Close| {
            let distance = (self.nested.mean - close.limit.to_f64()).abs();
            let above = self.mean().mm() > close.limit;
            let on = self.mean().mm() == close.limit;
            Straddle {
                limit: Length::from_mm(close.limit),
                limits,
                forms: close.forms,
                likelier: if on {
                    close.on_limit
                } else {
                    close.forms[usize::from(above)]
                },
                few: self.units.len() < FEW,
                needed: self
                    .nested
                    .needed(distance, LEVEL)
                    .filter(|needed| match needed {
                        Needed::Nothing => false,
                        Needed::Blooms(more) => *more <= MOST_MORE,
                        Needed::Dates(more) => *more <= MOST_DAYS,
                    }),
            }
        };
        let close = close.iter().filter(is_diameter).filter(within);
        let mut straddles: Vec<Straddle> = close.map(straddle).collect();
        let distance = |straddle: &Straddle| {
            let limit = straddle.limit.mm().to_f64();
            (self.nested.mean - limit).abs()
        };
        straddles.sort_by(|a, b| distance(a).total_cmp(&distance(b)));
        straddles
    }
}

impl Straddle {
    /// What to do about it, in the grower's units: `measure 3 more blooms: 87 to 91 mm straddles the
    /// limit of 89 mm between miniature ball and ball`.
    pub fn instruction(&self, keyer: &Keyer, units: SizeUnits) -> String {
        let [below, above] = self.forms.map(|form| keyer.set.forms[form].name.as_str());
        let interval = range(self.limits, units);
        let limit = self.limit.shown(units);
        let straddles =
            format!("{interval} straddles the limit of {limit} between {below} and {above}");
        match self.needed {
            Some(Needed::Blooms(1)) => format!("measure 1 more bloom: {straddles}"),
            Some(Needed::Blooms(more)) => format!("measure {more} more blooms: {straddles}"),
            Some(Needed::Dates(1)) => format!("measure on 1 more day: {straddles}"),
            Some(Needed::Dates(more)) => format!("measure on {more} more days: {straddles}"),
            _ if self.few => format!("measure more blooms, on other days: {straddles}"),
            Some(Needed::Nothing) | None => format!(
                "{READ_AS_EITHER}, {below} or {above}: {interval} straddles their limit of {limit}"
            ),
        }
    }
}

/// `86 to 94 mm`, `3.10 to 3.22 in`: both ends as [`ends`] rounds them, with as many decimals.
pub(crate) fn range(limits: Interval, units: SizeUnits) -> String {
    let [low, high] = ends(limits, units);
    let places = places(units);
    // A limit of a length is over 0, however near.
    let over = if low == 0.0 { "over " } else { "" };
    format!(
        "{over}{low:.places$} to {high:.places$} {}",
        units.of_blooms()
    )
}

/// An interval of mm in the grower's unit: rounded outward, so that a limit within the interval is
/// within what is shown.
pub(crate) fn ends(limits: Interval, units: SizeUnits) -> [f64; 2] {
    let fine = 10_f64.powi(places(units) as i32);
    let rounded = |mm: f64, round: fn(f64) -> f64| round(mm / units.in_mm() * fine) / fine;
    [
        rounded(limits.low, f64::floor),
        rounded(limits.high, f64::ceil),
    ]
}

/// The decimals of an interval's ends.
pub(crate) fn places(units: SizeUnits) -> usize {
    match units {
        SizeUnits::Mm => 0,
        SizeUnits::In => 2,
    }
}

/// One day's mean, rounded to a nanometre so that the mean of many days cannot overflow.
fn day_mean(of_day: &[Exact]) -> Option<Exact> {
    Some(Exact::mean(of_day)?.rounded(6))
}
