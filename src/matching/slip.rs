//! One slip of the keyboard: a letter mistaken, missing, doubled or otherwise too many, or two
//! neighbours swapped.

/// Whether `word` is a beginning of `other` but for one slip.
pub(super) fn begins_but_for_a_slip(word: &str, other: &str) -> bool {
    if word.is_ascii() && other.is_ascii() {
        return begins(word.as_bytes(), other.as_bytes());
    }
    let characters = |text: &str| text.chars().collect::<Vec<char>>();
    begins(&characters(word), &characters(other))
}

fn begins<T: PartialEq>(word: &[T], other: &[T]) -> bool {
    // One slip leaves one of the first two letters among the first two.
    let early = &word[..word.len().min(2)];
    if !other.iter().take(2).any(|letter| early.contains(letter)) {
        return false;
    }
    let alike = word.iter().zip(other).take_while(|(a, b)| a == b).count();
    let (rest, left) = (&word[alike..], &other[alike..]);
    if rest.is_empty() {
        return true;
    }
    let after = |skip: usize| rest.get(skip..).unwrap_or_default();
    let swapped = match (rest, left) {
        ([a, b, ..], [c, d, ..]) => a == d && b == c && left[2..].starts_with(after(2)),
        _ => false,
    };
    // Too many, mistaken, missing, swapped.
    left.starts_with(after(1))
        || left.get(1..).is_some_and(|left| left.starts_with(after(1)))
        || left.get(1..).is_some_and(|left| left.starts_with(rest))
        || swapped
}
