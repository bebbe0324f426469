//! A need in words: what a grower types to change one.

use std::str::FromStr;

use super::need::Need;
use crate::measure::brief;
use crate::variety::{Text, use_id};

/// The words that a need takes.
const NEED_WORDS: &str = "stems, weeks such as 30-42, use= fitness= colours= within= forms= varieties= each= different= most= name=; a word with nothing after it takes it away";

impl Need {
    /// A need read from `NAME: 20 36-38 colours=plum`.
    ///
    /// # Errors
    /// A sentence with the word that means nothing, or what is lacking.
    pub fn read(text: &str) -> Result<Need, String> {
        let expected = "expected a name, a colon, stems and weeks, such as harvest supper: 20 36-38 colours=warm";
        let (name, words) = text
            .split_once(':')
            .ok_or_else(|| format!("found {text:?}, {expected}", text = brief(text)))?;
        let bare: Vec<&str> = words
            .split_whitespace()
            .filter(|word| !word.contains('='))
            .collect();
        let stems = bare.iter().any(|word| word.parse::<u32>().is_ok());
        let weeks = bare.iter().any(|word| word.contains('-'));
        if !stems || !weeks {
            return Err(format!("found {:?}, {expected}", brief(words.trim())));
        }
        let one = std::num::NonZeroU32::MIN;
        let blank = Need {
            name: Text::new(name.trim()).map_err(|error| error.to_string())?,
            stems: one,
            weeks: (1, 1),
            for_use: None,
            fitness: None,
            colours: Vec::new(),
            within: None,
            forms: Vec::new(),
            varieties: None,
            different_forms: None,
            each: None,
            most_from_one: None,
        };
        blank.with(words)
    }

    /// The need changed by words: `60`, `30-42`, `within=8`, `colours=plum,wine`.
    ///
    /// # Errors
    /// A sentence with the word that means nothing.
    pub fn with(&self, words: &str) -> Result<Need, String> {
        let mut need = self.clone();
        for (word, value) in pieces(words)? {
            let value = value.as_str();
            let listed = || -> Result<Vec<Text>, String> {
                let values = value
                    .split(',')
                    .map(str::trim)
                    .filter(|one| !one.is_empty());
                values
                    .map(|one| Text::new(one).map_err(|error| error.to_string()))
                    .collect()
            };
            match word {
                "name" => need.name = Text::new(value).map_err(|error| error.to_string())?,
                "stems" => need.stems = number(word, value)?,
                "weeks" => need.weeks = weeks(value)?,
                "use" => need.for_use = a_use(value)?,
                "fitness" => need.fitness = if_any(word, value)?,
                "colours" => need.colours = listed()?,
                "within" => need.within = if_any(word, value)?,
                "forms" => need.forms = listed()?,
                "varieties" => need.varieties = if_any(word, value)?,
                "different" => need.different_forms = if_any(word, value)?,
                "each" => need.each = if_any(word, value)?,
                "most" => need.most_from_one = if_any(word, value)?,
                _ => {
                    return Err(format!(
                        "found {word:?}, expected {NEED_WORDS}",
                        word = brief(word)
                    ));
                }
            }
        }
        // Without a colour a distance means nothing, nor a fitness without a use.
        if need.colours.is_empty() {
            need.within = None;
        }
        if need.for_use.is_none() {
            need.fitness = None;
        }
        Ok(need)
    }

    /// The need in the same words, its name apart.
    pub fn words(&self) -> String {
        let list = |values: &[Text]| {
            values
                .iter()
                .map(Text::as_str)
                .collect::<Vec<_>>()
                .join(",")
        };
        let mut words = vec![format!("{} {}-{}", self.stems, self.weeks.0, self.weeks.1)];
        let mut add = |word: &str, value: Option<String>| {
            words.extend(
                value
                    .filter(|value| !value.is_empty())
                    .map(|value| format!("{word}={value}")),
            );
        };
        add("use", self.for_use.as_ref().map(Text::to_string));
        add("fitness", self.fitness.map(|one| one.to_string()));
        add("colours", Some(list(&self.colours)));
        add("within", self.within.map(|one| one.to_string()));
        add("forms", Some(list(&self.forms)));
        add("varieties", self.varieties.map(|one| one.to_string()));
        add("each", self.each.map(|one| one.to_string()));
        add("different", self.different_forms.map(|one| one.to_string()));
        add("most", self.most_from_one.map(|one| one.to_string()));
        words.join(" ")
    }
}

