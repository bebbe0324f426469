//! What `order.ron` holds: season, beds, money, suppliers, needs, and what is fixed by hand.

use std::collections::HashMap;

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::means::{Bed, Terms};
use super::need::Need;
use super::season::{Season, week_of};
use crate::problem::{Problem, read_ron};
use crate::variety::{Money, Text};

/// The order to be settled.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Plan {
    /// The day on which the orders go out: what closes before it cannot be had.
    pub ordered: Date,
    /// The season.
    pub season: Season,
    /// The beds.
    pub beds: Vec<Bed>,
    /// The money; no limit where it is not said.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub money: Option<Money>,
    /// Tubers on hand that keep through the winter, of a hundred.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub storage_kept: Option<f64>,
    /// Suppliers' terms; one that is not here has none.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub suppliers: Vec<Terms>,
    /// The needs.
    pub needs: Vec<Need>,
    /// Ids of forms of which at least one plant each is to be tried.
    #[serde(default, rename = "try", skip_serializing_if = "Vec::is_empty")]
    pub tried: Vec<Text>,
    /// Quantities fixed by hand.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub fixed: Vec<Fixed>,
    /// Whether only varieties of the shortlist may be bought.
    #[serde(default)]
    pub shortlist_only: bool,
}

/// A quantity fixed by hand.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Fixed {
    /// The variety.
    pub variety: Text,
    /// The supplier.
    pub supplier: Text,
    /// Packs to buy, no more and no fewer.
    pub packs: u32,
}

/// The share kept through storage where it is not said: one selling farm's rule, 80 of a hundred.
const STORAGE_KEPT: f64 = 80.0;

impl Plan {
    /// Reads a plan from RON, or says everything that is wrong with it, each at its line.
    pub fn read(file: &str, text: &str) -> Result<Plan, Vec<Problem>> {
        let plan: Plan = read_ron(file, text).map_err(|problem| vec![problem])?;
        let problems: Vec<Problem> = (plan.wrong().into_iter())
            .map(|(near, message)| Problem::at(file, text, place(text, &near), message))
            .collect();
        if problems.is_empty() {
            Ok(plan)
        } else {
            Err(problems)
        }
    }

    /// Puts what [`super::Candidates::of`] found wrong with a plan at its lines in the text that the
    /// plan was read from: each sentence begins with the name that it is about.
    pub fn located(file: &str, text: &str, told: &[String]) -> Vec<Problem> {
        let near = |sentence: &String| {
            let about = sentence.split(": ").next().unwrap_or_default();
            let fixed = about.strip_prefix("fixed, ");
            let name = fixed.map_or(about, |fixed| fixed.split(" from ").next().unwrap_or(fixed));
            match Text::new(name) {
                Ok(name) if about != "try" => Near::Name(name),
                _ => Near::Field("try:"),
            }
        };
        told.iter()
            .map(|sentence| Problem::at(file, text, place(text, &near(sentence)), sentence.clone()))
            .collect()
    }

