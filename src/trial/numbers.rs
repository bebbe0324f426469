//! Several seedlings that follow each other by number.

use std::fmt;
use std::str::FromStr;

use super::Number;
use crate::measure::brief;

/// Numbers of one year from a first to a last, written `26-003..26-010`; one is written by itself.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Numbers {
    first: Number,
    last: Number,
}

/// Seedlings that are added at once: a tray or two. More is a slip of a digit.
const MOST_AT_ONCE: u16 = 500;

impl Numbers {
    /// Every number, from the first to the last.
    pub fn each(self) -> impl Iterator<Item = Number> {
        let year = self.first.year();
        // OK because both ends are numbers of this year.
        (self.first.own()..=self.last.own()).filter_map(move |own| Number::new(year, own))
    }

    /// How many there are.
    pub fn count(self) -> usize {
        usize::from(self.last.own() - self.first.own()) + 1
    }

    /// The first.
    pub fn first(self) -> Number {
        self.first
    }
}

impl From<Number> for Numbers {
    fn from(one: Number) -> Numbers {
        Numbers {
            first: one,
            last: one,
        }
    }
}

/// Reads `26-003`, `26-003..26-010`, `26-003..010` and `26-003 to 26-010`.
impl FromStr for Numbers {
    type Err = String;
    fn from_str(text: &str) -> Result<Numbers, String> {
        let ends = text.split_once("..").or_else(|| text.split_once(" to "));
        let Some((first, last)) = ends else {
            return text
                .parse::<Number>()
                .map(Numbers::from)
                .map_err(|error| format!("{error}, or several such as 26-003..26-010"));
        };
        let first: Number = first.parse().map_err(|error| format!("{error}"))?;
        let last = last.trim();
        let own = || format!("{:02}-{last}", first.year() % 100);
        let last: Number = match last.contains('-') {
            true => last.parse(),
            false => own().parse(),
        }
        .map_err(|error| format!("{error}"))?;
        let numbers = Numbers { first, last };
        if first.year() != last.year() || first > last {
            return Err(format!(
                "found {:?}, expected numbers of one year, the lower first, such as 26-003..26-010",
                brief(text)
            ));
        }
        if numbers.count() > usize::from(MOST_AT_ONCE) {
            return Err(format!(
                "found {} seedlings at once, expected at most {MOST_AT_ONCE}",
                numbers.count()
            ));
        }
        Ok(numbers)
    }
}

impl fmt::Display for Numbers {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self.first == self.last {
            true => self.first.fmt(f),
            false => write!(f, "{}..{}", self.first, self.last),
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn several_numbers_are_read_as_people_write_them() {
        for (text, printed, count) in [
            ("26-3", "26-003", 1),
            ("26-003..26-010", "26-003..26-010", 8),
            ("26-003..010", "26-003..26-010", 8),
            ("26-003 ..26-010", "26-003..26-010", 8),
            ("26-003 to 10", "26-003..26-010", 8),
            ("26-003..26-003", "26-003", 1),
        ] {
            let numbers: Numbers = text.parse().expect(text);
            assert_eq!(numbers.to_string(), printed);
            assert_eq!((numbers.count(), numbers.each().count()), (count, count));
            assert_eq!(printed.parse(), Ok(numbers));
        }
        for (text, told) in [
            ("26-010..26-003", "the lower first"),
            ("25-003..26-010", "of one year"),
            ("26-001..26-900", "at most 500"),
            ("26-001..", "a seedling's number"),
            ("Haaf", "26-003..26-010"),
        ] {
            let error = text.parse::<Numbers>().expect_err(text);
            assert!(error.contains(told), "{error}");
        }
    }
}
