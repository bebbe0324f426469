//! The list as columns, worked out once, so that a keystroke need only look things up.

use std::panic::resume_unwind;
use std::thread;

use super::column::{Column, ColumnBuilder};
use super::facet::{Facet, Row, uses_that_fit};
use super::fitness::Known;
use super::fits::Fits;
use super::fitting::Fitting;
use super::index_context::IndexContext;
use super::list::Varieties;
use super::middles::Middles;
use super::record::Variety;
use super::shades::Shades;
use super::text::folded;
use super::uses::Uses;
use super::words::Names;
use crate::form::RuleSet;

/// Columns over a list. It speaks of rows by their place in the list that it was made from, and is
/// made anew when the rules, the uses or the colour words change, or rows come and go; another record
/// in the place of a row is taken in by [`Index::put`], with what hangs on the middle of the list.
#[derive(Debug, Clone)]
pub struct Index {
    pub(super) names: Names,
    /// Each row's place in the order of names.
    pub(super) by_name: Vec<u32>,
    /// What each form is called, folded.
    pub(super) form_names: Vec<String>,
    pub(super) columns: Vec<Column>,
    pub(super) fits: Fits,
    pub(super) shades: Shades,
    /// Price a stem in hundredths; `NaN` where unknown.
    pub(super) price: Vec<f64>,
}

/// A row that another record was [put](Index::put) in the place of.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Replaced {
    pub(super) row: usize,
    /// What the row had of each facet before; `None` where a value came to a facet or went from it, by
    /// which others have another place.
    pub(super) values: Option<Vec<Vec<u32>>>,
    /// Whether other rows fit other uses now, since the middle of the list moved.
    pub(super) others_fit: bool,
}

impl Index {
    /// Works out the columns. What cannot be read counts as unknown; [`Varieties::doubts`] lists it.
    pub fn new(list: &Varieties, grounds: IndexContext<'_>) -> Index {
        // Colours take about as long as all the rest: of 100,000 rows, 160 ms and 170 ms.
        let (names, by_name, mut figures, (shades, families)) = thread::scope(|scope| {
            let colours = scope.spawn(|| Shades::of(list, grounds));
            let names = Names::of(list);
            let by_name = names.order();
            let figures = Figures::of(list, grounds);
            let colours = colours.join();
            (
                names,
                by_name,
                figures,
                colours.unwrap_or_else(|panic| resume_unwind(panic)),
            )
        });
        figures.columns[Facet::Colour as usize] = families;
        let forms = grounds.rules.forms.iter();
        Index {
            names,
            by_name,
            form_names: forms.map(|form| folded(&form.name)).collect(),
            columns: figures.columns,
            fits: figures.fits,
            shades,
            price: figures.price,
        }
    }

    /// Takes another record in the place of the one of a row. The index is then as if it had been
    /// worked out with it, and only what hangs on the record is worked out.
    pub fn put(&mut self, row: usize, variety: &Variety, grounds: IndexContext<'_>) -> Replaced {
        let IndexContext {
            rules, uses, words, ..
        } = grounds;
        if self.names.put(row, variety) {
            self.by_name = self.names.order();
        }
        let known = Known::of(variety, rules, uses);
        let others = self.fits.put(row, Fitting::new(uses).fit(&known));
        let fitness: Vec<Option<f64>> = self.fits.of_row(row).collect();
        let values = Row {
            variety,
            form: known.form(),
            fitness: &fitness,
            price: variety.price_a_tuber(),
            rules,
            season: grounds.season,
        };
        let before = self.columns.iter().map(|column| column.of(row).to_vec());
        let before = before.collect();
        let mut moved = others;
        if others {
            self.columns[Facet::Use as usize] = fitting_uses(&self.fits, self.len(), rules, uses);
        }
        for facet in Facet::ALL
            .into_iter()
            .filter(|facet| *facet != Facet::Colour)
        {
            moved |= self.columns[facet as usize].put(row, |take| values.values(facet, take));
        }
        let families = &mut self.columns[Facet::Colour as usize];
        self.shades.put(row, variety, families, words);
        self.price[row] = price_a_stem(variety, grounds.stems_a_plant).unwrap_or(f64::NAN);
        Replaced {
            row,
            values: (!moved).then_some(before),
            others_fit: others,
        }
    }

