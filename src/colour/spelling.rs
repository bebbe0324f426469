//! How a word is looked up, and which words are near a misspelt one.

/// What a word is looked up by: lower case, letters and digits only, so that `Dark red`,
/// `dark-red` and `darkred` are one.
pub(super) fn key(word: &str) -> String {
    word.chars()
        .filter(|c| c.is_alphanumeric())
        .flat_map(char::to_lowercase)
        .collect()
}

/// Up to `most` of `words` that are a slip or two from `wanted` (one in three letters), nearest first. A slip is a
/// letter added, dropped, changed or swapped with the next.
pub(super) fn near<'a>(
    wanted: &str,
    words: impl Iterator<Item = &'a str>,
    most: usize,
) -> Vec<&'a str> {
    let wanted = key(wanted);
    let letters = wanted.chars().count();
    let allowed = (letters / 3).clamp(1, 3);
    let mut found: Vec<(usize, &str)> = words
        .filter_map(|word| {
            let own = key(word);
            // As many letters more or fewer are as many slips: most words need no more than that.
            let apart = own.chars().count().abs_diff(letters);
            let slips = (apart <= allowed).then(|| strsim::osa_distance(&wanted, &own))?;
            (slips <= allowed).then_some((slips, word))
        })
        .collect();
    found.sort_unstable();
    found.dedup();
    found.into_iter().take(most).map(|(_, word)| word).collect()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_nearest_come_first_and_the_far_never() {
        let words = ["peach", "beech", "white", "peachy"];
        assert_eq!(near("Peech", words.into_iter(), 3), ["beech", "peach"]);
        assert!(near("zzz", words.into_iter(), 3).is_empty());
        assert!(near("", words.into_iter(), 3).is_empty());
        assert_eq!(near("whit", words.into_iter(), 3), ["white"]);
        assert_eq!(near("hwite", words.into_iter(), 3), ["white"]);
        assert!(near(&"e".repeat(60_000), words.into_iter(), 3).is_empty());
    }
}
