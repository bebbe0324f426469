//! The trial row: the demo's, and its statistics.

mod demo;
mod statistics;
