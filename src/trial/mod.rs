//! The trial row: seedlings and varieties under trial, and what their evidence adds up to.
//!
//! Pure: it knows no terminal, file or clock.

pub mod plot;
pub mod statistics;
