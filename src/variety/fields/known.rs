//! Names of people and firms that a list has already, to be offered.

use std::collections::BTreeMap;

use crate::variety::list::Varieties;
use crate::variety::text::{Text, folded};

/// Raisers and suppliers of a list, each once, case and accents apart: worked out once, for a list may
/// be long.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct NamesKnown {
    pub(super) raisers: Vec<Text>,
    pub(super) suppliers: Vec<Text>,
}

impl NamesKnown {
    /// Those of a list.
    pub fn of(list: &Varieties) -> NamesKnown {
        let all = list.list().iter();
        let offers = all.clone().flat_map(|one| &one.offers);
        NamesKnown {
            raisers: each_once(all.filter_map(|one| one.raiser.as_ref())),
            suppliers: each_once(offers.map(|offer| &offer.supplier)),
        }
    }
}

/// In the order of the alphabet.
fn each_once<'a>(names: impl Iterator<Item = &'a Text>) -> Vec<Text> {
    let mut seen = std::collections::HashSet::new();
    let mut found = BTreeMap::new();
    for name in names.filter(|name| seen.insert(name.as_str())) {
        found.entry(folded(name)).or_insert_with(|| name.clone());
    }
    found.into_values().collect()
}
