use std::ops::Range;

use super::counting::recounted;
use super::sample::Sample;
use super::standing::Standing;
use crate::order::model::{Candidate, Choice, Demand, Model, STEM};
use crate::order::promise::Whole;
use crate::order::risk::{Grown, Grows};
use proptest::prelude::*;

/// Seasons in which a plant of each variety gives so many thousandths, by season, variety and week.
#[derive(Debug)]
struct Given(Vec<Vec<Vec<i64>>>);

impl Grows for Given {
    fn count(&self) -> usize {
        self.0.len()
    }

    fn grown(&self, candidate: usize, plants: u64, seasons: Range<usize>) -> Grown {
        let own = self.0[seasons].iter().flat_map(|season| &season[candidate]);
        own.map(|stems| stems * plants as i64).collect()
    }
}

const WEEKS: usize = 3;

/// A program of a few varieties and needs without offers, seasons, and how many are planted time after time.
fn any_seasons() -> impl Strategy<Value = (Model, Given, Vec<Vec<u64>>)> {
    let need = (
        prop::collection::vec(0..12_u64, WEEKS),
        prop::option::of(20..90_u64),
    );
    let needs = prop::collection::vec(need, 1..4);
    (needs, 1..6_usize).prop_flat_map(|(needs, varieties)| {
        let count = needs.len();
        let needs: Vec<Demand> = { needs.into_iter() }
            .map(|(stems, most_from_one)| Demand {
                stems: stems.into_iter().map(|stems| stems * STEM).collect(),
                most_from_one,
                ..Demand::default()
            })
            .collect();
        let serves = prop::collection::vec(0..1_u8 << count, varieties);
        let stems = prop::collection::vec(prop_oneof![Just(0), 100..2500_i64], WEEKS);
        let season = prop::collection::vec(stems, varieties);
        let plants = prop::collection::vec(prop_oneof![Just(0), 0..8_u64], varieties);
        let seasons = prop::collection::vec(season, 1..9);
        (serves, seasons, prop::collection::vec(plants, 2..6)).prop_map(
            move |(serves, seasons, plants)| {
                let variety = |serves: &u8| Candidate {
                    serves: (0..count).filter(|need| serves >> need & 1 == 1).collect(),
                    ..Candidate::default()
                };
                let model = Model {
                    weeks: WEEKS,
                    varieties: serves.iter().map(variety).collect(),
                    needs: needs.clone(),
                    ..Model::default()
                };
                (model, Given(seasons), plants)
            },
        )
    })
}

fn planted(plants: &[u64]) -> Choice {
    Choice {
        plants: plants.to_vec(),
        ..Choice::default()
    }
}

proptest! {
    /// What an order that differs is said to lack is what it lacks shared out from nothing, whether it is only
    /// tried or becomes the order, and as sure as it is, it is said to be, however soon that is seen.
    #[test]
    fn what_differs_is_told_as_if_from_nothing((model, seasons, plants) in any_seasons(), asked in 0..9_usize) {
        let sure: Vec<f64> = (0..model.needs.len()).map(|need| need as f64).collect();
        let wholes = [Whole {
            work: 0,
            needs: (0..model.needs.len()).take(2).collect(),
            sure: 0.9,
        }];
        let mut sample = Sample::of(&model, &sure, &wholes, &seasons);
        sample.asked.fill(asked.min(seasons.count()));
        let mut standing = Standing::of(&sample, planted(&plants[0]));
        for next in &plants[1..] {
            let anew = Standing::of(&sample, planted(next));
            prop_assert_eq!(&standing.tried(next), anew.lacks());
            prop_assert_eq!(standing.would_be_sure(next), anew.is_sure());
            standing.become_as(planted(next));
            prop_assert_eq!(standing.lacks(), anew.lacks());
            prop_assert_eq!(sample.wanting(standing.lacks()) == 0, standing.is_sure());
            // What is to be met as one lacks what its needs do.
            let parts = sample.needs_of(sample.turns.len());
            for (season, all) in standing.lacks().of(sample.turns.len()).enumerate() {
                let weeks = || (0..WEEKS).map(|week| anew.in_week(season, week));
                let each = parts.iter().map(|part| weeks().map(|week| week[*part]).sum::<i64>());
                prop_assert_eq!(all, each.sum::<i64>());
            }
            for season in 0..seasons.count() {
                for week in 0..WEEKS {
                    prop_assert_eq!(standing.in_week(season, week), anew.in_week(season, week));
                }
            }
        }
    }
}

/// Where several varieties or forms are asked for, what stands in place of one that counted counts for it.
#[test]
fn what_is_planted_instead_counts_instead() {
    let variety = |form: usize, yields: u64| Candidate {
        form,
        yields: vec![yields],
        serves: vec![0],
        ..Candidate::default()
    };
    let model = Model {
        weeks: 1,
        varieties: vec![
            variety(0, 900),
            variety(1, 800),
            variety(1, 700),
            variety(2, 100),
        ],
        needs: vec![Demand {
            stems: vec![4 * STEM],
            varieties: 2,
            forms: 2,
            each: STEM,
            ..Demand::default()
        }],
        ..Model::default()
    };
    let counted = |plants: [u64; 4], before: Vec<usize>| {
        let choice = Choice {
            plants: plants.to_vec(),
            counted: vec![vec![before]],
            ..Choice::default()
        };
        recounted(&model, choice).counted[0][0].clone()
    };
    // What counts goes on counting.
    assert_eq!(counted([2, 2, 9, 0], vec![0, 1]), [0, 1]);
    // Of another form, though there is more of the same one.
    assert_eq!(counted([9, 0, 2, 0], vec![1, 2]), [0, 2]);
    assert_eq!(counted([0, 9, 8, 10], vec![0, 1]), [1, 3]);
    // Too little of it: too few count.
    assert_eq!(counted([0, 9, 8, 9], vec![0, 1]), [1, 2]);
}

/// A bed full of what gives little: one thing gives way to another until the need is sure.
#[test]
fn in_full_beds_one_thing_gives_way_to_another() {
    let variety = |yields: u64| Candidate {
        yields: vec![yields],
        serves: vec![0],
        on_hand: 6,
        ..Candidate::default()
    };
    let model = Model {
        weeks: 1,
        varieties: vec![variety(1000), variety(1000)],
        needs: vec![Demand {
            stems: vec![6 * STEM],
            varieties: 1,
            forms: 1,
            ..Demand::default()
        }],
        places: Some(6),
        ..Model::default()
    };
    // The first gives less in the second season, the other as much in both.
    let seasons = Given(vec![
        vec![vec![1000], vec![1000]],
        vec![vec![500], vec![1000]],
    ]);
    let mut sample = Sample::of(&model, &[0.9], &[], &seasons);
    sample.asked.fill(2);
    let mut standing = Standing::of(&sample, planted(&[6, 0]));
    assert!(!standing.is_sure());
    sample.fill(&mut standing, &mut |_| false);
    assert!(standing.is_sure(), "{:?}", standing.choice());
}
