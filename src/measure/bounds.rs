//! What a figure may be: from one number to another, both allowed.

use super::brief;
use std::fmt::Display;
use std::num::NonZeroU32;
use std::str::FromStr;

use serde::de::Error;
use serde::{Deserialize, Deserializer};

/// The numbers that a figure may be, and what it counts.
#[derive(Debug, Clone, Copy)]
pub(crate) struct Bounds<T> {
    of: &'static str,
    from: T,
    to: T,
}

impl<T: PartialOrd + Display + Copy> Bounds<T> {
    /// From one number to another of something: `Bounds::new("weeks", 1, 52)`.
    pub(crate) const fn new(of: &'static str, from: T, to: T) -> Bounds<T> {
        Bounds { of, from, to }
    }

    /// The most that it may be.
    pub(crate) const fn to(&self) -> T {
        self.to
    }

    /// What is wrong with a number; `None` of one that may be. A float that is no number is none.
    pub(crate) fn wrong(&self, number: T) -> Option<String> {
        let Bounds { of, from, to } = self;
        let within = *from <= number && number <= *to;
        (!within).then(|| format!("found {number} {of}, expected from {from} to {to}"))
    }
}

/// The most that a file or a person may count of anything: tubers, stems, packs, plants. What a small
/// grower counts is far below, and no sum of such counts, each with a price, leaves 64 bits.
pub(crate) const MOST_COUNTED: u32 = 1_000_000;

/// A whole number, or one that may be left out.
pub(crate) trait Counted {
    fn count(&self) -> Option<u32>;
}

impl Counted for u32 {
    fn count(&self) -> Option<u32> {
        Some(*self)
    }
}

impl Counted for NonZeroU32 {
    fn count(&self) -> Option<u32> {
        Some(self.get())
    }
}

impl<T: Counted> Counted for Option<T> {
    fn count(&self) -> Option<u32> {
        self.as_ref().and_then(T::count)
    }
}

/// Reads a whole number as it was typed.
///
/// # Errors
/// What was found and what was expected: a text that is no such number, or more than is counted.
pub(crate) fn read<T: Counted + FromStr>(text: &str) -> Result<T, String> {
    let number = text.parse::<T>().ok();
    number
        .filter(|number| number.count() <= Some(MOST_COUNTED))
        .ok_or_else(|| {
            format!(
                "found {text:?}, expected a whole number up to {MOST_COUNTED}",
                text = brief(text)
            )
        })
}

/// Reads a whole number of at most `MOST`; for `#[serde(deserialize_with = ...)]`.
pub(crate) fn at_most<'de, const MOST: u32, D, T>(reader: D) -> Result<T, D::Error>
where
    D: Deserializer<'de>,
    T: Deserialize<'de> + Counted,
{
    let read = T::deserialize(reader)?;
    match read.count().filter(|count| *count > MOST) {
        Some(count) => Err(D::Error::custom(format!(
            "found {count}, expected at most {MOST}"
        ))),
        None => Ok(read),
    }
}

/// The same of whatever is counted; for `#[serde(deserialize_with = ...)]`.
pub(crate) fn counted<'de, D, T>(reader: D) -> Result<T, D::Error>
where
    D: Deserializer<'de>,
    T: Deserialize<'de> + Counted,
{
    at_most::<MOST_COUNTED, D, T>(reader)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_lies_outside_is_told_with_both_ends() {
        let weeks = Bounds::new("weeks", 1, 52);
        assert_eq!((weeks.wrong(1), weeks.wrong(52)), (None, None));
        assert_eq!(
            weeks.wrong(53).as_deref(),
            Some("found 53 weeks, expected from 1 to 52")
        );
        assert!(Bounds::new("cm", 0.0, 1.0).wrong(f64::NAN).is_some());
    }
}
