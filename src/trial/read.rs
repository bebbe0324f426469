//! An entry as words: `diameter=98mm,104mm vase=7,8,6,6+ weather=wind:3/12`. This is what the command
//! line, the screen and the cells of a sheet are read by, and how an entry is shown.

use jiff::civil::Date;

use super::entry::{Decision, Entry, EntryError, Fate, Observation, Shade, What};
use super::seedling::Subject;
use crate::book::words::{self as words_of, text};
use crate::colour::{Piece, several};
use crate::form::{Answers, Traits};
use crate::measure::day::{Calendar, TypedDay};
use crate::measure::{Exact, Length, LengthUnit, SizeUnits};
use crate::measure::{brief, id_of};
use crate::problem::told;
use crate::variety::{Extent, Text};

mod print;
mod told;
mod words;

pub use crate::book::words::{ReadError, Word, split};
pub use words::WORDS;

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
            let (id, value) = pair.split_once('=').ok_or_else(|| {
                ReadError::no_pair(pair, "WORD=VALUE, such as diameter=98mm or centre=closed")
            })?;
            let (typed, value) = (id.trim(), value.trim());
            let word = id_of(typed);
            if seen.contains(&word) {
                return Err(ReadError::of(typed, value, "each word once"));
            }
            let id = word.as_str();
            match id {
                "date" => draft.date = Some(words_of::day(id, value, &self.days)?),
                "by" => draft.by = Some(text(id, value)?),
                "corrects" => draft.corrects = Some(words_of::number(&WORDS, id, value)?),
                "withdraw" => withdraw = Some(words_of::number(&WORDS, id, value)?),
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
            Err(ReadError::of(word, "it beside observations", expected))
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
                let expected = "decide=keep, hold or cull with it";
                return Err(ReadError::of("reason", &reason, expected));
            }
            (None, None, None) if observation.is_empty() => {
                return Err(ReadError::found(
                    "entry",
                    "nothing that was seen or decided",
                    "at least one word such as diameter=98mm, vase=7,6+ or centre=closed",
                ));
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

    fn bloom(&self, pairs: &[&str]) -> Result<Option<Text>, ReadError> {
        let answers = Answers::read(pairs, self.traits);
        let answers = answers.map_err(|error| ReadError::clause("", error))?;
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
        let whole = || ReadError::of(id, value, "a length over 0 and up to 5m");
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
                Err(ReadError::of(id, value, told))
            }
            _ => Ok(extent),
        }
    }

    fn unknown(&self, id: &str) -> ReadError {
        let words: Vec<&str> = WORDS.iter().map(|word| word.id).collect();
        let expected = format!(
            "one of {}, or a trait ({})",
            words.join(", "),
            self.traits.ids()
        );
        ReadError::no_pair(id, expected)
    }
}

impl Draft {
    /// The entry with this number, of this subject; of `day` where the words named none.
    pub fn entry(self, id: u32, of: Subject, day: Date) -> Entry {
        Entry {
            id,
            corrects: self.corrects,
            date: words_of::day_or(self.date.as_ref(), day),
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

fn within(id: &str, error: EntryError) -> ReadError {
    ReadError::found(&told(&brief(id)), &error.found, error.expected)
}

fn count(id: &str, value: &str) -> Result<u32, ReadError> {
    words_of::count(&WORDS, id, value)
}

/// The error of a value that is not what its word wants.
fn expected(id: &str, value: &str) -> ReadError {
    words_of::expected(&WORDS, id, value)
}

#[cfg(test)]
mod tests;
