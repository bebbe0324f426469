//! What is known of a season's yields before anything is counted: the spreads that chances are drawn by,
//! with the losses in them.

use crate::order::candidates::Candidates;
use crate::order::plan::Plan;
use crate::order::risk::Spreads;
use crate::order::solution::Order;
use crate::variety::Varieties;

/// A logarithm of a yield, 0 as planned: its mean and its standard deviation.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Log {
    /// Its mean.
    pub mean: f64,
    /// Its standard deviation.
    pub sd: f64,
}

/// Logarithms of yields, what is lost in them; each as planned on average.
#[derive(Debug, Clone, PartialEq)]
pub struct Prior {
    /// The season's: its yield, and the shares of plants and of stems that it leaves.
    pub season: Log,
    /// By variety, in the order of the candidates: its own yield, and which of its plants stand.
    pub own: Vec<Log>,
}

impl Prior {
    /// Of an order of candidates from `list`.
    pub fn of(
        plan: &Plan,
        candidates: &Candidates,
        list: &Varieties,
        order: &Order,
        spreads: Spreads,
    ) -> Prior {
        let season = &plan.season;
        let (plants, stems) = (1.0 - season.plants_kept(), 1.0 - season.stems_kept());
        let kept = |lost: f64| {
            spreads
                .lost
                .map_or(0.0, |counted| odds(lost) / (counted + 1.0))
        };
        let all = spreads.season.powi(2) + of_squares(kept(plants)) + of_squares(kept(stems));
        let own = |(at, set_out): (usize, &u64)| {
            let known = season.knows(&list.list()[candidates.rows[at]]);
            let spread = spreads.of_variety(known);
            let stands = match spreads.lost {
                Some(_) if *set_out > 0 => odds(plants) / *set_out as f64,
                Some(_) | None => 0.0,
            };
            about_one(spread.powi(2) + of_squares(stands))
        };
        Prior {
            season: about_one(all),
            own: order.choice.plants.iter().enumerate().map(own).collect(),
        }
    }
}

impl Log {
    /// The yield within which nine of ten lie, and the one in the middle: as shares of the plan.
    pub fn range(self) -> [f64; 3] {
        [-1.645, 0.0, 1.645].map(|deviations| (self.mean + deviations * self.sd).exp())
    }
}

/// What is lost of a share, by what is kept: the square of the coefficient of variation of what one draw
/// keeps.
fn odds(lost: f64) -> f64 {
    lost / (1.0 - lost)
}

/// The variance of the logarithm of what is log-normal with such a square of its coefficient of variation.
fn of_squares(square: f64) -> f64 {
    square.ln_1p()
}

/// The logarithm of such a variance of a yield that is 1 on average.
fn about_one(variance: f64) -> Log {
    Log {
        mean: -variance / 2.0,
        sd: variance.sqrt(),
    }
}
