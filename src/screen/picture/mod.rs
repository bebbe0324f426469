//! Drawings in pixels, where the terminal shows them.
//!
//! A page asks for a picture when it asks for the same drawing in cells, and shows the cells until the
//! picture is there: it is made on a thread of the terminal's edge, off the path of a key, once the page
//! [rests](REST). `request` is what is to be made, `painted` makes it, and `album` keeps what was made.

use std::time::Duration;

mod album;
mod painted;
mod request;

/// So long the same picture is wanted before it is made: whoever types or holds a key down is on to the next
/// sooner, and who looks does not notice.
pub const REST: Duration = Duration::from_millis(30);

pub(super) use album::Album;
pub use painted::{Painted, forgotten};
pub use request::{Job, Request};

#[cfg(test)]
mod tests;
