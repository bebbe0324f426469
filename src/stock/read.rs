//! An entry as words: `lifted=12 divided=43 lost=3 why=rotten`. This is what the command line, the screen
//! and the cells of a sheet are read by, and how an entry is written.

use std::fmt;

use jiff::civil::Date;

use super::entry::{Entry, Event, What, lifting_of};
use crate::book::words::{self as words_of, ReadError, Word, day_or, line, split, text};
use crate::measure::day::{Calendar, TypedDay};
use crate::measure::{Money, id_of};
use crate::trial::Subject;
use crate::variety::Text;

mod words;

pub use words::WORDS;

/// What words tell: an entry but for its number, its subject, and perhaps its day.
#[derive(Debug, Clone, PartialEq)]
pub struct Draft {
    /// The day, where it was told.
    pub date: Option<TypedDay>,
    /// Who noted it.
    pub by: Option<Text>,
    /// The entry in whose place it stands.
    pub corrects: Option<u32>,
    /// The year of lifting, where it was told.
    pub year: Option<i16>,
    /// Where.
    pub place: Option<Text>,
    /// What it tells.
    pub what: What,
}

impl Draft {
    /// Reads `WORD=VALUE` words; each may come once. A day is read by `days`.
    ///
    /// # Errors
    /// The first word that is wrong, with what was found and what was expected.
    pub fn read<S: AsRef<str>>(words: &[S], days: &Calendar) -> Result<Draft, ReadError> {
        let mut seen: Vec<String> = Vec::new();
        let mut draft = Draft {
            date: None,
            by: None,
            corrects: None,
            year: None,
            place: None,
            what: What::Withdrawn,
        };
        let mut event = Event::default();
        let mut withdraw = None;
        for pair in words {
            let pair = pair.as_ref();
            let (typed, value) = pair.split_once('=').ok_or_else(|| {
                ReadError::no_pair(pair, "WORD=VALUE, such as lifted=12 or sold=31")
            })?;
            let (typed, value) = (typed.trim(), value.trim());
            let id = id_of(typed);
            if seen.contains(&id) {
                return Err(ReadError::of(typed, value, "each word once"));
            }
            match id.as_str() {
                "date" => draft.date = Some(words_of::day(&id, value, days)?),
                "by" => draft.by = Some(text(&id, value)?),
                "year" => draft.year = Some(year(value)?),
                "place" => draft.place = Some(text(&id, value)?),
                "corrects" => draft.corrects = Some(words_of::number(&WORDS, &id, value)?),
                "withdraw" => withdraw = Some(words_of::number(&WORDS, &id, value)?),
                _ if take(&mut event, &id, value)? => {}
                _ => return Err(unknown(typed)),
            }
            seen.push(id);
        }
        draft.what = match withdraw {
            Some(_) if !event.is_empty() || draft.corrects.is_some() => {
                let expected = "withdraw in an entry without anything else";
                return Err(ReadError::of("withdraw", "it beside other words", expected));
            }
            Some(named) => {
                draft.corrects = Some(named);
                What::Withdrawn
            }
            None => What::Happened(Box::new(whole(event)?)),
        };
        Ok(draft)
    }

    /// Reads one line of words; values with spaces stand in quotation marks.
    ///
    /// # Errors
    /// As [`Draft::read`], and a quotation mark that is never closed.
    pub fn read_line(text: &str, days: &Calendar) -> Result<Draft, ReadError> {
        Draft::read(&split(text)?, days)
    }

    /// The entry with this number, of this subject; of `day` where the words named none.
    pub fn entry(self, id: u32, of: Subject, day: Date) -> Entry {
        let date = day_or(self.date.as_ref(), day);
        let withdraws = self.what == What::Withdrawn;
        let year = self.year.or((!withdraws).then(|| lifting_of(date)));
        Entry {
            id,
            corrects: self.corrects,
            date,
            by: self.by,
            of,
            year,
            place: self.place,
            what: self.what,
        }
    }
}

