//! All that is checked from outside of the crate, in one program. The tree is that of `src`: what
//! holds `src/form` stands in `form`, and what `trug` answers in a shell in `command`.
//!
//! `cargo test --test all order::` runs the tests of one part.

mod command;
mod common;
mod draw;
#[cfg(unix)]
mod folder;
mod form;
mod hostile;
mod order;
mod paper;
mod screen;
mod source;
mod stock;
mod tag;
mod trial;
mod variety;
