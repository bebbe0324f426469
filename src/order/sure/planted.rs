//! What is bought or on hand, planted.

use crate::order::model::{Choice, Model};

/// The choice with everything planted that is bought or on hand and serves a need, as far as the beds go.
pub(super) fn all_planted(model: &Model, mut choice: Choice) -> Choice {
    let mut left = model.places.map_or(u64::MAX, |places| {
        places.saturating_sub(choice.plants.iter().sum())
    });
    let tubers = model.tubers(&choice.packs);
    for (at, tubers) in tubers.into_iter().enumerate() {
        let one = &model.varieties[at];
        let most = one.most_plants.unwrap_or(u64::MAX).min(tubers);
        let more = most.saturating_sub(choice.plants[at]).min(left);
        if !one.serves.is_empty() {
            choice.plants[at] += more;
            left -= more;
        }
    }
    choice
}
