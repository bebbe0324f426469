//! Fields given as words: `price-2=4.50`.

use super::{Fields, Key};

/// A field with the text that it is to have.
pub type Given = (Key, String);

/// Reads `WORD=TEXT` and `WORD-2=TEXT` of the words that a record has.
///
/// # Errors
/// What was found and what was expected.
pub fn given(text: &str, words: &[&'static str]) -> Result<Given, String> {
    let expected = || format!("of {}", words.join(", "));
    let Some((name, value)) = text.split_once('=') else {
        return Err(format!(
            "found {text:?}, expected FIELD=VALUE, the field one {}",
            expected()
        ));
    };
    let name = name.trim().to_lowercase().replace(['_', ' '], "-");
    let known = |name: &str| words.iter().find(|word| **word == name).copied();
    let key = known(&name).map(Key::of).or_else(|| {
        let (word, number) = name.rsplit_once('-')?;
        let number: usize = number
            .parse()
            .ok()
            .filter(|number| (1..=99).contains(number))?;
        Some(Key::nth(known(word)?, number - 1))
    });
    let key =
        key.ok_or_else(|| format!("found the field {name:?}, expected one {}", expected()))?;
    Ok((key, value.trim().to_string()))
}

/// Takes in all that is given, in whatever order: what others hang on first, and what is emptied last,
/// from the last of several alike to the first.
///
/// # Errors
/// A sentence with the field.
pub fn take_given<R: Fields>(
    record: &mut R,
    given: &[Given],
    words: &[&'static str],
    ground: R::Ground<'_>,
) -> Result<(), String> {
    let place = |key: &Key| words.iter().position(|word| *word == key.word);
    for (at, (key, _)) in given.iter().enumerate() {
        if given[..at].iter().any(|(other, _)| other == key) {
            return Err(format!("{key}: found it twice, expected each field once"));
        }
    }
    let (mut emptied, mut filled): (Vec<&Given>, Vec<&Given>) =
        given.iter().partition(|(_, text)| text.is_empty());
    filled.sort_by_key(|(key, _)| (place(key), key.place));
    emptied.sort_by_key(|(key, _)| std::cmp::Reverse(key.place));
    for (key, text) in filled.into_iter().chain(emptied) {
        let set = record.set(*key, text, ground);
        set.map_err(|told| format!("{key}: {told}"))?;
    }
    Ok(())
}
