//! The words of a plan, looked up: uses, colours, forms, what is fixed by hand.

use crate::colour::Target;
use crate::order::{Need, Plan};
use crate::variety::{Grounds, Index, Text, Varieties};

/// What a plan is read against.
#[derive(Clone, Copy)]
pub struct Against<'a> {
    /// The grower's list.
    pub list: &'a Varieties,
    /// Its columns.
    pub index: &'a Index,
    /// What they were worked out under.
    pub grounds: Grounds<'a>,
}

/// A need with its words looked up.
pub(super) struct Asked {
    pub(super) use_at: Option<usize>,
    pub(super) targets: Vec<Target>,
    pub(super) forms: Vec<usize>,
}

pub(super) fn looked_up(need: &Need, terms: Against<'_>, wrong: &mut Vec<String>) -> Asked {
    let Grounds { uses, words, .. } = terms.grounds;
    let use_at = need.for_use.as_ref().and_then(|id| {
        let found = uses.find(id);
        if found.is_none() {
            let ids: Vec<&str> = uses.list().iter().map(|one| one.id.as_str()).collect();
            wrong.push(format!(
                "{}: found the use {:?}, expected one of {}",
                need.name,
                id.as_str(),
                ids.join(", ")
            ));
        }
        found
    });
    let mut targets = Vec::new();
    for colour in &need.colours {
        // A word of the trade that is also a family is the word.
        let members = if words.find(colour).is_none() {
            words.members(colour)
        } else {
            None
        };
        match members.map_or_else(|| words.target(colour).map(|target| vec![target]), Ok) {
            Ok(found) => targets.extend(found),
            Err(error) => wrong.push(format!("{}: {error}", need.name)),
        }
    }
    Asked {
        use_at,
        targets,
        forms: forms(&need.forms, &need.name, terms, wrong),
    }
}

pub(super) fn forms(
    ids: &[Text],
    near: &str,
    terms: Against<'_>,
    wrong: &mut Vec<String>,
) -> Vec<usize> {
    let rules = terms.grounds.rules;
    let found = ids.iter().filter_map(|id| {
        let form = rules.find(id);
        if form.is_none() {
            wrong.push(format!(
                "{near}: found the form {:?}, expected a form of {}",
                id.as_str(),
                rules.id
            ));
        }
        form
    });
    found.collect()
}

pub(super) fn check_fixed(plan: &Plan, terms: Against<'_>, wrong: &mut Vec<String>) {
    for fixed in &plan.fixed {
        let near = format!("fixed, {} from {}", fixed.variety, fixed.supplier);
        let Some(row) = terms.list.find(&fixed.variety) else {
            wrong.push(format!(
                "{near}: found a variety that is not in the list, expected one that is"
            ));
            continue;
        };
        let offers = &terms.list.list()[row].offers;
        let Some(offer) = offers.iter().find(|offer| offer.supplier == fixed.supplier) else {
            wrong.push(format!(
                "{near}: found no offer of it by that supplier, expected one in the list"
            ));
            continue;
        };
        if let Some(closes) = offer.closes.filter(|closes| *closes < plan.ordered) {
            wrong.push(format!(
                "{near}: found an offer that closed on {closes}, expected one open on {}",
                plan.ordered
            ));
        }
        if let Some(available) = offer.available.filter(|available| *available < fixed.packs) {
            wrong.push(format!(
                "{near}: found {} packs, expected at most the {available} that can be had",
                fixed.packs
            ));
        }
    }
}
