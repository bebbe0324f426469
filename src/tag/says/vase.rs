//! Days in the vase, where as many stems were tested as the gate asks for.

use super::Known;
use crate::account::text::counted;
use crate::measure::days;
use crate::trial::statistics::survival::{Curve, Stem};

impl Known<'_> {
    /// The row's own test; where it has none of enough stems, a tested figure of the record. What
    /// somebody states without a count of stems is no observation and is not said.
    pub(super) fn vase(&self) -> Option<String> {
        let lasting = self.grounds.uses.lasting();
        let least = self.grounds.release.least.stems;
        let curve = self.evidence.vase.as_ref();
        if let Some(curve) = curve.filter(|curve| curve.stems >= least) {
            return vase_in_words(curve, &self.evidence.vase_stems, lasting);
        }
        let vase = self.record?.vase?;
        let stems = usize::try_from(vase.stems?.get()).ok()?;
        (stems >= least).then(|| {
            let tested = format!("{} tested", counted(stems, "stem"));
            told_of(vase.days.get(), "", &tested, lasting)
        })
    }
}

/// `good in the vase: 8 days (ground)`; only `in the vase: 5 days (ground)` of one that lasts less long
/// than `lasting`.
fn told_of(lasts: f64, over: &str, ground: &str, lasting: Option<f64>) -> String {
    let good = match lasting.is_some_and(|least| lasts >= least) {
        true => "good ",
        false => "",
    };
    format!("{good}in the vase: {over}{} ({ground})", days(lasts))
}

fn vase_in_words(curve: &Curve, stems: &[Stem], lasting: Option<f64>) -> Option<String> {
    let count = counted(curve.stems, "stem");
    if let Some(median) = curve.median {
        return Some(told_of(median, "", &format!("median of {count}"), lasting));
    }
    let fresh = fresh_by_most(stems)?;
    let ground = format!("over half of {count} still fresh then");
    Some(told_of(fresh, "over ", &ground, lasting))
}

/// The last day on which over half of the stems were seen still fresh; the last day of the test may
/// have been one stem's.
fn fresh_by_most(stems: &[Stem]) -> Option<f64> {
    let still = |day: f64| {
        let fresh = |stem: &&Stem| stem.days > day || (stem.days == day && !stem.ended);
        2 * stems.iter().filter(fresh).count() > stems.len()
    };
    let watched = stems.iter().map(|stem| stem.days);
    watched.filter(|day| still(*day)).max_by(f64::total_cmp)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_last_day_watched_of_one_stem_is_not_said_of_most() {
        let stem = |days: f64, ended: bool| Stem { days, ended };
        let mut stems = vec![stem(2.0, false); 9];
        stems.push(stem(9.0, false));
        assert_eq!(fresh_by_most(&stems), Some(2.0));
        assert_eq!(fresh_by_most(&[stem(3.0, true), stem(5.0, true)]), None);
        assert_eq!(fresh_by_most(&[stem(6.0, false)]), Some(6.0));
    }
}
