//! The colours of rows, asked of an index.

use crate::colour::{Lab, Part, Vocabulary};
use crate::variety::index::Index;

impl Index {
    /// The row's colours that could be read, with their parts.
    pub fn colours(&self, row: usize) -> impl Iterator<Item = (Lab, Part)> + '_ {
        let colours = self.shades.placed(row).iter();
        colours.map(|(colour, part)| (self.shades.palette[*colour as usize].lab, *part))
    }

    /// How many rows each word of the vocabulary names by their main colour, by its place there.
    pub fn main_colours(&self, words: &Vocabulary) -> Vec<usize> {
        let mut counts = vec![0; words.words().len()];
        for row in 0..self.len() {
            let mut colours = self.shades.placed(row).iter();
            let main = colours.find(|(_, part)| *part == Part::Main);
            if let Some((colour, _)) = main {
                counts[self.shades.palette[*colour as usize].named] += 1;
            }
        }
        counts
    }
}
