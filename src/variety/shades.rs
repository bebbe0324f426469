//! Every row's colours: read once each, however many rows have them.

mod distances;
mod of_rows;
mod reading;

use hashbrown::HashMap;

use super::column::{Column, ColumnBuilder};
use super::facet::{Facet, Value};
use super::index_context::IndexContext;
use super::list::Varieties;
use super::looks::KnownColour;
use super::record::Variety;
use super::text::folded;
use crate::colour::{Family, Lab, Part, Planes, Shown, Vocabulary};

pub use distances::Distances;
pub(super) use distances::Measured;

/// The colours of a list's rows.
#[derive(Debug, Clone)]
pub(super) struct Shades {
    /// Every colour of the list once: lists name few colours many times over.
    palette: Vec<Shade>,
    /// The colours of the palette, in its order.
    planes: Planes,
    /// Every row's colours, by their place in the palette.
    of: Vec<(u32, Shown)>,
    /// Where each row's colours begin.
    starts: Vec<u32>,
    /// How many rows each word of the vocabulary names by their main colour, by its place there.
    main: Vec<usize>,
}

/// A colour of the palette.
#[derive(Debug, Clone, PartialEq)]
struct Shade {
    lab: Lab,
    /// As it was written, folded, where that is a word.
    word: Option<String>,
    /// The word of the trade that names it best, by its place in the vocabulary.
    named: usize,
}

impl Shades {
    /// Reads the colours of every row, and counts their families as a facet.
    pub(super) fn of(list: &Varieties, grounds: IndexContext<'_>) -> (Shades, Column) {
        let mut shades = Shades {
            palette: Vec::new(),
            planes: Planes::default(),
            of: Vec::new(),
            starts: vec![0],
            main: vec![0; grounds.words.words().len()],
        };
        let mut families = ColumnBuilder::new(Facet::Colour, grounds.rules, grounds.uses);
        let mut read: HashMap<&str, Option<(u32, Family)>> = HashMap::new();
        for variety in list.list() {
            families.push(|_, take| {
                for note in &variety.colours {
                    let known = match &note.colour {
                        // A text that was read before is not read again.
                        KnownColour::Written(text) => *read
                            .entry(text)
                            .or_insert_with(|| shades.read(text, grounds.words)),
                        KnownColour::Measured(lab) => Some(shades.take(*lab, grounds.words)),
                    };
                    let Some((colour, family)) = known else {
                        continue;
                    };
                    shades.of.push((colour, note.shown()));
                    if matches!(note.part, Part::Main | Part::Second) {
                        take(Value::Fixed(family as usize));
                    }
                }
            });
            shades.starts.push(shades.of.len() as u32);
            if let Some(word) = shades.main_of(shades.starts.len() - 2) {
                shades.main[word] += 1;
            }
        }
        (shades, families.finish())
    }

    /// The colour's place in the palette and its family; `None` where the text is no colour.
    fn read(&mut self, text: &str, words: &Vocabulary) -> Option<(u32, Family)> {
        let lab = words.target(text).ok()?.centre;
        let word = text.starts_with(char::is_alphabetic) && !text.contains('(');
        // A word of the trade names itself, wherever its centre lies.
        let named = words.place_of(text).unwrap_or_else(|| words.nearest(lab));
        let place = self.push(Shade {
            lab,
            word: word.then(|| folded(text)),
            named,
        });
        Some((place, words.words()[named].family))
    }

    /// The same of a measured colour.
    fn take(&mut self, lab: Lab, words: &Vocabulary) -> (u32, Family) {
        let named = words.nearest(lab);
        let place = self.push(Shade {
            lab,
            word: None,
            named,
        });
        (place, words.words()[named].family)
    }

    /// Takes one more colour into the palette: its place there.
    fn push(&mut self, shade: Shade) -> u32 {
        self.planes.push(shade.lab);
        self.palette.push(shade);
        self.palette.len() as u32 - 1
    }

    /// Takes in the other colours of one row, and puts their families in the column of colours.
    pub(super) fn put(
        &mut self,
        row: usize,
        variety: &Variety,
        families: &mut Column,
        words: &Vocabulary,
    ) {
        let mut own = Vec::new();
        let mut shown = Vec::new();
        for note in &variety.colours {
            let known = match &note.colour {
                KnownColour::Written(text) => self.read(text, words),
                KnownColour::Measured(lab) => Some(self.take(*lab, words)),
            };
            let Some((colour, family)) = known else {
                continue;
            };
            own.push((self.once(colour), note.shown()));
            if matches!(note.part, Part::Main | Part::Second) {
                shown.push(family);
            }
        }
        // OK because no family comes or goes: all are listed in any case.
        let _ = families.put(row, |take| {
            let shown = shown.iter().map(|family| Value::Fixed(*family as usize));
            shown.for_each(take);
        });
        if let Some(word) = self.main_of(row) {
            self.main[word] -= 1;
        }
        let (start, end) = (self.starts[row], self.starts[row + 1]);
        let more = own.len() as u32;
        self.of.splice(start as usize..end as usize, own);
        if end - start != more {
            let after = self.starts[row + 1..].iter_mut();
            after.for_each(|one| *one = *one - (end - start) + more);
        }
        if let Some(word) = self.main_of(row) {
            self.main[word] += 1;
        }
    }

    /// The word that names the row's main colour, by its place in the vocabulary.
    fn main_of(&self, row: usize) -> Option<usize> {
        let mut colours = self.placed(row).iter();
        let (colour, _) = colours.find(|(_, shown)| shown.part == Part::Main)?;
        Some(self.palette[*colour as usize].named)
    }

    /// The place of the last colour of the palette; where the palette had it before it is dropped
    /// again, so that a note which is made over and over does not make the palette longer.
    fn once(&mut self, last: u32) -> u32 {
        let same = |one: &Shade| *one == self.palette[last as usize];
        match self.palette.iter().position(same) {
            Some(first) if first < last as usize => {
                self.palette.pop();
                self.planes.pop();
                first as u32
            }
            _ => last,
        }
    }

    /// The row's colours that could be read, by their place in the palette.
    pub(super) fn placed(&self, row: usize) -> &[(u32, Shown)] {
        &self.of[self.starts[row] as usize..self.starts[row + 1] as usize]
    }

    /// The words of the palette, folded, in its order; `None` where a colour was written as figures.
    pub(super) fn words(&self) -> impl Iterator<Item = Option<&str>> {
        self.palette.iter().map(|shade| shade.word.as_deref())
    }
}

/// Two are equal where every row has the same colours, in whatever order they came to the palette.
impl PartialEq for Shades {
    fn eq(&self, other: &Shades) -> bool {
        let of = |shades: &Shades, row| -> Vec<(Shade, Shown)> {
            let placed = shades.placed(row).iter();
            let shade = |(at, shown): &(u32, Shown)| (shades.palette[*at as usize].clone(), *shown);
            placed.map(shade).collect()
        };
        self.starts == other.starts
            && self.main == other.main
            && (0..self.starts.len() - 1).all(|row| of(self, row) == of(other, row))
    }
}
