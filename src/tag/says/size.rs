//! The size: the measured mean with what it is worth, else the word that it is sold under and who says
//! so. A diameter that is only stated is said as the size that it lies within, and never as measured.

use super::{Known, width};
use crate::form::RuleSet;
use crate::form::size;
use crate::form::space::Span;
use crate::measure::sample::Interval;
use crate::measure::{Exact, SizeUnits};

/// How sure an interval of a mean is.
const LEVEL: f64 = 0.95;

/// Measured blooms, wherever they were noted.
struct Measured {
    /// The mean in mm.
    mean: Exact,
    count: usize,
    /// The limits of the mean, mm; `None` from one bloom.
    limits: Option<Interval>,
    /// The smallest and the largest, mm.
    ends: Interval,
}

impl Known<'_> {
    /// `mean 9.8 cm, 3.9 in across (size miniature), 12 blooms`; two words where the limits of the mean reach
    /// both. From fewer blooms than the gate asks for neither word nor mean: what was measured, and
    /// the word that it is sold under as that.
    pub(super) fn size(&self) -> Option<String> {
        let set = &self.grounds.under.keyer.set;
        let units = self.grounds.units;
        let least = self.grounds.release.least.blooms;
        let all = [self.of_the_row(), self.of_the_record()];
        let enough = all.iter().flatten().find(|seen| seen.count >= least);
        if let Some(seen) = enough {
            let mean = width::across(seen.mean, units);
            let across = match seen.word(set) {
                Some(word) => size::width_and_size(&mean, &word),
                None => format!("{mean} across"),
            };
            return Some(format!("mean {across}, {} blooms", seen.count));
        }
        let sold = self.record.and_then(|record| record.stated_size_under(set));
        let sold = sold.map(|(sold, by)| {
            let words = set.size_in_both_units(self.variety.form_under(set), sold, units);
            (words, by)
        });
        let few = all.iter().flatten().next().map(|seen| seen.in_words(units));
        match (sold, few) {
            (Some((sold, Some(by))), Some(few)) => Some(format!("{sold}, stated by {by}; {few}")),
            (Some((sold, Some(by))), None) => Some(format!("{sold}, stated by {by}")),
            (Some((sold, None)), Some(few)) => Some(format!("{sold}, stated; {few}")),
            (Some((sold, None)), None) => Some(format!("{sold}, as stated")),
            (None, few) => few,
        }
    }

    /// The row's blooms by their days.
    fn of_the_row(&self) -> Option<Measured> {
        let diameters = self.evidence.diameters.as_ref()?;
        let blooms = diameters.blooms.iter().flat_map(|(_, of_day)| of_day);
        Some(Measured {
            mean: diameters.mean().mm(),
            count: diameters.count(),
            limits: diameters.nested.limits(),
            ends: ends(blooms)?,
        })
    }

    /// Those that the record holds.
    fn of_the_record(&self) -> Option<Measured> {
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
            limits: sample.interval_of_length(LEVEL),
            ends: ends(blooms.iter())?,
        })
    }
}

fn ends<'a>(blooms: impl Iterator<Item = &'a Exact> + Clone) -> Option<Interval> {
    Some(Interval {
        low: blooms.clone().min()?.to_f64(),
        high: blooms.max()?.to_f64(),
    })
}

impl Measured {
    /// `3 blooms measured so far: 9.7 to 9.9 cm, 3.8 to 3.9 in`.
    fn in_words(&self, units: SizeUnits) -> String {
        let blooms = match self.count {
            1 => "1 bloom".to_string(),
            count => format!("{count} blooms"),
        };
        let across = match self.ends.low < self.ends.high {
            true => width::from_to(self.ends, units),
            false => width::across(self.mean, units),
        };
        format!("{blooms} measured so far: {across}")
    }

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
