//! The colours of rows, asked of an index.

use crate::colour::{Lab, Shown};
use crate::variety::index::Index;

impl Index {
    /// The row's colours that could be read, with how each shows.
    pub fn colours(&self, row: usize) -> impl Iterator<Item = (Lab, Shown)> + '_ {
        let colours = self.shades.placed(row).iter();
        colours.map(|(colour, shown)| (self.shades.palette[*colour as usize].lab, *shown))
    }

    /// The word that names the row's main colour, by its place in the vocabulary; `None` where no main
    /// colour is known.
    pub fn main_word(&self, row: usize) -> Option<usize> {
        self.shades.main_of(row)
    }

    /// How many rows each word of the vocabulary names by their main colour, by its place there.
    pub fn main_colours(&self) -> &[usize] {
        &self.shades.main
    }
}
