//! Lengths as a grower writes them: inches, fractions of an inch, millimetres, centimetres.

use std::borrow::Cow;
use std::cmp::Ordering;
use std::fmt;
use std::hash::{Hash, Hasher};
use std::str::FromStr;

use super::brief;
use super::exact::Exact;

/// An exact length, which knows the unit that it was written in: inches typed come back in inches. One
/// inch is 25.4 mm. Two lengths are compared whatever they were written in.
#[derive(Debug, Clone, Copy)]
pub struct Length {
    millimetres: Exact,
    written: LengthUnit,
}

/// A unit that a length may be written in.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum LengthUnit {
    /// Millimetres, `mm`.
    Millimetre,
    /// Centimetres, `cm`.
    Centimetre,
    /// Metres, `m`.
    Metre,
    /// Inches, `in` or `"`.
    Inch,
    /// Feet, `ft`.
    Foot,
}

/// The units in which the grower wants lengths shown.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default, serde::Serialize, serde::Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum SizeUnits {
    /// Inches.
    In,
    /// Millimetres.
    #[default]
    Mm,
}

/// Why a text is not a length.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct ParseLengthError {
    found: String,
}

impl SizeUnits {
    /// How many mm one of the units of blooms is: an inch is 25.4 (international yard and pound agreement,
    /// 1959).
    pub fn in_mm(self) -> f64 {
        match self {
            SizeUnits::Mm => 1.0,
            SizeUnits::In => 25.4,
        }
    }

    /// The unit that buyers are told widths in: centimetres, not millimetres.
    pub fn of_buyers(self) -> &'static str {
        match self {
            SizeUnits::In => "in",
            SizeUnits::Mm => "cm",
        }
    }

    /// The unit that blooms are told in.
    pub fn of_blooms(self) -> &'static str {
        match self {
            SizeUnits::In => "in",
            SizeUnits::Mm => "mm",
        }
    }
}

impl LengthUnit {
    const ALL: [(LengthUnit, &'static str); 10] = [
        (LengthUnit::Millimetre, "mm"),
        (LengthUnit::Centimetre, "cm"),
        (LengthUnit::Inch, "inches"),
        (LengthUnit::Inch, "inch"),
        (LengthUnit::Inch, "in"),
        (LengthUnit::Inch, "\""),
        (LengthUnit::Foot, "feet"),
        (LengthUnit::Foot, "foot"),
        (LengthUnit::Foot, "ft"),
        (LengthUnit::Metre, "m"),
    ];

    /// The unit written so, in lower case.
    pub fn named(text: &str) -> Option<LengthUnit> {
        let found = Self::ALL.iter().find(|(_, written)| *written == text);
        found.map(|(unit, _)| *unit)
    }

    /// As it stands behind a number in a file.
    fn suffix(self) -> &'static str {
        match self {
            LengthUnit::Millimetre => "mm",
            LengthUnit::Centimetre => "cm",
            LengthUnit::Metre => "m",
            LengthUnit::Inch => "in",
            LengthUnit::Foot => "ft",
        }
    }

    /// How many millimetres one of this unit is.
    pub fn in_millimetres(self) -> Exact {
        match self {
            LengthUnit::Millimetre => Exact::whole(1),
            LengthUnit::Centimetre => Exact::whole(10),
            LengthUnit::Metre => Exact::whole(1000),
            LengthUnit::Inch => Exact::ratio(254, 10),
            LengthUnit::Foot => Exact::ratio(3048, 10),
        }
    }
}

impl Length {
    /// From a number of `unit`.
    pub fn new(number: Exact, unit: LengthUnit) -> Self {
        Length {
            millimetres: number * unit.in_millimetres(),
            written: unit,
        }
    }

    /// From a number of millimetres.
    pub fn from_mm(millimetres: Exact) -> Self {
        Length {
            millimetres,
            written: LengthUnit::Millimetre,
        }
    }

    /// The number of millimetres, exact.
    pub fn mm(self) -> Exact {
        self.millimetres
    }

    /// The number of inches, exact.
    pub fn inches(self) -> Exact {
        self.millimetres / LengthUnit::Inch.in_millimetres()
    }

    /// A length of so many millimetres, in the unit of this one where a decimal of it is enough.
    pub fn with_mm(self, millimetres: Exact) -> Length {
        let own = Length {
            millimetres,
            ..self
        };
        match own.to_string().contains('/') {
            true => Length::from_mm(millimetres),
            false => own,
        }
    }

