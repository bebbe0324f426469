//! The size: the measured mean with what it is worth, else the word that it is sold under.

use super::Known;
use crate::form::RuleSet;
use crate::form::size;
use crate::form::space::Span;
use crate::measure::sample::Interval;
use crate::measure::{Exact, Length, SizeUnits};

/// How sure an interval of a mean is.
const LEVEL: f64 = 0.95;

/// Measured blooms, wherever they were noted.
struct Measured {
    /// The mean in mm.
    mean: Exact,
    count: usize,
    /// The limits of the mean, mm; `None` from one bloom.
    limits: Option<Interval>,
}

impl Known<'_> {
    /// `mean 98 mm across (size small), 12 blooms`; two words where the limits of the mean reach both.
    pub(super) fn size(&self) -> Option<String> {
        let set = &self.grounds.under.keyer.set;
        let Some(seen) = self.measured() else {
            let sold = self.record?.size.as_ref()?;
            let form = self.variety.form_under(set);
            let sold = set.size_told(form, sold, self.grounds.units);
            return Some(format!("{sold}, stated, not measured"));
        };
        let units = self.grounds.units;
        let mean = shown(Length::from_mm(seen.mean), units);
        let across = match seen.word(set) {
            Some(word) => size::told(&mean, &word),
            None => format!("{mean} across"),
        };
        Some(match seen.count {
            1 => format!("{across}, one bloom"),
            count => format!("mean {across}, {count} blooms"),
        })
    }

    /// The row's blooms by their days; where it has none, those that the record holds.
    fn measured(&self) -> Option<Measured> {
        if let Some(diameters) = &self.evidence.diameters {
            return Some(Measured {
                mean: diameters.mean().mm(),
                count: diameters.count(),
                limits: diameters.nested.limits(),
            });
        }
        let record = self.record?;
        let blooms: Vec<Exact> = record
            .diameters
            .iter()
            .map(|one| one.length().mm())
            .collect();
        let sample = record.diameter()?;
        Some(Measured {
            mean: Exact::mean(&blooms)?,
            count: sample.count,
            limits: sample.interval(LEVEL),
        })
    }
}

impl Measured {
    /// The word for the size, or the two that the limits of the mean reach.
    fn word(&self, set: &RuleSet) -> Option<String> {
        let word = |mm: Exact| set.size_word(Span::point(mm));
        let own = word(self.mean)?;
        let at = |mm: f64| Exact::whole(mm.round() as i64);
        let ends = self.limits.map(|limits| (at(limits.low), at(limits.high)));
        match ends.and_then(|(low, high)| word(low).zip(word(high))) {
            Some((low, high)) if low != high => Some(format!("between {low} and {high}")),
            _ => Some(own.to_string()),
        }
    }
}

/// Whole millimetres, hundredths of an inch.
fn shown(length: Length, units: SizeUnits) -> String {
    match units {
        SizeUnits::Mm => format!("{} mm", length.mm().to_decimal(0)),
        SizeUnits::In => length.shown(units),
    }
}
