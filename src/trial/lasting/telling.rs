//! Which plant lasts longer, in words: the same in the command and on the screen.

use super::{Lasting, Pair, Tests, Verdict};
use crate::form::Keyer;
use crate::measure::SizeUnits;
use crate::trial::statistics::more_stems::MOST;
use crate::trial::statistics::permutation::Basis;
use crate::trial::{Evidence, Subject};
use crate::variety::FormNote;

/// One thing of each plant, side by side.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Beside {
    /// What it is about, in a word or two.
    pub about: &'static str,
    /// Each plant's figures; `None` where nothing was looked at.
    pub values: Vec<Option<String>>,
}

/// What stands beside the vase tests, in this order.
const COMPARED: [&str; 6] = ["vase", "form", "diameter", "weather", "stem", "cut"];

/// The plants' figures side by side; what was looked at of none is left out. `listed` is the form that
/// the grower's list has for a plant.
pub fn beside<'a>(
    evidence: &[&Evidence],
    listed: impl Fn(&Subject) -> Option<&'a FormNote>,
    keyer: &Keyer,
    units: SizeUnits,
) -> Vec<Beside> {
    let told = evidence
        .iter()
        .map(|one| one.lines(keyer, listed(&one.subject), units));
    let told: Vec<_> = told.collect();
    let of = |about: &'static str| {
        let values = told.iter().map(|lines| {
            let lines = lines.iter().filter(|line| line.about == about);
            let texts: Vec<&str> = lines.map(|line| line.text.as_str()).collect();
            (!texts.is_empty()).then(|| texts.join("; "))
        });
        Beside {
            about,
            values: values.collect(),
        }
    };
    let all = COMPARED.into_iter().map(of);
    all.filter(|one| one.values.iter().any(Option::is_some))
        .collect()
}

impl Lasting {
    /// A sentence for each pair, the clearest first, then one on all plants together, and what to be
    /// careful about.
    pub fn sentences(&self) -> Vec<String> {
        let mut pairs: Vec<&Pair> = self.pairs.iter().collect();
        pairs.sort_by(|a, b| {
            let p = |pair: &Pair| pair.adjusted.unwrap_or(2.0);
            p(a).total_cmp(&p(b))
        });
        let mut told: Vec<String> = pairs.iter().map(|pair| self.pair_sentence(pair)).collect();
        if let Some(all) = &self.all {
            told.push(format!("All of them at once: {}.", tests_in_words(all)));
        }
        told.extend(self.cautions());
        told
    }

    /// Why the figures should be read with care.
    pub fn cautions(&self) -> Vec<String> {
        let mut cautions = Vec::new();
        let name = |at: usize| self.plants[at].subject.to_string();
        for (at, plant) in self.plants.iter().enumerate() {
            match plant.days {
                0 => cautions.push(format!("{} has no vase test yet.", name(at))),
                1 => cautions.push(format!(
                    "All stems of {} are of one day, and so are alike: test it on another day \
                     before you rely on this.",
                    name(at)
                )),
                _ => {}
            }
        }
        cautions
    }

    /// What can be said of a pair, in a sentence or two.
    pub fn pair_sentence(&self, pair: &Pair) -> String {
        let name = |at: usize| &self.plants[at].subject;
        let [one, other] = pair.plants;
        let (Some(tests), Some(adjusted)) = (&pair.tests, pair.adjusted) else {
            return format!(
                "{} and {} cannot be compared: no stem of one ended while the other was watched.",
                name(one),
                name(other)
            );
        };
        let mut p = tests_in_words(tests);
        if self.pairs.len() > 1 {
            p += &format!(
                "; {} by Holm's rule for {} pairs",
                p_in_words(adjusted),
                self.pairs.len()
            );
        }
        match pair.verdict {
            Verdict::Longer(longer) => {
                let shorter = if longer == one { other } else { one };
                format!("{} lasts longer than {}: {p}.", name(longer), name(shorter))
            }
            Verdict::NotTold(more) => {
                let more = match more {
                    Some(more) => format!(
                        "If they differ as these stems do, {more} more of each would tell, four \
                         times in five."
                    ),
                    None => format!(
                        "More stems would not settle it soon: it would take over {MOST} more of each."
                    ),
                };
                format!(
                    "No difference can be told between {} and {}: {p}. {more}",
                    name(one),
                    name(other)
                )
            }
            Verdict::TooFew(least) => format!(
                "Too few stems to tell {} from {}, however they last: {p}. It takes at least \
                 {least} of each.",
                name(one),
                name(other)
            ),
            Verdict::Nothing => String::new(),
        }
    }
}

/// `p = 0.0031 by all 12870 arrangements of the stems (log-rank chi-square: p = 0.0025)`.
fn tests_in_words(tests: &Tests) -> String {
    let how = match tests.permutation.basis {
        Basis::Exact { arrangements, .. } if arrangements < 1e6 => {
            format!("by all {arrangements:.0} arrangements of the stems")
        }
        Basis::Exact { .. } => "by all arrangements of the stems".to_string(),
        Basis::Drawn { error } => format!(
            "by drawn arrangements of the stems, give or take {}",
            rounded(2.0 * error)
        ),
    };
    format!(
        "{} {how} (log-rank chi-square: {})",
        p_in_words(tests.permutation.p),
        p_in_words(tests.log_rank.p)
    )
}

/// `p = 0.034`, `p < 0.001`.
fn p_in_words(p: f64) -> String {
    match p {
        p if p < 0.001 => "p < 0.001".to_string(),
        p => format!("p = {}", rounded(p)),
    }
}

/// Two digits that count, and no more than four after the point.
fn rounded(p: f64) -> String {
    match p {
        p if p >= 0.1 => format!("{p:.2}"),
        p if p >= 0.01 => format!("{p:.3}"),
        p => format!("{p:.4}"),
    }
}
