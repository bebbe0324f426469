//! An entry as words: `diameter=98mm,104mm vase=7,8,6,6+ weather=wind:3/12`. This is what the command
//! line, the screen and the cells of a sheet are read by, and how an entry is shown.

use std::fmt;

use jiff::civil::Date;

use super::entry::{Decision, Entry, EntryError, Fate, Observation, Shade, What};
use super::seedling::Subject;
use crate::colour::{Piece, several};
use crate::form::{Answers, Traits};
use crate::measure::day::{self, Calendar, TypedDay};
use crate::measure::{Exact, Length, LengthUnit, SizeUnits};
use crate::measure::{brief, id_of};
use crate::problem::told;
use crate::variety::{Extent, Text};

mod print;
mod told;
mod words;

pub use print::split;
pub use words::{WORDS, Word};

/// Reads words under a table of traits.
#[derive(Debug, Clone, Copy)]
pub struct Reader<'a> {
    /// The traits that may be answered.
    pub traits: &'a Traits,
    /// The grower's units, in which a bare number is taken: a diameter as mm or in, a stem and a
    /// height as cm or in. With `None` every length needs its unit.
    pub bare: Option<SizeUnits>,
    /// What a day is read by.
    pub days: Calendar,
}

/// What words tell: an entry but for its number, its subject, and perhaps its day.
#[derive(Debug, Clone, PartialEq)]
pub struct Draft {
    /// The day, where it was told.
    pub date: Option<TypedDay>,
    /// Who saw it.
    pub by: Option<Text>,
    /// The entry in whose place it stands.
    pub corrects: Option<u32>,
    /// What it tells.
    pub what: What,
}

/// Why words are not an entry: one sentence.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ReadError {
    /// The word that is wrong.
    pub about: String,
    found: String,
    expected: String,
}

const MOST_COUNT: u32 = 9999;

