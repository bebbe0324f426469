//! Why beds cannot be drawn.

use std::fmt;

use crate::paper::{SetupError, Unprintable};

/// Why beds cannot be drawn, as one sentence.
#[derive(Debug, Clone, PartialEq)]
pub struct Undrawable(pub(super) String);

impl From<SetupError> for Undrawable {
    fn from(error: SetupError) -> Undrawable {
        Undrawable(error.to_string())
    }
}

impl From<Unprintable> for Undrawable {
    fn from(error: Unprintable) -> Undrawable {
        Undrawable(error.to_string())
    }
}

impl fmt::Display for Undrawable {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for Undrawable {}
