//! What it is good for: by its own evidence, or as is expected of its form and said so; and the
//! cautions that this calls for.

use super::{ClaimSources, Known};
use crate::variety::{FitBasis, Known as Fitting, Use};

/// Uses and cautions.
pub(super) struct Claimed {
    /// `a cut flower for bunches, stands wind and rain; expected of its form: small enough to wear`.
    pub told: Option<String>,
    /// One sentence after the other.
    pub cautions: Option<String>,
}

impl Known<'_> {
    /// The uses that it fits, the fittest first.
    pub(super) fn uses(&self) -> Claimed {
        let ClaimSources {
            under,
            uses,
            practice,
            release,
            ..
        } = self.grounds;
        let set = &under.keyer.set;
        let fitting = Fitting::of(&self.variety, set, uses);
        let enough = release.enough(&self.variety.weather, practice.observed);
        let visits = self.evidence.visits.as_ref();
        let visited = visits.is_some_and(|visits| visits.count as usize >= enough.blooms);
        let mut fits: Vec<(&Use, f64, FitBasis)> = uses
            .list()
            .iter()
            .filter_map(|one| {
                let fitness = fitting.fitness(one).filter(|fit| *fit >= practice.floor)?;
                // Whoever saw visitors come knows more than a form tells.
                let came = visited && one.visited.is_some();
                let ground = match came {
                    true => FitBasis::Own,
                    false => fitting.ground(one, &enough)?,
                };
                Some((one, fitness, ground))
            })
            .collect();
        // Stable, so that uses that fit alike stay in the order of their table.
        fits.sort_by(|a, b| b.1.total_cmp(&a.1));
        let of = |ground: FitBasis| -> Vec<&Use> {
            let own = fits.iter().filter(|(.., own)| *own == ground);
            own.map(|(one, ..)| *one).take(practice.most_uses).collect()
        };
        let (own, expected) = (of(FitBasis::Own), of(FitBasis::Expected));
        let names = |uses: &[&Use]| {
            let told = uses.iter().map(|one| one.to_a_buyer(visited));
            told.collect::<Vec<_>>().join(", ")
        };
        let mut told = Vec::new();
        if !own.is_empty() {
            told.push(names(&own));
        }
        if !expected.is_empty() {
            told.push(format!("expected of its form: {}", names(&expected)));
        }
        let claimed = own.iter().chain(&expected);
        let cautions = claimed.filter_map(|one| one.caution.as_deref());
        let cautions = sentences(cautions, &practice.handling);
        Claimed {
            told: (!told.is_empty()).then(|| told.join("; ")),
            cautions: (!cautions.is_empty()).then(|| cautions.join(" ")),
        }
    }
}

/// Every sentence once, in order, but for those that `said` has.
pub(super) fn sentences<'a>(texts: impl Iterator<Item = &'a str>, said: &str) -> Vec<String> {
    let mut told: Vec<String> = Vec::new();
    for sentence in texts.flat_map(|text| text.split_inclusive(". ")) {
        let sentence = sentence.trim();
        if !said.contains(sentence) && !told.iter().any(|known| known == sentence) {
            told.push(sentence.to_string());
        }
    }
    told
}
