//! The list as columns, worked out once, so that a keystroke need only look things up.

use std::cell::Cell;
use std::collections::HashMap;

use super::facet::{Column, ColumnBuilder, Facet, Row};
use super::fitness::Known;
use super::list::Varieties;
use super::record::Variety;
use super::text::folded;
use super::uses::Uses;
use super::words::Names;
use crate::colour::{Family, Lab, Part, Target, Vocabulary, weigh};
use crate::form::RuleSet;

/// Columns over a list. It speaks of rows by their place in the list that it was made from, and is
/// made anew when the list, the rules, the uses or the colour words change.
#[derive(Debug, Clone)]
pub struct Index {
    pub(super) names: Names,
    /// Each row's place in the order of names.
    pub(super) by_name: Vec<u32>,
    pub(super) columns: Vec<Column>,
    /// By use, then row; `NaN` where no want is known.
    pub(super) fitness: Vec<Vec<f64>>,
    /// Every colour of the list once: lists name few colours many times over.
    palette: Vec<Lab>,
    /// Every row's colours, by their place in the palette.
    colours: Vec<(u32, Part)>,
    /// Where each row's colours begin.
    colour_starts: Vec<u32>,
    /// Price a stem in hundredths; `NaN` where unknown.
    pub(super) price: Vec<f64>,
}

/// What an index is worked out under.
#[derive(Debug, Clone, Copy)]
pub struct Grounds<'a> {
    /// The rules that forms and size words come from.
    pub rules: &'a RuleSet,
    /// The uses.
    pub uses: &'a Uses,
    /// The colour words.
    pub words: &'a Vocabulary,
    /// Saleable stems that a plant gives in a season where a variety's own figure is unknown: the
    /// grower's own planning figure.
    pub stems_a_plant: f64,
}

impl Index {
    /// Works out the columns. What cannot be read counts as unknown; [`Varieties::doubts`] lists it.
    pub fn new<'a>(list: &'a Varieties, grounds: Grounds<'a>) -> Index {
        let Grounds {
            rules, uses, words, ..
        } = grounds;
        let mut index = Index {
            names: Names::default(),
            by_name: name_order(list),
            columns: Vec::new(),
            fitness: vec![Vec::with_capacity(list.len()); uses.list().len()],
            palette: Vec::new(),
            colours: Vec::new(),
            colour_starts: vec![0],
            price: Vec::with_capacity(list.len()),
        };
        let mut builders = Facet::ALL.map(|facet| ColumnBuilder::new(facet, rules, uses));
        let mut reader = ColourReader::new(words);
        for variety in list.list() {
            index
                .names
                .push(&[&variety.name, variety.raiser.as_deref().unwrap_or_default()]);
            let mut families = Vec::new();
            for note in &variety.colours {
                let Some((colour, family)) = reader.read(&note.colour) else {
                    continue;
                };
                index.colours.push((colour, note.part));
                if matches!(note.part, Part::Main | Part::Second) {
                    families.push(family);
                }
            }
            index.colour_starts.push(index.colours.len() as u32);
            index
                .price
                .push(price_a_stem(variety, grounds.stems_a_plant).unwrap_or(f64::NAN));
            let known = Known::of(variety, rules, uses);
            let fitness: Vec<Option<f64>> =
                uses.list().iter().map(|one| known.fitness(one)).collect();
            for (column, fitness) in index.fitness.iter_mut().zip(&fitness) {
                column.push(fitness.unwrap_or(f64::NAN));
            }
            let row = Row {
                variety,
                known: &known,
                fitness: &fitness,
                families: &families,
                price: variety.price_a_tuber(),
                rules,
                uses,
            };
            builders.iter_mut().for_each(|builder| builder.push(&row));
        }
        index.palette = reader.palette;
        index.columns = builders
            .into_iter()
            .map(|builder| builder.finish(rules, uses))
            .collect();
        index
    }

    /// How many rows there are.
    pub fn len(&self) -> usize {
        self.price.len()
    }

    /// Whether there are none.
    pub fn is_empty(&self) -> bool {
        self.price.is_empty()
    }

    /// The values that a facet has in this list, in the order shown.
    pub fn values(&self, facet: Facet) -> &[String] {
        self.columns[facet as usize].values()
    }

    /// The row's colours that could be read, with their parts.
    pub fn colours(&self, row: usize) -> impl Iterator<Item = (Lab, Part)> + '_ {
        let colours = self.placed(row).iter();
        colours.map(|(colour, part)| (self.palette[*colour as usize], *part))
    }

    /// Distances of all rows from some colours.
    pub fn distances(&self, targets: &[Target]) -> Distances<'_> {
        let unmeasured = vec![Cell::new(f64::NAN); self.palette.len()];
        Distances {
            index: self,
            tables: targets
                .iter()
                .map(|target| (target.clone(), unmeasured.clone()))
                .collect(),
        }
    }

    fn placed(&self, row: usize) -> &[(u32, Part)] {
        &self.colours[self.colour_starts[row] as usize..self.colour_starts[row + 1] as usize]
    }

    /// Fitness of a row for a use, 0 to 1; `None` where no want of the use is known.
    pub fn fitness(&self, row: usize, use_at: usize) -> Option<f64> {
        Some(self.fitness[use_at][row]).filter(|fitness| !fitness.is_nan())
    }

    /// Price a stem of a row in hundredths; see [`price_a_stem`].
    pub fn price(&self, row: usize) -> Option<f64> {
        Some(self.price[row]).filter(|price| !price.is_nan())
    }
}

