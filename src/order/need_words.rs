//! A need in words: what a grower types to change one.

use std::num::NonZeroU32;
use std::str::FromStr;

use super::need::Need;
use crate::colour::Judged;
use crate::form::traits::list_or;
use crate::measure::day::{self, Calendar, Weeks, begins_weeks};
use crate::measure::{brief, id_of, same_id};
use crate::variety::{Text, use_id};

/// The words that a need takes.
const NEED_WORDS: &str = "stems, weeks such as 30-42 or 20 Aug - 5 Sep, use= fitness= colours= within= by= forms= varieties= each= different= most= sure= name=; a word with nothing after it takes it away";

impl Need {
    /// A need read from `NAME: 20 36-38 colours=plum`; days in place of weeks are read by `days`.
    ///
    /// # Errors
    /// A sentence with the word that means nothing, or what is lacking.
    pub fn read(text: &str, days: &Calendar) -> Result<Need, String> {
        let expected = "expected a name, a colon, stems and weeks, such as harvest supper: 20 36-38 colours=warm";
        let (name, words) = text
            .split_once(':')
            .ok_or_else(|| format!("found {text:?}, {expected}", text = brief(text)))?;
        let given = pieces(words, days)?;
        let has = |word: &str| given.iter().any(|(own, _)| *own == word);
        if !has("stems") || !has("weeks") {
            return Err(format!("found {:?}, {expected}", brief(words.trim())));
        }
        let name = Text::new(name.trim()).map_err(|error| error.to_string())?;
        Need::of_any(name, NonZeroU32::MIN, (1, 1)).with(words, days)
    }

    /// So many stems a week in these weeks, of anything.
    pub(super) fn of_any(name: Text, stems: NonZeroU32, weeks: (u8, u8)) -> Need {
        Need {
            name,
            stems,
            weeks,
            for_use: None,
            fitness: None,
            colours: Vec::new(),
            within: None,
            colour_by: None,
            forms: Vec::new(),
            varieties: None,
            different_forms: None,
            each: None,
            most_from_one: None,
            sure: None,
            of_work: None,
        }
    }

    /// The need changed by words: `60`, `30-42`, `20 Aug - 5 Sep`, `within=8`, `colours=plum,wine`.
    ///
    /// # Errors
    /// A sentence with the word that means nothing.
    pub fn with(&self, words: &str, days: &Calendar) -> Result<Need, String> {
        let mut need = self.clone();
        for (word, value) in pieces(words, days)? {
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
            match id_of(word).as_str() {
                "name" => need.name = Text::new(value).map_err(|error| error.to_string())?,
                "stems" => need.stems = number(word, value)?,
                "weeks" => {
                    let Weeks { first, last } = day::weeks(value, days)?;
                    need.weeks = (first, last);
                }
                "use" => need.for_use = a_use(value)?,
                "fitness" => need.fitness = if_any(word, value)?,
                "colours" => need.colours = listed()?,
                "within" => need.within = if_any(word, value)?,
                "by" => need.colour_by = judged(value)?,
                "forms" => {
                    let ids = listed()?
                        .into_iter()
                        .map(|form| Text::new(id_of(form.as_str())));
                    let ids = ids.map(|id| id.map_err(|error| error.to_string()));
                    need.forms = ids.collect::<Result<_, String>>()?;
                }
                "varieties" => need.varieties = if_any(word, value)?,
                "different" => need.different_forms = if_any(word, value)?,
                "each" => need.each = if_any(word, value)?,
                "most" => need.most_from_one = if_any(word, value)?,
                "sure" => need.sure = if_any(word, value)?,
                _ => return Err(unknown(word)),
            }
        }
        // Without a colour a distance means nothing, nor a fitness without a use.
        if need.colours.is_empty() {
            need.within = None;
            need.colour_by = None;
        }
        if need.for_use.is_none() {
            need.fitness = None;
        }
        Ok(need)
    }

