//! What can be tagged.

use crate::screen::row_page::RowPage;
use crate::tag::ClaimSources;
use crate::trial::Subject;
use crate::variety::Variety;

/// One that can be tagged.
#[derive(Debug, Clone)]
pub(super) struct Candidate {
    pub(super) subject: Subject,
    /// How it stands: `kept`, `shortlist`.
    pub(super) stands: &'static str,
    /// Its form as far as it is known; empty where nobody looked.
    pub(super) form: String,
}

/// Everything of the row and the list: kept seedlings, those on trial, varieties, culled seedlings.
pub(super) fn of(grounds: &ClaimSources<'_>, row: &RowPage) -> Vec<Candidate> {
    let seedlings = grounds.trial.seedlings().iter().map(|seedling| {
        let subject = Subject::Seedling(seedling.number);
        let decision = grounds.trial.decision(&subject);
        let stands = decision.map_or("on trial", |(_, decision)| decision.fate.done());
        Candidate {
            form: row.form_of(&subject).unwrap_or_default().to_string(),
            subject,
            stands,
        }
    });
    let set = &grounds.under.keyer.set;
    let varieties = grounds.list.list().iter().map(|variety| Candidate {
        subject: Subject::Variety(variety.name.clone()),
        stands: stands(variety),
        form: match variety.form_under(set) {
            Some(form) => set.forms[form].name.clone(),
            None => String::new(),
        },
    });
    let mut all: Vec<Candidate> = seedlings.collect();
    all.sort_by(|a, b| a.subject.cmp(&b.subject));
    all.extend(varieties);
    all.sort_by_key(|one| match one.stands {
        "kept" => 0,
        "held" | "on trial" => 1,
        "culled" => 3,
        _ => 2,
    });
    all
}

fn stands(variety: &Variety) -> &'static str {
    let unlicensed = variety.protected == Some(true) && variety.licence.is_none();
    match (&variety.shortlist, variety.on_hand) {
        _ if unlicensed => "protected",
        (Some(_), _) => "shortlist",
        (None, Some(1..)) => "on hand",
        (None, _) => "listed",
    }
}
