//! Names of people and firms that a list has already, to be offered.

use std::collections::BTreeMap;
use std::sync::OnceLock;

use crate::variety::list::Varieties;
use crate::variety::text::{Text, folded};

/// Raisers and suppliers of one list, each once, case and accents apart: worked out when they are first
/// asked for, and once, for a list may be long.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct NamesKnown {
    raisers: OnceLock<Vec<Text>>,
    suppliers: OnceLock<Vec<Text>>,
}

impl NamesKnown {
    /// The raisers of the list, in the order of the alphabet.
    pub(super) fn raisers(&self, list: &Varieties) -> &[Text] {
        let named = || each_once(list.list().iter().filter_map(|one| one.raiser.as_ref()));
        self.raisers.get_or_init(named)
    }

    /// The suppliers of the list, in the order of the alphabet.
    pub(super) fn suppliers(&self, list: &Varieties) -> &[Text] {
        let offers = || list.list().iter().flat_map(|one| &one.offers);
        let named = || each_once(offers().map(|offer| &offer.supplier));
        self.suppliers.get_or_init(named)
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
