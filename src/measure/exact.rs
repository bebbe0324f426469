//! An exact number: what a rule compares, free of rounding.

use super::brief;
use std::borrow::Cow;
use std::cmp::Ordering;
use std::fmt;
use std::str::FromStr;

use num_rational::Ratio;
use num_traits::{ToPrimitive, Zero};

use super::ratio;

/// An exact rational number. Counts, shares (in per cent) and lengths (in millimetres) are all
/// compared in this type, so that a bloom exactly on a limit falls where the rule says.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash)]
pub struct Exact(Ratio<i128>);

/// Why a text is not a number.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ParseExactError {
    found: String,
}

/// Decimals that a number may carry; more is a slip of the keyboard and would overflow a mean.
const MOST_DECIMALS: usize = 6;
/// Digits before the point.
const MOST_DIGITS: usize = 9;
/// A fraction's denominator divides this: sixty-fourths, thirds, fifths and what lies between.
/// With it and the decimals bounded, no sum of observations can overflow.
const FINEST: i128 = 64 * 15;
/// The fractions that have a character of their own and stand on rulers and seed lists.
const ONE_CHARACTER: [(char, &str); 9] = [
    ('½', "1/2"),
    ('¼', "1/4"),
    ('¾', "3/4"),
    ('⅓', "1/3"),
    ('⅔', "2/3"),
    ('⅛', "1/8"),
    ('⅜', "3/8"),
    ('⅝', "5/8"),
    ('⅞', "7/8"),
];

impl Exact {
    /// Zero.
    pub fn zero() -> Self {
        Exact(Ratio::zero())
    }

    /// A whole number.
    pub fn whole(number: i64) -> Self {
        Exact(Ratio::from_integer(i128::from(number)))
    }

    /// `numerator` over `denominator`.
    ///
    /// # Panics
    /// If `denominator` is 0.
    pub fn ratio(numerator: i64, denominator: i64) -> Self {
        Exact(Ratio::new(numerator.into(), denominator.into()))
    }

    /// The number that a mean was reckoned as: from 1 on as it is, below that to 2^-52. `None` of what
    /// is no number or has more digits before the point than any text may have.
    pub fn nearest(number: f64) -> Option<Self> {
        const PARTS: f64 = (1_u64 << 52) as f64;
        let most = 10_f64.powi(MOST_DIGITS as i32);
        (number.abs() < most).then(|| {
            let parts = (number * PARTS).round() as i128;
            Exact(Ratio::new(parts, PARTS as i128))
        })
    }

    /// The nearest floating-point value, for statistics and drawing only.
    pub fn to_f64(self) -> f64 {
        let (numerator, denominator) = self.parts();
        // Both are exact as f64, and one division rounds once: the nearest, without long division.
        if numerator.abs().max(denominator) <= 1 << f64::MANTISSA_DIGITS {
            return numerator as f64 / denominator as f64;
        }
        // OK because a ratio of two i128 always has a nearest f64.
        self.0.to_f64().unwrap_or(f64::NAN)
    }

    /// True where the number has no fraction.
    pub fn is_whole(self) -> bool {
        self.0.is_integer()
    }

    /// The largest whole number not above this one.
    pub fn floor(self) -> Self {
        Exact(self.0.floor())
    }

    /// The smallest whole number not below this one.
    pub fn ceil(self) -> Self {
        Exact(self.0.ceil())
    }

    /// Numerator and denominator in lowest terms, the denominator positive.
    pub fn parts(self) -> (i128, i128) {
        (*self.0.numer(), *self.0.denom())
    }

    /// The exact mean, or `None` of no numbers.
    pub fn mean(numbers: &[Exact]) -> Option<Exact> {
        if numbers.is_empty() {
            return None;
        }
        let sum = numbers.iter().fold(Exact::zero(), |sum, n| sum + *n);
        Some(sum / Exact::whole(numbers.len() as i64))
    }

    /// Rounded to `places` decimals, halves away from zero.
    pub fn rounded(self, places: u32) -> Exact {
        let scale = 10_i128.pow(places);
        Exact(ratio::lowest(ratio::scaled(self.0, scale), scale))
    }

    /// The same as a text, without trailing zeros: `"88.9"`.
    pub fn to_decimal(self, places: u32) -> String {
        let scale = 10_i128.pow(places);
        let scaled = ratio::scaled(self.0, scale);
        let sign = if scaled < 0 { "-" } else { "" };
        let (whole, rest) = (scaled.abs() / scale, scaled.abs() % scale);
        let mut text = format!("{sign}{whole}");
        if rest > 0 {
            let digits = format!("{rest:0width$}", width = places as usize);
            text.push('.');
            text.push_str(digits.trim_end_matches('0'));
        }
        text
    }
}

impl Ord for Exact {
    fn cmp(&self, other: &Exact) -> Ordering {
        ratio::compared(&self.0, &other.0)
    }
}

