//! The chance that each need is met: seasons drawn with a fixed seed, frost by its curve, each
//! variety's stems within its range.

use jiff::ToSpan;

use super::candidates::Candidates;
use super::model::{Choice, STEM};
use super::plan::Plan;
use super::season::{STEMS_RANGE, days_between};
use super::solution::Order;
use crate::variety::Varieties;

/// What came of the seasons drawn.
#[derive(Debug, Clone, PartialEq)]
pub struct Chances {
    /// Seasons drawn.
    pub seasons: u32,
    /// By need: each of its weeks with the share of seasons in which it had all its stems.
    pub met: Vec<Vec<(u8, f64)>>,
    /// By week: usable stems of all varieties, the fifth, fiftieth and ninety-fifth of a hundred
    /// seasons.
    pub grown: Vec<(u8, [f64; 3])>,
}

/// Where a variety's stems a plant are its own record, a season gives so much less or more. Assumed:
/// no spread by variety is published.
const OWN_RANGE: (f64, f64) = (0.8, 1.2);
const SEED: u64 = 20_270_115;
/// Seasons drawn wherever ranges and chances are told.
pub const SEASONS: u32 = 200;

/// Draws so many seasons for an order of candidates from `list`.
///
/// A last frost later than planting sets the first cut back by as many days; nothing is cut after
/// the first frost. A variety's stems are drawn from a triangle over its range: the published 5 to 12
/// about the planned figure, or a fifth either way about its own. All draws are independent.
pub fn chances(
    plan: &Plan,
    candidates: &Candidates,
    list: &Varieties,
    order: &Order,
    seasons: u32,
) -> Chances {
    let model = &candidates.model;
    // Those without a record of their own are planned by the figure for all.
    let planned = |at: usize| list.list()[candidates.rows[at]].stems_a_plant.is_none();
    let choice = as_it_comes(&order.choice);
    let mut dice = Dice(SEED);
    let mut met: Vec<Vec<u32>> = vec![vec![0; model.weeks]; model.needs.len()];
    let mut grown: Vec<Vec<f64>> = vec![Vec::new(); model.weeks];
    for _ in 0..seasons {
        let frost = plan.season.first_frost.after(dice.normal());
        let late = days_between(
            plan.season.planted,
            plan.season.last_frost.after(dice.normal()),
        )
        .max(0);
        let mut drawn = model.clone();
        for (at, one) in drawn.varieties.iter_mut().enumerate() {
            let share = dice.triangle(if planned(at) {
                let stems = plan.season.stems();
                (
                    (STEMS_RANGE.0 / stems).min(1.0),
                    (STEMS_RANGE.1 / stems).max(1.0),
                )
            } else {
                OWN_RANGE
            });
            for (week, stems) in one.yields.iter_mut().enumerate() {
                let open = share_open(plan, candidates, at, week, late, frost);
                *stems = (*stems as f64 * share * open) as u64;
            }
        }
        for week in 0..model.weeks {
            let (_, sharing) = drawn.shared(&choice, week);
            for (need, lacks) in sharing.lacks.iter().enumerate() {
                met[need][week] += u32::from(*lacks == 0);
            }
            let plants = drawn.varieties.iter().zip(&choice.plants);
            let all: u64 = plants.map(|(one, plants)| one.yields[week] * plants).sum();
            grown[week].push(all as f64 / STEM as f64);
        }
    }
    let share = |count: u32| f64::from(count) / f64::from(seasons.max(1));
    let weeks = || candidates.weeks.iter().copied().enumerate();
    let of_need = |(need, met): (usize, Vec<u32>)| {
        let runs = weeks().filter(|(week, _)| model.needs[need].runs(*week));
        runs.map(|(at, week)| (week, share(met[at]))).collect()
    };
    let met = met.into_iter().enumerate().map(of_need).collect();
    let spread = |mut stems: Vec<f64>| {
        stems.sort_by(f64::total_cmp);
        let at = |part: f64| {
            stems
                .get((part * stems.len() as f64) as usize)
                .copied()
                .unwrap_or(0.0)
        };
        [at(0.05), at(0.5), at(0.95)]
    };
    let grown = weeks()
        .map(|(at, week)| (week, spread(std::mem::take(&mut grown[at]))))
        .collect();
    Chances {
        seasons,
        met,
        grown,
    }
}

