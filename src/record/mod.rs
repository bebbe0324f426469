//! A record as a person fills it in: field by field, each with what it means, what may stand there
//! and whose figure it is.
//!
//! What can be filled in says so once, as [`Fields`]. The screen's slip, the commands that set a
//! field and their help are drawn from that.

mod field;
mod given;

pub use field::{Field, Figure, Key};
pub use given::{Given, given, take_given};

/// What can be filled in field by field.
pub trait Fields: Clone + PartialEq {
    /// What a text is read against, and values are offered from.
    type Ground<'a>: Copy;

    /// Its fields as they stand, the most used first, those of one group together. Which there are
    /// may hang on what stands in others: behind the last offer there is room for another.
    fn fields(&self, ground: Self::Ground<'_>) -> Vec<Field>;

    /// Takes in what was typed for a field, an empty text where it is not known or not wanted. What
    /// [`Fields::fields`] shows of a field is read as the same value.
    ///
    /// # Errors
    /// A clause: what was found, and what was expected. The record is then as it was.
    fn set(&mut self, key: Key, text: &str, ground: Self::Ground<'_>) -> Result<(), String>;

    /// What may stand in a field and goes with what is typed so far, the likeliest first; all of it
    /// where nothing is typed. Empty where there is no list of values.
    fn offered(&self, key: Key, typed: &str, ground: Self::Ground<'_>) -> Vec<String>;

    /// What is wrong with the record as a whole, such as a name that is taken: the field to look at
    /// and a clause.
    fn wrong(&self, ground: Self::Ground<'_>) -> Option<(Key, String)>;
}

/// Values that are offered at once at most: more than anybody looks through, and all forms, uses and
/// colour words are fewer.
const MOST_OFFERED: usize = 200;

/// Those of a list of values that begin with what is typed, then those that have it within; all where
/// nothing is typed. Case apart.
pub fn beginning_with<'a>(typed: &str, values: impl IntoIterator<Item = &'a str>) -> Vec<String> {
    let typed = typed.trim().to_lowercase();
    let (mut starts, mut holds) = (Vec::new(), Vec::new());
    for value in values {
        match place_of(&typed, value) {
            Some(0) => starts.push(value.to_string()),
            Some(_) if holds.len() < MOST_OFFERED => holds.push(value.to_string()),
            Some(_) | None => {}
        }
        if starts.len() == MOST_OFFERED {
            return starts;
        }
    }
    starts.append(&mut holds);
    starts.truncate(MOST_OFFERED);
    starts
}

/// Where a value has what is typed, which is in lower case. A list of names may be long, and is looked
/// through at each key.
fn place_of(typed: &str, value: &str) -> Option<usize> {
    if !(value.is_ascii() && typed.is_ascii()) {
        return value.to_lowercase().find(typed);
    }
    let last = value.len().checked_sub(typed.len())?;
    let (value, typed) = (value.as_bytes(), typed.as_bytes());
    (0..=last).find(|at| value[*at..*at + typed.len()].eq_ignore_ascii_case(typed))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_begins_so_comes_before_what_has_it_within() {
        let words = ["small ball", "ball", "Ballerina", "single"];
        assert_eq!(
            beginning_with("BALL", words),
            ["ball", "Ballerina", "small ball"]
        );
        assert_eq!(beginning_with(" ", words), words);
        assert_eq!(beginning_with("x", words), Vec::<String>::new());
    }
}
