//! What a sentence may hold that repeats a text of somebody else's.

/// The most characters of a sentence. A longer one is of a text that is no name and no number.
const LONGEST: usize = 600;

/// Whether a character would steer a terminal or turn the reading of a line in place of standing there:
/// controls, marks of the direction of writing, and what has no width. It is nothing that a name holds.
pub fn steers(c: char) -> bool {
    c.is_control()
        || matches!(c, '\u{61c}' | '\u{180e}' | '\u{200b}'..='\u{200f}' | '\u{2028}'..='\u{202e}')
        || matches!(c, '\u{2060}'..='\u{206f}' | '\u{feff}' | '\u{fff9}'..='\u{fffb}')
        || matches!(c, '\u{e0000}'..='\u{e007f}')
}

/// The sentence with such characters as their escapes, and no longer than can be read.
pub fn told(sentence: &str) -> String {
    let mut shown = String::with_capacity(sentence.len().min(2 * LONGEST));
    for (at, c) in sentence.chars().enumerate() {
        if at == LONGEST {
            shown.push_str("...");
            break;
        }
        match steers(c) {
            true => shown.extend(c.escape_unicode()),
            false => shown.push(c),
        }
    }
    shown
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_sentence_shows_what_steers_and_ends() {
        assert_eq!(told("found \u{202e}é\n"), "found \\u{202e}é\\u{a}");
        let long = told(&"é".repeat(1000));
        assert_eq!(
            (long.chars().count(), &long[long.len() - 5..]),
            (603, "é...")
        );
    }
}
