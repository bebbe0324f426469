//! An entry shown as words.

use std::fmt;

use crate::book::words::line;
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
        line(&self.words())
    }
}

fn joined<T: fmt::Display>(list: impl IntoIterator<Item = T>) -> Option<String> {
    let list: Vec<String> = list.into_iter().map(|one| one.to_string()).collect();
    (!list.is_empty()).then(|| list.join(","))
}
