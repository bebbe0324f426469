//! What a change of rule set means for the row: which plants have another form under it.

use super::{EvidenceContext, Fate, Subject, Trial};
use crate::form::Likely;

/// A plant of the row whose likeliest form has another name under the second rule set.
#[derive(Debug, Clone, PartialEq)]
pub struct Renamed {
    /// Which plant.
    pub subject: Subject,
    /// Its likeliest form under the first set, by all looks.
    pub from: Likely,
    /// The same under the second.
    pub to: Likely,
}

impl Trial {
    /// The plants whose likeliest form changes its id from one rule set to another, by everything
    /// seen of them. One that was culled, or of which no bloom was looked at, is left out.
    pub fn renamed(
        &self,
        first: &EvidenceContext<'_>,
        second: &EvidenceContext<'_>,
    ) -> Vec<Renamed> {
        let culled = |subject: &Subject| {
            let decision = self.decision(subject);
            decision.is_some_and(|(_, decision)| decision.fate == Fate::Cull)
        };
        let mut subjects = self.subjects();
        subjects.retain(|subject| !culled(subject));
        let leader = |under: &EvidenceContext<'_>| -> Vec<Option<Likely>> {
            let evidence = self.evidence_of(&subjects, under);
            let seen = evidence.into_iter().map(|one| one.form);
            seen.map(|form| form.likely.into_iter().next().filter(|_| form.days > 0))
                .collect()
        };
        let leaders = leader(first).into_iter().zip(leader(second));
        let renamed = subjects.iter().zip(leaders);
        let renamed = renamed.filter_map(|(subject, (from, to))| {
            let (from, to) = (from?, to?);
            let ids = |under: &EvidenceContext<'_>, at: usize| under.keyer.set.forms[at].id.clone();
            (ids(first, from.form) != ids(second, to.form)).then(|| Renamed {
                subject: subject.clone(),
                from,
                to,
            })
        });
        renamed.collect()
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::form::{Keyer, RuleSet, Traits};
    use crate::trial::evidence::tests::Bench;

    #[test]
    fn an_edited_limit_moves_the_plants_between_the_old_and_the_new() {
        let [(file, text), _] = RuleSet::embedded_files();
        let edited = text.replace("\"cactus-roll\": \"50 %\"", "\"cactus-roll\": \"60 %\"");
        let new = RuleSet::read(file, &edited, &Traits::embedded()).expect("edited");
        let (bench, new) = (Bench::new(), Keyer::even(new));
        let seen = |rolled: u32| {
            format!(
                "centre=closed tip=pointed roll=back rolled={rolled} line=straight set=regular diameter=140mm"
            )
        };
        let (between, over) = (seen(55), seen(80));
        let trial = bench.trial(&[
            ("24-001", &between),
            ("24-002", &over),
            ("24-003", "vase=7"),
            ("24-004", &between),
            ("24-004", "decide=cull"),
        ]);
        let (old, new) = (
            bench.under(),
            EvidenceContext {
                keyer: &new,
                ..bench.under()
            },
        );
        let told: Vec<String> = trial
            .renamed(&old, &new)
            .iter()
            .map(|one| {
                let id =
                    |under: &EvidenceContext<'_>, at: usize| under.keyer.set.forms[at].id.clone();
                format!(
                    "{}: {} {}",
                    one.subject,
                    id(&old, one.from.form),
                    id(&new, one.to.form)
                )
            })
            .collect();
        assert_eq!(told, ["24-001: straight-cactus semi-cactus"]);
        assert_eq!(trial.renamed(&old, &old), []);
    }
}
