//! Money, exact: whole hundredths of the grower's own currency.

use super::brief;
use std::fmt;
use std::str::FromStr;

/// An amount in hundredths (pence, cents, ore), written `4.50`. The currency is the grower's.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd, Ord, Hash, Default)]
pub struct Money(u64);

/// Why a text is not an amount.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ParseMoneyError {
    found: String,
}

/// Digits before the point; more is a slip of the keyboard.
const MOST_DIGITS: usize = 9;
/// No tuber costs more in any currency; so many times what is counted is still a whole number of 64
/// bits.
const MOST_PRICE: Money = Money(100_000_000);

impl Money {
    /// From whole hundredths.
    pub fn hundredths(hundredths: u64) -> Money {
        Money(hundredths)
    }

    /// The number of hundredths.
    pub fn in_hundredths(self) -> u64 {
        self.0
    }

    /// The same as the price of one pack.
    ///
    /// # Errors
    /// A sentence where no pack costs as much.
    pub fn as_price(self) -> Result<Money, String> {
        match self <= MOST_PRICE {
            true => Ok(self),
            false => Err(format!(
                "found {self}, expected a price of at most {MOST_PRICE}"
            )),
        }
    }

    /// Reads the price of a pack from a file; for `#[serde(deserialize_with = ...)]`.
    pub(crate) fn price<'de, D: serde::Deserializer<'de>>(reader: D) -> Result<Money, D::Error> {
        let money: Money = super::read_text::parsed(reader)?;
        money.as_price().map_err(serde::de::Error::custom)
    }
}

/// Reads `4`, `4.5` and `4.50`; no sign, no currency mark.
impl FromStr for Money {
    type Err = ParseMoneyError;
    fn from_str(text: &str) -> Result<Money, ParseMoneyError> {
        let read = || {
            let (whole, part) = text.trim().split_once('.').unwrap_or((text.trim(), "00"));
            let digits = |text: &str| text.bytes().all(|b| b.is_ascii_digit());
            let shaped = (1..=MOST_DIGITS).contains(&whole.len()) && (1..=2).contains(&part.len());
            if !(shaped && digits(whole) && digits(part)) {
                return None;
            }
            let tens = if part.len() == 1 { 10 } else { 1 };
            Some(Money(
                whole.parse::<u64>().ok()? * 100 + part.parse::<u64>().ok()? * tens,
            ))
        };
        read().ok_or_else(|| ParseMoneyError { found: brief(text) })
    }
}

impl fmt::Display for Money {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.pad(&format!("{}.{:02}", self.0 / 100, self.0 % 100))
    }
}

impl fmt::Display for ParseMoneyError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "found {:?}, expected an amount such as 4 or 4.50, without a sign or a currency mark",
            self.found
        )
    }
}

impl std::error::Error for ParseMoneyError {}

impl serde::Serialize for Money {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> serde::Deserialize<'de> for Money {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Money, D::Error> {
        super::read_text::parsed(deserializer)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    #[test]
    fn amounts_are_exact() {
        let read = |text: &str| text.parse::<Money>().map(Money::in_hundredths);
        assert_eq!(read("4"), Ok(400));
        assert_eq!(read("4.5"), Ok(450));
        assert_eq!(read(" 0.05 "), Ok(5));
        for text in [
            "",
            ".",
            "4.",
            ".5",
            "-1",
            "+1",
            "£4",
            "4.505",
            "1e3",
            "1,000",
            "1234567890",
        ] {
            let error = text.parse::<Money>().expect_err(text).to_string();
            assert!(error.contains("4.50"), "{error}");
        }
    }

    proptest! {
        #[test]
        fn what_is_printed_reads_back(hundredths in 0_u64..100_000_000_000) {
            let money = Money::hundredths(hundredths);
            prop_assert_eq!(money.to_string().parse(), Ok(money));
        }
    }
}
