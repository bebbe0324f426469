//! Charts of figures, whatever they are of: bars with ranges and needs, a share that falls in steps,
//! points by day against limits, stacks of colours, and shares by place.
//!
//! A chart is data with its words. It is drawn twice: as lines of characters ([`Line`]), whose pieces
//! say what they are and which hold without any colour and in ASCII; and as a page of `paper`, from
//! which PDF and SVG are made. On both, a length is its value: no bar begins but at nothing.

mod bars;
mod canvas;
mod line;
mod marks;
mod points;
mod scale;
mod shares;
mod sheet;
mod stacks;
mod steps;

pub use bars::{Bar, BarWords, Bars};
pub use canvas::Frame;
pub use line::{Ink, Line, Signs};
pub use points::{Limit, Points};
pub use scale::Scale;
pub use shares::{ShareRow, Shares};
pub use sheet::PageError;
pub use stacks::{Piece, Stack, Stacks};
pub use steps::{Step, Steps};
