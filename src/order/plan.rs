//! What `order.ron` holds: season, beds, money, suppliers, needs, and what is fixed by hand.

use std::collections::HashSet;

use jiff::civil::Date;
use serde::{Deserialize, Serialize};

use super::bed::Bed;
use super::need::Need;
use super::season::{Season, week_of};
use super::terms::Terms;
use super::work::{CUT_BEFORE, Work};
use crate::measure::bounds::{Bounds, MOST_COUNTED};
use crate::problem::{Path, Problem, Wrong, read_ron, told};
use crate::variety::{Money, StoreCount, Text};

/// The order to be settled.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Plan {
    /// The day on which the orders go out: what closes before it cannot be had.
    #[serde(deserialize_with = "crate::measure::day::in_file")]
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
    /// Events and rounds, told as pieces of flowers.
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub work: Vec<Work>,
    /// Days that stems are cut before they are wanted, where an event or a round does not say.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub cut_before: Option<u8>,
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
/// Days between cut and work where they are not said: cut in the cool of one day, in water overnight, made
/// up the next. Assumed.
const DAYS_BEFORE: u8 = 2;
const PACKS: Bounds<u32> = Bounds::new("packs", 0, MOST_COUNTED);

impl Plan {
    /// Reads a plan from RON, or says everything that is wrong with it, each at its line.
    pub fn read(file: &str, text: &str) -> Result<Plan, Vec<Problem>> {
        let plan: Plan = read_ron(file, text).map_err(|problem| vec![problem])?;
        let problems = Problem::all(file, text, plan.wrong());
        if problems.is_empty() {
            Ok(plan)
        } else {
            Err(problems)
        }
    }

    /// What goes by a variety's name, case and accents apart, as a clause.
    pub fn naming(&self, name: &str) -> Option<String> {
        let wanted = crate::variety::folded(name);
        let mut fixed = self.fixed.iter();
        let is_named = fixed.any(|fixed| crate::variety::folded(&fixed.variety) == wanted);
        is_named.then(|| "the tubers that are fixed in the order".to_string())
    }

    /// The plan as RON.
    pub fn write(&self) -> Result<String, ron::Error> {
        let options = ron::Options::default()
            .with_default_extension(ron::extensions::Extensions::IMPLICIT_SOME);
        let pretty = ron::ser::PrettyConfig::new().depth_limit(2).indentor("  ");
        Ok(options.to_string_pretty(&self.as_written(), pretty)? + "\n")
    }

    /// The plan without the needs that were worked out of its events and rounds.
    pub fn as_written(&self) -> Plan {
        let mut plan = self.clone();
        plan.needs.retain(|need| need.of_work.is_none());
        plan
    }

    /// Days that stems are cut before they are wanted, where an event or a round does not say.
    pub fn days_before(&self) -> u8 {
        self.cut_before.unwrap_or(DAYS_BEFORE)
    }

    /// Tubers of a hundred on hand that keep through the winter.
    pub fn storage(&self) -> f64 {
        self.storage_kept.unwrap_or(STORAGE_KEPT)
    }

    /// Tubers of a hundred of a variety on hand that keep through the winter: by the stock book where
    /// that tells, else as the plan says.
    pub fn keeps(&self, store: Option<&StoreCount>) -> f64 {
        let told = store.and_then(|store| store.keeps);
        told.map_or(self.storage(), |keeps| keeps * 100.0)
    }

    /// Places in all beds.
    pub fn places(&self) -> u64 {
        self.beds.iter().filter_map(Bed::places).sum()
    }

    /// What is wrong with a plan that was changed, each in a sentence.
    pub fn problems(&self) -> Vec<String> {
        let wrong = self.wrong();
        wrong.iter().map(|one| told(&one.message)).collect()
    }

    /// What is wrong, each with its place in the plan.
    pub fn wrong(&self) -> Vec<Wrong> {
        let mut wrong: Vec<Wrong> = Vec::new();
        let season = self.season.wrong().into_iter();
        wrong.extend(season.map(|one| one.within(Path::field("season"))));
        wrong.extend(self.wrong_beds());
        if self
            .storage_kept
            .is_some_and(|kept| !(0.0..=100.0).contains(&kept))
        {
            wrong.push(Wrong::new(
                Path::field("storage_kept"),
                "found a share kept in storage that is not from 0 to 100, expected it so",
            ));
        }
        if self.season.planted <= self.ordered {
            wrong.push(Wrong::new(
                Path::field("season").then("planted"),
                format!(
                    "found planting on {}, expected a day after {}, on which the orders go out",
                    self.season.planted, self.ordered
                ),
            ));
        }
        if self.needs.is_empty() && self.work.is_empty() {
            wrong.push(Wrong::new(
                Path::field("needs"),
                "found no needs, expected at least one",
            ));
        }
        wrong.extend(self.wrong_needs());
        wrong.extend(self.wrong_work());
        wrong.extend(self.wrong_suppliers());
        wrong.extend(self.fixed_beyond());
        wrong.extend(self.fixed_again());
        let needs = self.needs.iter().map(|need| &need.name);
        wrong.extend(named_again("needs", needs));
        wrong.extend(named_again("work", self.work.iter().map(|work| &work.name)));
        wrong.extend(named_again("beds", self.beds.iter().map(|bed| &bed.name)));
        let suppliers = self.suppliers.iter().map(|terms| &terms.name);
        wrong.extend(named_again("suppliers", suppliers));
        wrong
    }

