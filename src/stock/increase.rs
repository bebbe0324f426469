//! What to keep and what to sell, and how many years it takes until there are enough of a plant.

use super::lifting::Lifting;
use super::losses::Losses;
use super::sums::Stock;
use crate::trial::Subject;

/// How many of a plant to keep for the next planting, and how many may be sold.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Sell {
    /// Whose.
    pub of: Subject,
    /// Tubers in store that are not promised.
    pub own: u64,
    /// How many of them the order plants.
    pub planted: u64,
    /// How many to keep, so that as many are sound at planting: with spares for what the winter takes, and
    /// no fewer than the grower keeps back.
    pub keep: u64,
    /// How many of those are spares for what the winter takes.
    pub spares: u64,
    /// Whether the winter is over, so that no spares are wanted.
    pub wintered: bool,
}

/// Years of growing on until there are enough tubers of a plant.
#[derive(Debug, Clone, PartialEq)]
pub struct Increase {
    /// Whose.
    pub of: Subject,
    /// Tubers to begin with.
    pub from: u64,
    /// Tubers with an eye a clump.
    pub a_clump: Divisions,
    /// The part of tubers that comes through a winter, 0 to 1.
    pub keeps: f64,
    /// The part of plants that stands until they are lifted, 0 to 1.
    pub stands: f64,
}

/// Tubers with an eye that a clump gives, and who says so.
#[derive(Debug, Clone, Copy, PartialEq)]
pub enum Divisions {
    /// Counted of this plant: so many of so many clumps.
    Own(u64, u64),
    /// Counted of all plants of the book.
    Book(u64, u64),
    /// Assumed.
    Assumed,
}

/// Tubers with an eye a clump where none were counted: the mean of one farm's tally, whose varieties went
/// from 2.29 to 13.8.
const DIVISIONS: f64 = 6.37;
/// With fewer clumps divided nothing is said by their count alone. Our choice, no source.
const LEAST_CLUMPS: u64 = 3;
/// Nobody plans for longer.
const MOST_YEARS: usize = 30;

impl Divisions {
    /// How many a clump.
    pub fn a_clump(self) -> f64 {
        match self {
            Divisions::Own(tubers, clumps) | Divisions::Book(tubers, clumps) => {
                tubers as f64 / clumps as f64
            }
            Divisions::Assumed => DIVISIONS,
        }
    }
}

impl Stock {
    /// How many of a plant to keep where the next order plants so many of its tubers, so that with a
    /// chance of `sure`, 0 to 1, that many are sound.
    pub fn to_keep(&self, of: &Subject, planted: u64, sure: f64, losses: &Losses) -> Sell {
        let lifting = self.last_lifting(of);
        let lifting = lifting.as_ref();
        let own = lifting.map_or(0, |one| one.in_store().saturating_sub(one.promised()));
        let wintered = lifting.is_some_and(|one| one.wintered().is_some());
        let kept = lifting.map_or(0, Lifting::kept);
        let enough = |keep: &u64| {
            let spares = keep - planted;
            wintered || losses.chance_of_at_most(of, spares, *keep) >= sure
        };
        // What is wanted beyond what there is cannot be kept.
        let keep = (planted..=own.max(planted)).find(enough);
        let keep = keep.unwrap_or(own).min(own);
        Sell {
            of: of.clone(),
            own,
            planted,
            keep: keep.max(kept).min(own),
            spares: keep.saturating_sub(planted),
            wintered,
        }
    }

    /// The tubers that a plant's clumps gave: its own count, else that of all plants, else assumed.
    pub fn divisions(&self, of: &Subject) -> Divisions {
        let count = |of: &Subject| {
            let liftings = self.liftings(of).into_iter().map(|one| one.all());
            // A lifting whose clumps were not divided yet says nothing.
            let divided = liftings.filter(|all| all.divided > 0 && all.clumps > 0);
            divided.fold((0, 0), |(tubers, clumps), all| {
                (tubers + all.divided, clumps + all.clumps)
            })
        };
        let (tubers, clumps) = count(of);
        if clumps >= LEAST_CLUMPS {
            return Divisions::Own(tubers, clumps);
        }
        let all = self.subjects().into_iter().map(|one| count(&one));
        let (tubers, clumps) = all.fold((0, 0), |sum, one| (sum.0 + one.0, sum.1 + one.1));
        match clumps >= LEAST_CLUMPS {
            true => Divisions::Book(tubers, clumps),
            false => Divisions::Assumed,
        }
    }

    /// How a plant grows on from what of it is in store and not promised, where of plants the part
    /// `stands` is there to be lifted and tubers keep as `losses` has it, or else as `keeps` says.
    pub fn increase(&self, of: &Subject, stands: f64, keeps: f64, losses: &Losses) -> Increase {
        let lifting = self.last_lifting(of);
        let from = lifting.map_or(0, |one| one.in_store().saturating_sub(one.promised()));
        Increase {
            of: of.clone(),
            from,
            a_clump: self.divisions(of),
            keeps: match losses.is_telling() {
                true => 1.0 - losses.share(of),
                false => keeps,
            },
            stands,
        }
    }
}

impl Sell {
    /// How many may be sold.
    pub fn sell(&self) -> u64 {
        self.own - self.keep
    }

    /// How many are wanted beyond what there is, spares apart.
    pub fn lacking(&self) -> u64 {
        self.planted.saturating_sub(self.own)
    }
}

impl Increase {
    /// Tubers in store after each autumn's lifting, until there are `wanted`: all are planted, and each
    /// clump is divided. `None` where there are never so many, or not within thirty years.
    pub fn years_to(&self, wanted: u64) -> Option<Vec<u64>> {
        let mut years = Vec::new();
        let mut tubers = self.from;
        while tubers < wanted {
            let clumps = tubers as f64 * self.keeps * self.stands;
            let next = (clumps * self.a_clump.a_clump()).floor();
            let grown = next > tubers as f64;
            if !grown || years.len() >= MOST_YEARS {
                return None;
            }
            tubers = next as u64;
            years.push(tubers);
        }
        Some(years)
    }
}

#[cfg(test)]
mod tests;
