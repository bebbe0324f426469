//! Varieties: the demo's list, choosing from it, and its exchange with tables.

mod choosing;
mod demo;
mod exchange;
mod putting;
mod unknown;
