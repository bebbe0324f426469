//! Records as this program writes them, read several times sooner than RON's own reader does.
//!
//! A long list is nearly all such records. Whatever else RON allows (escapes, comments, `Some`,
//! struct names, maps) is given up with [`NotPlain`], and is then a matter for that reader. What is
//! read here means the same there: a test holds the two against each other.

use std::fmt;

use serde::de::value::StrDeserializer;
use serde::de::{
    DeserializeOwned, DeserializeSeed, Deserializer, EnumAccess, Error, MapAccess, SeqAccess,
    VariantAccess, Visitor,
};
use serde::forward_to_deserialize_any;

/// The text is not as this program writes it; it may be right all the same.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct NotPlain;

/// Reads one record.
pub(super) fn read<T: DeserializeOwned>(text: &str) -> Result<T, NotPlain> {
    let mut rest = Rest(text);
    let value = T::deserialize(&mut rest)?;
    match rest.0.trim_start_matches(' ') {
        "" => Ok(value),
        _ => Err(NotPlain),
    }
}

/// What is left to read.
struct Rest<'a>(&'a str);

impl<'a> Rest<'a> {
    /// Spaces, then this mark.
    fn mark(&mut self, mark: u8) -> Result<(), NotPlain> {
        self.spaces();
        match self.0.as_bytes().first() {
            Some(found) if *found == mark => {
                self.0 = &self.0[1..];
                Ok(())
            }
            _ => Err(NotPlain),
        }
    }

    fn spaces(&mut self) {
        self.0 = self.0.trim_start_matches(' ');
    }

    /// The longest beginning of such bytes, all of them ASCII.
    fn while_any(&mut self, is_part: impl Fn(u8) -> bool) -> Result<&'a str, NotPlain> {
        self.spaces();
        let bytes = self.0.as_bytes();
        let end = bytes.iter().position(|byte| !is_part(*byte));
        let (part, rest) = self.0.split_at(end.unwrap_or(bytes.len()));
        self.0 = rest;
        if part.is_empty() {
            Err(NotPlain)
        } else {
            Ok(part)
        }
    }

    fn word(&mut self) -> Result<&'a str, NotPlain> {
        let word = self.while_any(|byte| byte.is_ascii_alphanumeric() || byte == b'_')?;
        match word.starts_with(|c: char| c.is_ascii_digit()) {
            true => Err(NotPlain),
            false => Ok(word),
        }
    }

    fn text(&mut self) -> Result<&'a str, NotPlain> {
        self.mark(b'"')?;
        let end = memchr::memchr2(b'"', b'\\', self.0.as_bytes());
        let (text, rest) = self.0.split_at(end.ok_or(NotPlain)?);
        self.0 = rest;
        // Not where an escape comes before the end.
        self.mark(b'"')?;
        Ok(text)
    }
}

/// The items between two marks, commas between them.
struct Items<'r, 'a> {
    rest: &'r mut Rest<'a>,
    end: u8,
    first: bool,
}

impl<'r, 'a> Items<'r, 'a> {
    fn begin(rest: &'r mut Rest<'a>, begin: u8, end: u8) -> Result<Self, NotPlain> {
        rest.mark(begin)?;
        Ok(Items {
            rest,
            end,
            first: true,
        })
    }

    /// Whether another item comes; else the end was read.
    fn another(&mut self) -> Result<bool, NotPlain> {
        let first = std::mem::replace(&mut self.first, false);
        let comma = first || self.rest.mark(b',').is_ok();
        match (self.rest.mark(self.end), comma) {
            (Ok(()), _) => Ok(false),
            (Err(_), true) => Ok(true),
            (Err(_), false) => Err(NotPlain),
        }
    }
}

impl<'de> MapAccess<'de> for Items<'_, 'de> {
    type Error = NotPlain;

    fn next_key_seed<K: DeserializeSeed<'de>>(
        &mut self,
        seed: K,
    ) -> Result<Option<K::Value>, NotPlain> {
        if !self.another()? {
            return Ok(None);
        }
        let name = self.rest.word()?;
        self.rest.mark(b':')?;
        seed.deserialize(StrDeserializer::new(name)).map(Some)
    }

    fn next_value_seed<V: DeserializeSeed<'de>>(&mut self, seed: V) -> Result<V::Value, NotPlain> {
        seed.deserialize(&mut *self.rest)
    }
}

