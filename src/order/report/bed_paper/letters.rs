//! The letters of a bed plan.

use crate::paper::Style;

/// The size in points of the least letters: those of the numbers in marks.
pub(super) const LEAST: f64 = 6.0;
/// Words beside the beds.
pub(super) const SMALL: Style = Style::regular(6.5);
