//! The checks of the gate, one by one, each in words.

use super::judged::{tubers, vase, weather};
use super::made::{check, enough};
use super::{Check, Gate, Release, State};
use crate::account::text::counted;
use crate::form::sentences::percent;
use crate::form::{Keyer, Status};
use crate::measure::SizeUnits;
use crate::trial::evidence::{Evidence, EvidenceContext};
use crate::trial::seedling::Subject;

/// Every check, in the order in which they are told: what takes a bloom first.
pub(super) fn all(
    release: &Release,
    evidence: &Evidence,
    under: &EvidenceContext<'_>,
    units: SizeUnits,
) -> Vec<Check> {
    let weather = weather(release, evidence);
    // A variety of the list has a form, a name and a seller: what is tried is how it does here.
    if matches!(evidence.subject, Subject::Variety(_)) {
        let own = [blooms(release, evidence), vase(release, evidence)];
        let last = seasons(release, evidence);
        return own.into_iter().chain(weather).chain([last]).collect();
    }
    let mut checks = vec![
        form(release, evidence, under.keyer, units),
        blooms(release, evidence),
        new(release, evidence),
        vase(release, evidence),
    ];
    checks.extend(weather);
    checks.extend([
        seasons(release, evidence),
        plants(release, evidence),
        tubers(release, evidence),
    ]);
    checks
}

fn form(release: &Release, evidence: &Evidence, keyer: &Keyer, units: SizeUnits) -> Check {
    let seen = &evidence.form;
    let name = |form: usize| keyer.set.forms[form].name.as_str();
    let missing = |told| check(Gate::Form, State::Missing, told);
    let Some(leading) = seen.leading() else {
        return missing("answer its traits: no bloom was looked at".to_string());
    };
    let share = percent(leading.share);
    // What nobody looked at cannot be told from a form that has a name.
    if evidence.novelty && seen.days > 0 {
        let told = format!(
            "it is declared a novelty (nearest: {}, {share})",
            name(leading.form)
        );
        return check(Gate::Form, State::Met, told);
    }
    let straddles = evidence.diameters.as_ref();
    let straddles = straddles.map(|seen| seen.straddles(&evidence.form.close, keyer));
    if let Some(straddle) = straddles.iter().flatten().next() {
        return missing(straddle.instruction(keyer, units));
    }
    if let Some(form) = seen.settled(release.least.credence) {
        if !keyer.set.shape_of(form).catch_all {
            let told = format!("its form is {} ({share})", name(form));
            return check(Gate::Form, State::Met, told);
        }
        let near = keyer.near_misses(&seen.standing, &keyer.belief(&seen.looks));
        let near = near.first().map(|near| keyer.near_sentence(near, units));
        let near = near.map_or(String::new(), |told| {
            format!(" ({})", told.trim_end_matches('.'))
        });
        return missing(format!(
            "declare it a novelty, or look again: it has no named form{near}"
        ));
    }
    if let Some(disagreement) = seen.disagreements.first() {
        let told = disagreement.sentence(keyer);
        return missing(format!("look again where days disagree: {told}"));
    }
    let likeliest = name(leading.form);
    let id = |index: usize| keyer.set.traits.get(index).id.as_str();
    missing(match seen.verdict.status {
        Status::Open => {
            let count = seen.verdict.possible.len();
            let told = format!("{count} forms are possible, {likeliest} the likeliest ({share})");
            match keyer.ask(&seen.looks).map(|asked| id(asked.index)) {
                Some("diameter") => format!("measure its blooms: {told}"),
                Some(asked) => format!("answer {asked}: {told}"),
                None => format!("look at another bloom: {told}"),
            }
        }
        Status::Settled(form) if form == leading.form => {
            let wanted = percent(release.least.credence);
            let told = format!("{likeliest} has {share}, and {wanted} is wanted");
            match keyer.check(&seen.looks) {
                Some(again) => format!("look again at {}: {told}", id(again.index)),
                None => format!("look at another bloom: {told}"),
            }
        }
        strict => {
            let told = match strict {
                Status::Settled(form) => format!("its answers say {}", name(form)),
                Status::Open | Status::None => "its answers contradict each other".to_string(),
            };
            let told = format!("{told}, and {likeliest} is likelier ({share})");
            match keyer.suspect(&seen.looks) {
                Some(suspect) => format!("look again at {}: {told}", id(suspect.index)),
                None => format!("look at another bloom: {told}"),
            }
        }
    })
}

fn blooms(release: &Release, evidence: &Evidence) -> Check {
    let measured = evidence.diameters.as_ref().map_or(0, |seen| seen.count());
    enough(
        Gate::Blooms,
        measured,
        release.least.blooms,
        |more| format!("measure {}", counted(more, "more bloom")),
        |count| format!("{} measured", counted(count, "bloom")),
    )
}

fn new(release: &Release, evidence: &Evidence) -> Check {
    let is_main = evidence
        .colours
        .first()
        .is_some_and(|one| one.part == crate::colour::Part::Main);
    if !is_main {
        let told = "note its main colour: none is known".to_string();
        return check(Gate::New, State::Missing, told);
    }
    let measured = evidence
        .colours
        .first()
        .is_some_and(|one| one.name.is_some());
    if !measured {
        let told =
            "measure its colour, by hex or lab(L a b): a word is too wide to tell new from known";
        return check(Gate::New, State::Missing, told.to_string());
    }
    if evidence.near.iter().any(|near| near.same_form.is_none()) {
        let told =
            "settle its form: whether its colour is new is asked among varieties of one form";
        return check(Gate::New, State::Missing, told.to_string());
    }
    let least = release.least.new;
    let alike = evidence
        .near
        .iter()
        .find(|near| near.same_form == Some(true));
    match alike {
        Some(near) if near.distance < least => check(
            Gate::New,
            State::Missing,
            format!(
                "grow it beside '{}': the same form, and its colour lies {:.1} away where {least} counts as new",
                near.name, near.distance
            ),
        ),
        Some(near) => check(
            Gate::New,
            State::Met,
            format!(
                "its colour is new for its form: {:.1} from '{}', the nearest",
                near.distance, near.name
            ),
        ),
        None => check(
            Gate::New,
            State::Met,
            "no variety of the list has its form and a colour".to_string(),
        ),
    }
}

fn seasons(release: &Release, evidence: &Evidence) -> Check {
    enough(
        Gate::Seasons,
        evidence.years.len(),
        release.least.seasons,
        |more| format!("see it through {}", counted(more, "more season")),
        |count| format!("seen in {}", counted(count, "season")),
    )
}

fn plants(release: &Release, evidence: &Evidence) -> Check {
    enough(
        Gate::Plants,
        evidence.plants.unwrap_or(0) as usize,
        release.least.plants as usize,
        |more| format!("raise {}", counted(more, "more plant")),
        |count| counted(count, "plant"),
    )
}