    /// In the grower's units, rounded for reading: `89 mm`, `3.5 in`.
    pub fn shown(self, units: SizeUnits) -> String {
        match units {
            SizeUnits::Mm => format!("{} mm", self.millimetres.to_decimal(1)),
            SizeUnits::In => format!("{} in", self.inches().to_decimal(2)),
        }
    }

    /// As [`Length::shown`], and before it in the units that it was written in where they are others:
    /// `3.9 in (99.1 mm)`.
    pub fn told(self, units: SizeUnits) -> String {
        let own = match self.written {
            LengthUnit::Inch | LengthUnit::Foot => SizeUnits::In,
            LengthUnit::Millimetre | LengthUnit::Centimetre | LengthUnit::Metre => SizeUnits::Mm,
        };
        match own == units {
            true => self.shown(units),
            false => format!("{} ({})", self.shown(own), self.shown(units)),
        }
    }

    /// A length along a bed, to a tenth: `20.0 m`, `65.6 ft`.
    pub fn shown_along_a_bed(self, units: SizeUnits) -> String {
        match units {
            SizeUnits::Mm => format!("{:.1} m", self.millimetres.to_f64() / 1000.0),
            SizeUnits::In => format!("{:.1} ft", self.inches().to_f64() / 12.0),
        }
    }
}

/// Exact, in the unit that it was written in; one that was reckoned in millimetres where a decimal is
/// enough, else in inches. It reads back as the same length.
impl fmt::Display for Length {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        if self.written == LengthUnit::Millimetre && self.millimetres.is_whole() {
            return write!(f, "{}mm", self.millimetres);
        }
        let unit = self.written;
        let number = (self.millimetres / unit.in_millimetres()).to_string();
        let of_inches = || self.inches().to_string();
        match unit == LengthUnit::Millimetre && number.contains('/') && !of_inches().contains('/') {
            true => write!(f, "{}in", of_inches()),
            false => write!(f, "{number}{}", unit.suffix()),
        }
    }
}

impl PartialEq for Length {
    fn eq(&self, other: &Length) -> bool {
        self.millimetres == other.millimetres
    }
}

impl Eq for Length {}

impl PartialOrd for Length {
    fn partial_cmp(&self, other: &Length) -> Option<Ordering> {
        Some(self.cmp(other))
    }
}

impl Ord for Length {
    fn cmp(&self, other: &Length) -> Ordering {
        self.millimetres.cmp(&other.millimetres)
    }
}

impl Hash for Length {
    fn hash<H: Hasher>(&self, state: &mut H) {
        self.millimetres.hash(state);
    }
}

impl fmt::Display for ParseLengthError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(
            f,
            "found {:?}, expected a length such as 98mm, 9.8cm, 3.5in or 3 1/2 in",
            self.found
        )
    }
}

impl std::error::Error for ParseLengthError {}

/// Reads `98mm`, `9.8 cm`, `3.5in`, `3 1/2 in`, `3-1/2"`; a unit is required.
impl FromStr for Length {
    type Err = ParseLengthError;

    fn from_str(text: &str) -> Result<Self, ParseLengthError> {
        let lower = match text
            .bytes()
            .any(|b| b.is_ascii_uppercase() || !b.is_ascii())
        {
            true => Cow::Owned(text.trim().to_lowercase()),
            false => Cow::Borrowed(text.trim()),
        };
        let read = || {
            let (unit, number) = LengthUnit::ALL
                .iter()
                .find_map(|(unit, suffix)| Some((unit, lower.strip_suffix(suffix)?)))?;
            let number = number.trim_end();
            if let Some(whole) = plain_whole(number) {
                return Some(Length::new(Exact::whole(whole), *unit));
            }
            let number = mixed_by_hyphen(number);
            Some(Length::new(number.parse().ok()?, *unit))
        };
        read().ok_or_else(|| ParseLengthError { found: brief(text) })
    }
}

/// A number of a few digits and nothing else, which nearly every length is.
fn plain_whole(number: &str) -> Option<i64> {
    let few = (1..=6).contains(&number.len());
    (few && number.bytes().all(|b| b.is_ascii_digit())).then(|| number.parse().ok())?
}

