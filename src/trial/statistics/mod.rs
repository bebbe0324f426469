//! The statistics that a trial row needs, each with its source.
//!
//! [`survival`] and [`log_rank`] are for days in the vase, [`share`] for damaged of open,
//! [`nested`] for diameters of several dates, [`family`] for seedlings kept of each parent. Numbers
//! in, numbers out: nothing here knows what a seedling is. Every interval has the level [`LEVEL`]
//! unless the caller names another.

pub mod family;
pub mod log_rank;
pub mod nested;
pub mod share;
pub mod survival;

/// The level of every interval that the trial row shows: 95 %.
pub const LEVEL: f64 = 0.95;
