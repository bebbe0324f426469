//! What speaks against an entry before it is added.

use jiff::civil::Date;

use super::entry::{Entry, Event};
use super::lifting::Lifting;
use super::sums::Stock;
use crate::account::text::counted;
use crate::book::Book;
use crate::book::Entry as _;
use crate::form::traits::list_or;
use crate::trial::{Doubt, Trial};
use crate::variety::Varieties;

/// What an entry is checked against.
#[derive(Debug, Clone, Copy)]
pub struct StockContext<'a> {
    /// The row, whose seedlings may be noted.
    pub trial: &'a Trial,
    /// The grower's list.
    pub list: &'a Varieties,
    /// The day on which it is entered.
    pub today: Date,
}

/// Clumps that give more tubers are asked after: one farm's tally by variety ends at 13.8, and twice that is
/// more likely a slip of the pencil. Our choice.
const USUAL_DIVISIONS: u64 = 28;

impl Stock {
    /// What speaks against the entry; nothing where it may be saved as it is.
    pub fn check(&self, entry: &Entry, grounds: &StockContext<'_>) -> Vec<Doubt> {
        let mut told = self.book().refusals(entry);
        let of = &entry.of;
        told.extend({ grounds.trial }.against(of, entry.date, grounds.list, grounds.today));
        told.extend(wrong_year(entry));
        let mut doubts: Vec<Doubt> = told.into_iter().map(|told| doubt(true, told)).collect();
        if !doubts.is_empty() {
            return doubts;
        }
        let Some(after) = self.with(entry) else {
            return doubts;
        };
        let before = self.faults(of);
        let faults = { after.faults(of).into_iter() }.filter(|fault| !before.contains(fault));
        doubts.extend(faults.map(|fault| match fault.id == entry.id {
            true => doubt(true, fault.told),
            false => doubt(
                true,
                format!("with this, entry {}: {}", fault.id, fault.told),
            ),
        }));
        if let Some(event) = entry.event().filter(|_| doubts.is_empty()) {
            doubts.extend(self.same_note(entry));
            let odd = self.odd(entry, event, &after).into_iter();
            doubts.extend(odd.map(|told| doubt(false, told)));
        }
        doubts
    }

    /// The book of the entry's plant alone with the entry in it; `None` where it cannot be added.
    fn with(&self, entry: &Entry) -> Option<Stock> {
        let own = self.book().book_of(&entry.of).into_iter();
        let own = own.map(|(entry, _)| entry.clone()).collect();
        let mut stock = Stock::of(Book::read(own).0);
        stock.add(entry.clone()).ok()?;
        Some(stock)
    }

    fn same_note(&self, entry: &Entry) -> Option<Doubt> {
        let replaced = self.book().replaced(entry).map(|one| one.id);
        let mut own = self.book().standing_of(&entry.of);
        let same = own.find(|other| {
            let alike = Entry {
                id: other.id,
                corrects: other.corrects,
                ..entry.clone()
            };
            Some(other.id) != replaced && other.says_the_same(&alike)
        })?;
        let (id, date) = (same.id, same.date);
        Some(doubt(
            false,
            format!("found the same note as entry {id} of {date}, expected it once"),
        ))
    }

    /// What is strange and may be so all the same.
    fn odd(&self, entry: &Entry, event: &Event, after: &Stock) -> Vec<String> {
        let year = entry.lifting();
        let of_year = |stock: &Stock| {
            let mut liftings = stock.liftings(&entry.of).into_iter();
            liftings.find(|one| one.year == year)
        };
        let mut told: Vec<String> = which_place(entry, event, of_year(self))
            .into_iter()
            .collect();
        let Some(lifting) = of_year(after) else {
            return told;
        };
        let all = lifting.all();
        if event.divided.is_some() && all.clumps > 0 && all.divided > USUAL_DIVISIONS * all.clumps {
            let (tubers, clumps) = (all.divided, all.clumps);
            told.push(format!(
                "divided: found {tubers} tubers of {clumps} clumps, expected up to {USUAL_DIVISIONS} of most clumps"
            ));
        }
        let (here, promised, kept) = (all.here(), lifting.promised(), lifting.kept());
        if promised > here && event.promised.is_none() {
            told.push(format!(
                "found {here} left, expected at least the {promised} that are promised"
            ));
        } else if let Some(keep) = event.keep.filter(|_| promised + kept > here) {
            let left = here - promised;
            told.push(format!(
                "keep: found {keep}, expected at most the {left} that are here and not promised"
            ));
        }
        told
    }
}

fn doubt(refuses: bool, told: String) -> Doubt {
    Doubt { refuses, told }
}

/// Tubers are in store from one autumn to the next.
fn wrong_year(entry: &Entry) -> Option<String> {
    let (year, own) = (entry.year?, entry.date.year());
    let fits = year == own || year == own.saturating_sub(1);
    (!fits).then(|| {
        format!(
            "year: found {year}, expected {} or {own}, the year in which tubers were lifted that are here on {}",
            own.saturating_sub(1),
            entry.date
        )
    })
}

/// What was taken without a place, where it may have come from several.
fn which_place(entry: &Entry, event: &Event, before: Option<Lifting>) -> Option<String> {
    let taken = [
        event.lost,
        event.potted,
        event.given,
        event.sold,
        event.planted,
    ];
    let taken: u64 = taken.into_iter().flatten().map(u64::from).sum();
    let lifting = before.filter(|_| entry.place.is_none() && taken > 0)?;
    let nowhere = lifting.places.get(&None).map_or(0, |own| own.here());
    let named = lifting.places.iter().filter_map(|(place, own)| {
        let place = place.as_ref().filter(|_| own.here() > 0)?;
        let here = usize::try_from(own.here()).unwrap_or(usize::MAX);
        Some(format!("{place} ({})", counted(here, "tuber")))
    });
    let named: Vec<String> = named.collect();
    let names: Vec<&str> = named.iter().map(String::as_str).collect();
    (taken > nowhere && named.len() > 1).then(|| {
        format!(
            "place: found none, expected {}: without one they are taken in that order",
            list_or(&names)
        )
    })
}

#[cfg(test)]
mod tests;
