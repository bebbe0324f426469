//! What no order can better: in how many seasons a need can be met at all.

use crate::cores::in_spans;
use crate::order::candidates::Candidates;
use crate::order::model::Model;
use crate::order::risk::Grows;

/// Seasons that are looked at.
const CEILED: usize = 2_000;
/// Plants by which what one gives is told: of so many as many stand as the season lets.
const MANY: u64 = 200;
/// Seasons that are looked at before a thread has started.
const A_THREAD: usize = 50;

/// By need, then by what is to be met as one: the share of seasons in which beds full of what gives a need most
/// in each of its weeks, and nothing else, would be enough for it. No order meets it in more.
pub(super) fn ceilings(candidates: &Candidates, seasons: &dyn Grows) -> Vec<f64> {
    let (model, wholes) = (&candidates.model, &candidates.wholes);
    let count = model.needs.len() + wholes.len();
    let looked_at = seasons.count().min(CEILED);
    let parts = in_spans(looked_at, A_THREAD, |span| {
        let mut can = vec![0_u32; count];
        for season in span {
            let met = can_be_met(model, seasons, season);
            let whole = wholes
                .iter()
                .map(|whole| whole.needs.iter().all(|need| met[*need]));
            can.iter_mut()
                .zip(met.iter().copied().chain(whole))
                .for_each(|(can, met)| *can += u32::from(met));
        }
        can
    });
    let share = |at: usize| {
        let can = parts.iter().map(|part| part[at]).sum::<u32>();
        f64::from(can) / looked_at.max(1) as f64
    };
    (0..count).map(share).collect()
}

/// By need: whether it can be met in a season.
fn can_be_met(model: &Model, seasons: &dyn Grows, season: usize) -> Vec<bool> {
    let places = model.places.unwrap_or(u64::MAX);
    let enough = |most: i64, stems: u64| {
        u128::from(most.unsigned_abs()) * u128::from(places) >= u128::from(stems) * u128::from(MANY)
    };
    // By need: the weeks for which nothing was found that gives enough.
    let open = |need: usize| {
        let weeks = 0..model.weeks;
        let open = weeks.filter(|week| !enough(0, model.needs[need].stems[*week]));
        open.collect()
    };
    let mut open: Vec<Vec<usize>> = (0..model.needs.len()).map(open).collect();
    for (at, variety) in model.varieties.iter().enumerate() {
        if variety.serves.iter().all(|need| open[*need].is_empty()) {
            continue;
        }
        let grown = seasons.grown(at, MANY, season..season + 1);
        for need in &variety.serves {
            let stems = &model.needs[*need].stems;
            open[*need].retain(|week| !enough(grown[*week], stems[*week]));
        }
    }
    // What is set aside whole is met in none.
    let both = model.needs.iter().zip(&open);
    both.map(|(need, open)| need.asks() && open.is_empty())
        .collect()
}
