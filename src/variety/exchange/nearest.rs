//! Which terms may be meant by a word that is none.

use super::looked_up::{bare, tight};

/// The terms that may be meant, best first, at most so many: spelt with a slip or two, shortened word by
/// word (`inf dec`), or with a word in common. Each comes as it is spelt and with what it is then.
pub(super) fn nearest<'a>(
    word: &str,
    terms: impl IntoIterator<Item = (&'a str, &'a str)>,
    most: usize,
) -> Vec<&'a str> {
    let (wanted, whole) = (bare(word), tight(word));
    let letters = whole.chars().count();
    let mut found: Vec<(usize, &str)> = Vec::new();
    for (spelt, term) in terms {
        let Some(far) = apart(&wanted, &whole, letters, spelt) else {
            continue;
        };
        match found.iter_mut().find(|(_, known)| *known == term) {
            Some((least, _)) => *least = far.min(*least),
            None => found.push((far, term)),
        }
    }
    // Stable: of those as far the first stays first.
    found.sort_by_key(|(far, _)| *far);
    found.into_iter().take(most).map(|(_, term)| term).collect()
}

/// How far a word is from a spelling, to put them in order; `None` where they have nothing to do with each
/// other.
fn apart(wanted: &str, whole: &str, letters: usize, spelt: &str) -> Option<usize> {
    let slips = strsim::osa_distance(whole, &tight(spelt));
    if slips <= (letters / 3).clamp(1, 3) && letters > 1 {
        return Some(slips);
    }
    let spelt = bare(spelt);
    if is_short_for(wanted, &spelt) {
        return Some(4);
    }
    let words: Vec<&str> = spelt.split(' ').collect();
    let shared = wanted
        .split(' ')
        .filter(|one| one.len() > 2 && words.contains(one));
    match shared.count() {
        0 => None,
        shared => Some(20_usize.saturating_sub(5 * shared) + words.len()),
    }
}

/// Whether each word begins one of the other's words, in their order.
fn is_short_for(short: &str, whole: &str) -> bool {
    let mut words = whole.split(' ');
    let begins = |one: &str| words.by_ref().any(|word| word.starts_with(one));
    short.len() > 2 && short.split(' ').all(begins)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_best_comes_first_and_what_has_nothing_in_common_never() {
        let terms = [
            "formal decorative",
            "informal decorative",
            "ball",
            "miniature ball",
            "plum",
            "waterlily",
        ];
        let near = |word| nearest(word, terms.map(|one| (one, one)), 3);
        for (word, found) in [
            ("plumm", &["plum"][..]),
            ("inf. dec", &["informal decorative"]),
            ("wtaerlily", &["waterlily"]),
            ("bal", &["ball", "miniature ball"]),
            ("big ball", &["ball", "miniature ball"]),
            ("decorativ", &["formal decorative", "informal decorative"]),
            ("x", &[]),
            ("", &[]),
        ] {
            assert_eq!(near(word), found, "{word}");
        }
    }
}
