//! The checks of the gate, one by one, each in words.

use super::{Check, Gate, Release, State};
use crate::form::sentences::percent;
use crate::form::{Keyer, Status};
use crate::measure::SizeUnits;
use crate::trial::evidence::{Evidence, Under};
use crate::trial::seedling::Subject;
use crate::trial::statistics::share::Share;

/// Every check, in the order in which they are told: what takes a bloom first.
pub(super) fn all(
    release: &Release,
    evidence: &Evidence,
    under: &Under<'_>,
    units: SizeUnits,
) -> Vec<Check> {
    let mut checks = vec![
        form(release, evidence, under.keyer, units),
        blooms(release, evidence),
    ];
    // What has a name in the list is no new variety.
    if matches!(evidence.subject, Subject::Seedling(_)) {
        checks.push(new(release, evidence));
    }
    checks.push(vase(release, evidence));
    checks.extend(weather(release, evidence));
    checks.extend([
        seasons(release, evidence),
        plants(release, evidence),
        tubers(release, evidence),
    ]);
    checks
}

fn check(gate: Gate, state: State, told: String) -> Check {
    Check { gate, state, told }
}

fn form(release: &Release, evidence: &Evidence, keyer: &Keyer, units: SizeUnits) -> Check {
    let seen = &evidence.form;
    let name = |form: usize| keyer.set.forms[form].name.as_str();
    let missing = |told| check(Gate::Form, State::Missing, told);
    let Some(leading) = seen.leading() else {
        return missing("answer its traits: no bloom was looked at".to_string());
    };
    let share = percent(leading.share);
    if evidence.novelty {
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
        let near = seen.reading(keyer).near;
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
    let strict = match seen.verdict.status {
        Status::Settled(form) => format!("{} by its answers", name(form)),
        Status::Open => format!("{} forms are possible", seen.verdict.possible.len()),
        Status::None => "its answers contradict each other".to_string(),
    };
    let wanted = percent(release.least.credence);
    let so_far = format!("{strict}, {} has {share} of {wanted}", name(leading.form));
    let trait_of = |index: usize| keyer.set.traits.get(index);
    let open = seen.verdict.status == Status::Open;
    if let Some(asked) = keyer.ask(&seen.looks).filter(|_| open) {
        let one = trait_of(asked.index);
        return missing(format!("answer {}: {so_far}", one.id));
    }
    match keyer.check(&seen.looks) {
        Some(again) => missing(format!(
            "look again at {}: {so_far}",
            trait_of(again.index).id
        )),
        None => missing(format!("look at another bloom: {so_far}")),
    }
}

fn blooms(release: &Release, evidence: &Evidence) -> Check {
    let measured = evidence.diameters.as_ref().map_or(0, |seen| seen.count());
    counted(
        Gate::Blooms,
        measured,
        release.least.blooms,
        |more| format!("measure {}", plural(more, "more bloom")),
        |count| format!("{} measured", plural(count, "bloom")),
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

fn vase(release: &Release, evidence: &Evidence) -> Check {
    let tested = evidence.vase.as_ref().map_or(0, |curve| curve.stems);
    if let Some(high) = evidence
        .vase
        .as_ref()
        .and_then(|curve| curve.median_limits.high)
        && high < release.cull.vase
    {
        let told = format!(
            "half of its stems are over in the vase within {high} days at most, where {} is your limit",
            release.cull.vase
        );
        return check(Gate::Vase, State::Against, told);
    }
    counted(
        Gate::Vase,
        tested,
        release.least.stems,
        |more| format!("test {} in the vase", plural(more, "more stem")),
        |count| match evidence.vase.as_ref().and_then(|curve| curve.median) {
            Some(median) => format!(
                "{} tested in the vase, median {median} days",
                plural(count, "stem")
            ),
            None => format!(
                "{} tested in the vase, median not reached",
                plural(count, "stem")
            ),
        },
    )
}

/// Weather only speaks against; that none came is nobody's fault.
fn weather(release: &Release, evidence: &Evidence) -> Option<Check> {
    let worst = evidence
        .damage
        .iter()
        .max_by(|a, b| a.share.limits().low.total_cmp(&b.share.limits().low))?;
    let share = worst.share;
    let told = format!(
        "{} damaged {} of {} open blooms",
        worst.kind.word(),
        share.hit(),
        share.of()
    );
    let limit = release.cull.damage;
    Some(if share.limits().low > limit {
        let told = format!("{told}, surely over your limit of {}", percent(limit));
        check(Gate::Weather, State::Against, told)
    } else {
        check(Gate::Weather, State::Met, told)
    })
}

fn seasons(release: &Release, evidence: &Evidence) -> Check {
    counted(
        Gate::Seasons,
        evidence.years.len(),
        release.least.seasons,
        |more| format!("see it through {}", plural(more, "more season")),
        |count| format!("seen in {}", plural(count, "season")),
    )
}

fn plants(release: &Release, evidence: &Evidence) -> Check {
    counted(
        Gate::Plants,
        evidence.plants.unwrap_or(0) as usize,
        release.least.plants as usize,
        |more| format!("raise {}", plural(more, "more plant")),
        |count| plural(count, "plant").to_string(),
    )
}

fn tubers(release: &Release, evidence: &Evidence) -> Check {
    let missing = |told| check(Gate::Tubers, State::Missing, told);
    let tubers = &evidence.tubers;
    let kept: Share = tubers.kept;
    let told = format!("{} of {} tubers kept", kept.hit(), kept.of());
    if kept.of() > 0 && kept.limits().high < release.cull.kept {
        let told = format!(
            "{told}, surely under your limit of {}",
            percent(release.cull.kept)
        );
        return check(Gate::Tubers, State::Against, told);
    }
    let enough = kept.of() >= release.least.tubers;
    match (enough, kept.value(), tubers.stored) {
        (true, Some(share), _) if share >= release.least.kept => {
            check(Gate::Tubers, State::Met, told)
        }
        (_, _, Some(stored)) => missing(format!(
            "count the sound ones of {} in spring",
            plural(stored as usize, "stored tuber")
        )),
        (_, None, None) => {
            missing("lift and count its tubers, and count the sound ones in spring".to_string())
        }
        (true, ..) => missing(format!(
            "store its tubers another winter: {told}, and {} is wanted",
            percent(release.least.kept)
        )),
        (false, ..) => missing(format!(
            "store its tubers another winter: {told}, and {} are wanted",
            release.least.tubers
        )),
    }
}

/// A check of how many there are.
fn counted(
    gate: Gate,
    found: usize,
    least: usize,
    instruction: impl Fn(usize) -> String,
    met: impl Fn(usize) -> String,
) -> Check {
    if found >= least {
        return check(gate, State::Met, met(found));
    }
    let told = format!("{}: {found} of {least}", instruction(least - found));
    check(gate, State::Missing, told)
}

fn plural(count: usize, one: &str) -> String {
    let ending = if count == 1 { "" } else { "s" };
    format!("{count} {one}{ending}")
}
