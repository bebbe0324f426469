use super::*;
use crate::order::model::{Candidate, Demand, STEM};
use crate::order::solve::transport::Week;
use proptest::prelude::*;

/// A week of a few needs and varieties, and how many plants of each stand at first and after that.
fn any_week() -> impl Strategy<Value = (Model, Vec<usize>, Vec<Vec<i64>>)> {
    let need = (0..15_u64, prop::option::of(10..90_u64));
    let needs = prop::collection::vec(need, 1..5);
    (needs, 1..6_usize).prop_flat_map(|(needs, varieties)| {
        let count = needs.len();
        let needs: Vec<Demand> = { needs.into_iter() }
            .map(|(stems, most_from_one)| Demand {
                stems: vec![stems * STEM],
                most_from_one,
                ..Demand::default()
            })
            .collect();
        let serves = prop::collection::vec(0..1_u8 << count, varieties);
        let turns = Just((0..count).collect::<Vec<usize>>()).prop_shuffle();
        let supply = prop::collection::vec(0..9 * STEM as i64, varieties);
        (serves, turns, prop::collection::vec(supply, 1..6)).prop_map(
            move |(serves, turns, supplies)| {
                let variety = |serves: &u8| Candidate {
                    serves: (0..count).filter(|need| serves >> need & 1 == 1).collect(),
                    ..Candidate::default()
                };
                let model = Model {
                    weeks: 1,
                    varieties: serves.iter().map(variety).collect(),
                    needs: needs.clone(),
                    ..Model::default()
                };
                (model, turns, supplies)
            },
        )
    })
}

/// What each need lacks, in turn, by the flow that the exact search has.
fn by_the_search(model: &Model, turns: &[usize], supply: &[i64]) -> Vec<i64> {
    let mut week = Week {
        supply: supply.to_vec(),
        demand: model
            .needs
            .iter()
            .map(|need| signed(need.stems[0]))
            .collect(),
        arcs: vec![Vec::new(); model.needs.len()],
    };
    for (at, variety) in model.varieties.iter().enumerate() {
        for need in variety
            .serves
            .iter()
            .filter(|need| model.needs[**need].runs(0))
        {
            let most = model.needs[*need].limit(0).map_or(i64::MAX, signed);
            week.arcs[*need].push((at, most));
        }
    }
    let sharing = week.share_in_turn(turns, &week.routes());
    turns.iter().map(|need| sharing.lacks[*need]).collect()
}

proptest! {
    /// Season after season, a variety more in between: as much is lacking as from nothing.
    #[test]
    fn what_is_mended_is_as_if_made_anew((model, turns, supplies) in any_week()) {
        let all: Vec<usize> = (0..model.varieties.len()).collect();
        let few = Shape::of(&model, &turns, 0, &all[..all.len() - 1]);
        let mut ways = Ways::default();
        let mut shared = vec![0; few.size()];
        few.begin(&mut shared);
        let mut before = vec![0; all.len()];
        for (planted, stems) in supplies[0].iter().enumerate().take(all.len() - 1) {
            few.change(&mut shared, planted, *stems);
            before[planted] = *stems;
        }
        few.share(&mut shared, &mut ways);
        prop_assert_eq!(few.lacks(&shared), by_the_search(&model, &turns, &before));
        let shape = few.with(&model, &turns, 0, &all[all.len() - 1..]);
        let mut wide = Vec::new();
        shape.widened(&few, &shared, &mut wide);
        for supply in &supplies {
            // Of one variety alone more helps who lacks only where there is a way.
            for (planted, stems) in supply.iter().enumerate() {
                let (was, way) = (wide.clone(), shape.has_way(&wide, planted, &mut ways));
                let mut more = was.clone();
                shape.change(&mut more, planted, STEM as i64);
                shape.share(&mut more, &mut ways);
                prop_assert_eq!(way, shape.lacks(&more) != shape.lacks(&was), "{}", stems);
            }
            for (planted, stems) in supply.iter().enumerate() {
                shape.change(&mut wide, planted, stems - before[planted]);
            }
            shape.share(&mut wide, &mut ways);
            let lacks = by_the_search(&model, &turns, supply);
            prop_assert_eq!(shape.lacks(&wide), &lacks[..]);
            for (planted, stems) in supply.iter().enumerate() {
                let arcs = shape.begins[planted]..shape.begins[planted + 1];
                let flow = &wide[turns.len() + all.len()..][arcs];
                prop_assert!(flow.iter().all(|one| *one >= 0));
                let left = shape.left(&wide, planted);
                prop_assert!(left >= 0 && left + flow.iter().sum::<i64>() == *stems);
            }
            // Who could have more if any of these had: the lacking need itself among them, and none after it.
            for (turn, lacks) in lacks.iter().enumerate().filter(|(_, lacks)| **lacks > 0) {
                let held = shape.held(&wide, turn);
                prop_assert!(held.contains(&turn) && held.iter().all(|one| *one <= turn), "{lacks}");
            }
            before.clone_from(supply);
        }
    }
}