    /// The names, to be looked through by themselves.
    pub fn names(&self) -> &Names {
        &self.names
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

    /// How many varieties of the list are on the shortlist.
    pub fn shortlisted(&self) -> usize {
        let marks = &self.columns[Facet::Shortlist as usize];
        let yes = marks.values().iter().position(|value| value == "yes");
        yes.map_or(0, |yes| marks.total(yes))
    }

    /// Fitness of a row for a use, 0 to 1; `None` where no want of the use is known. What is unknown of
    /// it counts as the middle of the list.
    pub fn fitness(&self, row: usize, use_at: usize) -> Option<f64> {
        self.fits.of(row, use_at)
    }

    /// What each use takes what is unknown to be: the middle of the list.
    pub fn middles(&self) -> &Middles {
        &self.fits.middles
    }

    /// Price a stem of a row in hundredths; see [`price_a_stem`].
    pub fn price(&self, row: usize) -> Option<f64> {
        Some(self.price[row]).filter(|price| !price.is_nan())
    }
}

/// Two are equal where they are of the same rows: whatever is asked of both, both answer the same.
impl PartialEq for Index {
    fn eq(&self, other: &Index) -> bool {
        // What is unknown is no number, and equal to itself.
        let bits = |all: &[f64]| -> Vec<u64> { all.iter().map(|one| one.to_bits()).collect() };
        self.names == other.names
            && self.by_name == other.by_name
            && self.form_names == other.form_names
            && self.columns == other.columns
            && self.fits == other.fits
            && bits(&self.price) == bits(&other.price)
            && self.shades == other.shades
    }
}

/// What is reckoned of every row. The column of colours is left empty.
struct Figures {
    columns: Vec<Column>,
    fits: Fits,
    price: Vec<f64>,
}

impl Figures {
    fn of(list: &Varieties, grounds: IndexContext<'_>) -> Figures {
        let IndexContext { rules, uses, .. } = grounds;
        let mut price = Vec::with_capacity(list.len());
        let mut forms = Vec::with_capacity(list.len());
        let (mut fitting, mut fits) = (Fitting::new(uses), Fits::none(uses));
        for variety in list.list() {
            let known = Known::of(variety, rules, uses);
            fits.push(fitting.fit(&known));
            forms.push(known.form());
            price.push(price_a_stem(variety, grounds.stems_a_plant).unwrap_or(f64::NAN));
        }
        fits.finish();
        let mut builders = Facet::ALL.map(|facet| ColumnBuilder::new(facet, rules, uses));
        let mut fitness = Vec::new();
        for (at, (variety, form)) in list.list().iter().zip(forms).enumerate() {
            fitness.clear();
            fitness.extend(fits.of_row(at));
            let row = Row {
                variety,
                form,
                fitness: &fitness,
                price: variety.price_a_tuber(),
                rules,
                season: grounds.season,
            };
            for builder in &mut builders {
                builder.push(|facet, take| row.values(facet, take));
            }
        }
        let columns = builders.into_iter();
        Figures {
            columns: columns.map(ColumnBuilder::finish).collect(),
            fits,
            price,
        }
    }
}

/// The column of the uses that rows fit.
fn fitting_uses(fits: &Fits, rows: usize, rules: &RuleSet, uses: &Uses) -> Column {
    let mut builder = ColumnBuilder::new(Facet::Use, rules, uses);
    for row in 0..rows {
        builder.push(|_, take| uses_that_fit(fits.of_row(row)).for_each(take));
    }
    builder.finish()
}

/// What a stem of the first season costs in tubers, in hundredths: the least price of a tuber over
/// the offers that are not sold out, divided by the saleable stems that a plant gives in a season:
/// the variety's own figure ([`Variety::season_stems`]), else `planned`. `None` where nothing is
/// offered.
pub fn price_a_stem(variety: &Variety, planned: f64) -> Option<f64> {
    let stems = variety.season_stems().unwrap_or(planned);
    Some(variety.price_a_tuber()? / stems)
}
