//! The bed plan: which stretch of which bed each variety is planted in.

use crate::account::{Cell, Column, Part, Scale, Section, Seen, Table};
use crate::measure::{Exact, Length, SizeUnits};
use crate::order::{Bed, Order, Plan};

/// Plants of one variety side by side in one bed.
#[derive(Debug, Clone, PartialEq)]
pub struct Stretch {
    /// The variety's name.
    pub variety: String,
    /// The bed's place in the plan.
    pub bed: usize,
    /// The bed's name.
    pub bed_name: String,
    /// Plants.
    pub plants: u64,
    /// From the head of the bed to the first of them.
    pub from: Length,
    /// To the end of the last of them: a row across the bed is begun by one variety and ended by
    /// the next.
    pub to: Length,
}

/// Fills the beds in turn, those that are cut first at their heads. What has no place is left out.
pub fn bed_plan(plan: &Plan, order: &Order, first_cuts: &[u32]) -> Vec<Stretch> {
    let mut planted: Vec<_> = order.planted.iter().filter(|one| one.plants > 0).collect();
    planted.sort_by_key(|one| first_cuts.get(one.candidate).copied());
    let mut stretches = Vec::new();
    let mut beds = plan
        .beds
        .iter()
        .enumerate()
        .map(|(at, bed)| (at, bed, bed.places().unwrap_or(0)));
    let mut open = beds.next();
    let mut taken = 0;
    for one in planted {
        let mut left = one.plants;
        while left > 0 {
            let Some((at, bed, places)) = open else {
                return stretches;
            };
            let plants = left.min(places - taken);
            if plants == 0 {
                open = beds.next();
                taken = 0;
                continue;
            }
            stretches.push(Stretch {
                variety: one.variety.clone(),
                bed: at,
                bed_name: bed.name.to_string(),
                plants,
                from: along(bed, taken),
                to: along(bed, taken + plants),
            });
            taken += plants;
            left -= plants;
        }
    }
    stretches
}

/// How far along a bed so many plants reach.
fn along(bed: &Bed, plants: u64) -> Length {
    let across = bed.across().max(1);
    // OK because a bed has at most a million places.
    let share = Exact::ratio(plants as i64, across as i64);
    Length::from_mm(bed.spacing.mm() * share)
}

/// The bed plan as an account: a section for each bed.
pub fn beds(plan: &Plan, stretches: &[Stretch], units: SizeUnits) -> Vec<Section> {
    let section = |(at, bed): (usize, &Bed)| {
        let own = || stretches.iter().filter(|one| one.bed == at);
        let plants: u64 = own().map(|one| one.plants).sum();
        let head = format!(
            "{}: {} long, {} rows, {} apart; {plants} of {} places planted.",
            bed.name,
            bed.length.shown_along_a_bed(units),
            bed.across(),
            bed.spacing.shown(units),
            bed.places().unwrap_or(0),
        );
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
