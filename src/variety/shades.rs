//! Every row's colours: measured once each, however many rows have them.

use hashbrown::HashMap;
use std::cell::Cell;

use super::facet::{Column, ColumnBuilder, Facet, Value};
use super::index::{Grounds, Index};
use super::list::Varieties;
use super::text::folded;
use crate::colour::{Family, Lab, Part, Target, Vocabulary, weigh};

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
        self.palette.push(Shade {
            lab,
            word: word.then(|| folded(text)),
        });
        // A word of the trade has its own family, wherever its centre lies.
        let family = words.find(text).map(|word| word.family);
        let family = family.unwrap_or_else(|| words.family_of(lab));
        Some((self.palette.len() as u32 - 1, family))
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

    /// Distances of all rows from some colours.
    pub fn distances(&self, targets: &[Target]) -> Distances<'_> {
        let unmeasured = vec![Cell::new(f64::NAN); self.shades.palette.len()];
        let table = |target: &Target| (target.clone(), unmeasured.clone());
        Distances {
            shades: &self.shades,
            tables: targets.iter().map(table).collect(),
        }
    }
}

/// How far rows are from the nearest of some colours. Each colour of the list is measured when a row
/// first needs it, and only looked up from then on.
pub struct Distances<'a> {
    shades: &'a Shades,
    /// By target, then place in the palette; `NaN` where not measured yet.
    tables: Vec<(Target, Vec<Cell<f64>>)>,
}

impl Distances<'_> {
    /// The row's distance (CIEDE2000, weighted by part) from the nearest target; infinite where it
    /// has no colour or there is no target.
    pub fn of(&self, row: usize) -> f64 {
        let colours = self.shades.placed(row);
        let distances = self.tables.iter().map(|(target, table)| {
            weigh(colours, |colour: u32| {
                let measured = &table[colour as usize];
                if measured.get().is_nan() {
                    measured.set(target.distance(self.shades.palette[colour as usize].lab));
                }
                measured.get()
            })
        });
        distances.fold(f64::INFINITY, f64::min)
    }
}
