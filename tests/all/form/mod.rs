//! Rule sets: each limit, the proof, wrong edits, and sets that are hard on purpose.

mod errors;
mod limits;
mod proof;
mod properties;
mod questions;
mod tangled;
