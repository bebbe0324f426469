//! Finding a trait by what a grower would call it.

use crate::form::{Trait, Traits};
use crate::matching::{Finder, Folded, Query, folded};

/// Indices of the traits that `text` may mean, the best first; all of them for no text.
pub(super) fn matches(traits: &Traits, text: &str) -> Vec<usize> {
    let query = Query::new(text);
    let names: Vec<(Folded, String)> = traits.list().iter().map(searched).collect();
    let all = names.iter().map(|(name, told)| (name, told.as_str()));
    let found = Finder::of(&query).ranked(all).into_iter();
    found.map(|(_, index)| index).collect()
}

/// A trait's name, and what is told of it: its states, the question, where to look.
pub(in crate::screen) fn searched(one: &Trait) -> (Folded, String) {
    let states: Vec<&str> = one.states().iter().map(|state| state.id.as_str()).collect();
    let told = format!("{} {} {}", states.join(" "), one.ask, one.look);
    (Folded::of(&one.id), folded(&told))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_trait_is_found_by_its_name_its_states_and_with_slips() {
        let traits = Traits::embedded();
        for (text, id) in [
            ("dia", "diameter"),
            ("diamter", "diameter"),
            ("dmtr", "diameter"),
            ("outl", "outline"),
            ("pointed", "tip"),
            ("wavy", "set"),
            ("wide", "diameter"),
            ("collor", "collar"),
            ("ROWS", "rows"),
        ] {
            let found = matches(&traits, text);
            assert_eq!(
                found.first().map(|index| traits.get(*index).id.as_str()),
                Some(id),
                "{text}"
            );
        }
        assert_eq!(matches(&traits, "").len(), traits.list().len());
        assert!(matches(&traits, "qqqqq").is_empty());
    }
}
