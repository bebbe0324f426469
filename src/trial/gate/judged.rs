//! The checks that weigh a share against the grower's limit by its exact 95 % interval.
//!
//! Wholly on the wrong side of the limit is against; wholly on the right side is met; an interval
//! that holds the limit is missing, with how many more would tell. So nothing is a reason to keep
//! that may yet be beyond the limit, and one bad count more never improves the advice.

use super::made::{check, enough};
use super::{Check, Gate, Release, State};
use crate::account::text::counted;
use crate::form::sentences::percent;
use crate::measure::days;
use crate::trial::evidence::{Damage, Evidence};
use crate::trial::statistics::share::Share;
use crate::variety::{Enough, Weather, WeatherKind};

/// More open blooms, or more stems, than these are no instruction that anybody follows. Assumed.
const MOST_BLOOMS: u32 = 60;
const MOST_STEMS: u32 = 30;
/// Of the stems at least this share must outlast the limit: the limit is one of a median.
const HALF: f64 = 0.5;

/// Days in the vase: whether half of the stems outlast the limit.
pub(super) fn vase(release: &Release, evidence: &Evidence) -> Check {
    let tested = evidence.vase.as_ref().map_or(0, |curve| curve.stems);
    // The curve's own limits are undefined where no stem is left; this count is exact.
    let limit = release.cull.vase;
    let lasted = lasted(evidence, limit);
    let over = format!("lasted over {}", days(limit));
    if lasted.surely_under(HALF) {
        let told = format!(
            "{} of {} {over} in the vase: half of them surely do not",
            lasted.hit(),
            counted(lasted.of() as usize, "stem")
        );
        return check(Gate::Vase, State::Against, told);
    }
    // No stem ends within 0 days: whoever sets that lets every vase life pass.
    let passes = lasted.surely_over(HALF) || limit <= 0.0;
    if tested >= release.least.stems && !passes {
        let told = more_stems(lasted, tested, release.least.stems, limit);
        return check(Gate::Vase, State::Missing, told);
    }
    enough(
        Gate::Vase,
        tested,
        release.least.stems,
        |more| format!("test {} in the vase", counted(more, "more stem")),
        |count| {
            let stems = counted(count, "stem");
            match evidence.vase.as_ref().and_then(|curve| curve.median) {
                Some(median) => format!("{stems} tested in the vase, median {}", days(median)),
                None => format!("{stems} tested in the vase, median not reached"),
            }
        },
    )
}

/// Stems that lasted over so many days, of those of which that is known.
fn lasted(evidence: &Evidence, days: f64) -> Share {
    let known = evidence.vase_stems.iter();
    let known = known.filter(|stem| stem.ended || stem.days > days);
    known
        .filter_map(|stem| Share::new(u32::from(stem.days > days), 1))
        .sum()
}

/// What to do where so many stems were tested and may yet not outlast the limit.
fn more_stems(lasted: Share, tested: usize, least: usize, limit: f64) -> String {
    let (hit, of) = (lasted.hit(), lasted.of());
    let limit = days(limit);
    if (of as usize) < least {
        let more = counted(least - of as usize, "more stem");
        return format!(
            "test {more} in the vase until they end: {of} of {tested} show whether they last over \
             {limit}"
        );
    }
    let told = format!("{hit} of {of} lasted over {limit}");
    match lasted.more_to_tell(HALF, MOST_STEMS) {
        Some(more) => format!(
            "test more stems in the vase: {told}, where half must; some {more} more would tell if \
             they last alike"
        ),
        None => format!(
            "decide by hand, or test more stems in the vase: {told}, too near half for \
             {MOST_STEMS} more to tell"
        ),
    }
}

/// Wind, rain and sun, each by itself, so that none hides another. That none came is nobody's fault.
pub(super) fn weather(release: &Release, evidence: &Evidence) -> Vec<Check> {
    if evidence.damage.is_empty() {
        let told = "how it stands wind and rain: no weather was noted".to_string();
        return vec![check(Gate::Weather, State::Unknown, told)];
    }
    let of = |damage: &Damage| stands(release, damage);
    evidence.damage.iter().map(of).collect()
}

