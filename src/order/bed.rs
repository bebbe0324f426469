//! A bed: how many plants it holds, and where each of them stands.
//!
//! Plants stand in rows along the bed, each in the middle of as much of its row as the spacing is long.
//! Places are counted from the head of the bed, row across by row across: so neighbours in the count
//! are neighbours in the bed. Where rows are staggered every other row begins half a spacing later.

use std::num::NonZeroU32;

use serde::{Deserialize, Serialize};

use crate::measure::bounds::Bounds;
use crate::measure::{Exact, Length, LengthUnit};
use crate::variety::Text;

/// A bed: so many rows, or as many as its width holds.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Bed {
    /// What it is called.
    pub name: Text,
    /// Its length.
    pub length: Length,
    /// Its width.
    pub width: Length,
    /// From plant to plant in the row; and from row to row where nothing else says it.
    pub spacing: Length,
    /// From row to row. Without it the rows of a bed whose number is given share its width out evenly.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub row_spacing: Option<Length>,
    /// Rows along its length.
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub rows: Option<NonZeroU32>,
    /// Whether every other row begins half a spacing later.
    #[serde(default, skip_serializing_if = "is_false")]
    pub staggered: bool,
}

fn is_false(staggered: &bool) -> bool {
    !staggered
}

/// Where a plant stands, in mm.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Place {
    /// From the head of the bed.
    pub along: f64,
    /// From the side of the bed where the first row is.
    pub across: f64,
}

/// The most plants that a bed is believed to hold; more is a slip of a unit.
const MOST_PLACES: i128 = 1_000_000;
const ROWS: Bounds<u32> = Bounds::new("rows", 1, 9999);
/// The longest and the widest bed that is believed, in metres.
const MOST_METRES: i64 = 10_000;
/// The closest spacing that is believed, in millimetres; a tuber is wider.
const LEAST_SPACING: i64 = 10;

impl Bed {
    /// Plants that it holds; `None` where its measures make no sense.
    pub fn places(&self) -> Option<u64> {
        if self.lacking().is_some() {
            return None;
        }
        let places = self.places_in(self.half_steps())?;
        u64::try_from(places).ok().filter(|_| places <= MOST_PLACES)
    }

    /// Where the plant of a place stands, by its number from 0; of a bed that makes no sense, at its head.
    pub fn place(&self, number: u64) -> Place {
        let across = self.across().max(1);
        let (step, in_step) = (number / across, number % across);
        let first = self.first_rows();
        // Of a staggered bed the rows that begin at the head stand before those between them.
        let (row, later) = match in_step.checked_sub(first) {
            _ if !self.staggered => (in_step, 0.0),
            None => (2 * in_step, 0.0),
            Some(between) => (2 * between + 1, 0.5),
        };
        let (spacing, between) = (self.spacing.mm().to_f64(), self.row_step().to_f64());
        let side = (self.width.mm().to_f64() - between * (across - 1) as f64) / 2.0;
        Place {
            along: (step as f64 + 0.5 + later) * spacing,
            across: side + row as f64 * between,
        }
    }

    /// How far along the bed its first so many plants reach: a row across that is not full counts by
    /// its share.
    pub fn reach(&self, plants: u64) -> Length {
        let across = self.across().max(1);
        // OK because a bed has at most a million places.
        let share = Exact::ratio(plants as i64, across as i64);
        Length::from_mm(self.spacing.mm() * share)
    }

    /// Plants side by side across its width; 0 where the spacing makes no sense.
    pub fn across(&self) -> u64 {
        let own = self.rows.map(|rows| u64::from(rows.get()));
        let step = self.row_spacing.unwrap_or(self.spacing).mm();
        if self.spacing.mm() <= Exact::zero() || step <= Exact::zero() {
            return 0;
        }
        let rows = (self.width.mm() / step).floor().parts().0;
        own.unwrap_or_else(|| u64::try_from(rows).unwrap_or(0))
    }

    /// From row to row, in mm.
    pub fn row_step(&self) -> Exact {
        let shared = |rows: NonZeroU32| self.width.mm() / Exact::whole(rows.get().into());
        let own = self.row_spacing.map(Length::mm);
        own.or(self.rows.map(shared)).unwrap_or(self.spacing.mm())
    }

