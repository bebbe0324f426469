//! One season drawn: every figure is a quantile of its law, at a share drawn evenly.
//!
//! A season has dice of its own, and so has each variety in it. So whatever is ordered, a season is the same
//! season: of two orders the one that has more of a variety has as many of its plants standing, or more.

use jiff::civil::Date;
use statrs::distribution::{Beta, ContinuousCDF, Normal};

use super::spreads::Spreads;
use crate::order::season::{Season, days_between};

const SEED: u64 = 20_270_115;
/// Of more plants of a variety than this, one standing more or less is under half a percent.
const MANY: u64 = 200;

/// A season as it may come.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Drawn {
    number: u32,
    /// The first frost of autumn.
    pub(super) frost: Date,
    /// Days by which the last frost of spring comes after planting.
    pub(super) late: i32,
    /// The yield of all varieties, 1 as planned.
    yields: f64,
    /// The share of plants lost.
    lost: f64,
    /// The share of stems kept, of that planned.
    stems_kept: f64,
    spreads: Spreads,
}

impl Drawn {
    /// Draws the season of a number: the same whenever it is drawn.
    pub(super) fn of(season: &Season, spreads: Spreads, number: u32) -> Drawn {
        let dice = &mut Dice::of(number, "");
        let planted = season.planted;
        let frost = season.first_frost.after(dice.deviations());
        let late = days_between(planted, season.last_frost.after(dice.deviations()));
        let yields = dice.about_one(spreads.season);
        let (plants_lost, stems_lost) = (1.0 - season.plants_kept(), 1.0 - season.stems_kept());
        let lost = dice.share_about(plants_lost, spreads.lost);
        let stems_kept = 1.0 - dice.share_about(stems_lost, spreads.lost);
        Drawn {
            number,
            frost,
            late: late.max(0),
            yields,
            lost,
            stems_kept: stems_kept / season.stems_kept(),
            spreads,
        }
    }

    /// How a variety does in it.
    pub(super) fn of_variety(&self, name: &str, known: bool) -> OfVariety {
        let mut dice = Dice::of(self.number, name);
        let own = dice.about_one(self.spreads.of_variety(known));
        OfVariety {
            stems: self.yields * own * self.stems_kept,
            lost: self.lost,
            // Where nothing is drawn so many are lost as is planned, to the part of a plant.
            one_by_one: self.spreads.lost.is_some(),
            dice,
        }
    }
}

/// How a variety does in a season.
#[derive(Debug)]
pub(super) struct OfVariety {
    /// What a plant that stands gives, as a share of what is planned for one.
    pub(super) stems: f64,
    lost: f64,
    one_by_one: bool,
    /// Thrown once for each plant.
    dice: Dice,
}

impl OfVariety {
    /// How many stand of so many set out. Each is lost or not by a throw of its own: of more set out never
    /// fewer stand. Of those after many the share stands: chance has evened out.
    pub(super) fn standing(mut self, plants: u64) -> f64 {
        let thrown = if self.one_by_one { plants.min(MANY) } else { 0 };
        let stand = (0..thrown)
            .filter(|_| self.dice.evenly() >= self.lost)
            .count();
        stand as f64 + (plants - thrown) as f64 * (1.0 - self.lost)
    }
}

/// Even shares from a fixed seed, and quantiles at them.
#[derive(Debug)]
pub(in crate::order) struct Dice(fastrand::Rng);

impl Dice {
    /// The same throws for the same seed.
    pub(in crate::order) fn seeded(seed: u64) -> Dice {
        Dice(fastrand::Rng::with_seed(seed))
    }

    /// The dice of a season, and of a name in it.
    pub(super) fn of(number: u32, name: &str) -> Dice {
        let name = u64::from(crc32fast::hash(name.as_bytes()));
        // One throw mixes what the numbers of neighbours have in common.
        let mut of_season = fastrand::Rng::with_seed(SEED ^ u64::from(number));
        Dice(fastrand::Rng::with_seed(of_season.u64(..) ^ name))
    }

    /// Over 0, under 1.
    pub(in crate::order) fn evenly(&mut self) -> f64 {
        self.0.f64().clamp(f64::EPSILON, 1.0 - f64::EPSILON)
    }

    /// Standard deviations from the mean of a normal law.
    pub(in crate::order) fn deviations(&mut self) -> f64 {
        Normal::standard().inverse_cdf(self.evenly())
    }

    /// Log-normal of mean 1, by the standard deviation of the logarithm.
    fn about_one(&mut self, spread: f64) -> f64 {
        (spread * self.deviations() - spread * spread / 2.0).exp()
    }

