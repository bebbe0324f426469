//! The numbers of varieties on a bed plan, and the key that says whose they are.

use super::letters::{LEAST, SMALL};
use super::undrawable::Undrawable;
use crate::account::text::counted;
use crate::colour::Srgb;
use crate::measure::SizeUnits;
use crate::order::report::Stretch;
use crate::paper::{Item, Printable, TextLine};

/// A number for each variety, from 1 in the order in which they stand, with its colour.
pub(super) struct Numbers<'a> {
    varieties: Vec<(&'a str, Option<Srgb>)>,
}

/// Between two columns of the key, in mm.
const GAP: f64 = 6.0;

impl<'a> Numbers<'a> {
    pub(super) fn of(stretches: &'a [Stretch], colours: &[Option<Srgb>]) -> Numbers<'a> {
        let mut varieties: Vec<(&str, Option<Srgb>)> = Vec::new();
        for (at, one) in stretches.iter().enumerate() {
            if !varieties.iter().any(|(name, _)| *name == one.variety) {
                varieties.push((&one.variety, colours.get(at).copied().flatten()));
            }
        }
        Numbers { varieties }
    }

    /// Digits of the largest.
    pub(super) fn digits(&self) -> usize {
        self.varieties.len().to_string().len()
    }

    /// The number and the colour of a variety.
    pub(super) fn number(&self, variety: &str) -> (usize, Option<Srgb>) {
        let at = self.varieties.iter().position(|(name, _)| *name == variety);
        at.map_or((0, None), |at| (at + 1, self.varieties[at].1))
    }

    /// A line for each stretch, in as many columns as have room in such a width: rows of items, each
    /// about its own base line.
    pub(super) fn key(
        &self,
        stretches: &[&Stretch],
        width: f64,
        units: SizeUnits,
    ) -> Result<Vec<Vec<Item>>, Undrawable> {
        let told: Vec<Printable> = { stretches.iter() }
            .map(|one| {
                let (number, _) = self.number(&one.variety);
                Printable::new(&format!("{number} {}", told(one, units)))
            })
            .collect::<Result<_, _>>()?;
        let widest = told.iter().map(|one| one.width(SMALL)).fold(0.0, f64::max);
        let columns = ((width + GAP) / (widest + GAP)).floor().max(1.0) as usize;
        let rows = told.len().div_ceil(columns);
        let row = |row: usize| {
            let own = told.iter().skip(row).step_by(rows.max(1)).enumerate();
            own.map(|(column, text)| {
                let x = column as f64 * (widest + GAP);
                let style = text.shrunk(SMALL, LEAST, width)?;
                Ok(TextLine::new(text.clone(), style, (x, 0.0)).into())
            })
            .collect()
        };
        (0..rows).map(row).collect()
    }
}

/// `Haaf Bell, 12 plants, 3.2 m to 4.8 m`.
pub(super) fn told(stretch: &Stretch, units: SizeUnits) -> String {
    let [from, to] = [stretch.from, stretch.to].map(|length| length.shown_along_a_bed(units));
    // OK because a bed has at most a million places.
    let plants = counted(stretch.plants as usize, "plant");
    format!("{}, {plants}, {from} to {to}", stretch.variety)
}
