//! Measured values, a row of them for each day, over one scale with the limits that they are held
//! against.

mod cells;
mod page;

use super::scale::Scale;

/// Values by day.
#[derive(Debug, Clone, PartialEq)]
pub struct Points {
    /// What it shows.
    pub title: String,
    /// What it is from, and how it was worked out.
    pub notes: Vec<String>,
    /// What was measured, with its unit.
    pub across: String,
    /// Each day's name with its values, the earliest first.
    pub days: Vec<(String, Vec<f64>)>,
    /// The lower limit of the mean, the mean, its upper limit.
    pub mean: Option<[f64; 3]>,
    /// The decimals with which an end of the mean's range is told.
    pub places: usize,
    /// What stands before the mean.
    pub mean_words: &'static str,
    /// What a dot is.
    pub dot_words: &'static str,
    /// The limits, in any order.
    pub limits: Vec<Limit>,
    /// What a limit is.
    pub limit_words: &'static str,
    /// The limits that part two names, in any order.
    pub partings: Vec<Limit>,
    /// What such a limit is.
    pub parting_words: &'static str,
    /// All of it in words, for who cannot see it.
    pub shows: String,
}

/// A limit with its words.
#[derive(Debug, Clone, PartialEq)]
pub struct Limit {
    /// Where it is.
    pub at: f64,
    /// What it is, such as `large from 8 in`.
    pub label: String,
}

/// A mean's range is on the scale as long as it ends within so many widths of the values' own range:
/// further out, the values would be pushed into less than a tenth of the chart.
const WIDEST: f64 = 6.0;

impl Points {
    fn values(&self) -> impl Iterator<Item = f64> {
        let all = self.days.iter().flat_map(|(_, values)| values);
        all.copied().filter(|value| value.is_finite())
    }

    /// The scale: all values with a little air, and the mean's range with both its ends, but an end that
    /// is more than [`WIDEST`] widths of the values' own range off. Of that, and of limits, only what is
    /// within one width: else one that is far would push all values together. `None` where there are no
    /// values.
    fn scale(&self, steps: f64) -> Option<Scale> {
        let (low, high) = (
            self.values().reduce(f64::min)?,
            self.values().reduce(f64::max)?,
        );
        // Values all alike have no width of their own: a tenth of one, then.
        let width = (high - low).max(high.abs() / 10.0).max(f64::MIN_POSITIVE);
        let (least, most) = (low - width, high + width);
        let limits = self.limits.iter().chain(&self.partings);
        let limits = limits.map(|limit| limit.at);
        let near = limits.filter(|at| (least..=most).contains(at));
        let wide = low - WIDEST * width..=high + WIDEST * width;
        let mean = self.mean.into_iter().flatten();
        let mean = mean.map(|value| match wide.contains(&value) {
            true => value,
            false => value.clamp(least, most),
        });
        let all: Vec<f64> = self.values().chain(near).chain(mean).collect();
        let low = all.iter().copied().fold(low, f64::min);
        let high = all.iter().copied().fold(high, f64::max);
        // So that no dot and no line is on the edge.
        let air = (high - low).max(width) / 20.0;
        Some(Scale::between(low - air, high + air, steps))
    }

    /// The limits on a scale, rising, each with whether it parts two names.
    fn near(&self, scale: &Scale) -> Vec<(&Limit, bool)> {
        let limits = self.limits.iter().map(|limit| (limit, false));
        let partings = self.partings.iter().map(|limit| (limit, true));
        let mut near: Vec<(&Limit, bool)> = limits.chain(partings).collect();
        near.retain(|(limit, _)| scale.holds(limit.at));
        near.sort_by(|(one, _), (other, _)| one.at.total_cmp(&other.at));
        near
    }

    /// Whether any limit is near enough to be drawn, of those that part two names or of the others.
    fn has_limits(&self, part: bool) -> bool {
        self.scale(1.0)
            .is_some_and(|scale| self.near(&scale).iter().any(|(_, own)| *own == part))
    }

    /// An end of the mean's range that is not on the scale, told beside the arrow there.
    fn told_end(&self, end: f64) -> String {
        let places = self.places;
        format!("{end:.places$}")
    }

    /// The days in at most so many rows, the last ones each by itself and those before together.
    fn in_rows(&self, most: usize) -> Vec<(String, Vec<f64>)> {
        let together = match self.days.len() > most {
            true => self.days.len() + 1 - most.max(1),
            false => return self.days.clone(),
        };
        let (before, last) = self.days.split_at(together);
        let values = before.iter().flat_map(|(_, values)| values);
        let before = (format!("{together} days before"), values.copied().collect());
        [&[before], last].concat()
    }
}
