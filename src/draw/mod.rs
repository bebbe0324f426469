//! A bloom's drawing from its traits: one source for screen and print.
//!
//! A [`Bloom`] is a state for every trait. Its florets are ribbons in space, set on the head by
//! phyllotaxis (`head`), cut, rolled and bent (`floret`), and seen from the front or from the side
//! (`view`). A [`Drawing`] is what is seen: closed outlines, the back first, with parts and
//! colours. Renderers know nothing of dahlias, and no form is named here: geometry follows traits.
//!
//! Fewer florets are drawn than a bloom has, so that they can be told apart at 20 mm.

pub mod answer;
mod blocks;
pub mod bloom;
mod cells;
mod centre;
mod curve;
mod dots;
mod drawing;
mod floret;
mod head;
mod ink;
mod mark;
mod modelling;
mod paint;
mod patch;
mod petal;
mod pointed;
mod pointer;
mod raster;
mod shades;
mod sheet;
mod symbols;
mod tone;
mod view;

pub use bloom::Bloom;
pub use cells::{Characters, Grid};
pub use dots::Cell;
pub use drawing::Drawing;
pub use head::GOLDEN_ANGLE;
pub use mark::{Mark, points_to, view_for};
pub use paint::Paint;
pub use patch::{Patch, Role};
pub use raster::{MOST_PIXELS, Picture};
pub use view::View;

#[cfg(test)]
mod tests;