impl Reader<'_> {
    /// Reads `WORD=VALUE` words; each may come once.
    ///
    /// # Errors
    /// The first word that is wrong, with what was found and what was expected.
    pub fn read<S: AsRef<str>>(&self, words: &[S]) -> Result<Draft, ReadError> {
        let mut seen: Vec<String> = Vec::new();
        let mut draft = Draft {
            date: None,
            by: None,
            corrects: None,
            what: What::Withdrawn,
        };
        let mut observation = Observation::default();
        let mut answers: Vec<&str> = Vec::new();
        let (mut fate, mut reason, mut withdraw) = (None, None, None);
        for pair in words {
            let pair = pair.as_ref();
            let (id, value) = pair.split_once('=').ok_or_else(|| ReadError {
                about: told(&brief(pair)),
                found: format!("{pair:?}", pair = brief(pair)),
                expected: "WORD=VALUE, such as diameter=98mm or centre=closed".to_string(),
            })?;
            let (typed, value) = (id.trim(), value.trim());
            let word = id_of(typed);
            if seen.contains(&word) {
                return Err(fault(typed, value, "each word once".to_string()));
            }
            let id = word.as_str();
            match id {
                "date" => draft.date = Some(self.day(id, value)?),
                "by" => draft.by = Some(text(id, value)?),
                "corrects" => draft.corrects = Some(entry_number(id, value)?),
                "withdraw" => withdraw = Some(entry_number(id, value)?),
                "decide" => fate = Some(value.parse::<Fate>().map_err(|e| within(id, e))?),
                "reason" => reason = Some(text(id, value)?),
                _ if self.observed(&mut observation, id, value)? => {}
                _ if self.traits.find(id).is_some() => answers.push(pair),
                _ => return Err(self.unknown(typed)),
            }
            seen.push(word);
        }
        observation.bloom = self.bloom(&answers)?;
        let alone = |word: &str| {
            let expected = format!("{word} in an entry without observations");
            Err(fault(word, "it beside observations", expected))
        };
        draft.what = match (withdraw, fate, reason) {
            (Some(_), ..)
                if !observation.is_empty() || fate.is_some() || draft.corrects.is_some() =>
            {
                return alone("withdraw");
            }
            (Some(of), None, None) => {
                draft.corrects = Some(of);
                What::Withdrawn
            }
            (_, Some(_), _) if !observation.is_empty() => return alone("decide"),
            (_, Some(fate), reason) => What::Decided(Decision { fate, reason }),
            (_, None, Some(reason)) => {
                return Err(fault(
                    "reason",
                    &reason,
                    "decide=keep, hold or cull with it".into(),
                ));
            }
            (None, None, None) if observation.is_empty() => {
                return Err(ReadError {
                    about: "entry".to_string(),
                    found: "nothing that was seen or decided".to_string(),
                    expected: "at least one word such as diameter=98mm, vase=7,6+ or centre=closed"
                        .to_string(),
                });
            }
            (None, None, None) => What::Observed(observation),
        };
        Ok(draft)
    }

    /// Reads one line of words; values with spaces stand in quotation marks.
    ///
    /// # Errors
    /// As [`Reader::read`], and a quotation mark that is never closed.
    pub fn read_line(&self, line: &str) -> Result<Draft, ReadError> {
        self.read(&split(line)?)
    }

    /// Takes up the word where it is an observation beside the traits; `false` where it is not.
    fn observed(&self, seen: &mut Observation, id: &str, value: &str) -> Result<bool, ReadError> {
        let small = LengthUnit::Millimetre;
        let long = LengthUnit::Centimetre;
        match id {
            "diameter" => seen.diameters = self.lengths(id, value, small)?,
            "colour" => seen.colours = colours(id, value)?,
            "stem" => seen.stems = self.lengths(id, value, long)?,
            "height" => seen.height = Some(self.length(id, value, long)?),
            "open" => seen.open = Some(count(id, value)?),
            "vase" => seen.vase = list(id, &commas(value))?,
            "weather" => {
                let one = |part: &&str| part.trim().parse().map_err(|_| expected(id, part));
                seen.weather = commas(value).iter().map(one).collect::<Result<_, _>>()?;
            }
            "visits" => seen.visits = Some(value.parse().map_err(|e| within(id, e))?),
            "tubers" => seen.tubers = Some(count(id, value)?),
            "sound" => seen.sound = Some(count(id, value)?),
            "plants" => seen.plants = Some(count(id, value)?),
            "cut" => seen.cut = Some(count(id, value)?),
            "novelty" => {
                seen.novelty = match id_of(value).as_str() {
                    "yes" => Some(true),
                    "no" => Some(false),
                    _ => return Err(expected(id, value)),
                }
            }
            "note" => seen.note = Some(text(id, value)?),
            _ => return Ok(false),
        }
        Ok(true)
    }

    fn day(&self, id: &str, value: &str) -> Result<TypedDay, ReadError> {
        day::typed(value, &self.days).map_err(|told| ReadError {
            about: id.to_string(),
            found: told,
            expected: String::new(),
        })
    }

    fn bloom(&self, pairs: &[&str]) -> Result<Option<Text>, ReadError> {
        let answers = Answers::read(pairs, self.traits).map_err(|error| ReadError {
            about: String::new(),
            found: error.to_string(),
            expected: String::new(),
        })?;
        let printed = answers.print(self.traits);
        match printed.is_empty() {
            true => Ok(None),
            false => text("bloom", &printed).map(Some),
        }
    }

    fn lengths(&self, id: &str, value: &str, bare: LengthUnit) -> Result<Vec<Extent>, ReadError> {
        let one = |part: &&str| self.length(id, part, bare);
        commas(value).iter().map(one).collect()
    }

    fn length(&self, id: &str, value: &str, bare: LengthUnit) -> Result<Extent, ReadError> {
        let metric = bare;
        let bare = self.bare.map(|units| match units {
            SizeUnits::Mm => metric,
            SizeUnits::In => LengthUnit::Inch,
        });
        let (length, unit) = match (value.trim().parse::<Exact>(), bare) {
            (Ok(number), Some(unit)) => (Length::new(number, unit), Some(unit)),
            _ => (value.parse().map_err(|_| expected(id, value))?, None),
        };
        let whole = || fault(id, value, "a length over 0 and up to 5m".to_string());
        let extent = Extent::try_from(length).map_err(|_| whole())?;
        // A bare number in the grower's other units is the usual slip: say as what it was read.
        let one = self.traits.find(id).map(|at| self.traits.get(at));
        match (unit, one.and_then(|one| Some((one, one.domain()?)))) {
            (Some(unit), Some((one, domain))) if !domain.holds(length.mm()) => {
                let (unit, other) = match (unit, metric) {
                    (LengthUnit::Millimetre, _) => ("mm", "in"),
                    (LengthUnit::Centimetre, _) => ("cm", "in"),
                    (_, LengthUnit::Centimetre) => (" inches", "cm"),
                    _ => (" inches", "mm"),
                };
                let most = one.print(domain.high);
                let value = value.trim();
                let told = format!(
                    "a length over 0 and up to {most}; {value} is read as {value}{unit}: write {value}{other} if that is meant"
                );
                Err(fault(id, value, told))
            }
            _ => Ok(extent),
        }
    }

    fn unknown(&self, id: &str) -> ReadError {
        let words: Vec<&str> = WORDS.iter().map(|word| word.id).collect();
        ReadError {
            about: told(&brief(id)),
            found: format!("{id:?}", id = brief(id)),
            expected: format!(
                "one of {}, or a trait ({})",
                words.join(", "),
                self.traits.ids()
            ),
        }
    }
}