impl PartialOrd for Exact {
    fn partial_cmp(&self, other: &Exact) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl std::ops::Mul for Exact {
    type Output = Exact;
    fn mul(self, other: Exact) -> Exact {
        Exact(ratio::product(self.0, other.0))
    }
}

impl std::ops::Div for Exact {
    type Output = Exact;
    fn div(self, other: Exact) -> Exact {
        Exact(ratio::quotient(self.0, other.0))
    }
}

impl std::ops::Add for Exact {
    type Output = Exact;
    fn add(self, other: Exact) -> Exact {
        Exact(ratio::sum(self.0, other.0))
    }
}

impl std::ops::Sub for Exact {
    type Output = Exact;
    fn sub(self, other: Exact) -> Exact {
        Exact(ratio::sum(self.0, -other.0))
    }
}

/// Exact where six decimals are enough, else as a fraction: `parse(print(x)) == x` either way.
impl fmt::Display for Exact {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.is_whole() {
            write!(f, "{}", self.0.numer())
        } else if 10_i128.pow(MOST_DECIMALS as u32) % self.0.denom() == 0 {
            f.write_str(&self.to_decimal(MOST_DECIMALS as u32))
        } else {
            write!(f, "{}/{}", self.0.numer(), self.0.denom())
        }
    }
}

impl fmt::Display for ParseExactError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "found {:?}, expected a number such as 7, 62.5, 3/4 or 2 1/2",
            self.found
        )
    }
}

impl std::error::Error for ParseExactError {}

/// Reads `7`, `62.5`, `3/4`, `2 1/2`, `2½` and `-1`; at most nine digits before the point, six after.
impl FromStr for Exact {
    type Err = ParseExactError;

    fn from_str(text: &str) -> Result<Self, ParseExactError> {
        let parse = || {
            let text = spelt_out(text);
            let text = text.trim();
            let (sign, text) = match text.strip_prefix('-') {
                Some(rest) => (-1, rest),
                None => (1, text),
            };
            let value = match text.split_once(char::is_whitespace) {
                Some((whole, part)) => {
                    Ratio::from_integer(digits(whole)?) + fraction(part.trim_start())?
                }
                None if text.contains('/') => fraction(text)?,
                None => decimal(text)?,
            };
            Some(Exact(if sign < 0 { -value } else { value }))
        };
        parse().ok_or_else(|| ParseExactError { found: brief(text) })
    }
}

/// Fractions that are one character, as in `3½`, written as three.
fn spelt_out(text: &str) -> Cow<'_, str> {
    if text.is_ascii() {
        return Cow::Borrowed(text);
    }
    let spelt = ONE_CHARACTER
        .iter()
        .fold(text.to_string(), |text, (one, three)| {
            text.replace(*one, &format!(" {three}"))
        });
    Cow::Owned(spelt)
}

fn digits(text: &str) -> Option<i128> {
    let plain = !text.is_empty() && text.bytes().all(|b| b.is_ascii_digit());
    (plain && text.len() <= MOST_DIGITS).then(|| text.parse().ok())?
}

fn fraction(text: &str) -> Option<Ratio<i128>> {
    let (numerator, denominator) = text.split_once('/')?;
    let (numerator, denominator) = (digits(numerator)?, digits(denominator)?);
    (denominator > 0 && FINEST % denominator == 0).then(|| ratio::lowest(numerator, denominator))
}

fn decimal(text: &str) -> Option<Ratio<i128>> {
    let (whole, rest) = match text.split_once('.') {
        Some(("", rest)) => (0, rest),
        Some((whole, rest)) => (digits(whole)?, rest),
        None => return digits(text).map(Ratio::from_integer),
    };
    if rest.len() > MOST_DECIMALS {
        return None;
    }
    let parts = 10_i128.pow(rest.len() as u32);
    Some(ratio::lowest(whole * parts + digits(rest)?, parts))
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn exact(text: &str) -> Exact {
        text.parse().expect(text)
    }

    #[test]
    fn reads_whole_decimal_and_mixed_numbers() {
        assert_eq!(exact("7"), Exact::whole(7));
        assert_eq!(exact("62.5"), Exact::ratio(125, 2));
        assert_eq!(exact("3 1/2"), Exact::ratio(7, 2));
        assert_eq!(exact("3½"), Exact::ratio(7, 2));
        assert_eq!(exact("¾"), Exact::ratio(3, 4));
        assert_eq!(exact(".5"), exact("1/2"));
        assert_eq!(exact("-0.25"), Exact::ratio(-1, 4));
    }

    #[test]
    fn refuses_what_is_not_a_number() {
        for text in [
            "",
            "-",
            "1/0",
            "a",
            "1.2.3",
            "1e5",
            "1/2/3",
            "1 2",
            "0.1234567",
            "9999999999",
            "1/7",
            "٣",
        ] {
            assert!(text.parse::<Exact>().is_err(), "{text:?} was read");
        }
    }

    #[test]
    fn rounds_halves_away_from_zero_and_drops_trailing_zeros() {
        assert_eq!(exact("88.95").to_decimal(1), "89");
        assert_eq!(exact("-0.25").to_decimal(1), "-0.3");
        assert_eq!(exact("1/3").to_decimal(3), "0.333");
    }

    proptest! {
        #[test]
        fn what_is_printed_reads_back(numerator in -500_000_i64..500_000, decimals in any::<bool>()) {
            let number = Exact::ratio(numerator, if decimals { 1_000_000 } else { 960 });
            let printed = number.to_string();
            prop_assert_eq!(printed.parse::<Exact>(), Ok(number), "{}", printed);
        }

        #[test]
        fn any_text_is_read_or_refused_without_panic(text in ".{0,20}") {
            let _ = text.parse::<Exact>();
        }
    }
}
