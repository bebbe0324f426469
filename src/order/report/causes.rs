//! Causes in sentences: of which need, in which weeks, what keeps it from being met, and what would do.

use super::columns::in_weeks;
use crate::form::traits::list_or;
use crate::measure::day;
use crate::order::{Cause, Given, Kind, Means, Nearest, Plan, Promised, Scope, Settled, Why};

/// A cause as a sentence.
pub fn cause_sentence(plan: &Plan, settled: &Settled, cause: &Cause) -> String {
    let name = &plan.needs[cause.need].name;
    let weeks = in_weeks(&cause.weeks);
    format!("{name}, {weeks}: {}.", cause_clause(plan, settled, cause))
}

/// The same without its need and its weeks.
pub fn cause_clause(plan: &Plan, settled: &Settled, cause: &Cause) -> String {
    match &cause.why {
        Why::BeforeFirstCut { first } => format!(
            "nothing that could serve it is cut before {}; from then on it can be asked for",
            day::in_words(*first)
        ),
        Why::AfterFrost { frost } => format!(
            "the first frost is looked for on {}; until then it can be asked for",
            day::in_words(*frost)
        ),
        Why::NotInBloom => {
            "by what was counted in the row, nothing that could serve it flowers then".to_string()
        }
        Why::NoVariety { nearest } => no_variety(plan, cause.need, nearest),
        Why::NotOffered { varieties } => {
            format!("none of the {varieties} varieties that could serve it is offered or on hand")
        }
        Why::Closed { on } => {
            let on = on.map_or(String::new(), |on| format!(" by {}", day::in_words(on)));
            let ordered = day::in_words(plan.ordered);
            format!(
                "what it lacks closed{on}; the orders go out on {ordered}, and earlier it could be met"
            )
        }
        Why::NotOnShortlist => {
            "what it lacks is not on the shortlist; with all of the list it could be met"
                .to_string()
        }
        Why::Fixed => {
            "what is fixed by hand stands in its way; let go, it could be met".to_string()
        }
        Why::LeastOrder { suppliers } => {
            let names: Vec<&str> = suppliers.iter().map(String::as_str).collect();
            format!(
                "the least order of {} stands in its way; without that it could be met",
                list_or(&names)
            )
        }
        Why::TooFewKinds { of, asked, able } => {
            let kinds = match of {
                Kind::Varieties => "varieties",
                Kind::Forms => "forms",
            };
            format!(
                "of the {asked} {kinds} asked for only {able} can be had in flower then; {} would do",
                enough(*able, kinds)
            )
        }
        Why::MostFromOne { most, able } => format!(
            "only {able} of what could serve it can be had in flower then, and from one no more than {most} in a hundred may come; without that limit it could be met"
        ),
        Why::TooFewTubers { gives, asked } => format!(
            "all that is offered or on hand gives {gives:.1} of the {asked:.0} stems; so many would do"
        ),
        Why::TooLittleOffered { share } => format!(
            "all that is offered and on hand would be enough in {:.0} seasons of 100, in beds of any size; more offers would do, or less to ask for",
            (share * 100.0).floor()
        ),
        Why::TooSmall { means, scope } => too_small(plan, *means, *scope, &cause.competes),
        Why::LateFirstCut { share } => format!(
            "in {:.0} seasons of 100 nothing that could serve it is cut yet, whatever is ordered{}",
            share * 100.0,
            best(settled, cause.need)
        ),
        Why::EarlyFrost { share } => format!(
            "in {:.0} seasons of 100 the first frost has ended it, whatever is ordered{}",
            share * 100.0,
            best(settled, cause.need)
        ),
        Why::Unknown => "why was not worked out in the time given".to_string(),
    }
}

fn enough(able: u64, kinds: &str) -> String {
    match able {
        0 | 1 => format!("asking for no number of {kinds}"),
        able => format!("asking for {able}"),
    }
}

/// The best chance that a need can have.
fn best(settled: &Settled, need: usize) -> String {
    let own = settled.promise(Promised::Need(need));
    own.map_or(String::new(), |promise| {
        format!(
            "; of all its weeks {:.0} seasons of 100 are the best that can be had",
            promise.ceiling * 100.0
        )
    })
}

fn too_small(plan: &Plan, means: Means, scope: Scope, competes: &[Vec<usize>]) -> String {
    let (what, within, more) = match means {
        Means::Beds => (
            "the beds are too small",
            "within the beds",
            "larger beds would do",
        ),
        Means::Money => (
            "the money is too little",
            "for the money",
            "more money would do",
        ),
        Means::Either => (
            "beds and money are too small together",
            "within beds and money",
            "more of either would do",
        ),
        Means::Both => (
            "beds and money are too small",
            "within beds and money",
            "more of both would do",
        ),
    };
    let named = |set: &Vec<usize>| {
        let names = set.iter().map(|need| plan.needs[*need].name.as_str());
        format!("without {}", names.collect::<Vec<&str>>().join(" and "))
    };
    let sets: Vec<String> = competes.iter().map(named).collect();
    let sets: Vec<&str> = sets.iter().map(String::as_str).collect();
    match scope {
        Scope::Alone => format!("{what} for it even if nothing else were asked for; {more}"),
        // A search that found none is no proof that there is none.
        Scope::Surely => format!("no order that is as sure was found {within}; {more}"),
        Scope::Together if sets.is_empty() => format!("{what} for it beside the others; {more}"),
        Scope::Together => format!(
            "{what} for it beside the others; {more}, and so would an order {}",
            list_or(&sets)
        ),
    }
}

fn no_variety(plan: &Plan, need: usize, nearest: &[Nearest]) -> String {
    let asked = &plan.needs[need];
    let words = [
        (!asked.colours.is_empty(), "colours"),
        (asked.for_use.is_some(), "use"),
        (!asked.forms.is_empty(), "forms"),
    ];
    let words = words.into_iter().filter(|(is_asked, _)| *is_asked);
    let words: Vec<&str> = words.map(|one| one.1).collect();
    let together = if words.len() > 1 { " together" } else { "" };
    let words = words.join(" and ");
    let none = format!("no variety is of its {words}{together}");
    let near = |one: &Nearest| {
        let distance = one
            .distance
            .map(|far| format!("{far:.1} from the colours where {} is asked", asked.reach()));
        let fitness = one.fitness.map_or("of unknown fitness".to_string(), |fit| {
            let least = asked.least_fitness() * 100.0;
            format!("fit {:.0} % where {least:.0} % is asked", fit * 100.0)
        });
        let told = one.given_up.iter().filter_map(|given| match given {
            Given::Colours => distance.clone(),
            Given::Use => Some(fitness.clone()),
            Given::Forms => Some("of another form".to_string()),
        });
        let told: Vec<String> = told.collect();
        format!("{} ({})", one.variety, told.join(", "))
    };
    let near: Vec<String> = nearest.iter().map(near).collect();
    let near: Vec<&str> = near.iter().map(String::as_str).collect();
    match near.is_empty() {
        true => format!("{none}, and none that can be had is near"),
        false => format!("{none}; the nearest that can be had is {}", list_or(&near)),
    }
}
