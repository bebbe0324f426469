//! What a grower types for an event or a round: all of it in one line, or what changes.

use std::num::NonZeroU32;
use std::str::FromStr;

use super::bare::{Bare, piece};
use super::kinds::{Count, When, Work};
use super::weekday::weekday;
use crate::measure::day::{self, Calendar};
use crate::measure::{brief, id_of, same_id};
use crate::order::item::number_if_any;
use crate::variety::Text;

const EXPECTED_EVENT: &str = "expected a name, a colon, a day and pieces, such as Berry wedding: 2027-09-12 12 table bowl, 8 buttonhole colours=plum,blush";
const EXPECTED_ROUND: &str = "expected a name, a colon, a day of the week, pieces and two days, such as quay stall: fridays 10 market bunch 2027-08-13 to 2027-10-01 colours=warm";

impl Work {
    /// An event read from `Berry wedding: 2027-09-12 12 table bowl, 3 large vase colours=plum,blush`.
    ///
    /// # Errors
    /// A sentence with what means nothing, or what is lacking.
    pub fn read_event(text: &str, days: &Calendar) -> Result<Work, String> {
        let (name, words, bare) = begun(text, days, EXPECTED_EVENT)?;
        let [day] = bare.days[..] else {
            return Err(format!("found {}, {EXPECTED_EVENT}", days_found(&bare)));
        };
        if bare.every.is_some() {
            return Err(format!("found a day of the week, {EXPECTED_EVENT}"));
        }
        Work::of(name, When::On(day)).with(words, days)
    }

    /// A round read from `quay stall: fridays 10 market bunch 2027-08-13 to 2027-10-01 colours=warm`.
    ///
    /// # Errors
    /// A sentence with what means nothing, or what is lacking.
    pub fn read_round(text: &str, days: &Calendar) -> Result<Work, String> {
        let (name, words, bare) = begun(text, days, EXPECTED_ROUND)?;
        let (_, given) = parted(words);
        let every = given.iter().find(|(word, _)| id_of(word) == "every");
        let every = every.and_then(|(_, value)| weekday(value));
        let ([from, to], Some(day)) = (&bare.days[..], bare.every.or(every)) else {
            let week = if bare.every.is_none() {
                "no day of the week"
            } else {
                "one"
            };
            return Err(format!(
                "found {} and {week}, {EXPECTED_ROUND}",
                days_found(&bare)
            ));
        };
        let (from, to) = (*from, *to);
        Work::of(name, When::Every { day, from, to }).with(words, days)
    }

    /// Work without pieces.
    pub(in crate::order) fn of(name: Text, when: When) -> Work {
        Work {
            name,
            when,
            pieces: Vec::new(),
            colours: Vec::new(),
            within: None,
            cut_before: None,
            sure: None,
        }
    }

    /// It changed by words: another day, `14 table bowl` in place of so many, `0 jar` to take one away,
    /// `colours=plum,wine`.
    ///
    /// # Errors
    /// A sentence with the word that means nothing.
    pub fn with(&self, words: &str, days: &Calendar) -> Result<Work, String> {
        let mut work = self.clone();
        let (bare, given) = parted(words);
        work.take_bare(Bare::read(bare, days)?)?;
        for (word, value) in given {
            let day = |text: &str| day::typed(text, days).map(|typed| typed.day);
            let id = id_of(word);
            match (id.as_str(), &mut work.when) {
                ("name", _) => work.name = text(value)?,
                ("on", When::On(on)) => *on = day(value)?,
                ("every", When::Every { day, .. }) => {
                    *day = weekday(value.trim()).ok_or_else(|| {
                        let value = brief(value);
                        format!("every: found {value:?}, expected a day of the week such as friday")
                    })?;
                }
                ("from", When::Every { from, .. }) => *from = day(value)?,
                ("to", When::Every { to, .. }) => *to = day(value)?,
                ("pieces", _) => {
                    let pieces = value.split(',').filter(|one| !one.trim().is_empty());
                    work.pieces = pieces.map(piece).collect::<Result<_, _>>()?;
                }
                ("colours", _) => {
                    let colours = value
                        .split(',')
                        .map(str::trim)
                        .filter(|one| !one.is_empty());
                    work.colours = colours.map(text).collect::<Result<_, _>>()?;
                }
                ("within", _) => work.within = if_any(word, value)?,
                ("cut", _) => work.cut_before = if_any(word, value)?,
                ("sure", _) => work.sure = if_any(word, value)?,
                _ => {
                    let expected = match work.is_event() {
                        true => "for an event, expected a day, pieces, on=",
                        false => "for a round, expected pieces, every= from= to=",
                    };
                    let word = brief(word);
                    return Err(format!(
                        "found {word:?} {expected} pieces= colours= within= cut= sure= name="
                    ));
                }
            }
        }
        // Without a colour a distance means nothing.
        if work.colours.is_empty() {
            work.within = None;
        }
        Ok(work)
    }