impl<'de> SeqAccess<'de> for Items<'_, 'de> {
    type Error = NotPlain;

    fn next_element_seed<T: DeserializeSeed<'de>>(
        &mut self,
        seed: T,
    ) -> Result<Option<T::Value>, NotPlain> {
        match self.another()? {
            true => seed.deserialize(&mut *self.rest).map(Some),
            false => Ok(None),
        }
    }
}

impl<'de, 'r> EnumAccess<'de> for &'r mut Rest<'de> {
    type Error = NotPlain;
    type Variant = &'r mut Rest<'de>;

    fn variant_seed<S: DeserializeSeed<'de>>(
        self,
        seed: S,
    ) -> Result<(S::Value, Self::Variant), NotPlain> {
        let name = self.word()?;
        Ok((seed.deserialize(StrDeserializer::new(name))?, self))
    }
}

/// A word alone, or with one value: `withdrawn`, `observed((...))`.
impl<'de> VariantAccess<'de> for &mut Rest<'de> {
    type Error = NotPlain;

    fn unit_variant(self) -> Result<(), NotPlain> {
        Ok(())
    }

    fn newtype_variant_seed<S: DeserializeSeed<'de>>(self, seed: S) -> Result<S::Value, NotPlain> {
        self.mark(b'(')?;
        let value = seed.deserialize(&mut *self)?;
        self.mark(b')')?;
        Ok(value)
    }

    fn tuple_variant<V: Visitor<'de>>(self, _: usize, _: V) -> Result<V::Value, NotPlain> {
        Err(NotPlain)
    }

    fn struct_variant<V: Visitor<'de>>(
        self,
        _: &'static [&'static str],
        _: V,
    ) -> Result<V::Value, NotPlain> {
        Err(NotPlain)
    }
}

/// Numbers of one kind: nothing but what Rust and RON read alike.
macro_rules! numbers {
    ($($read:ident $visit:ident $part:expr;)*) => {$(
        fn $read<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, NotPlain> {
            let number = self.while_any($part)?;
            visitor.$visit(number.parse().map_err(|_| NotPlain)?)
        }
    )*};
}

fn is_digit(byte: u8) -> bool {
    byte.is_ascii_digit()
}

fn is_of_float(byte: u8) -> bool {
    byte.is_ascii_digit() || matches!(byte, b'.' | b'-')
}

impl<'de> Deserializer<'de> for &mut Rest<'de> {
    type Error = NotPlain;

    fn deserialize_any<V: Visitor<'de>>(self, _: V) -> Result<V::Value, NotPlain> {
        Err(NotPlain)
    }

    fn deserialize_bool<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, NotPlain> {
        match self.word()? {
            "true" => visitor.visit_bool(true),
            "false" => visitor.visit_bool(false),
            _ => Err(NotPlain),
        }
    }

    numbers! {
        deserialize_u8 visit_u8 is_digit;
        deserialize_u16 visit_u16 is_digit;
        deserialize_u32 visit_u32 is_digit;
        deserialize_u64 visit_u64 is_digit;
        deserialize_f64 visit_f64 is_of_float;
    }

    fn deserialize_str<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, NotPlain> {
        visitor.visit_borrowed_str(self.text()?)
    }

    fn deserialize_string<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, NotPlain> {
        self.deserialize_str(visitor)
    }

    fn deserialize_option<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, NotPlain> {
        self.spaces();
        match self.0.starts_with("None") || self.0.starts_with("Some") {
            true => Err(NotPlain),
            false => visitor.visit_some(self),
        }
    }

    fn deserialize_seq<V: Visitor<'de>>(self, visitor: V) -> Result<V::Value, NotPlain> {
        visitor.visit_seq(Items::begin(self, b'[', b']')?)
    }

    fn deserialize_struct<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, NotPlain> {
        visitor.visit_map(Items::begin(self, b'(', b')')?)
    }

    fn deserialize_enum<V: Visitor<'de>>(
        self,
        _: &'static str,
        _: &'static [&'static str],
        visitor: V,
    ) -> Result<V::Value, NotPlain> {
        visitor.visit_enum(self)
    }

    forward_to_deserialize_any! {
        i8 i16 i32 i64 i128 u128 f32 char bytes byte_buf unit unit_struct newtype_struct tuple
        tuple_struct map identifier ignored_any
    }
}

