//! The colours of rows, asked of an index.

use crate::colour::{Lab, Part};
use crate::variety::index::Index;

impl Index {
    /// The row's colours that could be read, with their parts.
    pub fn colours(&self, row: usize) -> impl Iterator<Item = (Lab, Part)> + '_ {
        let colours = self.shades.placed(row).iter();
        colours.map(|(colour, part)| (self.shades.palette[*colour as usize].lab, *part))
    }

    /// How many rows each word of the vocabulary names by their main colour, by its place there.
    pub fn main_colours(&self) -> &[usize] {
        &self.shades.main
    }
}
