//! The words of a plan, looked up: uses, colours, forms, what is fixed by hand.

use crate::colour::Target;
use crate::order::{Fixed, Need, Plan};
use crate::problem::{Path, Wrong};
use crate::variety::{Index, IndexContext, Text, Varieties};

/// What a plan is read against.
#[derive(Clone, Copy)]
pub struct ListContext<'a> {
    /// The grower's list.
    pub list: &'a Varieties,
    /// Its columns.
    pub index: &'a Index,
    /// What they were worked out under.
    pub grounds: IndexContext<'a>,
    /// How sure a need is to be that does not say, 0 to 1.
    pub sure: f64,
}

/// A need with its words looked up.
pub(in crate::order) struct Asked {
    pub(super) use_at: Option<usize>,
    pub(super) targets: Vec<Target>,
    pub(super) forms: Vec<usize>,
}

/// Looks up the words of the need at a place among the plan's.
pub(in crate::order) fn looked_up(
    (at, need): (usize, &Need),
    grounds: IndexContext<'_>,
    wrong: &mut Vec<Wrong>,
) -> Asked {
    let IndexContext { uses, words, .. } = grounds;
    let place = || Path::field("needs").nth(at);
    let use_at = need.for_use.as_ref().and_then(|id| {
        let found = uses.find(id);
        if found.is_none() {
            let ids: Vec<&str> = uses.list().iter().map(|one| one.id.as_str()).collect();
            wrong.push(Wrong::new(
                place().then("use"),
                format!(
                    "{}: found the use {:?}, expected one of {}",
                    need.name,
                    id.as_str(),
                    ids.join(", ")
                ),
            ));
        }
        found
    });
    let mut targets = Vec::new();
    for (nth, colour) in need.colours.iter().enumerate() {
        match words.asked(colour) {
            Ok(found) => targets.extend(found),
            Err(error) => wrong.push(Wrong::new(
                place().then("colours").nth(nth),
                format!("{}: {error}", need.name),
            )),
        }
    }
    Asked {
        use_at,
        targets,
        forms: forms(
            &need.forms,
            (&need.name, place().then("forms")),
            grounds,
            wrong,
        ),
    }
}

/// The forms with these ids, which are a list of what has this name, at this place of the plan.
pub(in crate::order) fn forms(
    ids: &[Text],
    (name, place): (&str, Path),
    grounds: IndexContext<'_>,
    wrong: &mut Vec<Wrong>,
) -> Vec<usize> {
    let rules = grounds.rules;
    let found = ids.iter().enumerate().filter_map(|(nth, id)| {
        let form = rules.find(id);
        if form.is_none() {
            wrong.push(Wrong::new(
                place.clone().nth(nth),
                format!(
                    "{name}: found the form {:?}, expected a form of {}",
                    id.as_str(),
                    rules.id
                ),
            ));
        }
        form
    });
    found.collect()
}

/// Checks what is fixed by hand against the offers.
pub(super) fn check_fixed(plan: &Plan, terms: ListContext<'_>, wrong: &mut Vec<Wrong>) {
    for (at, fixed) in plan.fixed.iter().enumerate() {
        for (field, message) in amiss(fixed, plan, terms) {
            wrong.push(Wrong::new(
                Path::field("fixed").nth(at).then(field),
                format!(
                    "fixed, {} from {}: {message}",
                    fixed.variety, fixed.supplier
                ),
            ));
        }
    }
}

/// What of an offer that is fixed cannot be: the field and a sentence.
fn amiss(fixed: &Fixed, plan: &Plan, terms: ListContext<'_>) -> Vec<(&'static str, String)> {
    let Some(row) = terms.list.find(&fixed.variety) else {
        let message = "found a variety that is not in the list, expected one that is";
        return vec![("variety", message.into())];
    };
    let offers = &terms.list.list()[row].offers;
    let Some(offer) = offers.iter().find(|offer| offer.supplier == fixed.supplier) else {
        let message = "found no offer of it by that supplier, expected one in the list";
        return vec![("supplier", message.into())];
    };
    let mut amiss = Vec::new();
    if let Some(closes) = offer.closes.filter(|closes| *closes < plan.ordered) {
        amiss.push((
            "supplier",
            format!(
                "found an offer that closed on {closes}, expected one open on {}",
                plan.ordered
            ),
        ));
    }
    if let Some(available) = offer.available.filter(|available| *available < fixed.packs) {
        amiss.push((
            "packs",
            format!(
                "found {} packs, expected at most the {available} that can be had",
                fixed.packs
            ),
        ));
    }
    amiss
}
