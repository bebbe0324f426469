//! Every row's colours: measured once each, however many rows have them.

use hashbrown::HashMap;
use std::borrow::Cow;
use std::panic::resume_unwind;
use std::thread;

use super::facet::{Column, ColumnBuilder, Facet, Value};
use super::index::{Grounds, Index};
use super::list::Varieties;
use super::text::folded;
use crate::colour::{Family, Lab, Part, Target, Vocabulary, weigh};

/// Fewer colours are measured sooner than a second thread starts.
const WORTH_SPLITTING: usize = 2_000;

/// The colours of a list's rows.
#[derive(Debug, Clone)]
pub(super) struct Shades {
    /// Every colour of the list once: lists name few colours many times over.
    palette: Vec<Shade>,
    /// Every row's colours, by their place in the palette.
    of: Vec<(u32, Part)>,
    /// Where each row's colours begin.
    starts: Vec<u32>,
}

/// A colour of the palette.
#[derive(Debug, Clone)]
struct Shade {
    lab: Lab,
    /// As it was written, folded, where that is a word.
    word: Option<String>,
    /// The word of the trade that names it best, by its place in the vocabulary.
    named: usize,
}

impl Shades {
    /// Reads the colours of every row, and counts their families as a facet.
    pub(super) fn of(list: &Varieties, grounds: Grounds<'_>) -> (Shades, Column) {
        let mut shades = Shades {
            palette: Vec::new(),
            of: Vec::new(),
            starts: vec![0],
        };
        let mut families = ColumnBuilder::new(Facet::Colour, grounds.rules, grounds.uses);
        let mut read: HashMap<&str, Option<(u32, Family)>> = HashMap::new();
        for variety in list.list() {
            families.push(|_, take| {
                for note in &variety.colours {
                    // A text that was read before is not read again.
                    let known = *read
                        .entry(&note.colour)
                        .or_insert_with(|| shades.read(&note.colour, grounds.words));
                    let Some((colour, family)) = known else {
                        continue;
                    };
                    shades.of.push((colour, note.part));
                    if matches!(note.part, Part::Main | Part::Second) {
                        take(Value::Fixed(family as usize));
                    }
                }
            });
            shades.starts.push(shades.of.len() as u32);
        }
        (shades, families.finish(grounds.rules, grounds.uses))
    }

    /// The colour's place in the palette and its family; `None` where the text is no colour.
    fn read(&mut self, text: &str, words: &Vocabulary) -> Option<(u32, Family)> {
        let lab = words.target(text).ok()?.centre;
        let word = text.starts_with(char::is_alphabetic) && !text.contains('(');
        // A word of the trade names itself, wherever its centre lies.
        let named = words.place_of(text).unwrap_or_else(|| words.nearest(lab));
        self.palette.push(Shade {
            lab,
            word: word.then(|| folded(text)),
            named,
        });
        Some((self.palette.len() as u32 - 1, words.words()[named].family))
    }

    /// How far each colour of the palette is from the target.
    fn measure(&self, target: &Target) -> Vec<f64> {
        let measure = |shades: &[Shade]| -> Vec<f64> {
            shades.iter().map(|one| target.distance(one.lab)).collect()
        };
        if self.palette.len() < WORTH_SPLITTING {
            return measure(&self.palette);
        }
        let (first, second) = self.palette.split_at(self.palette.len() / 2);
        thread::scope(|scope| {
            let first = scope.spawn(|| measure(first));
            let second = measure(second);
            let mut all = first.join().unwrap_or_else(|panic| resume_unwind(panic));
            all.extend(second);
            all
        })
    }

    /// The row's colours that could be read, by their place in the palette.
    pub(super) fn placed(&self, row: usize) -> &[(u32, Part)] {
        &self.of[self.starts[row] as usize..self.starts[row + 1] as usize]
    }

    /// The words of the palette, folded, in its order; `None` where a colour was written as figures.
    pub(super) fn words(&self) -> impl Iterator<Item = Option<&str>> {
        self.palette.iter().map(|shade| shade.word.as_deref())
    }
}

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

    /// Distances of all rows from some colours.
    pub fn distances(&self, targets: &[Target]) -> Distances<'_> {
        let mut measured = Measured::default();
        self.turn_to(&mut measured, targets);
        Distances {
            shades: &self.shades,
            measured: Cow::Owned(measured),
        }
    }

    /// Distances of all rows from the colours turned to.
    pub(super) fn measured<'a>(&'a self, measured: &'a Measured) -> Distances<'a> {
        Distances {
            shades: &self.shades,
            measured: Cow::Borrowed(measured),
        }
    }

    /// Begins to measure against these colours, or goes on where it was these before.
    pub(super) fn turn_to(&self, measured: &mut Measured, targets: &[Target]) {
        if measured.targets != targets {
            let tables = targets.iter().map(|target| self.shades.measure(target));
            measured.tables = tables.collect();
            measured.targets = targets.to_vec();
        }
    }
}

/// Distances of a list's colours from some targets: each colour is measured once, however many rows
/// have it.
#[derive(Debug, Clone, Default)]
pub(super) struct Measured {
    pub(super) targets: Vec<Target>,
    /// By target, then place in the palette.
    tables: Vec<Vec<f64>>,
}

/// How far rows are from the nearest of some colours.
pub struct Distances<'a> {
    shades: &'a Shades,
    measured: Cow<'a, Measured>,
}

impl Distances<'_> {
    /// The row's distance (CIEDE2000, weighted by part) from the nearest target; infinite where it
    /// has no colour or there is no target.
    pub fn of(&self, row: usize) -> f64 {
        let colours = self.shades.placed(row);
        let tables = &self.measured.tables;
        let distances = tables
            .iter()
            .map(|table| weigh(colours, |colour: u32| table[colour as usize]));
        distances.fold(f64::INFINITY, f64::min)
    }
}
