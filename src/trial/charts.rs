//! What was measured of a plant as charts: days in the vase, and diameters by day.

use super::evidence::{Evidence, ends, places};
use super::statistics::survival::{Caution, Curve};
use super::telling::{median_limits_in_words, stems_in_words};
use crate::account::text::capitalised;
use crate::chart::{Limit, Points, Step, Steps};
use crate::form::RuleSet;
use crate::form::limits::Close;
use crate::measure::{Exact, Length, SizeUnits, days};

/// Of fewer stems than this no band of limits is drawn: it would be nearly as high as the chart and
/// tell nothing. Assumed.
const LEAST_FOR_A_BAND: usize = 5;

impl Evidence {
    /// The share of stems still fresh by day, beside the days that the grower wants half of them to
    /// outlast (none at 0); `None` where none was tested.
    pub fn vase_chart(&self, wanted: f64) -> Option<Steps> {
        let curve = self.vase.as_ref()?;
        let has_band = curve.stems >= LEAST_FOR_A_BAND;
        let step = |step: &super::statistics::survival::Step| Step {
            at: step.day,
            share: step.share,
            limits: step
                .limits
                .filter(|_| has_band)
                .map(|limits| (limits.low, limits.high)),
        };
        let told = half_in_words(curve);
        let falls = curve.steps.iter().map(|step| {
            let share = step.share * 100.0;
            format!("{share:.0} % after day {}", step.day)
        });
        let falls: Vec<String> = falls.collect();
        let fresh = self.vase_stems.iter().filter(|stem| !stem.ended);
        Some(Steps {
            title: format!("{}: stems still fresh in the vase", self.subject),
            notes: vec![format!("{told}.")],
            across: "days".to_string(),
            up: "share still fresh".to_string(),
            steps: curve.steps.iter().map(step).collect(),
            watched: self.vase_stems.iter().map(|stem| stem.days).collect(),
            unended: fresh.map(|stem| stem.days).collect(),
            half: curve.median,
            things: "stems watched",
            unended_words: "still fresh when its test ended",
            limits_words: "where the share lies (95 %)",
            wanted: (wanted > 0.0).then(|| Limit {
                at: wanted,
                label: format!("your limit: half should last over {}", days(wanted)),
            }),
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
            let [low, high] = ends(limits, units);
            [low, seen.nested.mean / a_unit, high]
        });
        let partings = self
            .partings(rules)
            .into_iter()
            .map(|(mm, [below, above])| {
                let [below, above] = [below, above].map(|form| &rules.forms[form].name);
                Limit {
                    at: mm.to_f64() / a_unit,
                    label: format!("{below} | {above}: {}", Length::from_mm(mm).shown(units)),
                }
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
            places: places(units),
            mean_words: "mean, 95 %",
            dot_words: "a bloom",
            limits: limits.collect(),
            limit_words: "where a size begins",
            partings: partings.collect(),
            parting_words: "between two forms",
        })
    }

    /// The diameters, mm, that part two forms here, each with the form below it and the one above:
    /// what the answers come near, and where the likeliest form's own shape changes its name.
    fn partings(&self, rules: &RuleSet) -> Vec<(Exact, [usize; 2])> {
        if self.form.days == 0 {
            // No look at its shape: any two forms could be meant.
            return Vec::new();
        }
        let is_diameter = |close: &&Close| rules.traits.get(close.index).id == "diameter";
        let close = self.form.close.iter().filter(is_diameter);
        let mut all: Vec<(Exact, [usize; 2])> =
            close.map(|close| (close.limit, close.forms)).collect();
        let leading = self.form.leading();
        let shape = leading.map(|likely| rules.forms[likely.form].shape);
        let own = |form: &usize| Some(rules.forms[*form].shape) == shape;
        let own: Vec<usize> = (0..rules.forms.len()).filter(own).collect();
        let diameter = |form: usize| rules.forms[form].diameter;
        for below in &own {
            let above = own
                .iter()
                .find(|above| diameter(**above).low == diameter(*below).high);
            all.extend(above.map(|above| (diameter(*above).low, [*below, *above])));
        }
        all.sort_by_key(|(at, _)| *at);
        // What the answers come near stands first of what is at one place.
        all.dedup_by_key(|(at, _)| *at);
        all
    }
}

/// `Half of the stems last 8 days or more (95 %: 7 to 9); 12 stems, 4 of them still fresh at the end`.
fn half_in_words(curve: &Curve) -> String {
    let limits = median_limits_in_words(curve);
    let half = match curve.median {
        Some(median) => format!("Half of the stems last {} or more{limits}", days(median)),
        None => format!(
            "Over half of the stems outlast the {} of the test",
            days(curve.watched)
        ),
    };
    let caution = match curve.caution() {
        None => "",
        Some(Caution::FewEnded(_)) => {
            "; so few of them ended that how long half last is not yet known closely"
        }
        Some(Caution::MostlyFresh { .. }) => {
            "; most outlasted the test, so how long half last is known roughly"
        }
        Some(Caution::FewStems(_)) => "; few stems, so how long half last is known roughly",
    };
    format!("{half}; {}{caution}", stems_in_words(curve))
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::trial::evidence::tests::{BALL, Bench};

    #[test]
    fn the_limit_between_two_forms_and_the_whole_range_are_on_the_diameters() {
        let bench = Bench::new();
        let one_day = format!("date=2026-09-10 {BALL} diameter=86mm,80mm");
        let evidence = bench.evidence(&[&one_day]);
        let chart = evidence.diameter_chart(&bench.keyer.set, SizeUnits::In);
        let chart = chart.expect("a chart");
        let [low, _, high] = chart.mean.expect("a range");
        // What is drawn is what is told, with as many decimals at both ends.
        let told = format!("95 %: {low:.2} to {high:.2} in");
        assert!(chart.notes[0].contains(&told), "{told}: {:?}", chart.notes);
        let limit = "miniature ball | ball: 3.5 in";
        assert!(
            chart
                .partings
                .iter()
                .any(|one| one.label == limit && (one.at - 3.5).abs() < 1e-9),
            "{:?}",
            chart.partings
        );
    }

    #[test]
    fn a_range_has_as_many_decimals_at_both_ends() {
        let limits = crate::measure::sample::Interval {
            low: 3.1 * 25.4 + 1e-6,
            high: 3.2104 * 25.4,
        };
        assert_eq!(
            super::super::evidence::range(limits, SizeUnits::In),
            "3.10 to 3.22 in"
        );
    }

    #[test]
    fn the_vase_chart_speaks_to_a_grower() {
        let bench = Bench::new();
        let chart = |vase: &str| {
            let evidence = bench.evidence(&[&format!("date=2026-08-02 vase={vase}")]);
            evidence.vase_chart(3.5).expect("a chart")
        };
        let many = chart("7,8,8,9,6,7,9+,9+,8,7,7");
        assert!(
            many.notes[0].starts_with("Half of the stems last 8 days or more (95 %: 7 to "),
            "{:?}",
            many.notes
        );
        assert!(!format!("{many:?}").contains("Kaplan"));
        assert!(many.wanted.is_some_and(|wanted| wanted.at == 3.5));
        assert!(many.steps.iter().any(|step| step.limits.is_some()));
        // A band of 1 to 91 % tells nothing.
        let few = chart("7,8");
        assert!(few.steps.iter().all(|step| step.limits.is_none()));
    }
}
