//! The only module that touches files.

pub mod file;
pub mod rule_sets;
