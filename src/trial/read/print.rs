//! An entry shown as words, and a line of words taken apart again.

use std::fmt;

use super::ReadError;
use crate::trial::entry::{Entry, What};
use crate::variety::{Extent, Text};

impl Entry {
    /// The entry as words that [`Reader::read`](super::Reader::read) reads back, its number and subject apart.
    pub fn words(&self) -> Vec<String> {
        let mut words = vec![format!("date={}", self.date)];
        let mut say = |id: &str, value: Option<String>| {
            words.extend(value.map(|value| format!("{id}={value}")));
        };
        say("by", self.by.as_ref().map(Text::to_string));
        match &self.what {
            What::Observed(seen) => {
                say("corrects", self.corrects.map(|id| id.to_string()));
                let lengths = |list: &[Extent]| joined(list.iter().map(|one| one.length()));
                say("diameter", lengths(&seen.diameters));
                let colours = seen.colours.iter().enumerate();
                say("colour", joined(colours.map(|(at, one)| one.among(at))));
                say("stem", lengths(&seen.stems));
                say("height", lengths(seen.height.as_slice()));
                say("open", joined(seen.open));
                say("vase", joined(&seen.vase));
                say("weather", joined(&seen.weather));
                say("visits", joined(seen.visits));
                say("tubers", joined(seen.tubers));
                say("sound", joined(seen.sound));
                say("plants", joined(seen.plants));
                say("cut", joined(seen.cut));
                let yes_or_no = |yes| if yes { "yes" } else { "no" }.to_string();
                say("novelty", seen.novelty.map(yes_or_no));
                say("note", joined(&seen.note));
                let bloom = seen.bloom.as_deref().unwrap_or_default();
                words.extend(bloom.split_whitespace().map(str::to_string));
            }
            What::Decided(decision) => {
                say("corrects", self.corrects.map(|id| id.to_string()));
                say("decide", Some(decision.fate.word().to_string()));
                say("reason", joined(&decision.reason));
            }
            What::Withdrawn => say("withdraw", self.corrects.map(|id| id.to_string())),
        }
        words
    }

    /// The words on one line that [`Reader::read_line`](super::Reader::read_line) reads back; it can be pasted behind a
    /// command too.
    pub fn print(&self) -> String {
        let words: Vec<String> = self.words().iter().map(|word| quoted(word)).collect();
        words.join(" ")
    }
}

/// The words of a line, as a shell would part them: single quotation marks take all as it is,
/// double ones let a backslash stand before any character.
///
/// # Errors
/// A quotation mark that is never closed.
pub fn split(line: &str) -> Result<Vec<String>, ReadError> {
    let (mut words, mut word) = (Vec::new(), None::<String>);
    let mut characters = line.chars();
    while let Some(c) = characters.next() {
        match c {
            ' ' | '\t' => words.extend(word.take()),
            '\'' | '"' => {
                let word = word.get_or_insert_default();
                loop {
                    match characters.next() {
                        Some(end) if end == c => break,
                        Some('\\') if c == '"' => word.extend(characters.next()),
                        Some(other) => word.push(other),
                        None => {
                            return Err(ReadError {
                                about: "entry".to_string(),
                                found: format!("a quotation mark {c} that is never closed"),
                                expected: "one at the end of the value".to_string(),
                            });
                        }
                    }
                }
            }
            c => word.get_or_insert_default().push(c),
        }
    }
    words.extend(word);
    Ok(words)
}

fn quoted(word: &str) -> String {
    let bare = |c: char| c.is_alphanumeric() || "-_.,:/+=%#@".contains(c);
    if word.chars().all(bare) {
        return word.to_string();
    }
    let (id, value) = word.split_once('=').unwrap_or(("", word));
    if !value.contains('\'') {
        return format!("{id}='{value}'");
    }
    let mut escaped = String::new();
    for c in value.chars() {
        if "\"\\$`".contains(c) {
            escaped.push('\\');
        }
        escaped.push(c);
    }
    format!("{id}=\"{escaped}\"")
}

fn joined<T: fmt::Display>(list: impl IntoIterator<Item = T>) -> Option<String> {
    let list: Vec<String> = list.into_iter().map(|one| one.to_string()).collect();
    (!list.is_empty()).then(|| list.join(","))
}
