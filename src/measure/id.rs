//! Ids as people type them: `event focal`, `Event_Focal` and `event-focal` are one.

/// Whether two texts are the same id: in any case of letters, with spaces, underscores or hyphens between
/// the words.
pub fn same_id(typed: &str, id: &str) -> bool {
    typed == id || parts(typed).eq(parts(id))
}

/// The id that is meant by what was typed, as the program's own are written: in small letters, with
/// hyphens.
pub fn id_of(typed: &str) -> String {
    let words: Vec<String> = words(typed).map(str::to_lowercase).collect();
    words.join("-")
}

fn words(text: &str) -> impl Iterator<Item = &str> {
    let between = |c: char| c.is_whitespace() || matches!(c, '-' | '_');
    text.split(between).filter(|word| !word.is_empty())
}

/// The letters of the words in lower case, each word ended by a hyphen.
fn parts(text: &str) -> impl Iterator<Item = char> {
    words(text).flat_map(|word| word.chars().flat_map(char::to_lowercase).chain(['-']))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn spaces_underscores_and_hyphens_are_one() {
        for typed in [
            "event focal",
            "event-focal",
            "Event_Focal",
            " EVENT  focal ",
            "event - focal",
        ] {
            assert!(same_id(typed, "event-focal"), "{typed}");
            assert_eq!(id_of(typed), "event-focal");
        }
        for typed in ["eventfocal", "event", "focal event", "event focals", ""] {
            assert!(!same_id(typed, "event-focal"), "{typed}");
        }
    }

    proptest! {
        #[test]
        fn what_is_the_same_id_has_the_same_form(one in "[aB _-]{0,5}", other in "[Ab _-]{0,5}") {
            prop_assert_eq!(same_id(&one, &other), id_of(&one) == id_of(&other));
            prop_assert!(same_id(&id_of(&one), &one));
        }
    }
}
