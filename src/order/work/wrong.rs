//! What is wrong with an event or a round in itself, beside the season that it is in.

use super::kinds::{When, Work};
use crate::measure::bounds::{Bounds, MOST_COUNTED};
use crate::measure::day;
use crate::order::need::SURE;
use crate::order::season::Season;
use crate::problem::{Path, Wrong};

const NUMBER: Bounds<u32> = Bounds::new("of a piece", 1, MOST_COUNTED);
/// The most days that a stem is believed to be cut before it is wanted: two weeks, as long as any lasts.
pub(in crate::order) const CUT_BEFORE: Bounds<u8> = Bounds::new("days", 0, 14);
const WITHIN: Bounds<f64> = Bounds::new("as a distance in colour", 0.0, 200.0);

impl Work {
    /// The first thing that is wrong with it, at its field.
    pub(in crate::order) fn wrong(&self, season: &Season) -> Option<Wrong> {
        let wrong = |field, told: String| Some(Wrong::new(Path::field(field), told));
        let mut numbers = self.pieces.iter().map(|count| NUMBER.wrong(count.0.get()));
        if self.pieces.is_empty() {
            wrong(
                "pieces",
                "found no pieces, expected one at least, such as 12 table bowl".into(),
            )
        } else if let Some(at) = numbers.clone().position(|told| told.is_some()) {
            let told = numbers.nth(at).flatten().unwrap_or_default();
            Some(Wrong::new(Path::field("pieces").nth(at).nth(0), told))
        } else if let Some(told) = self.within.and_then(|within| WITHIN.wrong(within)) {
            wrong("within", told)
        } else if self.within.is_some() && self.colours.is_empty() {
            let told = "found a distance without a colour, expected the colours that it is from";
            wrong("within", told.into())
        } else if let Some(told) = self.sure.and_then(|sure| SURE.wrong(sure)) {
            wrong("sure", told)
        } else if let Some(told) = self.cut_before.and_then(|days| CUT_BEFORE.wrong(days)) {
            wrong("cut_before", told)
        } else {
            self.wrong_days(season)
        }
    }

    /// Days of another year, before planting or behind the frost. Whether there is a cut before the frost
    /// is asked where the days of the cut are known.
    fn wrong_days(&self, season: &Season) -> Option<Wrong> {
        let wrong = |of_last, told| {
            let field = self.when.field(of_last);
            Some(Wrong::new(Path::field(field), told))
        };
        let Some((first, last)) = self.when.ends() else {
            let told = match self.when {
                When::Every { from, to, .. } if from > to => {
                    format!("found a round from {from} to {to}, expected the earlier day first")
                }
                _ => "found a round without any of its days, expected one at least".to_string(),
            };
            return wrong(true, told);
        };
        let frost = season.first_frost.middle();
        if first < season.planted {
            let planted = season.planted;
            return wrong(
                false,
                format!("found {first}, expected a day after planting, which is on {planted}"),
            );
        }
        // The days between the cut and the event are the only ones that may lie behind the frost.
        let most = day::later(frost, i64::from(CUT_BEFORE.to()));
        (last > most).then(|| {
            let told = format!(
                "found {last}, expected a day before the first frost, which is looked for on {frost}"
            );
            Wrong::new(Path::field(self.when.field(true)), told)
        })
    }
}