/// How far rows are from the nearest of some colours. Each colour of the list is measured when a row
/// first needs it, and only looked up from then on.
pub struct Distances<'a> {
    index: &'a Index,
    /// By target, then place in the palette; `NaN` where not measured yet.
    tables: Vec<(Target, Vec<Cell<f64>>)>,
}

impl Distances<'_> {
    /// The row's distance (CIEDE2000, weighted by part) from the nearest target; infinite where it
    /// has no colour or there is no target.
    pub fn of(&self, row: usize) -> f64 {
        let colours = self.index.placed(row);
        let distances = self.tables.iter().map(|(target, table)| {
            weigh(colours, |colour: u32| {
                let measured = &table[colour as usize];
                if measured.get().is_nan() {
                    measured.set(target.distance(self.index.palette[colour as usize]));
                }
                measured.get()
            })
        });
        distances.fold(f64::INFINITY, f64::min)
    }
}

/// What a stem of the first season costs in tubers, in hundredths: the least price of a tuber over
/// the offers that are not sold out, divided by the saleable stems that a plant gives in a season:
/// the variety's own figure, else `planned`. `None` where nothing is offered.
pub fn price_a_stem(variety: &Variety, planned: f64) -> Option<f64> {
    let stems = variety
        .stems_a_plant
        .map_or(planned, |stems| f64::from(stems.get()));
    Some(variety.price_a_tuber()? / stems)
}

fn name_order(list: &Varieties) -> Vec<u32> {
    let names: Vec<String> = list.list().iter().map(|one| folded(&one.name)).collect();
    let mut order: Vec<usize> = (0..names.len()).collect();
    order.sort_unstable_by(|a, b| names[*a].cmp(&names[*b]));
    let mut places = vec![0; names.len()];
    for (place, row) in (0..).zip(order) {
        places[row] = place;
    }
    places
}

/// Reads colours into a palette; a text that was read before is not read again.
struct ColourReader<'a> {
    words: &'a Vocabulary,
    palette: Vec<Lab>,
    read: HashMap<&'a str, Option<(u32, Family)>>,
}

impl<'a> ColourReader<'a> {
    fn new(words: &'a Vocabulary) -> Self {
        ColourReader {
            words,
            palette: Vec::new(),
            read: HashMap::new(),
        }
    }

    /// The colour's place in the palette and its family; `None` where the text is no colour.
    fn read(&mut self, text: &'a str) -> Option<(u32, Family)> {
        if let Some(read) = self.read.get(text) {
            return *read;
        }
        let read = self.words.target(text).ok().map(|target| {
            self.palette.push(target.centre);
            // A word of the trade has its own family, wherever its centre lies.
            let word = self.words.find(text).map(|word| word.family);
            let family = word.unwrap_or_else(|| self.words.family_of(target.centre));
            (self.palette.len() as u32 - 1, family)
        });
        self.read.insert(text, read);
        read
    }
}
