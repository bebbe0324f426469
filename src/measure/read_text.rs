//! Values that a file holds as text: read where they lie, without a copy first.

use std::fmt;
use std::marker::PhantomData;
use std::str::FromStr;

use serde::Deserializer;
use serde::de::{Error, Visitor};

/// Reads a text and parses it.
pub(crate) fn parsed<'de, D, T>(deserializer: D) -> Result<T, D::Error>
where
    D: Deserializer<'de>,
    T: FromStr<Err: fmt::Display>,
{
    struct Parsed<T>(PhantomData<T>);
    impl<T: FromStr<Err: fmt::Display>> Visitor<'_> for Parsed<T> {
        type Value = T;
        fn expecting(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
            f.write_str("text in double quotes")
        }
        fn visit_str<E: Error>(self, text: &str) -> Result<T, E> {
            text.parse().map_err(Error::custom)
        }
    }
    deserializer.deserialize_str(Parsed(PhantomData))
}