    /// What weeks were taken, where they were typed and not in numbers: `weeks 34 to 36 (17 Aug to 6 Sep)`.
    pub fn weeks_taken(&self, typed: &str, days: &Calendar, year: i16) -> Option<String> {
        let given = pieces(typed, days).ok()?;
        let (_, weeks) = given.iter().find(|(word, _)| *word == "weeks")?;
        let (first, last) = self.weeks;
        let plain = typed.contains(weeks.as_str()) || (first == last && !typed.contains(' '));
        (!plain).then(|| self.weeks_told(year))
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
        add("by", self.colour_by.map(|by| by.word().to_string()));
        add("forms", Some(list(&self.forms)));
        add("varieties", self.varieties.map(|one| one.to_string()));
        add("each", self.each.map(|one| one.to_string()));
        add("different", self.different_forms.map(|one| one.to_string()));
        add("most", self.most_from_one.map(|one| one.to_string()));
        add("sure", self.sure.map(|one| one.to_string()));
        words.join(" ")
    }
}

/// The id of a use, of today where an old one was typed; `None` where nothing was.
fn a_use(value: &str) -> Result<Option<Text>, String> {
    match value.trim() {
        "" => Ok(None),
        typed => Text::new(use_id(&id_of(typed)))
            .map(Some)
            .map_err(|error| error.to_string()),
    }
}

/// What of a bloom is judged; `None` where nothing was typed.
fn judged(value: &str) -> Result<Option<Judged>, String> {
    let typed = value.trim();
    if typed.is_empty() {
        return Ok(None);
    }
    let own = Judged::ALL.into_iter().find(|by| same_id(typed, by.word()));
    own.map(Some).ok_or_else(|| {
        let words = Judged::ALL.map(Judged::word);
        format!(
            "by: found {typed:?}, expected what of the bloom is held against the colours: {}",
            list_or(&words),
            typed = brief(typed)
        )
    })
}

/// Words with their values, a value going on over spaces to the next word with an equals sign. Numbers,
/// weeks and days before, between and behind them are the stems and the weeks: `60 20 Aug - 5 Sep`.
fn pieces<'a>(words: &'a str, days: &Calendar) -> Result<Vec<(&'a str, String)>, String> {
    let mut pieces: Vec<(&str, String)> = Vec::new();
    for word in words.split_whitespace() {
        let open = inside(&pieces);
        match (word.split_once('='), pieces.last_mut()) {
            (Some((word, value)), _) => pieces.push((word, value.to_string())),
            (None, Some((BARE | "weeks", value))) => append(value, word),
            (None, last) if !open && is_bare(word, last.as_ref().map(|(word, _)| *word)) => {
                pieces.push((BARE, word.to_string()));
            }
            (None, Some((of, value))) if *of != "stems" => append(value, word),
            (None, _) => return Err(unknown(word)),
        }
    }
    let mut read = Vec::new();
    for (word, value) in pieces {
        if !matches!(word, BARE | "weeks") {
            read.push((word, value));
            continue;
        }
        let (stems, weeks) = stems_and_weeks(&value, word == "weeks", days)?;
        read.extend(stems.map(|stems| ("stems", stems)));
        read.extend(weeks.map(|Weeks { first, last }| ("weeks", format!("{first}-{last}"))));
    }
    Ok(read)
}

/// What stands for the word of numbers, weeks and days that have none.
const BARE: &str = "";

fn append(value: &mut String, word: &str) {
    if !value.is_empty() {
        value.push(' ');
    }
    value.push_str(word);
}

fn unknown(word: &str) -> String {
    format!("found {word:?}, expected {NEED_WORDS}", word = brief(word))
}

/// Whether a word behind the value of another begins stems or weeks. A name may have numbers in its
/// words, and months.
fn is_bare(word: &str, behind: Option<&str>) -> bool {
    let plain = |c: char| c.is_ascii_digit() || c == '-';
    let number = word.starts_with(|c: char| c.is_ascii_digit());
    match behind {
        Some("name") => number && word.chars().all(plain),
        _ => number || begins_weeks(word),
    }
}