impl Draft {
    /// The entry with this number, of this subject; of `day` where the words named none.
    pub fn entry(self, id: u32, of: Subject, day: Date) -> Entry {
        Entry {
            id,
            corrects: self.corrects,
            date: self.date.map_or(day, |typed| typed.day),
            by: self.by,
            of,
            what: self.what,
        }
    }
}

fn commas(value: &str) -> Vec<&str> {
    value.split(',').collect()
}

/// Colours in the one grammar of [`several`]. How they lie is no word of an entry.
fn colours(id: &str, value: &str) -> Result<Vec<Shade>, ReadError> {
    let pieces = several(value, &|_| false).map_err(|none| within(id, none.into()))?;
    let one = |piece: Piece| Shade::of(piece.part, &piece.colour);
    let read: Result<Vec<Shade>, EntryError> = pieces.into_iter().map(one).collect();
    read.map_err(|error| within(id, error))
}

fn list<T: std::str::FromStr<Err = EntryError>>(
    id: &str,
    parts: &[&str],
) -> Result<Vec<T>, ReadError> {
    let one = |part: &&str| part.trim().parse().map_err(|error| within(id, error));
    parts.iter().map(one).collect()
}

fn count(id: &str, value: &str) -> Result<u32, ReadError> {
    let digits = value.bytes().all(|byte| byte.is_ascii_digit());
    let number = digits.then(|| value.parse().ok()).flatten();
    number
        .filter(|number| *number <= MOST_COUNT)
        .ok_or_else(|| expected(id, value))
}

fn entry_number(id: &str, value: &str) -> Result<u32, ReadError> {
    value.parse().map_err(|_| expected(id, value))
}

fn text(id: &str, value: &str) -> Result<Text, ReadError> {
    Text::new(value).map_err(|error| ReadError {
        about: told(&brief(id)),
        found: error.to_string(),
        expected: String::new(),
    })
}

fn within(id: &str, error: EntryError) -> ReadError {
    ReadError {
        about: told(&brief(id)),
        found: error.found,
        expected: error.expected,
    }
}

/// The error of a value that is not what its word wants.
fn expected(id: &str, value: &str) -> ReadError {
    let word = WORDS.iter().find(|word| word.id == id);
    fault(id, value, word.map_or("", |word| word.expected).to_string())
}

fn fault(id: &str, value: &str, expected: String) -> ReadError {
    ReadError {
        about: told(&brief(id)),
        found: format!("{value:?}", value = brief(value)),
        expected,
    }
}

impl fmt::Display for ReadError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match (self.about.as_str(), self.expected.as_str()) {
            // What another module told is a whole sentence already.
            ("", _) => f.write_str(&self.found),
            (about, "") => write!(f, "{about}: {}", self.found),
            (about, expected) => write!(f, "{about}: found {}, expected {expected}", self.found),
        }
    }
}

impl std::error::Error for ReadError {}

#[cfg(test)]
mod tests;
