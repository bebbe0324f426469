//! The statistics that a trial row needs, each with its source.
//!
//! [`survival`], [`log_rank`], [`permutation`] and [`more_stems`] are for days in the vase, [`share`]
//! for damaged of open, [`nested`] for diameters of several dates, [`parents`] for seedlings that stay
//! of each parent. Numbers in, numbers out: nothing here knows what a seedling is. Every interval has
//! the level [`LEVEL`] unless the caller names another.

pub mod log_rank;
pub mod more_stems;
pub mod nested;
pub mod parents;
pub mod permutation;
pub mod share;
pub mod survival;

/// The level of every interval that the trial row shows: 95 %.
pub const LEVEL: f64 = 0.95;