/// The stems, if any, and the weeks, if any, of words such as `60 30-42`, `20 Aug - 5 Sep 60`.
fn stems_and_weeks(
    text: &str,
    of_weeks: bool,
    days: &Calendar,
) -> Result<(Option<String>, Option<Weeks>), String> {
    let plain = |word: &str| !word.is_empty() && word.bytes().all(|byte| byte.is_ascii_digit());
    if plain(text) && !of_weeks {
        return Ok((Some(text.to_string()), None));
    }
    let whole = day::weeks(text, days);
    if let Ok(weeks) = whole {
        return Ok((None, Some(weeks)));
    }
    let before = text.split_once(' ').filter(|(stems, _)| plain(stems));
    let behind = text.rsplit_once(' ').map(|(weeks, stems)| (stems, weeks));
    let behind = behind.filter(|(stems, _)| plain(stems));
    let mut told = Vec::new();
    for (stems, weeks) in before.into_iter().chain(behind) {
        match day::weeks(weeks, days) {
            Ok(weeks) => return Ok((Some(stems.to_string()), Some(weeks))),
            Err(error) => told.push(error),
        }
    }
    // With stems before the weeks, what is wrong with the weeks alone says more.
    let mut told = told.into_iter().chain(whole.err());
    Err(told.next().unwrap_or_else(|| unknown(text)))
}

/// Whether the last value has an open bracket, as `lab(83 14 24)` has at its numbers.
fn inside(pieces: &[(&str, String)]) -> bool {
    pieces
        .last()
        .is_some_and(|(_, value)| value.matches('(').count() > value.matches(')').count())
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
    use jiff::civil::date;

    fn read(text: &str) -> Result<Need, String> {
        Need::read(text, &Calendar::FILES)
    }

    fn changed(need: &Need, words: &str) -> Result<Need, String> {
        need.with(words, &Calendar::FILES)
    }

    #[test]
    fn weeks_are_taken_as_days_among_the_other_words() {
        let days = Calendar::noting(date(2026, 3, 1), None).planning(2026);
        for (words, stems, weeks) in [
            ("60 20 Aug - 5 Sep", 60, (34, 36)),
            ("60 from 20 Aug to 5 Sep", 60, (34, 36)),
            ("20 Aug - 5 Sep 60", 60, (34, 36)),
            ("20 Aug 20 - Sep 5", 20, (34, 36)),
            ("60 week 30 to 42", 60, (30, 42)),
            ("60 20/08 - 15/09", 60, (34, 38)),
            ("stems=60 weeks=20 Aug - 5 Sep", 60, (34, 36)),
            ("weeks=20 Aug - 5 Sep stems=60", 60, (34, 36)),
            ("60 w37", 60, (37, 37)),
            ("30-42 60", 60, (30, 42)),
        ] {
            for line in [
                format!("{words} colours=plum,warm white use=low bowl"),
                format!("use=low bowl colours=plum,warm white {words}"),
            ] {
                let need = Need::read(&format!("supper: {line}"), &days);
                let need = need.unwrap_or_else(|told| panic!("{line}: {told}"));
                assert_eq!((need.stems.get(), need.weeks), (stems, weeks), "{line}");
                assert_eq!(need.colours[1].as_str(), "warm white");
            }
        }
        for (words, told) in [
            ("60 20 Aug - 31 Sep", "a day that September does not have"),
            ("60 20 Aug 2027", "one of those of 2026, which are planned"),
            ("60 3/4 - 20/4", "or 4 Mar"),
        ] {
            let error = Need::read(&format!("supper: {words}"), &days).expect_err(words);
            assert!(error.contains(told), "{words}: {error}");
        }
    }

    #[test]
    fn a_need_is_changed_by_a_few_words_and_reads_back() {
        let need =
            read("harvest supper: 20 36-38 colours=warm,lab(83 14 24) within=8 use=low-bowl")
                .expect("a need");
        assert_eq!((need.stems.get(), need.weeks), (20, (36, 38)));
        assert_eq!(need.colours.len(), 2);
        assert_eq!(
            read(&format!("{}: {}", need.name, need.words())),
            Ok(need.clone())
        );
        let bowl = changed(&need, "use=Low Bowl forms=Formal decorative,stellar").expect("a use");
        assert_eq!(bowl.for_use.as_ref().map(Text::as_str), Some("low-bowl"));
        assert_eq!(bowl.forms[0].as_str(), "formal-decorative");
        let filler = changed(&need, "use=tuck-in").expect("an old id");
        assert_eq!(
            filler,
            changed(&need, "use=filler").expect("the id of today")
        );
        let any = changed(&need, "use=").expect("no use");
        assert_eq!((any.for_use, any.fitness), (None, None));
        let more = changed(&need, "25 colours= most=40").expect("a need");
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
            let error = changed(&need, words).expect_err(words);
            assert!(error.contains(told), "{words}: {error}");
        }
        assert!(read("supper: 20").expect_err("weeks").contains("36-38"));
    }
}