    /// A share by the beta law of such a mean that is as sure as one counted of so many.
    fn share_about(&mut self, mean: f64, counted: Option<f64>) -> f64 {
        let evenly = self.evenly();
        let law =
            counted.and_then(|counted| Beta::new(mean * counted, (1.0 - mean) * counted).ok());
        // A mean of 0 has no such law, and loses nothing.
        law.map_or(mean, |law| law.inverse_cdf(evenly))
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::order::season::tests::season;
    use statrs::distribution::LogNormal;
    use statrs::statistics::Distribution;

    const DRAWS: usize = 4_000;

    /// The greatest distance of draws from their law, which at 1 in 100 is over 1.63 / sqrt(n)
    /// (Kolmogorov and Smirnov; textbook figure).
    fn apart(mut drawn: Vec<f64>, below: impl Fn(f64) -> f64) -> f64 {
        drawn.sort_by(f64::total_cmp);
        let count = drawn.len() as f64;
        let step = |(at, one): (usize, &f64)| {
            let share = below(*one);
            (share - at as f64 / count)
                .abs()
                .max((share - (at + 1) as f64 / count).abs())
        };
        drawn.iter().enumerate().map(step).fold(0.0, f64::max)
    }

    fn moments(drawn: &[f64]) -> (f64, f64) {
        let mean = drawn.iter().sum::<f64>() / drawn.len() as f64;
        let squares = drawn.iter().map(|one| (one - mean).powi(2)).sum::<f64>();
        (mean, squares / (drawn.len() - 1) as f64)
    }

    fn close(found: f64, expected: f64, by: f64) {
        assert!((found - expected).abs() < by, "{found} {expected}");
    }

    #[test]
    fn yields_and_shares_lost_have_the_laws_that_they_should() {
        let limit = 1.63 / (DRAWS as f64).sqrt();
        let mut dice = Dice::of(0, "");
        for spread in [0.1, 0.27] {
            let drawn: Vec<f64> = (0..DRAWS).map(|_| dice.about_one(spread)).collect();
            let law = LogNormal::new(-spread * spread / 2.0, spread).expect("a law");
            close(law.mean().expect("a mean"), 1.0, 1e-9);
            assert!(apart(drawn, |one| law.cdf(one)) < limit);
        }
        let drawn: Vec<f64> = (0..DRAWS)
            .map(|_| dice.share_about(0.12, Some(20.0)))
            .collect();
        let law = Beta::new(2.4, 17.6).expect("a law");
        assert!(apart(drawn, |one| law.cdf(one)) < limit);
        assert_eq!(dice.share_about(0.0, Some(20.0)), 0.0);
        assert_eq!(dice.share_about(0.12, None), 0.12);
    }

    /// Plants lost by a share that itself varies are beta-binomial: of n plants the mean is n p and the
    /// variance n p q (1 + (n - 1) / (k + 1)) (textbook formula).
    #[test]
    fn plants_are_lost_one_by_one_by_a_share_of_the_season() {
        let mut season = season();
        (season.plants_lost, season.stems_lost) = (Some(10.0), Some(0.0));
        let spreads = Spreads {
            lost: Some(20.0),
            ..Spreads::none()
        };
        let stand: Vec<f64> = (0..DRAWS as u32)
            .map(|number| Drawn::of(&season, spreads, number))
            .map(|drawn| drawn.of_variety("Haaf Bell", true).standing(30))
            .collect();
        assert!(stand.iter().all(|one| one.fract() == 0.0));
        let (mean, variance) = moments(&stand);
        close(mean, 27.0, 0.2);
        close(variance, 2.7 * (1.0 + 29.0 / 21.0), 0.6);
    }

    /// Of two varieties of one season the logarithms of the yields correlate by the season's part of
    /// their variance.
    #[test]
    fn varieties_of_one_season_are_up_and_down_together() {
        let spreads = Spreads {
            season: 0.15,
            known: 0.10,
            unknown: 0.2,
            lost: None,
        };
        let stems = |drawn: Drawn, name, known| drawn.of_variety(name, known).stems.ln();
        let drawn: Vec<[f64; 2]> = (0..DRAWS as u32)
            .map(|number| Drawn::of(&season(), spreads, number))
            .map(|drawn| {
                [
                    stems(drawn, "Haaf Bell", true),
                    stems(drawn, "Haaf Drift", false),
                ]
            })
            .collect();
        let of = |at: usize| drawn.iter().map(|pair| pair[at]).collect::<Vec<f64>>();
        let ((one, first), (other, second)) = (moments(&of(0)), moments(&of(1)));
        close(first, 0.15 * 0.15 + 0.1 * 0.1, 0.003);
        close(second, 0.15 * 0.15 + 0.2 * 0.2, 0.006);
        let both = drawn
            .iter()
            .map(|pair| (pair[0] - one) * (pair[1] - other))
            .sum::<f64>();
        close(both / DRAWS as f64, 0.15 * 0.15, 0.003);
    }

    /// The worked example of two risk levels: a normal curve about 5 October with 11.7 days of
    /// deviation has 15 days to its tenth part.
    #[test]
    fn frosts_are_drawn_by_their_curves() {
        let mut season = season();
        let frost = r#"(risks: [(chance: 10, on: "2027-09-20"), (chance: 50, on: "2027-10-05")])"#;
        season.first_frost = crate::problem::read_ron("order.ron", frost).expect("a frost");
        let middle = season.first_frost.middle();
        let days = |number| {
            let drawn = Drawn::of(&season, Spreads::none(), number);
            assert_eq!((drawn.late, drawn.yields), (0, 1.0));
            f64::from(days_between(middle, drawn.frost))
        };
        let days: Vec<f64> = (0..DRAWS as u32).map(days).collect();
        let (mean, variance) = moments(&days);
        close(mean, 0.0, 0.6);
        close(variance.sqrt(), 15.0 / 1.2816, 0.4);
        let early = days.iter().filter(|one| **one <= -15.0).count() as f64 / DRAWS as f64;
        close(early, 0.1, 0.02);
    }
}
