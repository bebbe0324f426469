//! Exact lengths and shares, and what a handful of measurements says.
//!
//! Knows nothing of dahlias: numbers in, numbers out.

mod exact;
mod length;
pub mod sample;

pub use exact::{Exact, ParseExactError};
pub use length::{Length, LengthUnit, ParseLengthError, SizeUnits};

/// A number of days in words: `1 day`, `7.5 days`.
pub fn days(count: f64) -> String {
    let ending = if count == 1.0 { "" } else { "s" };
    format!("{count} day{ending}")
}
