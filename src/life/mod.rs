//! The life of a plant on one page: what was bought, planted, cut, lifted, kept, lost and sold of it, year by
//! year and day by day, put together from the order, the row and the stock book.
//!
//! A year is that of the season: what is bought and planted in its spring, cut in its summer, lifted in its
//! autumn; and what became of those tubers until the next spring counts for the year of their lifting.

mod account;

use std::collections::BTreeMap;

use jiff::civil::Date;

use crate::form::Traits;
use crate::measure::Money;
use crate::order::{Aim, Kept, OfVariety};
use crate::stock::Stock;
use crate::trial::{Subject, Trial};
use crate::variety::Variety;

/// What the order that was settled last does with one plant.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct Ordered {
    /// The year of its season.
    pub year: i16,
    /// The day on which it was settled.
    pub on: Date,
    /// What it buys and plants.
    pub of: OfVariety,
}

impl Ordered {
    /// What the orders that are kept do with a variety: as sure as asked, else on average.
    pub fn of(kept: &[Kept], year: i16, variety: &Variety) -> Option<Ordered> {
        let aims = [Aim::Surely, Aim::OnAverage].into_iter();
        let mut last = aims.filter_map(|aim| kept.iter().find(|kept| kept.aim == aim));
        let kept = last.next()?;
        Some(Ordered {
            year,
            on: kept.on,
            of: kept.of_variety(variety)?,
        })
    }
}

/// Where a life is told.
#[derive(Debug, Clone, Copy)]
pub struct LifeSources<'a> {
    /// The row, with what was cut of varieties in beds.
    pub trial: &'a Trial,
    /// The stock book.
    pub stock: &'a Stock,
    /// The traits by which entries of the row are told.
    pub traits: &'a Traits,
}

/// All of one plant.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Life {
    ordered: Option<Ordered>,
    /// The first year first.
    years: BTreeMap<i16, Year>,
    /// What was noted, the first day first.
    days: Vec<Noted>,
}

/// One year of it; of what nothing was noted nothing is told.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
struct Year {
    bought: Option<u64>,
    /// By the stock book, else by the order.
    planted: Option<u64>,
    /// Stems.
    cut: Option<u64>,
    lifted: Option<Lifted>,
}

/// What became of the tubers of a year.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
struct Lifted {
    clumps: u64,
    divided: u64,
    lost: u64,
    given: u64,
    sold: u64,
    takings: Money,
    here: u64,
}

/// What was noted on a day.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Noted {
    on: Date,
    /// In which book: the row's or the stock's.
    book: &'static str,
    told: String,
}

impl LifeSources<'_> {
    /// The life of a plant, and what the order that was settled last does with it.
    pub fn life(&self, of: &Subject, ordered: Option<Ordered>) -> Life {
        let mut life = Life {
            ordered,
            ..Life::default()
        };
        if let Some(ordered) = ordered {
            let year = life.years.entry(ordered.year).or_default();
            year.bought = ordered.of.tubers.filter(|tubers| *tubers > 0);
            year.planted = Some(ordered.of.plants);
        }
        self.take_row(of, &mut life);
        self.take_stock(of, &mut life);
        // OK to sort by the day alone: of one day the row comes first, each book in its own order.
        life.days.sort_by_key(|noted| noted.on);
        life
    }

    /// What was seen and cut.
    fn take_row(&self, of: &Subject, life: &mut Life) {
        for entry in self.trial.of_subject(of) {
            let cut = entry.observation().and_then(|seen| seen.cut);
            if let Some(stems) = cut {
                let own = &mut life.years.entry(entry.date.year()).or_default().cut;
                *own = Some(own.unwrap_or(0) + u64::from(stems));
            }
            life.days.push(Noted {
                on: entry.date,
                book: "row",
                told: entry.what_told(self.traits),
            });
        }
    }

    /// What was lifted, and what became of it.
    fn take_stock(&self, of: &Subject, life: &mut Life) {
        for lifting in self.stock.liftings(of) {
            let all = lifting.all();
            life.years.entry(lifting.year).or_default().lifted = Some(Lifted {
                clumps: all.clumps,
                divided: all.divided,
                lost: all.lost,
                given: all.given,
                sold: all.sold,
                takings: all.takings,
                here: all.here(),
            });
        }
        let mut planted: BTreeMap<i16, u64> = BTreeMap::new();
        for entry in self.stock.book().standing_of(of) {
            if let Some(plants) = entry.event().and_then(|event| event.planted) {
                *planted.entry(entry.date.year()).or_default() += u64::from(plants);
            }
            let place = entry.place.as_ref();
            let place = place.map_or(String::new(), |place| format!(" ({place})"));
            life.days.push(Noted {
                on: entry.date,
                book: "stock",
                told: entry.what_told() + &place,
            });
        }
        // What was noted goes before what was ordered.
        for (year, plants) in planted {
            life.years.entry(year).or_default().planted = Some(plants);
        }
    }
}

#[cfg(test)]
mod tests;
