//! Finding a trait by what a grower would call it, slips forgiven.

use crate::form::{Trait, Traits};

/// Indices of the traits that `text` may mean, the best first; all of them for no text.
pub(super) fn matches(traits: &Traits, text: &str) -> Vec<usize> {
    let sought = text.trim().to_lowercase();
    let ranked = traits.list().iter().enumerate();
    let mut found: Vec<(usize, usize)> = ranked
        .filter_map(|(index, one)| Some((rank(one, &sought)?, index)))
        .collect();
    found.sort_unstable();
    found.into_iter().map(|(_, index)| index).collect()
}

/// How far the text is from the trait, least for its own name; `None` where it is not like it.
fn rank(one: &Trait, sought: &str) -> Option<usize> {
    let id = one.id.to_lowercase();
    if id.starts_with(sought) {
        return Some(0);
    }
    let mut words = vec![id];
    for state in one.states() {
        words.push(state.id.to_lowercase());
    }
    let told = format!("{} {}", one.ask, one.look).to_lowercase();
    words.extend(
        told.split(|c: char| !c.is_alphanumeric())
            .map(str::to_string),
    );
    if words.iter().any(|word| word.starts_with(sought)) {
        return Some(1);
    }
    if told.contains(sought) {
        return Some(2);
    }
    let slips = sought.chars().count() / 3;
    let nearest = words
        .iter()
        .map(|word| slips_to_prefix(sought, word))
        .min()?;
    (nearest <= slips).then_some(2 + nearest)
}

/// The fewest slips (a letter wrong, missing or too many) from `text` to the start of `word`.
fn slips_to_prefix(text: &str, word: &str) -> usize {
    let word: Vec<char> = word.chars().collect();
    let mut row: Vec<usize> = (0..=word.len()).collect();
    for (at, typed) in text.chars().enumerate() {
        let mut diagonal = row[0];
        row[0] = at + 1;
        for column in 1..=word.len() {
            let wrong = diagonal + usize::from(word[column - 1] != typed);
            diagonal = row[column];
            row[column] = wrong.min(row[column] + 1).min(row[column - 1] + 1);
        }
    }
    row.into_iter().min().unwrap_or(0)
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
