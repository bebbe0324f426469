//! Larger means: beds and money, each the least that does.

use super::change::{By, Edit, Mend, edited};
use crate::order::candidates::{Candidates, ListContext};
use crate::order::item::Item;
use crate::order::model::{Choice, Model};
use crate::order::plan::Plan;
use crate::order::settle::Status;
use crate::order::solve::{Solved, fewest_plants, least_cost};
use crate::order::tried::Patience;
use crate::variety::Money;

/// Places of a bed that is long enough for anything.
const AMPLE: u64 = 100_000;

/// Places that an order without a bed of its own takes.
struct Room {
    /// Places more than there are.
    places: u64,
    /// Proved: fewer more do not do.
    at_least: u64,
    /// The edits that make so many.
    edits: Vec<Edit>,
    /// Hundredths, and proved that no order costs less.
    cost: u64,
    bound: u64,
}

/// The fewest places more that do, as a longer bed.
pub(super) fn more_bed(
    plan: &Plan,
    against: ListContext<'_>,
    patience: &mut Patience<'_>,
) -> Option<Mend> {
    let room = room(plan, against, true, patience)?;
    let by = By::Bed {
        places: room.places,
        at_least: room.at_least,
    };
    Some(Mend::alone(by, room.edits, Money::hundredths(room.cost)))
}

/// A longer bed, and the money for what then costs the least.
pub(super) fn more_bed_and_money(
    plan: &Plan,
    against: ListContext<'_>,
    patience: &mut Patience<'_>,
) -> Option<Mend> {
    let money = plan.money?.in_hundredths();
    let mut room = room(plan, against, false, patience)?;
    let more = room.cost.checked_sub(money).filter(|more| *more > 0)?;
    let cost = Money::hundredths(room.cost);
    room.edits.push(Edit {
        item: Item::Money,
        value: cost.to_string(),
    });
    Some(Mend {
        by: By::Bed {
            places: room.places,
            at_least: room.at_least,
        },
        and: Some(By::Money {
            more: Money::hundredths(more),
            at_least: Money::hundredths(room.bound.saturating_sub(money)),
        }),
        edits: room.edits,
        cost,
    })
}

/// What room the needs take: of the beds that one is made longer which has most rows, and so grows the least.
fn room(
    plan: &Plan,
    against: ListContext<'_>,
    within_the_money: bool,
    patience: &mut Patience<'_>,
) -> Option<Room> {
    let at = (0..plan.beds.len())
        .rev()
        .max_by_key(|at| plan.beds[*at].across())?;
    let longer = |places: u64| -> Option<Vec<Edit>> {
        let value = plan.beds[at].longer(places)?;
        Some(vec![Edit {
            item: Item::Bed(at),
            value,
        }])
    };
    // No offer may be held back by beds that are too small for it.
    let ample = edited(plan, &longer(AMPLE)?).ok()?;
    let mut model = Candidates::of(&ample, against).ok()?.model;
    model.places = None;
    if !within_the_money {
        model.money = None;
    }
    // The least-cost order without a bed does too, where it can be paid for.
    let cheapest = least_cost(&model, &mut |progress| patience.ends(progress));
    let paid = model.money.is_none_or(|money| cheapest.value <= money);
    let fewest = fewest_plants(&model, &mut |progress| patience.ends(progress));
    let found = |solved: &Solved| -> Option<(u64, Choice)> {
        let best = solved.best.clone()?;
        Some((best.plants.iter().sum(), best))
    };
    // Where the money is to grow too, what costs the least takes the least of it.
    let found = match (within_the_money, paid) {
        (true, true) => vec![found(&cheapest), found(&fewest)],
        (true, false) => vec![found(&fewest)],
        (false, _) => vec![found(&cheapest)],
    };
    let (enough, best) = found.into_iter().flatten().min_by_key(|found| found.0)?;
    let places = enough.checked_sub(plan.places()).filter(|more| *more > 0)?;
    let at_least = fewest.bound.unwrap_or(enough).min(enough);
    let cost = model.cost(&best.packs);
    Some(Room {
        places,
        at_least: at_least.saturating_sub(plan.places()),
        edits: longer(places)?,
        cost,
        bound: cheapest.bound.unwrap_or(cost).min(cost),
    })
}

/// What the money lacks of the least cost, which settling has proved or which is sought again.
pub(super) fn more_money(
    model: &Model,
    status: Status,
    patience: &mut Patience<'_>,
) -> Option<Mend> {
    let money = model.money?;
    let mend = |cost: u64, bound: u64| {
        let more = cost.checked_sub(money).filter(|more| *more > 0)?;
        let cost = Money::hundredths(cost);
        let by = By::Money {
            more: Money::hundredths(more),
            at_least: Money::hundredths(bound.saturating_sub(money)),
        };
        let edits = vec![Edit {
            item: Item::Money,
            value: cost.to_string(),
        }];
        Some(Mend::alone(by, edits, cost))
    };
    let known = match status {
        Status::Short {
            needed,
            proved: true,
        } => {
            let cost = needed?.in_hundredths();
            return mend(cost, cost);
        }
        Status::Short { needed, .. } => needed.map(Money::in_hundredths),
        _ => None,
    };
    let cheapest = least_cost(model, &mut |progress| patience.ends(progress));
    let found = cheapest.best.as_ref().map(|_| cheapest.value);
    let cost = known.into_iter().chain(found).min()?;
    mend(cost, cheapest.bound.unwrap_or(cost).min(cost))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_the_money_lacks_of_a_proved_cost_is_exact() {
        let model = Model {
            money: Some(70_000),
            ..Model::default()
        };
        let status = Status::Short {
            needed: Some(Money::hundredths(71_000)),
            proved: true,
        };
        let more = Money::hundredths(1_000);
        let mut stop = |_| true;
        let mut patience = Patience::of(&mut stop, 1, 1);
        let mend = more_money(&model, status, &mut patience).expect("a mend");
        assert_eq!(
            mend.by,
            By::Money {
                more,
                at_least: more
            }
        );
        assert_eq!(mend.edits[0].value, "710.00");
        assert_eq!(mend.cost, Money::hundredths(71_000));
    }
}
