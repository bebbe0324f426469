//! The list as columns, worked out once, so that a keystroke need only look things up.

use super::facet::{Column, ColumnBuilder, Facet, Row};
use super::fitness::Known;
use super::list::Varieties;
use super::record::Variety;
use super::text::folded;
use super::uses::Uses;
use super::words::Names;
use crate::colour::{Family, Lab, Part, Vocabulary};
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
    colours: Vec<(Lab, Part)>,
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
    pub fn new(list: &Varieties, grounds: Grounds<'_>) -> Index {
        let Grounds {
            rules, uses, words, ..
        } = grounds;
        let mut index = Index {
            names: Names::default(),
            by_name: name_order(list),
            columns: Vec::new(),
            fitness: vec![Vec::with_capacity(list.len()); uses.list().len()],
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
                let Some((lab, family)) = reader.read(&note.colour) else {
                    continue;
                };
                index.colours.push((lab, note.part));
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
    pub fn colours(&self, row: usize) -> &[(Lab, Part)] {
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

/// Reads colours; a text that was read before is not read again.
struct ColourReader<'a> {
    words: &'a Vocabulary,
    read: std::collections::HashMap<String, Option<(Lab, Family)>>,
}

impl<'a> ColourReader<'a> {
    fn new(words: &'a Vocabulary) -> Self {
        ColourReader {
            words,
            read: Default::default(),
        }
    }

    fn read(&mut self, text: &str) -> Option<(Lab, Family)> {
        if let Some(read) = self.read.get(text) {
            return *read;
        }
        let read = self.words.target(text).ok().map(|target| {
            // A word of the trade has its own family, wherever its centre lies.
            let word = self.words.find(text).map(|word| word.family);
            (
                target.centre,
                word.unwrap_or_else(|| self.words.family_of(target.centre)),
            )
        });
        self.read.insert(text.to_string(), read);
        read
    }
}
