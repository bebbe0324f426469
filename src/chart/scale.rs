//! A scale: from which value to which, and the round values that stand along it.

/// A scale between two values.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Scale {
    /// The value at its beginning.
    pub low: f64,
    /// The value at its end; more than at its beginning.
    pub high: f64,
    /// From one round value to the next.
    step: f64,
}

/// No scale has more round values than these: more could not be told apart.
const MOST_TICKS: usize = 100;

impl Scale {
    /// From nothing to the first round value that is no less than `most`, in at most about so many
    /// steps of whole numbers: for what is counted.
    pub fn up_to(most: f64, steps: f64) -> Scale {
        let most = if most.is_finite() { most.max(1.0) } else { 1.0 };
        let step = round_step((most / steps).max(1.0));
        Scale {
            low: 0.0,
            high: (most / step).ceil() * step,
            step,
        }
    }

    /// From `low` to `high`, with at most about so many steps between.
    pub fn between(low: f64, high: f64, steps: f64) -> Scale {
        let width = (high - low).max(f64::MIN_POSITIVE);
        Scale {
            low,
            high: high.max(low + width),
            step: round_step(width / steps),
        }
    }

    /// From nothing to one past the last of whole days, or of whatever is counted one by one, in at most
    /// about so many steps of whole numbers: so that what is on the last stands within.
    pub fn past(last: f64, steps: f64) -> Scale {
        let last = if last.is_finite() { last.max(0.0) } else { 0.0 };
        let high = last.ceil() + 1.0;
        Scale {
            low: 0.0,
            high,
            step: round_step((high / steps).max(1.0)),
        }
    }

    /// How far along the scale a value lies, 0 at its beginning and 1 at its end; what lies beyond an
    /// end stands there.
    pub fn share(&self, value: f64) -> f64 {
        let share = (value - self.low) / (self.high - self.low);
        if share.is_nan() {
            0.0
        } else {
            share.clamp(0.0, 1.0)
        }
    }

    /// In which of so many cells a value lies, the first end in the first and the other in the last.
    pub fn cell(&self, value: f64, cells: usize) -> usize {
        let last = cells.saturating_sub(1);
        (self.share(value) * last as f64).round() as usize
    }

    /// Whether a value is on it.
    pub fn holds(&self, value: f64) -> bool {
        (self.low..=self.high).contains(&value)
    }

    /// Its round values, rising, none beyond its ends.
    pub fn ticks(&self) -> impl Iterator<Item = f64> + use<> {
        let Scale { low, high, step } = *self;
        // A hair of slack: an end that is a round value is one of them.
        let slack = step * 1e-9;
        let first = ((low - slack) / step).ceil();
        let last = ((high + slack) / step).floor();
        let count = (last - first).clamp(-1.0, MOST_TICKS as f64) + 1.0;
        (0..count as usize).map(move |at| (first + at as f64) * step)
    }

    /// A round value with as many decimals as its step has.
    pub fn told(&self, tick: f64) -> String {
        let places = (-self.step.log10().floor()).clamp(0.0, 9.0) as usize;
        // Zero has no sign.
        format!("{:.places$}", tick + 0.0)
    }
}

/// The least round step (1, 2 or 5 and noughts) that is no less than this.
fn round_step(raw: f64) -> f64 {
    let raw = if raw.is_finite() && raw > 0.0 {
        raw
    } else {
        1.0
    };
    let tens = 10_f64.powf(raw.log10().floor());
    let round = [1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .find(|one| one * tens >= raw * (1.0 - 1e-9));
    round.unwrap_or(10.0) * tens
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    #[test]
    fn steps_are_round_and_few() {
        for (most, told) in [
            (1.0, &["0", "1"][..]),
            (4.0, &["0", "1", "2", "3", "4"]),
            (23.0, &["0", "5", "10", "15", "20", "25"]),
            (358.0, &["0", "100", "200", "300", "400"]),
            (1000.0, &["0", "200", "400", "600", "800", "1000"]),
        ] {
            let scale = Scale::up_to(most, 5.0);
            let ticks: Vec<String> = scale.ticks().map(|tick| scale.told(tick)).collect();
            assert_eq!(ticks, told, "{most}");
        }
        let inches = Scale::between(2.31, 3.52, 5.0);
        let ticks: Vec<String> = inches.ticks().map(|tick| inches.told(tick)).collect();
        assert_eq!(ticks, ["2.5", "3.0", "3.5"]);
    }

    #[test]
    fn days_are_whole_and_the_last_stands_within() {
        for (last, steps, told) in [
            (2.0, 20.0, &["0", "1", "2", "3"][..]),
            (7.0, 20.0, &["0", "1", "2", "3", "4", "5", "6", "7", "8"]),
            (12.5, 4.0, &["0", "5", "10"]),
        ] {
            let scale = Scale::past(last, steps);
            let ticks: Vec<String> = scale.ticks().map(|tick| scale.told(tick)).collect();
            assert_eq!(ticks, told, "{last}");
            assert!(scale.high >= last + 1.0);
        }
    }

    proptest! {
        #[test]
        fn a_scale_holds_its_ends_and_every_round_value(low in -1e6..1e6, width in 0.0..1e6, steps in 1.0..12.0) {
            let scale = Scale::between(low, low + width, steps);
            prop_assert!(scale.holds(low) && scale.holds(low + width));
            prop_assert!((scale.share(low), scale.share(scale.high)) == (0.0, 1.0));
            let slack = scale.step * 1e-6;
            prop_assert!(scale.ticks().all(|tick| low - slack <= tick && tick <= scale.high + slack));
            prop_assert!(scale.ticks().count() <= steps as usize + 2);
            let counts = Scale::up_to(width, steps);
            prop_assert!(counts.holds(width) && counts.ticks().count() >= 2);
        }

        #[test]
        fn no_number_makes_a_scale_fail(low in any::<f64>(), high in any::<f64>(), value in any::<f64>()) {
            for scale in [Scale::up_to(high, 5.0), Scale::between(low, high, 5.0)] {
                prop_assert!((0.0..=1.0).contains(&scale.share(value)));
                prop_assert!(scale.cell(value, 7) < 7);
                prop_assert!(scale.ticks().count() <= MOST_TICKS + 1);
            }
        }
    }
}
