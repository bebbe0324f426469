//! The bed plan on paper, to scale: every plant a mark with the number of its variety, each variety's
//! stretch with its name where that has room, a ruler along the bed, and a key under it.
//!
//! All beds are of one scale. A bed that is longer than the paper is broken into strips, one under the
//! other.

mod bed;
mod flow;
mod key;
mod letters;
mod scale;
mod strip;
mod undrawable;

use super::Stretch;
use crate::colour::Srgb;
use crate::measure::SizeUnits;
use crate::order::Plan;
use crate::paper::{Margins, Orientation, Page, Paper, Setup};

use flow::Flow;
use key::Numbers;
use scale::PaperScale;

pub use undrawable::Undrawable;

/// Room at the edges of the page, in mm.
const MARGINS: Margins = Margins::even(12.0);
/// The plan's beds with what stands in them on pages that lie across; `colours` are those of stretches,
/// where they are known.
///
/// # Errors
/// [`Undrawable`] where a bed is too wide for the paper at a scale at which its plants are told apart,
/// where there would be more than a hundred pages, and where a name has a letter that the fonts lack.
pub fn bed_pages(
    plan: &Plan,
    stretches: &[Stretch],
    colours: &[Option<Srgb>],
    paper: &Paper,
    units: SizeUnits,
) -> Result<Vec<Page>, Undrawable> {
    let setup = Setup::new(paper, Orientation::Landscape, MARGINS, (0.0, 0.0))?;
    let numbers = Numbers::of(stretches, colours);
    let beds: Vec<&crate::order::Bed> = plan.beds.iter().collect();
    let scale = PaperScale::of(&beds, numbers.digits(), setup.room(), units)?;
    let year = plan.season.planted.year();
    let mut flow = Flow::new(&setup, &format!("What grows where, {year}"), &scale.told())?;
    for (at, bed) in beds.into_iter().enumerate() {
        let own: Vec<&Stretch> = stretches.iter().filter(|one| one.bed == at).collect();
        bed::put(&mut flow, bed, &own, &numbers, &scale)?;
    }
    flow.end()
}

#[cfg(test)]
mod tests;
