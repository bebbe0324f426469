//! What a text says of a day, before it is asked which day that is: `20 Aug`, `20/08/2026`, `friday`,
//! `week 33`.

use jiff::civil::Weekday;

/// A text with more characters than this says no day.
const LONGEST: usize = 40;

const MONTHS: [&str; 12] = [
    "January",
    "February",
    "March",
    "April",
    "May",
    "June",
    "July",
    "August",
    "September",
    "October",
    "November",
    "December",
];

/// The days of the week by their words.
pub const WEEKDAYS: [(&str, Weekday); 7] = [
    ("monday", Weekday::Monday),
    ("tuesday", Weekday::Tuesday),
    ("wednesday", Weekday::Wednesday),
    ("thursday", Weekday::Thursday),
    ("friday", Weekday::Friday),
    ("saturday", Weekday::Saturday),
    ("sunday", Weekday::Sunday),
];

/// What a text says: a day, and perhaps the day of the week that it names in front of it.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Shape {
    pub(super) what: What,
    pub(super) on: Option<Weekday>,
}

/// What is said of the day itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum What {
    /// `today` and so many days later.
    FromToday(i64),
    /// A day of the week, no more.
    Weekday(Weekday),
    /// A day of a month.
    Day(Year, i8, i8),
    /// Two numbers, each of which may be the month.
    Either(Year, i8, i8),
    /// A week of the year (ISO 8601) and one of its days.
    Week(Year, i8, Weekday),
}

/// The year as it is said.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Year {
    Left,
    /// With its two last digits.
    Short(i16),
    Whole(i16),
}

/// A part of the text.
#[derive(Debug, Clone, PartialEq, Eq)]
enum Piece {
    /// Its value and how many digits it has.
    Number(i16, usize),
    Word(String),
    Sign(char),
}

impl Shape {
    /// What a text says; `None` where it is no day.
    pub(super) fn of(text: &str) -> Option<Shape> {
        let pieces = pieces(text)?;
        let weekday = match pieces.first()? {
            Piece::Word(word) => weekday(word),
            _ => None,
        };
        match (weekday, &pieces[1..]) {
            (Some(day), []) => Some(Shape {
                what: What::Weekday(day),
                on: None,
            }),
            (Some(_), rest) => Some(Shape {
                what: what(rest)?,
                on: weekday,
            }),
            (None, _) => Some(Shape {
                what: what(&pieces)?,
                on: None,
            }),
        }
    }
}

/// The name of a month, 1 to 12.
pub fn month_name(month: i8) -> &'static str {
    let at = usize::from(month.unsigned_abs()).clamp(1, MONTHS.len());
    MONTHS[at - 1]
}

/// The first three letters of a month's name, as a day is shown with it: `Aug`.
pub(super) fn short_month(month: i8) -> String {
    month_name(month)[..3].to_string()
}

/// The month of a name or of its first three letters or more: `aug`, `sept`.
pub(in crate::measure) fn month(word: &str) -> Option<i8> {
    let lower = word.to_lowercase();
    let at = MONTHS
        .iter()
        .position(|name| begins(&name.to_lowercase(), &lower))?;
    i8::try_from(at + 1).ok()
}

fn weekday(word: &str) -> Option<Weekday> {
    let found = WEEKDAYS.iter().find(|(name, _)| begins(name, word));
    found.map(|(_, day)| *day)
}

fn begins(name: &str, word: &str) -> bool {
    word.len() >= 3 && name.starts_with(word)
}

/// The parts of a text in lower case: numbers, words and signs. Blanks, commas, `the`, `of` and the
/// letters of `20th` say nothing.
fn pieces(text: &str) -> Option<Vec<Piece>> {
    if text.chars().count() > LONGEST {
        return None;
    }
    let lower = text.to_lowercase();
    let mut pieces = Vec::new();
    let mut rest = lower.as_str();
    while let Some(first) = rest.chars().next() {
        let same = |c: char| match first {
            c0 if c0.is_ascii_digit() => c.is_ascii_digit(),
            c0 if c0.is_alphabetic() => c.is_alphabetic(),
            _ => false,
        };
        let end = rest.find(|c| !same(c)).unwrap_or(rest.len());
        let (part, after) = rest.split_at(end.max(first.len_utf8()));
        rest = after;
        let numbered = matches!(pieces.last(), Some(Piece::Number(..)));
        match first {
            ' ' | '\t' | ',' => {}
            '/' | '.' | '-' => pieces.push(Piece::Sign(first)),
            c if c.is_ascii_digit() => {
                let number = part.parse().ok().filter(|_| part.len() <= 4)?;
                pieces.push(Piece::Number(number, part.len()));
            }
            c if c.is_alphabetic() => match part {
                "the" | "of" => {}
                "st" | "nd" | "rd" | "th" if numbered => {}
                _ => pieces.push(Piece::Word(part.to_string())),
            },
            _ => return None,
        }
    }
    Some(pieces)
}

