//! The order: from what is needed by week to what to buy, at least cost, proved.
//!
//! Pure: values in, values out. [`model`] is the integer program, [`solve`] its exact search.

pub mod model;
pub mod mps;
pub mod solve;
