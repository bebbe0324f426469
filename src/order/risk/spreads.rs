//! How far seasons differ from what is planned.

use crate::order::season::PUBLISHED;

/// How far seasons differ from what is planned, the frosts apart: those are in the plan.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Spreads {
    /// The yield of a season, of all varieties together: the standard deviation of its logarithm.
    pub season: f64,
    /// The same of one variety about the season's, where its own stems are known.
    pub known: f64,
    /// The same where the plan's one figure stands for it.
    pub unknown: f64,
    /// The share lost in a season is as sure as one that was counted of so many; `None` where it is
    /// as planned to the last plant.
    pub lost: Option<f64>,
}

impl Spreads {
    /// What is reckoned with: how far yields differ from season to season is not published. Assumed.
    pub fn assumed() -> Spreads {
        Spreads {
            season: 0.15,
            known: 0.10,
            unknown: between_varieties(),
            lost: Some(20.0),
        }
    }

    /// Of one variety about the season's yield, whose stems are known or not.
    pub(in crate::order) fn of_variety(&self, known: bool) -> f64 {
        match known {
            true => self.known,
            false => self.unknown,
        }
    }

    /// Every season is as planned.
    #[cfg(test)]
    pub(super) fn none() -> Spreads {
        Spreads {
            season: 0.0,
            known: 0.0,
            unknown: 0.0,
            lost: None,
        }
    }
}

/// The deviation of the logarithm of a variety's yield about the figure for all: nine varieties of
/// ten are taken to lie within the published range, 1.645 deviations either way. Assumed.
fn between_varieties() -> f64 {
    let (least, most) = PUBLISHED;
    (most / least).ln() / (2.0 * 1.645)
}
