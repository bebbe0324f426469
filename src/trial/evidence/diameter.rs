//! Diameters: mean, interval, spread, and the limits between forms that the interval straddles.

use jiff::civil::Date;

use crate::form::Keyer;
use crate::form::limits::{Close, LEVEL};
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
    /// What should settle it; `None` where no number would.
    pub needed: Option<Needed>,
}

/// More blooms or dates than this are no instruction that anybody follows. Assumed.
const MOST_ASKED: usize = 30;

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

    /// The limits between forms that lie within the interval of the mean, as the close calls have
    /// them.
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
                likelier: if on { close.on_limit } else { close.forms[usize::from(above)] },
                needed: self.nested.needed(distance, LEVEL).filter(|needed| {
                    matches!(needed, Needed::Blooms(n) | Needed::Dates(n) if *n <= MOST_ASKED)
                }),
            }
        };
        let close = close.iter().filter(is_diameter).filter(within);
        close.map(straddle).collect()
    }
}

impl Straddle {
    /// What to do about it, in the grower's units: `measure 3 more blooms: 87 to 91 mm straddles the
    /// limit of 89 mm between miniature ball and ball`.
    pub fn instruction(&self, keyer: &Keyer, units: SizeUnits) -> String {
        let [below, above] = self.forms.map(|form| keyer.set.forms[form].name.as_str());
        let straddles = format!(
            "{} straddles the limit of {} between {below} and {above}",
            range(self.limits, units),
            self.limit.shown(units)
        );
        match self.needed {
            Some(Needed::Blooms(1)) => format!("measure 1 more bloom: {straddles}"),
            Some(Needed::Blooms(more)) => format!("measure {more} more blooms: {straddles}"),
            Some(Needed::Dates(1)) => format!("measure on 1 more day: {straddles}"),
            Some(Needed::Dates(more)) => format!("measure on {more} more days: {straddles}"),
            Some(Needed::Nothing) | None => format!(
                "name the form by its looks: {straddles}, and the mean lies too near it for measuring to settle"
            ),
        }
    }
}

/// `87 to 91 mm`.
pub(crate) fn range(limits: Interval, units: SizeUnits) -> String {
    let length = |mm: f64| Length::from_mm(Exact::ratio((mm * 100.0).round() as i64, 100));
    let (low, high) = (length(limits.low), length(limits.high));
    match units {
        SizeUnits::Mm => format!(
            "{} to {} mm",
            low.mm().to_decimal(0),
            high.mm().to_decimal(0)
        ),
        SizeUnits::In => format!(
            "{} to {} in",
            low.inches().to_decimal(2),
            high.inches().to_decimal(2)
        ),
    }
}

/// One day's mean, rounded to a nanometre so that the mean of many days cannot overflow.
fn day_mean(of_day: &[Exact]) -> Option<Exact> {
    Exact::mean(of_day)?.to_decimal(6).parse().ok()
}
