//! The release gate: keep, hold or cull, why, and what is still missing.
//!
//! Each check is met, missing, against, or not known and not asked for. One that is against, with its
//! whole interval beyond the grower's limit, advises to cull; none against and none missing, to keep;
//! else to hold, and each missing check says what to do. An interval that holds the limit is missing
//! and never met. A decision is the grower's own, and is kept beside the advice.

use serde::Deserialize;

use super::entry::Fate;
use super::evidence::{Evidence, EvidenceContext};
use crate::measure::SizeUnits;
use crate::problem::{Path, Problem, Wrong, read_ron};

mod checks;
mod judged;
mod made;

/// The gate as it ships.
const EMBEDDED: &str = include_str!("../../assets/release.ron");

/// The grower's gate.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Release {
    /// What must be there.
    pub least: Least,
    /// What sends it out.
    pub cull: Limits,
    /// When tubers are handled.
    pub months: Months,
}

/// What must be there.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Least {
    /// Years in which a bloom was seen.
    pub seasons: usize,
    /// Blooms measured.
    pub blooms: usize,
    /// Stems tested in the vase.
    pub stems: usize,
    /// Plants.
    pub plants: u32,
    /// How likely one form must be, 0.5 to 1.
    pub credence: f64,
    /// Tubers looked at in spring.
    pub tubers: u32,
    /// The share of them that is sound, 0 to 1.
    pub kept: f64,
    /// The distance of its colour from a named variety of its form, CIEDE2000.
    pub new: f64,
}

/// What sends it out once the whole interval lies beyond it, and lets it pass once it lies within.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Limits {
    /// Median days in the vase.
    pub vase: f64,
    /// Share of blooms damaged, 0 to 1.
    pub damage: f64,
    /// Share of tubers sound, 0 to 1.
    pub kept: f64,
}

/// When tubers are handled, months from 1 to 12.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Months {
    /// They are lifted from this month on.
    pub lift: i8,
    /// They are looked at from this month on.
    pub spring: i8,
}

/// What the gate looks at.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Gate {
    /// Its form.
    Form,
    /// Blooms measured.
    Blooms,
    /// Whether its colour is new.
    New,
    /// Days in the vase.
    Vase,
    /// Wind, rain and sun.
    Weather,
    /// Years seen.
    Seasons,
    /// Plants.
    Plants,
    /// Tubers through the winter.
    Tubers,
}

/// How a check stands.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord)]
pub enum State {
    /// Beyond the limit that sends it out.
    Against,
    /// Something is still to be done.
    Missing,
    /// Not known and nobody's fault: it is asked for by no instruction and speaks neither way.
    Unknown,
    /// There.
    Met,
}

/// One check.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Check {
    /// What was looked at.
    pub gate: Gate,
    /// How it stands.
    pub state: State,
    /// Where it is missing an instruction, where it is unknown what is not known, else what is so;
    /// no full stop at its end.
    pub told: String,
}

/// What the evidence speaks for.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Advice {
    /// Keep, hold or cull.
    pub fate: Fate,
    /// Why: what is against where it is to go, else what is met.
    pub reasons: Vec<String>,
    /// What is still to be done, one instruction each.
    pub missing: Vec<String>,
    /// What is not known and not asked for, so that it is no reason either.
    pub unknown: Vec<String>,
    /// Every check.
    pub checks: Vec<Check>,
}

impl Release {
    /// The gate that ships in the binary.
    ///
    /// # Panics
    /// Never: a test reads the embedded gate.
    pub fn embedded() -> Release {
        Release::read("release.ron", EMBEDDED).expect("the embedded gate is read by a test")
    }

    /// The gate that ships in the binary, as a file.
    pub fn embedded_file() -> &'static str {
        EMBEDDED
    }

    /// Reads the gate from RON, or says everything that is wrong with it.
    pub fn read(file: &str, text: &str) -> Result<Release, Vec<Problem>> {
        let release: Release = read_ron(file, text).map_err(|problem| vec![problem])?;
        let (least, cull, months) = (&release.least, &release.cull, &release.months);
        let share = |value: f64| ((0.0..=1.0).contains(&value), "0 to 1");
        let positive = |value: f64| ((0.0..=1000.0).contains(&value), "0 to 1000");
        let count = |value: usize| (value <= 9999, "0 to 9999");
        let month = |value: i8| ((1..=12).contains(&value), "a month from 1 to 12");
        let likely = ((0.5..=1.0).contains(&least.credence), "0.5 to 1");
        let counts = [
            ("seasons", least.seasons),
            ("blooms", least.blooms),
            ("stems", least.stems),
            ("plants", least.plants as usize),
            ("tubers", least.tubers as usize),
        ];
        let counts = counts.map(|(field, found)| ("least", field, found as f64, count(found)));
        let checks = [
            ("least", "credence", least.credence, likely),
            ("least", "kept", least.kept, share(least.kept)),
            ("least", "new", least.new, positive(least.new)),
            ("cull", "vase", cull.vase, positive(cull.vase)),
            ("cull", "damage", cull.damage, share(cull.damage)),
            ("cull", "kept", cull.kept, share(cull.kept)),
            ("months", "lift", f64::from(months.lift), month(months.lift)),
            (
                "months",
                "spring",
                f64::from(months.spring),
                month(months.spring),
            ),
        ];
        let wrong = counts
            .into_iter()
            .chain(checks)
            .filter(|(.., (fits, _))| !fits);
        let wrong = wrong.map(|(part, field, found, (_, expected))| {
            Wrong::new(
                Path::field(part).then(field),
                format!("found {found} for {field}, expected {expected}"),
            )
        });
        let problems = Problem::all(file, text, wrong.collect());
        if problems.is_empty() {
            Ok(release)
        } else {
            Err(problems)
        }
    }

    /// What the evidence speaks for, in the grower's units.
    pub fn advise(
        &self,
        evidence: &Evidence,
        under: &EvidenceContext<'_>,
        units: SizeUnits,
    ) -> Advice {
        let checks = checks::all(self, evidence, under, units);
        let of = |state: State| {
            let told = checks.iter().filter(move |check| check.state == state);
            told.map(|check| check.told.clone())
                .collect::<Vec<String>>()
        };
        let (against, missing) = (of(State::Against), of(State::Missing));
        let fate = match (against.is_empty(), missing.is_empty()) {
            (false, _) => Fate::Cull,
            (true, true) => Fate::Keep,
            (true, false) => Fate::Hold,
        };
        let reasons = match fate {
            Fate::Cull => against,
            Fate::Keep | Fate::Hold => of(State::Met),
        };
        Advice {
            fate,
            reasons,
            missing,
            unknown: of(State::Unknown),
            checks,
        }
    }
}

impl Gate {
    /// Whether the check can only be mended while the plant is in bloom.
    pub fn needs_bloom(self) -> bool {
        match self {
            Gate::Form | Gate::Blooms | Gate::New | Gate::Vase | Gate::Weather | Gate::Seasons => {
                true
            }
            Gate::Plants | Gate::Tubers => false,
        }
    }
}

#[cfg(test)]
mod direction_tests;
#[cfg(test)]
mod tests;