/// Takes the word up where it is something that happens; `false` where it is not.
fn take(event: &mut Event, id: &str, value: &str) -> Result<bool, ReadError> {
    let count = |slot: &mut Option<u32>| {
        *slot = Some(words_of::count(&WORDS, id, value)?);
        Ok(true)
    };
    match id {
        "lifted" => count(&mut event.lifted),
        "divided" => count(&mut event.divided),
        "stored" => count(&mut event.stored),
        "sound" => count(&mut event.sound),
        "lost" => count(&mut event.lost),
        "potted" => count(&mut event.potted),
        "cuttings" => count(&mut event.cuttings),
        "given" => count(&mut event.given),
        "promised" => count(&mut event.promised),
        "sold" => count(&mut event.sold),
        "planted" => count(&mut event.planted),
        "keep" => count(&mut event.keep),
        "why" => filled(&mut event.why, text(id, value)?),
        "to" => filled(&mut event.to, text(id, value)?),
        "note" => filled(&mut event.note, text(id, value)?),
        "price" => {
            let money = value.parse::<Money>().map_err(|error| error.to_string());
            let price = money.and_then(Money::as_price);
            filled(
                &mut event.price,
                price.map_err(|told| ReadError::clause(id, told))?,
            )
        }
        _ => Ok(false),
    }
}

fn filled<T>(slot: &mut Option<T>, value: T) -> Result<bool, ReadError> {
    *slot = Some(value);
    Ok(true)
}

/// The event, if its words belong together.
fn whole(event: Event) -> Result<Event, ReadError> {
    if event.is_empty() {
        return Err(ReadError::found(
            "entry",
            "nothing that happened",
            "at least one word such as lifted=12, divided=43, lost=3 or sold=31",
        ));
    }
    if event.why.is_some() && event.lost.is_none() {
        return Err(ReadError::found("why", "it alone", "lost= with it"));
    }
    let somebody = [event.given, event.promised, event.sold];
    let somebody = somebody.iter().flatten().count();
    if event.to.is_some() && somebody != 1 {
        let found = format!("it with {somebody} of given, promised and sold");
        return Err(ReadError::found("to", &found, "it with one of these"));
    }
    Ok(event)
}

fn year(value: &str) -> Result<i16, ReadError> {
    let year: Option<i16> = value.parse().ok();
    let known = |year: &i16| (1900..=2200).contains(year);
    year.filter(known)
        .ok_or_else(|| words_of::expected(&WORDS, "year", value))
}

fn unknown(typed: &str) -> ReadError {
    let words: Vec<&str> = WORDS.iter().map(|word: &Word| word.id).collect();
    ReadError::no_pair(typed, format!("one of {}", words.join(", ")))
}

impl Entry {
    /// The entry as words that [`Draft::read`] reads back, its number and subject apart.
    pub fn words(&self) -> Vec<String> {
        let mut words = vec![format!("date={}", self.date)];
        let mut say = |id: &str, value: Option<&dyn fmt::Display>| {
            words.extend(value.map(|value| format!("{id}={value}")));
        };
        macro_rules! say {
            ($($id:literal: $value:expr;)+) => {
                $(say($id, $value.as_ref().map(|one| one as &dyn fmt::Display));)+
            };
        }
        say! { "by": self.by; }
        let Some(event) = self.event() else {
            say! { "withdraw": self.corrects; }
            return words;
        };
        say! {
            "year": self.year;
            "place": self.place;
            "corrects": self.corrects;
            "lifted": event.lifted;
            "divided": event.divided;
            "cuttings": event.cuttings;
            "stored": event.stored;
            "lost": event.lost;
            "why": event.why;
            "potted": event.potted;
            "given": event.given;
            "sold": event.sold;
            "planted": event.planted;
            "promised": event.promised;
            "to": event.to;
            "price": event.price;
            "sound": event.sound;
            "keep": event.keep;
            "note": event.note;
        }
        words
    }

    /// The words on one line that [`Draft::read_line`] reads back; it can be pasted behind a command too.
    pub fn print(&self) -> String {
        line(&self.words())
    }
}

#[cfg(test)]
mod tests;
