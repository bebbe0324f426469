//! The bed plan: which stretch of which bed each variety is planted in.

use super::columns::aligned;
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

/// The plan as lines, bed by bed.
pub fn bed_lines(plan: &Plan, stretches: &[Stretch], units: SizeUnits) -> Vec<String> {
    let mut lines = Vec::new();
    for (at, bed) in plan.beds.iter().enumerate() {
        let own: Vec<&Stretch> = stretches.iter().filter(|one| one.bed == at).collect();
        let plants: u64 = own.iter().map(|one| one.plants).sum();
        lines.push(format!(
            "{}: {} long, {} rows, {} apart; {plants} of {} places planted",
            bed.name,
            length_of(bed.length, units),
            bed.across(),
            bed.spacing.shown(units),
            bed.places().unwrap_or(0),
        ));
        let mut rows = vec![
            ["variety", ">plants", ">length", ">from", ">to"]
                .map(str::to_string)
                .to_vec(),
        ];
        for one in own {
            let length = Length::from_mm(one.to.mm() - one.from.mm());
            let shown = [length, one.from, one.to].map(|length| length_of(length, units));
            rows.push(
                [
                    vec![one.variety.clone(), one.plants.to_string()],
                    shown.to_vec(),
                ]
                .concat(),
            );
        }
        if rows.len() > 1 {
            lines.extend(aligned(&rows).iter().map(|line| format!("  {line}")));
        }
    }
    lines
}

/// A length along a bed: metres or feet, to a tenth.
pub fn length_of(length: Length, units: SizeUnits) -> String {
    match units {
        SizeUnits::Mm => format!("{:.1} m", length.mm().to_f64() / 1000.0),
        SizeUnits::In => format!("{:.1} ft", length.inches().to_f64() / 12.0),
    }
}