    fn take_bare(&mut self, bare: Bare) -> Result<(), String> {
        match (&mut self.when, &bare.days[..]) {
            (_, []) => {}
            (When::On(on), [day]) => *on = *day,
            (When::Every { from, to, .. }, [first, last]) => (*from, *to) = (*first, *last),
            (When::On(_), _) => {
                return Err("found several days, expected the one of the event".to_string());
            }
            (When::Every { .. }, _) => {
                return Err("found one day of a round or more than two, expected its first and its last, or from= or to=".to_string());
            }
        }
        match (&mut self.when, bare.every) {
            (When::Every { day, .. }, Some(own)) => *day = own,
            (When::On(_), Some(_)) => {
                return Err("found a day of the week for an event, expected its day".to_string());
            }
            (_, None) => {}
        }
        for (number, name) in bare.pieces {
            self.put(number, name);
        }
        Ok(())
    }

    /// So many of a piece in place of those that there are; none takes it away.
    fn put(&mut self, number: Option<NonZeroU32>, name: Text) {
        let at = self.pieces.iter().position(|own| same_name(&own.1, &name));
        match (at, number) {
            (Some(at), Some(number)) => self.pieces[at].0 = number,
            (Some(at), None) => drop(self.pieces.remove(at)),
            (None, Some(number)) => self.pieces.push(Count(number, name)),
            (None, None) => {}
        }
    }

    /// It with so many more, or fewer, of its first piece, one at the least.
    pub(in crate::order) fn stepped(&self, by: i32) -> Work {
        let mut work = self.clone();
        if let Some(Count(number, _)) = work.pieces.first_mut() {
            let stepped = u64::from(number.get()).saturating_add_signed(by.signum().into());
            let stepped = u32::try_from(stepped).ok().and_then(NonZeroU32::new);
            *number = stepped.unwrap_or(*number);
        }
        work
    }
}

/// The name before the colon, the words behind it, and what of them has no word of its own.
fn begun<'a>(
    line: &'a str,
    days: &Calendar,
    expected: &str,
) -> Result<(Text, &'a str, Bare), String> {
    let (name, words) = line
        .split_once(':')
        .ok_or_else(|| format!("found {:?}, {expected}", brief(line)))?;
    let bare = Bare::read(parted(words).0, days)?;
    if bare.pieces.is_empty() && !words.contains("pieces=") {
        return Err(format!(
            "found {:?} without pieces, {expected}",
            brief(words.trim())
        ));
    }
    Ok((text(name.trim())?, words, bare))
}

fn days_found(bare: &Bare) -> String {
    match bare.days.len() {
        0 => "no day".to_string(),
        1 => "one day".to_string(),
        more => format!("{more} days"),
    }
}

/// What stands before the first word with an equals sign, and each such word with its value, which goes
/// on over spaces to the next.
fn parted(words: &str) -> (&str, Vec<(&str, &str)>) {
    let mut starts: Vec<(usize, usize)> = Vec::new();
    let mut at = 0;
    for word in words.split_inclusive(char::is_whitespace) {
        // Another sign in the word is of its value.
        starts.extend(word.find('=').map(|sign| (at, at + sign)));
        at += word.len();
    }
    let bare = &words[..starts.first().map_or(words.len(), |first| first.0)];
    let ends = starts
        .iter()
        .skip(1)
        .map(|next| next.0)
        .chain([words.len()]);
    let given = starts.iter().zip(ends);
    let given =
        given.map(|((start, sign), end)| (&words[*start..*sign], words[*sign + 1..end].trim()));
    (bare, given.collect())
}

/// Whether two names are of one piece, be it of one or of several: `arch` and `arches`.
fn same_name(one: &Text, other: &Text) -> bool {
    let (one, other) = (one.as_str(), other.as_str());
    let many = |one: &str, many: &str| {
        ["", "s", "es"]
            .iter()
            .any(|end| same_id(&format!("{one}{end}"), many))
    };
    many(one, other) || many(other, one)
}

fn text(text: &str) -> Result<Text, String> {
    Text::new(text).map_err(|error| error.to_string())
}

fn if_any<T: FromStr>(word: &str, value: &str) -> Result<Option<T>, String> {
    number_if_any(value).map_err(|told| format!("{word}: {told}"))
}
