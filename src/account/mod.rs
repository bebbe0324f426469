//! One account of a thing: an order, the row, a plant as one value, from which plain text, the
//! screen, a printed page, CSV and JSON are drawn.
//!
//! What a thing is called and what it comes to is said once, by who knows the thing. A [`Cell`] has
//! one way to be shown to a person and one way to be written as data; a [`Column`] or a [`Pair`] has
//! one name for people and one id for programs. How wide, in what colour and on what paper it is
//! drawn is the business of who draws it. Knows nothing of dahlias.

mod cell;
mod data;
mod plain;
mod section;
mod table;
pub mod text;

pub use cell::{Cell, Scale};
pub use data::object;
pub use plain::{lines, section_lines};
pub use section::{Pair, Part, Section, Sentence};
pub use table::{Column, Seen, Table};