    /// The plan as RON.
    pub fn write(&self) -> Result<String, ron::Error> {
        let options = ron::Options::default()
            .with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME);
        let pretty = ron::ser::PrettyConfig::new().depth_limit(2).indentor("  ");
        Ok(options.to_string_pretty(self, pretty)? + "\n")
    }

    /// Tubers of a hundred on hand that keep through the winter.
    pub fn storage(&self) -> f64 {
        self.storage_kept.unwrap_or(STORAGE_KEPT)
    }

    /// Places in all beds.
    pub fn places(&self) -> u64 {
        self.beds.iter().filter_map(Bed::places).sum()
    }

    /// What is wrong with a plan that was changed, each in a sentence.
    pub fn problems(&self) -> Vec<String> {
        self.wrong().into_iter().map(|(_, told)| told).collect()
    }

    /// What is wrong, each with the text near which it stands.
    fn wrong(&self) -> Vec<(Near, String)> {
        let mut wrong: Vec<(Near, String)> = Vec::new();
        wrong.extend(
            self.season
                .wrong()
                .map(|message| (Near::Field("season"), message)),
        );
        wrong.extend(
            { self.season.wrong_count() }.map(|(name, message)| (Near::Name(name), message)),
        );
        for bed in self.beds.iter().filter(|bed| bed.places().is_none()) {
            let message = format!(
                "{}: found a bed without length, width or spacing, or with more than a million places, expected all over 0",
                bed.name
            );
            wrong.push((Near::Name(bed.name.clone()), message));
        }
        if self
            .storage_kept
            .is_some_and(|kept| !(0.0..=100.0).contains(&kept))
        {
            wrong.push((
                Near::Field("storage_kept"),
                "found a share kept in storage that is not from 0 to 100, expected it so".into(),
            ));
        }
        if self.season.planted <= self.ordered {
            wrong.push((
                Near::Field("planted:"),
                format!(
                    "found planting on {}, expected a day after {}, on which the orders go out",
                    self.season.planted, self.ordered
                ),
            ));
        }
        if self.needs.is_empty() {
            wrong.push((
                Near::Field("needs"),
                "found no needs, expected at least one".into(),
            ));
        }
        let frost = self.season.first_frost.middle();
        for need in &self.needs {
            let mut told = |message: String| {
                wrong.push((
                    Near::Name(need.name.clone()),
                    format!("{}: {message}", need.name),
                ))
            };
            if let Some(message) = need.wrong() {
                told(message);
            } else if need.weeks.1 > week_of(frost) {
                told(format!(
                    "found week {}, expected week {} at the latest: the first frost is looked for on {frost}",
                    need.weeks.1,
                    week_of(frost)
                ));
            } else if need.weeks.0 < week_of(self.season.planted) {
                told(format!(
                    "found week {}, expected week {} at the earliest: planting is on {}",
                    need.weeks.0,
                    week_of(self.season.planted),
                    self.season.planted
                ));
            }
        }
        for terms in &self.suppliers {
            if let Some(closes) = terms.closes.filter(|closes| *closes < self.ordered) {
                wrong.push((Near::Name(terms.name.clone()), format!("{}: found a supplier that closed on {closes}, expected one that takes an order on {}", terms.name, self.ordered)));
            }
        }
        for (at, fixed) in self.fixed.iter().enumerate() {
            let same =
                |one: &Fixed| (&one.variety, &one.supplier) == (&fixed.variety, &fixed.supplier);
            if self.fixed[..at].iter().any(same) {
                let message = format!(
                    "found {} from {} fixed a second time, expected one number of packs",
                    fixed.variety, fixed.supplier
                );
                wrong.push((Near::Name(fixed.variety.clone()), message));
            }
        }
        let names = [
            self.needs.iter().map(|need| &need.name).collect::<Vec<_>>(),
            self.beds.iter().map(|bed| &bed.name).collect(),
            self.suppliers.iter().map(|terms| &terms.name).collect(),
        ];
        for names in names {
            let mut seen = HashMap::new();
            for name in names {
                if seen.insert(name, ()).is_some() {
                    wrong.push((
                        Near::Name(name.clone()),
                        format!(
                            "found the name {:?} a second time, expected each name once",
                            name.as_str()
                        ),
                    ));
                }
            }
        }
        wrong
    }
}