    fn wrong_beds(&self) -> impl Iterator<Item = Wrong> {
        let beds = self.beds.iter().enumerate();
        let senseless = beds.clone().filter(|(_, bed)| bed.places().is_none()).map(|(at, bed)| {
            let message = format!(
                "{}: found a bed without length, width or spacing, or with more than a million places, expected all over 0",
                bed.name
            );
            let place = Path::field("beds").nth(at);
            Wrong::new(bed.lacking().map_or(place.clone(), |field| place.then(field)), message)
        });
        let beyond = beds.filter_map(|(at, bed)| {
            let (field, message) = bed.out_of_bounds().filter(|_| bed.places().is_some())?;
            let place = Path::field("beds").nth(at).then(field);
            Some(Wrong::new(place, format!("{}: {message}", bed.name)))
        });
        senseless.chain(beyond)
    }

    fn wrong_needs(&self) -> impl Iterator<Item = Wrong> {
        let frost = self.season.first_frost.middle();
        let (first, last) = (week_of(self.season.planted), week_of(frost));
        let wrong = move |need: &Need| {
            let weeks = Path::field("weeks");
            if let Some(wrong) = need.wrong() {
                Some(wrong)
            } else if need.weeks.1 > last {
                Some(Wrong::new(
                    weeks.nth(1),
                    format!(
                        "found week {}, expected week {last} at the latest: the first frost is looked for on {frost}",
                        need.weeks.1
                    ),
                ))
            } else if need.weeks.0 < first {
                Some(Wrong::new(
                    weeks.nth(0),
                    format!(
                        "found week {}, expected week {first} at the earliest: planting is on {}",
                        need.weeks.0, self.season.planted
                    ),
                ))
            } else {
                None
            }
        };
        let needs = self.needs.iter().enumerate();
        needs.filter_map(move |(at, need)| {
            let mut wrong = wrong(need)?.within(Path::field("needs").nth(at));
            wrong.message = format!("{}: {}", need.name, wrong.message);
            Some(wrong)
        })
    }

    fn wrong_work(&self) -> impl Iterator<Item = Wrong> {
        let work = self.work.iter().enumerate();
        let names: HashSet<&Text> = self.needs.iter().map(|need| &need.name).collect();
        let own = work.filter_map(move |(at, work)| {
            let mut wrong = work.wrong(&self.season);
            if names.contains(&work.name) {
                let told = format!(
                    "found the name of a need, expected another for the {}",
                    work.kind()
                );
                wrong = wrong.or(Some(Wrong::new(Path::field("name"), told)));
            }
            let mut wrong = wrong?.within(Path::field("work").nth(at));
            wrong.message = format!("{}: {}", work.name, wrong.message);
            Some(wrong)
        });
        let days = self.cut_before.and_then(|days| CUT_BEFORE.wrong(days));
        own.chain(days.map(|told| Wrong::new(Path::field("cut_before"), told)))
    }

    fn wrong_suppliers(&self) -> impl Iterator<Item = Wrong> {
        let suppliers = self.suppliers.iter().enumerate();
        suppliers.filter_map(|(at, terms)| {
            let closes = terms.closes.filter(|closes| *closes < self.ordered)?;
            Some(Wrong::new(
                Path::field("suppliers").nth(at).then("closes"),
                format!(
                    "{}: found a supplier that closed on {closes}, expected one that takes an order on {}",
                    terms.name, self.ordered
                ),
            ))
        })
    }

    fn fixed_beyond(&self) -> impl Iterator<Item = Wrong> {
        self.fixed.iter().enumerate().filter_map(|(at, fixed)| {
            let message = PACKS.wrong(fixed.packs)?;
            let place = Path::field("fixed").nth(at).then("packs");
            Some(Wrong::new(place, format!("{}: {message}", fixed.variety)))
        })
    }

    fn fixed_again(&self) -> impl Iterator<Item = Wrong> {
        let again = |at: usize, fixed: &Fixed| {
            let same =
                |one: &Fixed| (&one.variety, &one.supplier) == (&fixed.variety, &fixed.supplier);
            self.fixed[..at].iter().any(same)
        };
        let fixed = self.fixed.iter().enumerate();
        fixed
            .filter(move |(at, fixed)| again(*at, fixed))
            .map(|(at, fixed)| {
                Wrong::new(
                    Path::field("fixed").nth(at).then("variety"),
                    format!(
                        "found {} from {} fixed a second time, expected one number of packs",
                        fixed.variety, fixed.supplier
                    ),
                )
            })
    }
}

/// Each name of a list of records that was there before.
fn named_again<'a>(
    list: &'static str,
    names: impl Iterator<Item = &'a Text>,
) -> impl Iterator<Item = Wrong> {
    let mut seen = HashSet::new();
    let again = names
        .enumerate()
        .filter(move |(_, name)| !seen.insert(*name));
    again.map(move |(at, name)| {
        Wrong::new(
            Path::field(list).nth(at).then("name"),
            format!(
                "found the name {:?} a second time, expected each name once",
                name.as_str()
            ),
        )
    })
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