impl Release {
    /// What must be seen of a plant with these counts after weather for a use to be its own: as many
    /// blooms and stems as the gate asks for, `share` of what the use wants, and as many open blooms
    /// in wind and rain, of which no kind did harm that may be over the limit.
    pub fn enough(&self, weather: &[Weather], share: f64) -> Enough {
        let of = |kind: WeatherKind| -> Share {
            let counts = weather.iter().filter(|one| one.kind == kind);
            let shares = counts.filter_map(|one| Share::new(one.damaged, one.open));
            shares.sum()
        };
        let kinds = [WeatherKind::Wind, WeatherKind::Rain].map(of);
        let open: u64 = kinds.iter().map(|kind| u64::from(kind.of())).sum();
        let harmless = |kind: &Share| kind.hit() == 0 || kind.surely_under(self.cull.damage);
        Enough {
            blooms: self.least.blooms,
            stems: self.least.stems,
            stood: open >= self.least.blooms as u64 && kinds.iter().all(harmless),
            share,
        }
    }
}

fn stands(release: &Release, damage: &Damage) -> Check {
    let (kind, share, limit) = (damage.kind.word(), damage.share, release.cull.damage);
    let (hit, of) = (share.hit(), share.of());
    let yours = percent(limit);
    let told = format!("{kind} damaged {hit} of {of} open blooms, surely");
    let told_so = |state, side: &str| {
        let told = format!("{told} {side} your limit of {yours}");
        check(Gate::Weather, state, told)
    };
    // No share is over a limit of 1: whoever sets that lets no weather count.
    if share.surely_under(limit) || limit >= 1.0 {
        return told_so(State::Met, "under");
    }
    if share.surely_over(limit) {
        return told_so(State::Against, "over");
    }
    if hit == 0 {
        // Whoever looked at a few and found nothing must not fare worse than who never looked.
        let told =
            format!("how it stands {kind}: none of {of} open blooms damaged, too few to tell");
        return check(Gate::Weather, State::Unknown, told);
    }
    let seen = format!("watch it in more {kind}: {hit} of {of} open blooms damaged");
    let few = (of as usize) < release.least.blooms;
    let more = share.more_to_tell(limit, MOST_BLOOMS).filter(|_| !few);
    let least = share.least_to_tell(limit, MOST_BLOOMS).filter(|_| few);
    let told = match (more, least) {
        (Some(more), _) => format!(
            "{seen}, where {yours} is your limit; some {more} more would tell if they fare alike"
        ),
        (None, Some(least)) => {
            format!("{seen}, where {yours} is your limit; at least {least} more would tell")
        }
        (None, None) => format!(
            "decide by hand, or {seen}, too near your limit of {yours} for {MOST_BLOOMS} more to \
             tell"
        ),
    };
    check(Gate::Weather, State::Missing, told)
}

/// Tubers through the winter: enough of them seen, the share that is wanted, and surely over the
/// limit that speaks for culling.
pub(super) fn tubers(release: &Release, evidence: &Evidence) -> Check {
    let missing = |told| check(Gate::Tubers, State::Missing, told);
    let tubers = &evidence.tubers;
    let kept: Share = tubers.kept;
    let (wanted, limit) = (release.least.kept, release.cull.kept);
    let told = format!("{} of {} tubers kept", kept.hit(), kept.of());
    if kept.surely_under(limit) {
        let told = format!("{told}, surely under your limit of {}", percent(limit));
        return check(Gate::Tubers, State::Against, told);
    }
    let enough = kept.of() >= release.least.tubers;
    let share = kept.value().filter(|share| *share >= wanted);
    // No share is under a limit of 0: whoever sets that lets no loss count.
    let sure = kept.surely_over(limit) || limit <= 0.0;
    match (enough, kept.value(), tubers.stored) {
        (true, Some(_), _) if share.is_some() && sure => check(Gate::Tubers, State::Met, told),
        (_, _, Some(stored)) => missing(format!(
            "count the sound ones of {} in spring",
            counted(stored as usize, "stored tuber")
        )),
        (_, None, None) => {
            missing("lift and count its tubers, and count the sound ones in spring".to_string())
        }
        (true, ..) if share.is_some() => missing(format!(
            "store its tubers another winter: {told}, too few to be sure of over {}",
            percent(limit)
        )),
        (true, ..) => missing(format!(
            "store its tubers another winter: {told}, and {} is wanted",
            percent(wanted)
        )),
        (false, ..) => missing(format!(
            "store its tubers another winter: {told}, and {} are wanted",
            release.least.tubers
        )),
    }
}
