//! Which varieties count as serving a need that asks for several, where others are planted than before.

use std::cmp::Reverse;

use crate::order::model::{Choice, Demand, Model};

/// The choice with those varieties counted that still can be, and others in place of those that cannot: of a
/// form that there is none of where several forms are asked for, and of what grows most else. In a week that
/// has too few, too few are counted.
pub(super) fn recounted(model: &Model, mut choice: Choice) -> Choice {
    if !model.needs.iter().any(Demand::counts) {
        return choice;
    }
    choice.counted.resize(model.needs.len(), Vec::new());
    for week in 0..model.weeks {
        let each = model.varieties.iter().zip(&choice.plants);
        let mut free: Vec<u64> = each
            .map(|(one, plants)| one.yields[week] * plants)
            .collect();
        for (need, demand) in model.needs.iter().enumerate() {
            if !demand.counts() || !demand.runs(week) {
                continue;
            }
            choice.counted[need].resize(model.weeks, Vec::new());
            let counted = std::mem::take(&mut choice.counted[need][week]);
            let counted = counted_in_week(model, need, counted, &free);
            for variety in &counted {
                free[*variety] -= demand.reserved(week);
            }
            choice.counted[need][week] = counted;
        }
    }
    choice
}

/// The varieties that count in a week in which so many thousandths of each are free.
fn counted_in_week(
    model: &Model,
    need: usize,
    mut counted: Vec<usize>,
    free: &[u64],
) -> Vec<usize> {
    let demand = &model.needs[need];
    let able = |variety: &usize| free[*variety] >= demand.each.max(1);
    counted.retain(able);
    let form = |variety: usize| model.varieties[variety].form;
    let mut others: Vec<usize> = (0..model.varieties.len())
        .filter(|one| model.varieties[*one].serves.binary_search(&need).is_ok())
        .filter(|one| able(one) && !counted.contains(one))
        .collect();
    others.sort_by_key(|one| Reverse(free[*one]));
    let mut forms: Vec<usize> = counted.iter().map(|one| form(*one)).collect();
    forms.sort_unstable();
    forms.dedup();
    for other in &others {
        if (forms.len() as u64) < demand.forms && !forms.contains(&form(*other)) {
            forms.push(form(*other));
            counted.push(*other);
        }
    }
    let more = others.into_iter().filter(|one| !counted.contains(one));
    let more: Vec<usize> = more.collect();
    let lacks = demand.varieties.saturating_sub(counted.len() as u64);
    counted.extend(more.into_iter().take(lacks as usize));
    counted.sort_unstable();
    counted
}
