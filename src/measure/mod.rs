//! Exact lengths and shares, and what a handful of measurements says.
//!
//! Knows nothing of dahlias: numbers in, numbers out.

mod exact;
mod length;
pub mod sample;

pub use exact::{Exact, ParseExactError};
pub use length::{Length, LengthUnit, ParseLengthError, SizeUnits};
