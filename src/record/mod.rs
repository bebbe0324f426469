//! A record as a person fills it in: field by field, each with what it means, what may stand there
//! and whose figure it is.
//!
//! What can be filled in says so once, as [`Fields`]. The screen's slip, the commands that set a
//! field and their help are drawn from that.

mod field;

pub use field::{Field, Figure, Key};

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

/// Those of a few values that begin with what is typed, then those that have it within; all where
/// nothing is typed. Case apart.
pub fn beginning_with<'a>(typed: &str, values: impl IntoIterator<Item = &'a str>) -> Vec<String> {
    let typed = typed.trim().to_lowercase();
    let all: Vec<&str> = values.into_iter().collect();
    let place = |value: &str| value.to_lowercase().find(&typed);
    let starts = all.iter().filter(|value| place(value) == Some(0));
    let holds = all.iter().filter(|value| place(value) > Some(0));
    starts.chain(holds).map(|value| value.to_string()).collect()
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
