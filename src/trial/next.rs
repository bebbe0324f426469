//! What needs doing next, subject by subject, the most pressing first.

use std::cmp::Ordering;

use crate::account::text::capitalised;
use jiff::civil::Date;

use super::entry::Fate;
use super::evidence::Evidence;
use super::gate::{Advice, Gate, Release, State};
use super::seedling::Subject;

/// How pressing the next thing is, the most pressing first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash)]
pub enum Urgency {
    /// The evidence is there: the grower decides.
    Decide,
    /// Tubers are to be lifted or counted now.
    Tubers,
    /// Something is missing that can be had at any time.
    AnyTime,
    /// Something is missing that takes a bloom.
    InBloom,
    /// Its stored tubers are to be looked at in spring, and nothing else is missing.
    Spring,
    /// It is kept, and nothing is missing.
    Kept,
    /// It is culled.
    Culled,
}

/// What needs doing next for one subject.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Next {
    /// Whose.
    pub subject: Subject,
    /// How pressing.
    pub urgency: Urgency,
    /// How many things are missing or not known: of two alike the one that is nearer to release comes
    /// first.
    pub missing: usize,
    /// What to do, one sentence.
    pub told: String,
}

impl Next {
    /// What needs doing for a subject on a day.
    pub fn of(evidence: &Evidence, advice: &Advice, release: &Release, today: Date) -> Next {
        let (urgency, told) = next(evidence, advice, release, today);
        Next {
            subject: evidence.subject.clone(),
            urgency,
            missing: advice.missing.len() + advice.unknown.len(),
            told: sentence(&told),
        }
    }

    /// Sorts by what needs doing next: the order is the same whatever it was before.
    pub fn sort(all: &mut [Next]) {
        all.sort_by(Next::before);
    }

    /// Which of two comes first: the more pressing, then the one of which less is missing, then by the
    /// subject.
    pub fn before(&self, other: &Next) -> Ordering {
        let key = |next: &Next| (next.urgency, next.missing);
        key(self)
            .cmp(&key(other))
            .then_with(|| self.subject.cmp(&other.subject))
    }
}

impl Evidence {
    /// Whether the grower's decision is no older than all that was seen.
    pub fn is_answered(&self) -> bool {
        let last = self.days.map(|(_, last)| last);
        let decided = self.decision.as_ref().map(|(date, _)| *date);
        decided.is_some_and(|decided| last.is_none_or(|last| decided >= last))
    }
}

fn next(evidence: &Evidence, advice: &Advice, release: &Release, today: Date) -> (Urgency, String) {
    let decided = evidence
        .decision
        .as_ref()
        .map(|(_, decision)| decision.fate);
    if decided == Some(Fate::Cull) {
        return (Urgency::Culled, "nothing: it is culled".to_string());
    }
    // Advice that the grower has heard and answered is not given again until more is seen.
    let answered = evidence.is_answered();
    match advice.fate {
        Fate::Cull if !answered => {
            let why = advice.reasons.first().map_or("", String::as_str);
            return (Urgency::Decide, format!("decide on culling: {why}"));
        }
        Fate::Keep if decided != Some(Fate::Keep) && !answered => {
            return (
                Urgency::Decide,
                "decide on keeping: nothing is missing".to_string(),
            );
        }
        _ => {}
    }
    if let Some(told) = tubers(evidence, release, today) {
        return (Urgency::Tubers, told);
    }
    let missing = || {
        advice
            .checks
            .iter()
            .filter(|check| check.state == State::Missing)
    };
    // Tubers have their months, and are then told above.
    let now = missing().find(|check| !check.gate.needs_bloom() && check.gate != Gate::Tubers);
    let in_bloom = missing().find(|check| check.gate.needs_bloom());
    match (in_bloom, now, missing().next()) {
        (Some(check), _, _) => (Urgency::InBloom, check.told.clone()),
        (None, Some(check), _) => (Urgency::AnyTime, check.told.clone()),
        (None, None, Some(check)) => (Urgency::Spring, check.told.clone()),
        (None, None, None) if decided == Some(Fate::Keep) => {
            (Urgency::Kept, "nothing: it is kept".to_string())
        }
        (None, None, None) => (Urgency::InBloom, "watch it another season".to_string()),
    }
}

/// What is to be done with its tubers on the day, if anything.
fn tubers(evidence: &Evidence, release: &Release, today: Date) -> Option<String> {
    let months = release.months;
    let tubers = &evidence.tubers;
    let lifted_on = evidence.tubers.lifted_on;
    if let (Some(stored), Some(on)) = (tubers.stored, lifted_on) {
        let spring = today.year() > on.year() && today.month() >= months.spring;
        return spring.then(|| format!("count the sound ones of {stored} stored tubers"));
    }
    // What bloomed this year and still stands is to be lifted once the month has come.
    let bloomed = evidence.years.last() == Some(&today.year());
    let lifted = lifted_on.is_some_and(|on| on.year() == today.year() && on.month() >= months.lift);
    let is_time = today.month() >= months.lift;
    let seedling = matches!(evidence.subject, Subject::Seedling(_));
    (seedling && bloomed && !lifted && is_time).then(|| "lift and count its tubers".to_string())
}

/// With a capital and a full stop.
fn sentence(told: &str) -> String {
    format!("{}.", capitalised(told))
}
