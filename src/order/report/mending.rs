//! What would mend an order that falls short, in sentences.

use super::columns::in_weeks;
use crate::order::{By, Item, Mend, Plan};

/// What would mend it, at what price, and what to change for it.
pub fn mend_sentence(plan: &Plan, mend: &Mend) -> String {
    let edits: Vec<String> = mend.edits.iter().map(|edit| edit.described(plan)).collect();
    let edits = edits.join("; ");
    let cost = format!(
        "an order for a usual season then costs at most {}",
        mend.cost
    );
    let [one, other] = [Some(&mend.by), mend.and.as_ref()];
    let other = other.map_or(String::new(), |other| {
        format!(", together with {}", change(plan, mend, other))
    });
    let one = one.map_or(String::new(), |one| change(plan, mend, one));
    match (mend.by, mend.and) {
        (By::Bed { .. }, None) => format!("{one}: {cost}; such as {edits}"),
        // What it costs is what it takes.
        (By::Money { .. }, None) => format!("{one}; {edits}"),
        (By::Earlier { .. }, None) => format!("{one}; {cost}; {edits}"),
        _ => format!("{one}{other}: {cost}; {edits}"),
    }
}

/// One change, as a clause.
fn change(plan: &Plan, mend: &Mend, by: &By) -> String {
    let alone = mend.and.is_none();
    let proved = |told: &str, at_least: String| match by.is_least() {
        _ if !alone => String::new(),
        true => format!(" ({told} would not do)"),
        false => format!(" (at least {at_least} is needed)"),
    };
    let step = |told: &str| match alone && by.is_least() {
        true => format!(" ({told} would not do)"),
        false => String::new(),
    };
    match *by {
        By::Bed { places, at_least } => {
            let proved = proved("fewer", at_least.to_string());
            format!("{places} more places in the beds{proved}")
        }
        By::Money { more, at_least } => {
            let proved = proved("less", at_least.to_string());
            format!("{more} more money{proved}")
        }
        By::Colour { wider, .. } => format!(
            "colours wider by {wider} (CIEDE2000) for each need that asks for one{}",
            step("a step less")
        ),
        By::Earlier { weeks, frost, .. } => format!(
            "planting {weeks} {} earlier{}, when the last frost still comes after it in {:.0} years of 100",
            if weeks == 1 { "week" } else { "weeks" },
            step("a week less"),
            frost * 100.0
        ),
        By::Weeks { .. } => {
            let weeks = |need: usize| {
                let made = mend.made(plan).ok()?;
                let (first, last) = made.needs.get(need)?.weeks;
                Some(in_weeks(&(first..=last).collect::<Vec<u8>>()))
            };
            let is_weeks = |value: &str| value.contains('-') && !value.contains('=');
            let told = { mend.edits.iter() }.filter_map(|edit| match edit.item {
                Item::Need(at) if is_weeks(&edit.value) => {
                    Some(format!("{} only in {}", plan.needs[at].name, weeks(at)?))
                }
                _ => None,
            });
            let told: Vec<String> = told.collect();
            format!("{}{}", told.join(", "), step("in its other weeks no order"))
        }
        By::Fitness { lower, .. } => format!(
            "fitness lower by {lower} in a hundred for each need that falls short and asks for a use{}",
            step("a hundredth less")
        ),
        By::Stems { fewer } => format!(
            "{fewer} {} a week fewer of what falls short",
            if fewer == 1 { "stem" } else { "stems" }
        ),
    }
}
