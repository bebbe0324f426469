//! How a word is looked up, and which words are near a misspelt one.

/// What a word is looked up by: lower case, letters and digits only, so that `Dark red`,
/// `dark-red` and `darkred` are one.
pub(super) fn key(word: &str) -> String {
    word.chars()
        .filter(|c| c.is_alphanumeric())
        .flat_map(char::to_lowercase)
        .collect()
}

/// Up to `most` of `words` that are a slip or two from `wanted` (one in three letters), nearest first.
pub(super) fn near<'a>(
    wanted: &str,
    words: impl Iterator<Item = &'a str>,
    most: usize,
) -> Vec<&'a str> {
    let wanted: Vec<char> = key(wanted).chars().collect();
    let allowed = (wanted.len() / 3).clamp(1, 3);
    let mut found: Vec<(usize, &str)> = words
        .map(|word| (slips(&wanted, &key(word).chars().collect::<Vec<_>>()), word))
        .filter(|(slips, _)| *slips <= allowed)
        .collect();
    found.sort_unstable();
    found.dedup();
    found.into_iter().take(most).map(|(_, word)| word).collect()
}

/// Letters to add, drop, change or swap with the next: the optimal string alignment distance.
fn slips(from: &[char], to: &[char]) -> usize {
    let mut before_last: Vec<usize> = Vec::new();
    let mut last: Vec<usize> = (0..=to.len()).collect();
    for i in 1..=from.len() {
        let mut row = vec![i];
        for j in 1..=to.len() {
            let change = last[j - 1] + usize::from(from[i - 1] != to[j - 1]);
            let mut best = change.min(last[j] + 1).min(row[j - 1] + 1);
            if i > 1 && j > 1 && from[i - 1] == to[j - 2] && from[i - 2] == to[j - 1] {
                best = best.min(before_last[j - 2] + 1);
            }
            row.push(best);
        }
        before_last = std::mem::replace(&mut last, row);
    }
    last[to.len()]
}

#[cfg(test)]
mod tests {
    use super::*;

    fn count(from: &str, to: &str) -> usize {
        slips(
            &from.chars().collect::<Vec<_>>(),
            &to.chars().collect::<Vec<_>>(),
        )
    }

    #[test]
    fn counts_slips() {
        assert_eq!(count("peech", "peach"), 1);
        assert_eq!(count("brozne", "bronze"), 1);
        assert_eq!(count("", "red"), 3);
        // Wagner and Fischer's own example, 1974, as commonly quoted.
        assert_eq!(count("kitten", "sitting"), 3);
    }

    #[test]
    fn the_nearest_come_first_and_the_far_never() {
        let words = ["peach", "beech", "white", "peachy"];
        assert_eq!(near("Peech", words.into_iter(), 3), ["beech", "peach"]);
        assert!(near("zzz", words.into_iter(), 3).is_empty());
        assert!(near("", words.into_iter(), 3).is_empty());
    }
}