/// `3-1/2` is a common way to write three and a half inches.
fn mixed_by_hyphen(number: &str) -> String {
    match number.split_once('-') {
        Some((whole, part)) if !whole.is_empty() && part.contains('/') => format!("{whole} {part}"),
        _ => number.to_string(),
    }
}

impl TryFrom<String> for Length {
    type Error = ParseLengthError;
    fn try_from(text: String) -> Result<Self, ParseLengthError> {
        text.parse()
    }
}

impl From<Length> for String {
    fn from(length: Length) -> String {
        length.to_string()
    }
}

impl serde::Serialize for Length {
    fn serialize<S: serde::Serializer>(&self, serializer: S) -> Result<S::Ok, S::Error> {
        serializer.collect_str(self)
    }
}

impl<'de> serde::Deserialize<'de> for Length {
    fn deserialize<D: serde::Deserializer<'de>>(deserializer: D) -> Result<Self, D::Error> {
        let text = std::borrow::Cow::<'de, str>::deserialize(deserializer)?;
        text.parse().map_err(serde::de::Error::custom)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn length(text: &str) -> Length {
        text.parse().expect(text)
    }

    #[test]
    fn inches_are_exact() {
        // International yard and pound agreement, 1959: one inch is 25.4 mm.
        assert_eq!(length("3.5in"), length("88.9mm"));
        assert_eq!(length("3 1/2 in"), length("88.9mm"));
        assert_eq!(length("3-1/2\""), length("8.89cm"));
        assert_eq!(length("2 inches"), length("50.8 mm"));
        assert_eq!(length("1/64in").mm(), Exact::ratio(396_875, 1_000_000));
        assert!(length("88.899999mm") < length("3.5in"));
    }

    #[test]
    fn a_bare_number_or_a_strange_unit_is_refused_with_what_was_expected() {
        for text in ["98", "98 m m", "mm", "3 ells", "1/0in", ""] {
            let error = text.parse::<Length>().expect_err(text).to_string();
            assert!(
                error.contains(&format!("{text:?}")) && error.contains("98mm"),
                "{error}"
            );
        }
    }

    #[test]
    fn a_length_comes_back_as_it_was_written() {
        for (text, back) in [
            ("98 mm", "98mm"),
            ("9.8cm", "9.8cm"),
            ("3.9 inches", "3.9in"),
            ("3 1/2\"", "3.5in"),
            ("40 feet", "40ft"),
            ("24m", "24m"),
            ("1/3in", "1/3in"),
        ] {
            assert_eq!(length(text).to_string(), back);
        }
        assert_eq!(length("3.9in").told(SizeUnits::Mm), "3.9 in (99.1 mm)");
        assert_eq!(length("3.9in").told(SizeUnits::In), "3.9 in");
        assert_eq!(length("9.9cm").told(SizeUnits::Mm), "99 mm");
        let set = std::collections::HashSet::from([length("10cm"), length("100mm")]);
        assert_eq!(set.len(), 1);
        assert!(length("2in") < length("6cm") && length("1ft") == length("12in"));
    }

    proptest! {
        #[test]
        fn any_length_comes_back_in_its_unit(number in 1_i64..4_000, parts in prop::sample::select(vec![1_i64, 2, 3, 5, 10, 64]), at in 0_usize..10) {
            let (unit, _) = LengthUnit::ALL[at];
            let typed = Length::new(Exact::ratio(number, parts), unit);
            let back: Length = typed.to_string().parse().expect("a length");
            prop_assert_eq!(back, typed);
            prop_assert_eq!(back.to_string(), typed.to_string());
            prop_assert!(back.to_string().ends_with(unit.suffix()));
        }

        #[test]
        fn what_is_printed_reads_back(sixty_fourths in 1_i64..2_000, mm in 1_i64..500_000) {
            let inches = Length::new(Exact::ratio(sixty_fourths, 64), LengthUnit::Inch);
            prop_assert_eq!(inches.to_string().parse(), Ok(inches));
            prop_assert_eq!(inches.to_string().parse(), Ok(inches));
            let thousandths = Length::from_mm(Exact::ratio(mm, 1000));
            prop_assert_eq!(thousandths.to_string().parse(), Ok(thousandths));
            prop_assert_eq!(thousandths.to_string().parse(), Ok(thousandths));
        }
    }
}
