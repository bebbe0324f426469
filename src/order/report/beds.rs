//! The bed plan: which stretch of which bed each variety is planted in.

use super::planting::{Share, planting};
use crate::account::text::counted;
use crate::account::{Cell, Column, Part, Scale, Section, Seen, Table};
use crate::measure::{Length, SizeUnits};
use crate::order::{Bed, Order, Plan};

/// Plants of one variety side by side in one bed.
#[derive(Debug, Clone, PartialEq)]
pub struct Stretch {
    /// The variety's place in the list.
    pub row: usize,
    /// The variety's name.
    pub variety: String,
    /// The bed's place in the plan.
    pub bed: usize,
    /// The bed's name.
    pub bed_name: String,
    /// Plants.
    pub plants: u64,
    /// The place of the first of them, as [`Bed::place`] counts.
    pub first: u64,
    /// From the head of the bed to the first of them.
    pub from: Length,
    /// To the end of the last of them: a row across the bed is begun by one variety and ended by
    /// the next.
    pub to: Length,
}

/// Where each variety stands: all its plants together where a bed has room for them, those that are cut
/// first at the heads of beds. What has no place is left out.
pub fn bed_plan(plan: &Plan, order: &Order, first_cuts: &[u32]) -> Vec<Stretch> {
    let mut planted: Vec<_> = order.planted.iter().filter(|one| one.plants > 0).collect();
    planted.sort_by_key(|one| first_cuts.get(one.candidate).copied());
    let plants: Vec<u64> = planted.iter().map(|one| one.plants).collect();
    let places: Vec<u64> = { plan.beds.iter() }
        .map(|bed| bed.places().unwrap_or(0))
        .collect();
    let mut taken = vec![0; places.len()];
    let stretch = |share: Share| {
        let (one, bed) = (planted[share.variety], &plan.beds[share.bed]);
        let first = taken[share.bed];
        taken[share.bed] += share.plants;
        Stretch {
            row: one.row,
            variety: one.variety.clone(),
            bed: share.bed,
            bed_name: bed.name.to_string(),
            plants: share.plants,
            first,
            from: bed.reach(first),
            to: bed.reach(first + share.plants),
        }
    };
    planting(&plants, &places)
        .into_iter()
        .map(stretch)
        .collect()
}

/// A bed's measures in words, with how many of its places are planted.
pub(super) fn bed_in_words(bed: &Bed, planted: u64, units: SizeUnits) -> String {
    let rows = counted(bed.across() as usize, "row");
    let spacing = bed.spacing.shown(units);
    let between = Length::from_mm(bed.row_step());
    let apart = match bed.across() < 2 || between.mm() == bed.spacing.mm() {
        true => format!("{rows}, {spacing} apart"),
        false => {
            let between = between.shown(units);
            format!("{rows} {between} apart, plants {spacing} apart in the row")
        }
    };
    let staggered = if bed.staggered { ", staggered" } else { "" };
    let (length, places) = (
        bed.length.shown_along_a_bed(units),
        bed.places().unwrap_or(0),
    );
    format!("{length} long, {apart}{staggered}; {planted} of {places} places planted.")
}

/// The bed plan as an account: a section for each bed.
pub fn beds(plan: &Plan, stretches: &[Stretch], units: SizeUnits) -> Vec<Section> {
    let section = |(at, bed): (usize, &Bed)| {
        let own = || stretches.iter().filter(|one| one.bed == at);
        let plants: u64 = own().map(|one| one.plants).sum();
        let head = format!("{}: {}", bed.name, bed_in_words(bed, plants, units));
        let columns = [
            Column::words("bed", "bed").seen(Seen::AsData),
            Column::words("variety", "variety"),
            Column::figures("plants", "plants"),
            Column::figures("", "length"),
            Column::figures("from_mm", "from"),
            Column::figures("to_mm", "to"),
        ];
        let along = |length| Cell::Length(length, Scale::Bed, units);
        let row = |one: &Stretch| {
            vec![
                one.bed_name.as_str().into(),
                one.variety.as_str().into(),
                one.plants.into(),
                along(Length::from_mm(one.to.mm() - one.from.mm())),
                along(one.from),
                along(one.to),
            ]
        };
        let table = Table::of("beds", columns).with(own().map(row));
        Section::under(head).with(Part::Table(table))
    };
    plan.beds.iter().enumerate().map(section).collect()
}
