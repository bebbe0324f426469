//! What was measured of a plant as charts: days in the vase, and diameters by day.

use super::evidence::Evidence;
use super::telling::vase_in_words;
use crate::account::text::capitalised;
use crate::chart::{Limit, Points, Step, Steps};
use crate::form::RuleSet;
use crate::measure::{Length, SizeUnits};

/// How the curve of days in the vase is worked out.
const METHOD: &str = "The curve is that of Kaplan and Meier; its limits are by Greenwood's error on the log-log scale.";

impl Evidence {
    /// The share of stems still fresh by day; `None` where none was tested.
    pub fn vase_chart(&self) -> Option<Steps> {
        let curve = self.vase.as_ref()?;
        let step = |step: &super::statistics::survival::Step| Step {
            at: step.day,
            share: step.share,
            limits: step.limits.map(|limits| (limits.low, limits.high)),
        };
        let told = capitalised(&vase_in_words(curve));
        let falls = curve.steps.iter().map(|step| {
            let share = step.share * 100.0;
            format!("{share:.0} % after day {}", step.day)
        });
        let falls: Vec<String> = falls.collect();
        let fresh = self.vase_stems.iter().filter(|stem| !stem.ended);
        Some(Steps {
            title: format!("{}: stems still fresh in the vase", self.subject),
            notes: vec![format!("{told}."), METHOD.to_string()],
            across: "days".to_string(),
            up: "share still fresh".to_string(),
            steps: curve.steps.iter().map(step).collect(),
            watched: self.vase_stems.iter().map(|stem| stem.days).collect(),
            unended: fresh.map(|stem| stem.days).collect(),
            half: curve.median,
            things: "stems watched",
            unended_words: "still fresh when its test ended",
            limits_words: "95 % limits",
            shows: match falls.is_empty() {
                true => format!("{told}; no stem ended"),
                false => format!("{told}; still fresh: {}", falls.join(", ")),
            },
        })
    }

    /// Each bloom's diameter by day, with where sizes begin, in the grower's units; `None` where none
    /// was measured.
    pub fn diameter_chart(&self, rules: &RuleSet, units: SizeUnits) -> Option<Points> {
        let seen = self.diameters.as_ref()?;
        let (a_unit, name) = (units.in_mm(), units.of_blooms());
        let days: Vec<(String, Vec<f64>)> = (seen.blooms.iter())
            .map(|(day, blooms)| {
                let values = blooms.iter().map(|mm| mm.to_f64() / a_unit);
                (day.strftime("%-d %b %Y").to_string(), values.collect())
            })
            .collect();
        let limits = rules.size_words.iter().map(|(word, span)| Limit {
            at: span.low.to_f64() / a_unit,
            label: format!("{word} from {}", Length::from_mm(span.low).shown(units)),
        });
        let mean = seen.nested.limits().map(|limits| {
            let ends = [limits.low, seen.nested.mean, limits.high];
            ends.map(|mm| mm / a_unit)
        });
        let told = self.diameter_in_words(units).unwrap_or_default();
        let told = capitalised(&told);
        let by_day = days.iter().map(|(day, values)| {
            let values: Vec<String> = values.iter().map(|one| format!("{one:.2}")).collect();
            format!("{day}: {}", values.join(", "))
        });
        let by_day: Vec<String> = by_day.collect();
        Some(Points {
            title: format!("{}: diameters by day", self.subject),
            notes: vec![format!("{told}.")],
            across: format!("diameter, {name}"),
            shows: format!("{told}; {}", by_day.join("; ")),
            days,
            mean,
            mean_words: "mean, 95 %",
            dot_words: "a bloom",
            limits: limits.collect(),
            limit_words: "where a size begins",
        })
    }
}
