//! Drawings in pixels, where the terminal shows them.
//!
//! A page asks for a picture when it asks for the same drawing in cells, and shows the cells until the
//! picture is there: it is made on a thread of the terminal's edge, off the path of a key. `request` is
//! what is to be made, `painted` makes it, and `album` keeps what was made.

mod album;
mod painted;
mod request;

pub(super) use album::Album;
pub use painted::{Painted, forgotten};
pub use request::{Job, Request};

#[cfg(test)]
mod tests;