    /// The first measure that cannot be, with its field; what is not over 0 is told by `lacking`.
    pub(in crate::order) fn out_of_bounds(&self) -> Option<(&'static str, String)> {
        if let Some(message) = self.rows.and_then(|rows| ROWS.wrong(rows.get())) {
            return Some(("rows", message));
        }
        let least = Exact::whole(LEAST_SPACING);
        let spacings = [
            ("spacing", Some(self.spacing)),
            ("row_spacing", self.row_spacing),
        ];
        for (field, found) in spacings {
            if let Some(found) = found.filter(|found| found.mm() < least) {
                let message = format!("found {found}, expected at least {LEAST_SPACING}mm");
                return Some((field, message));
            }
        }
        let mut long = self.measures();
        let long = long.find(|one| one.1.mm() > Exact::whole(MOST_METRES * 1000));
        if let Some((field, found)) = long {
            let message = format!("found {found}, expected at most {MOST_METRES}m");
            return Some((field, message));
        }
        self.beside()
    }

    /// Rows that have no room beside each other, with their field.
    fn beside(&self) -> Option<(&'static str, String)> {
        let (rows, apart) = self.rows.zip(self.row_spacing)?;
        let gaps = Exact::whole(i64::from(rows.get()) - 1);
        (gaps * apart.mm() > self.width.mm()).then(|| {
            let holds = (self.width.mm() / apart.mm()).floor().parts().0 + 1;
            let width = self.width;
            let message = format!(
                "found {rows} rows {apart} apart, expected at most {holds} in a width of {width}"
            );
            ("rows", message)
        })
    }

    fn measures(&self) -> impl Iterator<Item = (&'static str, Length)> {
        let always = [
            ("length", self.length),
            ("width", self.width),
            ("spacing", self.spacing),
        ];
        let rows = self.row_spacing.map(|apart| ("row_spacing", apart));
        always.into_iter().chain(rows)
    }

    /// The field of a measure that is not over 0.
    pub(super) fn lacking(&self) -> Option<&'static str> {
        let mut measures = self.measures();
        let lacking = measures.find(|one| one.1.mm() <= Exact::zero());
        lacking.map(|(field, _)| field)
    }

    /// Rows that begin at the head: all, or of staggered ones every other.
    fn first_rows(&self) -> u64 {
        match self.staggered {
            true => self.across().div_ceil(2),
            false => self.across(),
        }
    }

    /// Whole half spacings in its length; the spacing is over 0.
    fn half_steps(&self) -> i128 {
        let halves = self.length.mm() / self.spacing.mm() * Exact::whole(2);
        halves.floor().parts().0
    }

    /// Plants in a length of so many half spacings; `None` of a number past all belief.
    fn places_in(&self, halves: i128) -> Option<i128> {
        let first = i128::from(self.first_rows());
        let later = i128::from(self.across()) - first;
        let [first, later] = [(first, halves / 2), (later, (halves - 1).max(0) / 2)]
            .map(|(rows, plants)| plants.checked_mul(rows));
        first?.checked_add(later?)
    }

    /// Its length, in words, with room for so many places more, in whole steps of the spacing, or half
    /// ones where rows are staggered; `None` where that is more than a bed is believed to hold.
    pub(super) fn longer(&self, places: u64) -> Option<String> {
        let across = i128::from(self.across().max(1));
        let enough = self.places_in(self.half_steps())? + i128::from(places);
        let whole = self.half_steps() / 2 * 2;
        let missing = enough.checked_sub(self.places_in(whole)?)?;
        let mut halves = whole.checked_add(2 * (missing / across).max(0))?;
        let step = if self.staggered { 1 } else { 2 };
        // At most a whole step of the spacing is left.
        while self.places_in(halves)? < enough {
            halves += step;
        }
        let halves = Exact::ratio(i64::try_from(halves).ok()?, 2);
        let length = Length::from_mm(self.spacing.mm() * halves);
        let longer = Bed {
            length,
            ..self.clone()
        };
        longer.places()?;
        Some(in_words(length))
    }
}

/// An exact length in metres or feet where a decimal of them is enough.
fn in_words(length: Length) -> String {
    let unit = |unit: LengthUnit, name: &str| {
        let number = (length.mm() / unit.in_millimetres()).to_string();
        (!number.contains('/')).then(|| format!("{number}{name}"))
    };
    let centimetres = unit(LengthUnit::Centimetre, "").filter(|number| !number.contains('.'));
    let metres = centimetres.and_then(|_| unit(LengthUnit::Metre, "m"));
    let shown = metres.or_else(|| unit(LengthUnit::Foot, "ft"));
    shown.unwrap_or_else(|| length.to_string())
}

#[cfg(test)]
mod tests;