/// Stems are shared out as they come: no variety is kept for a count.
fn as_it_comes(choice: &Choice) -> Choice {
    Choice {
        counted: vec![Vec::new(); choice.counted.len()],
        ..choice.clone()
    }
}

/// The share of a week's planned days of cutting that are left when a season begins `late` by some
/// days and ends with `frost`.
fn share_open(
    plan: &Plan,
    candidates: &Candidates,
    at: usize,
    week: usize,
    late: i32,
    frost: jiff::civil::Date,
) -> f64 {
    let season = &plan.season;
    let Some(monday) = super::season::monday(season.planted, candidates.weeks[week]) else {
        return 0.0;
    };
    let first = season.first_cut(candidates.first_cuts[at]);
    let begins = first.checked_add(i64::from(late).days()).unwrap_or(first);
    let open = |from, until| {
        let (after, before) = (
            days_between(monday, from).clamp(0, 7),
            days_between(monday, until).clamp(0, 7),
        );
        f64::from((before - after).max(0))
    };
    // A first frost later than planned lets cutting go on in the last week, not beyond the needs.
    let planned = open(first, season.first_frost.middle());
    if planned == 0.0 {
        1.0
    } else {
        open(begins, frost) / planned
    }
}

/// Splitmix64: a small, well-known generator (Steele, Lea and Flood, OOPSLA 2014).
struct Dice(u64);

impl Dice {
    fn roll(&mut self) -> u64 {
        self.0 = self.0.wrapping_add(0x9e37_79b9_7f4a_7c15);
        let mut z = self.0;
        z = (z ^ (z >> 30)).wrapping_mul(0xbf58_476d_1ce4_e5b9);
        z = (z ^ (z >> 27)).wrapping_mul(0x94d0_49bb_1331_11eb);
        z ^ (z >> 31)
    }

    /// Over 0, under 1.
    fn share(&mut self) -> f64 {
        ((self.roll() >> 11) as f64 + 0.5) / (1_u64 << 53) as f64
    }

    /// Standard normal (Box and Muller, 1958).
    fn normal(&mut self) -> f64 {
        let (one, other) = (self.share(), self.share());
        (-2.0 * one.ln()).sqrt() * (std::f64::consts::TAU * other).cos()
    }

    /// A triangle over a range about 1.
    fn triangle(&mut self, (low, high): (f64, f64)) -> f64 {
        let share = self.share();
        if high <= low {
            return 1.0;
        }
        let middle = (1.0 - low) / (high - low);
        if share < middle {
            low + (share * (high - low) * (1.0 - low)).sqrt()
        } else {
            high - ((1.0 - share) * (high - low) * (high - 1.0)).sqrt()
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// Mean and variance of a triangle from a to b with its top at c: (a+b+c)/3 and
    /// (a²+b²+c²-ab-ac-bc)/18; of the normal curve 1 in 20 is beyond 1.96 either way (textbook
    /// figures).
    #[test]
    fn draws_have_the_spread_that_they_should() {
        const DRAWS: usize = 200_000;
        let mut dice = Dice(SEED);
        let close = |found: f64, expected: f64| (found - expected).abs() < 0.005;
        for (low, high) in [(0.8, 1.2), (5.0 / 9.0, 12.0 / 9.0)] {
            let drawn: Vec<f64> = (0..DRAWS).map(|_| dice.triangle((low, high))).collect();
            assert!(drawn.iter().all(|one| (low..=high).contains(one)));
            let mean = drawn.iter().sum::<f64>() / DRAWS as f64;
            let spread = drawn.iter().map(|one| (one - mean).powi(2)).sum::<f64>() / DRAWS as f64;
            let squares = low * low + high * high + 1.0 - low * high - low - high;
            assert!(close(mean, (low + high + 1.0) / 3.0), "{mean}");
            assert!(close(spread, squares / 18.0), "{spread}");
        }
        let far = (0..DRAWS).filter(|_| dice.normal().abs() > 1.96).count();
        assert!(close(far as f64 / DRAWS as f64, 0.05), "{far}");
    }
}
