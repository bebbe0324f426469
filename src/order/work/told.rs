//! An event and a round as they are told, and in the words that are typed to change them.

use super::kinds::{Count, When, Work};
use super::piece::Pieces;
use super::weekday::word;
use crate::form::traits::list_or;
use crate::measure::day;
use crate::variety::Text;

impl Work {
    /// All that it is, its name apart: `Sun 12 Sep 2027; 12 table bowls, 1 bride's bunch; plum or blush,
    /// within 8`. Pieces are named as in the table where that has them.
    pub fn told(&self, pieces: Option<&Pieces>) -> String {
        let mut told = vec![self.when.told(), self.pieces_told(pieces)];
        if !self.colours.is_empty() {
            let within = self.within.map(|within| format!(", within {within}"));
            let colours: Vec<&str> = self.colours.iter().map(Text::as_str).collect();
            told.push(list_or(&colours) + &within.unwrap_or_default());
        }
        told.extend(
            self.cut_before
                .map(|days| format!("cut {} before", crate::measure::days(days.into()))),
        );
        told.extend(self.sure.map(|sure| format!("sure {:.0} %", sure * 100.0)));
        told.join("; ")
    }

    /// `12 table bowls, 1 bride's bunch`.
    pub fn pieces_told(&self, pieces: Option<&Pieces>) -> String {
        let told = |Count(number, name): &Count| {
            let known = pieces.and_then(|pieces| pieces.find(name.as_str()));
            known.map_or_else(
                || format!("{number} {name}"),
                |piece| piece.counted(number.get()),
            )
        };
        let told: Vec<String> = self.pieces.iter().map(told).collect();
        told.join(", ")
    }

    /// The pieces as they are typed: `12 table bowl, 1 bride's bunch`.
    pub(in crate::order) fn pieces_words(&self) -> String {
        self.pieces_told(None)
    }

    /// It in the words that are typed, its name apart.
    pub fn words(&self) -> String {
        let when = match self.when {
            When::On(day) => day.to_string(),
            When::Every { day, from, to } => format!("{}s {from} to {to}", word(day)),
        };
        let mut words = vec![format!("{when} {}", self.pieces_words())];
        let mut add = |word: &str, value: Option<String>| {
            words.extend(value.map(|value| format!("{word}={value}")));
        };
        let colours: Vec<&str> = self.colours.iter().map(Text::as_str).collect();
        add("colours", (!colours.is_empty()).then(|| colours.join(",")));
        add("within", self.within.map(|one| one.to_string()));
        add("cut", self.cut_before.map(|one| one.to_string()));
        add("sure", self.sure.map(|one| one.to_string()));
        words.join(" ")
    }
}

impl When {
    /// `Sun 12 Sep 2027`, `Fridays, 13 Aug to 1 Oct 2027`.
    pub fn told(self) -> String {
        match self {
            When::On(day) => day.strftime("%a %-d %b %Y").to_string(),
            When::Every { day, from, to } => {
                let (name, from) = (word(day), from.strftime("%-d %b"));
                let mut letters = name.chars();
                let first = letters.next().map(|first| first.to_ascii_uppercase());
                let first = first.into_iter().collect::<String>();
                format!(
                    "{first}{}s, {from} to {}",
                    letters.as_str(),
                    to.strftime("%-d %b %Y")
                )
            }
        }
    }

    /// The same with the day of an event as a letter has it: `12 September 2027`.
    pub fn in_words(self) -> String {
        match self {
            When::On(on) => day::in_words(on),
            round => round.told(),
        }
    }
}