fn what(pieces: &[Piece]) -> Option<What> {
    if let [Piece::Word(word)] = pieces {
        return match word.as_str() {
            "today" => Some(What::FromToday(0)),
            "yesterday" => Some(What::FromToday(-1)),
            "tomorrow" => Some(What::FromToday(1)),
            _ => None,
        };
    }
    week(pieces)
        .or_else(|| with_month(pieces))
        .or_else(|| in_numbers(pieces))
}

/// `week 33`, `w33`, `week 33 2026`, `2026-W33`, `2026-W33-5`.
fn week(pieces: &[Piece]) -> Option<What> {
    use Piece::{Number, Sign, Word};
    let is_week = |word: &str| matches!(word, "w" | "wk" | "week");
    let (word, year, week, day) = match pieces {
        [Word(word), Number(week, 1..=2)] => (word, Year::Left, week, 1),
        [Word(word), Number(week, 1..=2), Number(year, 4)] => (word, Year::Whole(*year), week, 1),
        [Number(year, 4), Sign('-'), Word(word), Number(week, 2)] => {
            (word, Year::Whole(*year), week, 1)
        }
        [
            Number(year, 4),
            Sign('-'),
            Word(word),
            Number(week, 2),
            Sign('-'),
            Number(day, 1),
        ] => (word, Year::Whole(*year), week, *day),
        _ => return None,
    };
    let day = Weekday::from_monday_one_offset(i8::try_from(day).ok()?).ok()?;
    let week = i8::try_from(*week).ok()?;
    is_week(word).then_some(What::Week(year, week, day))
}

/// `20 Aug`, `Aug 20`, each with a year behind it; `2026 Aug 20`; `20-Aug-2026`.
fn with_month(pieces: &[Piece]) -> Option<What> {
    use Piece::{Number, Sign, Word};
    let told: Vec<&Piece> = pieces
        .iter()
        .filter(|piece| !matches!(piece, Sign(_)))
        .collect();
    let (name, year, day) = match told[..] {
        [Number(day, 1..=2), Word(name)] | [Word(name), Number(day, 1..=2)] => {
            (name, Year::Left, day)
        }
        // `Aug 20-25` is two days, and `20-Aug-25` one.
        [_, _, Number(_, 2)] if matches!(pieces, [_, _, Sign('-'), _]) => return None,
        [Number(day, 1..=2), Word(name), Number(year, digits)]
        | [Word(name), Number(day, 1..=2), Number(year, digits)] => {
            (name, a_year(*year, *digits)?, day)
        }
        [Number(year, 4), Word(name), Number(day, 1..=2)] => (name, Year::Whole(*year), day),
        _ => return None,
    };
    Some(What::Day(year, month(name)?, i8::try_from(*day).ok()?))
}

/// `20.8.`, `20/08`, `20/08/2026`, `08/20/26`, `2026/08/20`.
fn in_numbers(pieces: &[Piece]) -> Option<What> {
    use Piece::{Number, Sign};
    let (pieces, stopped) = match pieces {
        [before @ .., Sign('.')] => (before, true),
        _ => (pieces, false),
    };
    let (one, other, year, sign) = match pieces {
        [
            Number(year, 4),
            Sign(sign),
            Number(month, 1..=2),
            Sign(second),
            Number(day, 1..=2),
        ] => {
            let (month, day) = (i8::try_from(*month).ok()?, i8::try_from(*day).ok()?);
            return (sign == second).then_some(What::Day(Year::Whole(*year), month, day));
        }
        [Number(one, 1..=2), Sign(sign), Number(other, 1..=2)] => (one, other, Year::Left, sign),
        [
            Number(one, 1..=2),
            Sign(sign),
            Number(other, 1..=2),
            Sign(second),
            Number(year, digits),
        ] if sign == second => (one, other, a_year(*year, *digits)?, sign),
        _ => return None,
    };
    let (one, other) = (i8::try_from(*one).ok()?, i8::try_from(*other).ok()?);
    match (one, other) {
        // Only where the day stands first does a full stop end it.
        _ if stopped && *sign == '.' => Some(What::Day(year, other, one)),
        _ if stopped => None,
        (13.., _) => Some(What::Day(year, other, one)),
        (_, 13..) => Some(What::Day(year, one, other)),
        (one, other) if one == other => Some(What::Day(year, one, other)),
        (one, other) => Some(What::Either(year, one, other)),
    }
}

fn a_year(year: i16, digits: usize) -> Option<Year> {
    match digits {
        2 => Some(Year::Short(year)),
        4 => Some(Year::Whole(year)),
        _ => None,
    }
}