impl Error for NotPlain {
    fn custom<T: fmt::Display>(_: T) -> NotPlain {
        NotPlain
    }
}

impl fmt::Display for NotPlain {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str("found a record that is not as this program writes it")
    }
}

impl std::error::Error for NotPlain {}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;
    use serde::Deserialize;

    use super::*;
    use crate::problem::read_ron;

    #[derive(Debug, Clone, PartialEq, Deserialize)]
    #[serde(deny_unknown_fields)]
    struct Kept {
        name: String,
        #[serde(default)]
        count: Option<u32>,
        #[serde(default)]
        days: Option<f64>,
        #[serde(default)]
        kind: Option<Kind>,
        #[serde(default)]
        yes: Option<bool>,
        #[serde(default)]
        words: Vec<String>,
        #[serde(default)]
        within: Option<Box<Kept>>,
    }

    #[derive(Debug, Clone, PartialEq, Deserialize)]
    #[serde(rename_all = "lowercase")]
    enum Kind {
        Ball,
        Collar(u8),
        Held(Box<Kept>),
    }

    const ALL: &str = "(name: \"Haaf é\", count: 3, days: 7.5, kind: ball, yes: true, words: [\"a, (b)\", \"[c\"], within: (name: \"\", kind: held((name: \"x\", kind: collar(3)))))";

    #[test]
    fn a_record_as_it_is_written_is_read() {
        assert_eq!(read::<Kept>(ALL), Ok(read_ron("f", ALL).expect("RON")));
        let bare = "(name:\"a\",words:[ \"b\" , ],) ";
        assert_eq!(read::<Kept>(bare), Ok(read_ron("f", bare).expect("RON")));
        let held = "(name: \"a\", kind: collar( 1 ))";
        assert_eq!(read::<Kept>(held), Ok(read_ron("f", held).expect("RON")));
    }

    #[test]
    fn all_else_is_given_up() {
        for text in [
            "(name: \"a\\n\")",
            "(name: r\"a\")",
            "(name: \"a\", count: Some(1))",
            "(name: \"a\", count: None)",
            "(name: \"a\", count: 1_000)",
            "(name: \"a\", count: 0x1f)",
            "(name: \"a\", days: 1e3)",
            "(name: \"a\", kind: collar(1,))",
            "(name: \"a\", kind: collar((1)))",
            "(name: \"a\", kind: collar)",
            "(name: \"a\", kind: ball())",
            "(name: \"a\", kind: held(name: \"b\"))",
            "(name: \"a\") // so",
            "(name: \"a\")(",
            "Kept(name: \"a\")",
            "(name: \"a\" count: 1)",
            "(name: \"a\", name: \"b\")",
            "(name: \"a\", other: 1)",
            "(count: 1)",
            "(name: \"a",
            "",
        ] {
            assert_eq!(read::<Kept>(text), Err(NotPlain), "{text}");
        }
    }

    proptest! {
        /// Where one or two characters are another, both readers say the same, or this one gives up.
        #[test]
        fn what_is_read_is_what_ron_reads(slips in prop::collection::vec((any::<prop::sample::Index>(), "[ -~]?"), 1..3)) {
            let mut text: Vec<String> = ALL.chars().map(String::from).collect();
            for (at, slip) in slips {
                *at.get_mut(&mut text) = slip;
            }
            let text = text.concat();
            if let Ok(kept) = read::<Kept>(&text) {
                prop_assert_eq!(read_ron::<Kept>("f", &text).ok(), Some(kept), "{}", text);
            }
        }

        #[test]
        fn a_number_is_what_ron_reads(number in "[0-9.-]{1,6}") {
            let text = format!("(name: \"\", days: {number})");
            if let Ok(kept) = read::<Kept>(&text) {
                prop_assert_eq!(read_ron::<Kept>("f", &text).ok(), Some(kept), "{}", text);
            }
        }
    }
}
