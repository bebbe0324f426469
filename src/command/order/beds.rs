//! The pages of `trug order --beds FILE`: what grows where, drawn to scale.

use anyhow::Result;

use super::Worked;
use crate::colour::{Part, Srgb};
use crate::command::Context;
use crate::command::printed::paper;
use crate::order::Order;
use crate::order::report::{Stretch, bed_pages, bed_plan};
use crate::paper::Page;

/// The beds with what an order plants in them, each variety in its colour.
pub(super) fn pages(
    order: &Order,
    worked: &Worked,
    paper_id: Option<&str>,
    context: &Context,
) -> Result<Vec<Page>> {
    let stretches = bed_plan(&worked.plan, order, &worked.settled.candidates.first_cuts);
    let colours: Vec<Option<Srgb>> = { stretches.iter() }
        .map(|stretch| colour(stretch, worked, context))
        .collect();
    let (paper, units) = (paper(paper_id, context.units)?, context.units);
    Ok(bed_pages(
        &worked.plan,
        &stretches,
        &colours,
        &paper,
        units,
    )?)
}

/// What the blooms of a stretch mostly show, where the list says it.
fn colour(stretch: &Stretch, worked: &Worked, context: &Context) -> Option<Srgb> {
    let variety = &worked.list.list()[stretch.row];
    let shown = variety.colours.iter().find(|one| one.part == Part::Main);
    let target = shown?.colour.target(&context.contents.words).ok()?;
    Some(target.centre.to_srgb())
}