/// What a problem stands near.
enum Near {
    /// A name that is written in quotation marks.
    Name(Text),
    /// A field.
    Field(&'static str),
}

/// Where what has a name begins (the last so named: the second of two), or where a field first
/// stands. Looked for only when something is wrong.
fn place(text: &str, near: &Near) -> usize {
    match near {
        Near::Name(name) => {
            let quoted = format!("{:?}", name.as_str());
            let own = text.rfind(&format!("name: {quoted}"));
            own.or_else(|| text.find(&quoted)).unwrap_or(0)
        }
        Near::Field(field) => text.find(field).unwrap_or(0),
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    const PLAN: &str = r#"(
  ordered: "2027-01-15",
  season: (last_frost: (date: "2027-05-14"), first_frost: (date: "2027-10-05"), planted: "2027-05-10"),
  beds: [(name: "sea wall", length: "20m", width: "1.2m", spacing: "400mm")],
  money: "450",
  suppliers: [(name: "Oar Bulbs", postage: "6.50", free_over: "150", least: "20", closes: "2027-02-28")],
  needs: [
    (name: "quay stall", stems: 60, weeks: (33, 39), use: "market-bunch", colours: ["warm"], within: 6),
    (name: "lifeboat day", stems: 45, weeks: (37, 37)),
  ],
  fixed: [(variety: "Haaf Test", supplier: "Oar Bulbs", packs: 2)],
)
"#;

    #[test]
    fn a_plan_reads_back_as_it_was_written() {
        let plan = Plan::read("order.ron", PLAN).expect("a plan");
        assert_eq!(plan.places(), 150);
        let written = plan.write().expect("writes");
        assert_eq!(Plan::read("order.ron", &written), Ok(plan), "{written}");
    }

    #[test]
    fn an_old_id_of_a_use_is_read_and_the_one_of_today_written() {
        let old = PLAN.replace("market-bunch", "tuck-in");
        let plan = Plan::read("order.ron", &old).expect("a plan");
        let written = plan.write().expect("writes");
        assert!(written.contains("use: \"filler\""), "{written}");
        assert!(!written.contains("tuck-in"), "{written}");
    }

    #[test]
    fn what_a_list_cannot_answer_is_told_with_its_line() {
        let told = [
            "lifeboat day: found the form \"balls\", expected a form of trade-inch",
            "fixed, Haaf Test from Oar Bulbs: found a variety that is not in the list",
            "try: found the form \"balls\"",
        ];
        let text = PLAN.replace("  fixed:", "  try: [\"balls\"],\n  fixed:");
        let problems = Plan::located("order.ron", &text, &told.map(String::from));
        let lines: Vec<usize> = problems.iter().map(|problem| problem.line).collect();
        assert_eq!(lines, [9, 12, 11]);
        assert!(
            problems[0].to_string().starts_with("order.ron, line 9, "),
            "{}",
            problems[0]
        );
    }

    #[test]
    fn what_cannot_be_is_told_with_its_line() {
        for (bad, line, told) in [
            (PLAN.replace("(37, 37)", "(37, 45)"), 9, "first frost"),
            (PLAN.replace("(33, 39)", "(10, 39)"), 8, "planting is on"),
            (PLAN.replace("(33, 39)", "(39, 33)"), 8, "the earlier first"),
            (PLAN.replace("\"450\"", "\"-450\""), 5, "without a sign"),
            (PLAN.replace("packs: 2", "packs: -2"), 11, "-"),
            (
                PLAN.replace("stems: 45", "stems: 0"),
                9,
                ": found 0, expected a whole number of at least 1",
            ),
            (
                PLAN.replace("(37, 37)", "(60, 62)"),
                9,
                "found week 60, expected a week of the year, 1 to 53",
            ),
            (
                PLAN.replace("planted: \"2027", "planted: \"2026"),
                3,
                "found planting on 2026-05-10, expected a day in 2027",
            ),
            (
                PLAN.replace("ordered: \"2027-01-15", "ordered: \"2027-05-15"),
                3,
                "found planting on 2027-05-10, expected a day after",
            ),
            (
                PLAN.replace("\"2027-02-28\"", "\"2027-01-02\""),
                6,
                "closed on",
            ),
            (
                PLAN.replace("lifeboat day", "quay stall"),
                9,
                "a second time",
            ),
            (
                PLAN.replace("length: \"20m\"", "length: \"0m\""),
                4,
                "a bed without",
            ),
            (
                PLAN.replace("planted: \"2027-05-10\"", "planted: \"2027-11-10\""),
                3,
                "before the first frost",
            ),
            (
                PLAN.replace("stems: 45,", "stems: 5, varieties: 3, each: 2,"),
                9,
                "found 6 stems a week kept",
            ),
            (
                PLAN.replace(
                    "stems: 45,",
                    "stems: 45, varieties: 3, each: 15, most_from_one: 30,",
                ),
                9,
                "found 15 stems a week from each",
            ),
            (
                PLAN.replace(
                    "(37, 37)",
                    "(37, 37), forms: [\"ball\"], different_forms: 2",
                ),
                9,
                "found 2 different forms of the 1",
            ),
            (
                PLAN.replace(
                    "  fixed: [",
                    "  fixed: [(variety: \"Haaf Test\", supplier: \"Oar Bulbs\", packs: 1), ",
                ),
                11,
                "a second time",
            ),
            (PLAN.replace("within: 6", "withn: 6"), 8, "withn"),
        ] {
            let problems = Plan::read("order.ron", &bad).expect_err(told);
            let first = &problems[0];
            assert!(first.to_string().contains(told), "{first}");
            assert_eq!(first.line, line, "{first}");
        }
    }
}