/// The id of a use, of today where an old one was typed; `None` where nothing was.
fn a_use(value: &str) -> Result<Option<Text>, String> {
    match value.trim() {
        "" => Ok(None),
        id => Text::new(use_id(id))
            .map(Some)
            .map_err(|error| error.to_string()),
    }
}

/// Words with their values: a bare number is stems, a bare span is weeks; a value goes on over
/// spaces to the next word with an equals sign.
fn pieces(words: &str) -> Result<Vec<(&str, String)>, String> {
    let mut pieces: Vec<(&str, String)> = Vec::new();
    for word in words.split_whitespace() {
        match word.split_once('=') {
            Some((word, value)) => pieces.push((word, value.to_string())),
            None if word.bytes().all(|byte| byte.is_ascii_digit()) && !inside(&pieces) => {
                pieces.push(("stems", word.to_string()))
            }
            None if word.contains('-')
                && word.starts_with(|c: char| c.is_ascii_digit())
                && !inside(&pieces) =>
            {
                pieces.push(("weeks", word.to_string()))
            }
            None => match pieces
                .last_mut()
                .filter(|(word, _)| !matches!(*word, "stems" | "weeks"))
            {
                Some((_, value)) => *value += &format!(" {word}"),
                None => {
                    return Err(format!(
                        "found {word:?}, expected {NEED_WORDS}",
                        word = brief(word)
                    ));
                }
            },
        }
    }
    Ok(pieces)
}

/// Whether the last value has an open bracket, as `lab(83 14 24)` has at its numbers.
fn inside(pieces: &[(&str, String)]) -> bool {
    pieces
        .last()
        .is_some_and(|(_, value)| value.matches('(').count() > value.matches(')').count())
}

fn weeks(value: &str) -> Result<(u8, u8), String> {
    let (first, last) = value.split_once('-').unwrap_or((value, value));
    let read = |text: &str| text.trim().parse::<u8>().ok();
    read(first).zip(read(last)).ok_or_else(|| {
        format!(
            "found the weeks {value:?}, expected such as 30-42",
            value = brief(value)
        )
    })
}

fn number<T: FromStr>(word: &str, value: &str) -> Result<T, String> {
    value.parse().map_err(|_| {
        format!(
            "{word}: found {value:?}, expected a number over 0",
            value = brief(value)
        )
    })
}

fn if_any<T: FromStr>(word: &str, value: &str) -> Result<Option<T>, String> {
    match value {
        "" => Ok(None),
        value => {
            let read = value.parse().map(Some);
            read.map_err(|_| {
                format!(
                    "{word}: found {value:?}, expected a number over 0",
                    value = brief(value)
                )
            })
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_need_is_changed_by_a_few_words_and_reads_back() {
        let need =
            Need::read("harvest supper: 20 36-38 colours=warm,lab(83 14 24) within=8 use=low-bowl")
                .expect("a need");
        assert_eq!((need.stems.get(), need.weeks), (20, (36, 38)));
        assert_eq!(need.colours.len(), 2);
        assert_eq!(
            Need::read(&format!("{}: {}", need.name, need.words())),
            Ok(need.clone())
        );
        let filler = need.with("use=tuck-in").expect("an old id");
        assert_eq!(filler, need.with("use=filler").expect("the id of today"));
        let any = need.with("use=").expect("no use");
        assert_eq!((any.for_use, any.fitness), (None, None));
        let more = need.with("25 colours= most=40").expect("a need");
        assert_eq!(
            (more.stems.get(), more.within, more.weeks),
            (25, None, (36, 38))
        );
        assert_eq!(more.most_from_one.map(std::num::NonZeroU8::get), Some(40));
        for (words, told) in [
            ("0", "over 0"),
            ("size=3", "\"size\""),
            ("many", "\"many\""),
            ("3-x", "30-42"),
            ("within=far", "a number"),
        ] {
            let error = need.with(words).expect_err(words);
            assert!(error.contains(told), "{words}: {error}");
        }
        assert!(
            Need::read("supper: 20")
                .expect_err("weeks")
                .contains("36-38")
        );
    }
}
