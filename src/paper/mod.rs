//! The printed page: what stands where on paper, as PDF and as SVG.
//!
//! A [`Page`] is lines of text and outlines (`geometry`) in millimetres; whoever prints something
//! puts them together, and knows nothing of file formats. Text is [`Printable`] before it comes onto a page:
//! a text that the fonts cannot set is refused at the door with a sentence, and what is on a page
//! can be measured and written without fail. A part of a page (a label, a panel of a folded sheet)
//! is drawn about its own origin and put in its place by an affine map of kurbo's.
//!
//! The fonts are in the program (`assets/fonts`); sizes of paper are data (`assets/papers.ron`).

mod breaking;
mod drawing;
mod font;
mod measured;
mod page;
mod pdf;
mod printable;
mod setup;
mod squares;
mod svg;
mod table;
mod write;

pub use drawing::Drawing;
pub use font::{POINT, Style, Weight};
pub use measured::Measured;
pub use page::{Align, Item, Page, TextLine};
pub use pdf::pdf;
pub use printable::{Printable, Unprintable};
pub use setup::{Margins, Orientation, Paper, Setup, SetupError};
pub use squares::Squares;
pub use svg::{Lettering, escaped, svg};
pub use table::{Column, Table, TableError};
pub use write::Unwritable;

#[cfg(test)]
mod tests;
