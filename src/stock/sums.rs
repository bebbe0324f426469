//! The stock book as a whole: whose tubers there are, what of them may be sold, and what is on hand for
//! the grower's own beds.

use std::collections::BTreeMap;

use jiff::civil::Date;

use super::entry::Entry;
use super::lifting::{Fault, Lifting};
use super::losses::Losses;
use crate::book::{AddError, Book, Misfit};
use crate::measure::Money;
use crate::trial::{Subject, Trial};
use crate::variety::{StoreCount, Text, Varieties, Variety, folded};

/// Every entry of the stock book, and what they add up to.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Stock {
    book: Book<Entry>,
}

/// What of a plant may be sold.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct ForSale {
    /// How many: of all that is here, what is neither promised nor kept back.
    pub count: u64,
    /// What is asked for each, else what the last ones sold brought; `None` where no price was noted.
    pub price: Option<Money>,
    /// How many are promised.
    pub promised: u64,
    /// How many are kept back for the grower's own beds.
    pub kept: u64,
    /// Tubers, and plants in pots, that there are.
    pub here: u64,
    /// The day on which they were counted.
    pub counted: Option<Date>,
}

impl ForSale {
    /// `4 promised`, `8 kept back`: what of it is no more to be had.
    pub fn bound(&self) -> Vec<String> {
        let bound = [(self.promised, "promised"), (self.kept, "kept back")];
        let bound = bound.into_iter().filter(|(count, _)| *count > 0);
        bound.map(|(count, how)| format!("{count} {how}")).collect()
    }

    /// As many tags as may be sold.
    pub fn copies(&self) -> u32 {
        u32::try_from(self.count).unwrap_or(u32::MAX)
    }

    /// Why none may be sold, as a sentence's end; `None` where some may.
    pub fn why_none(&self) -> Option<String> {
        if self.count > 0 {
            return None;
        }
        let bound = self.bound();
        Some(match (self.here, bound.is_empty()) {
            (0, true) => "none is here".to_string(),
            (0, false) => format!("none is here, and {}", bound.join(" and ")),
            (here, _) => format!("none is free to sell: {here} here, {}", bound.join(" and ")),
        })
    }
}

/// What the book has of a variety of the list.
#[derive(Debug, Clone, PartialEq)]
pub struct KnownStore {
    /// The variety, as the list names it.
    pub variety: Text,
    /// Tubers in store that are not promised; `None` where those on hand are the list's.
    pub on_hand: Option<u32>,
    /// When they were counted, and how many keep.
    pub store: StoreCount,
}

impl Stock {
    pub(super) fn of(book: Book<Entry>) -> Stock {
        Stock { book }
    }

    /// The book of these entries beside a row, and what does not fit together: as [`Book::read`] tells
    /// it, entries of seedlings that are not there, and entries that tell of more than there is.
    pub fn read(entries: Vec<Entry>, trial: &Trial) -> (Stock, Vec<Misfit>) {
        let (book, mut told) = Book::read(entries);
        let stock = Stock { book };
        for subject in stock.subjects() {
            if trial.seedling_is_unknown(&subject) {
                let first = stock.book.standing_of(&subject).next();
                told.extend(first.map(|entry| {
                    let clause =
                        format_args!("found the seedling {subject}, expected one of trial.ron");
                    Misfit::of(entry.id, clause)
                }));
            }
            let faults = stock.faults(&subject).into_iter();
            told.extend(faults.map(|fault| {
                let told = fault.told;
                Misfit::of(fault.id, format_args!("{told}; it takes those"))
            }));
        }
        told.sort_by_key(Misfit::order);
        (stock, told)
    }

    /// The book itself.
    pub fn book(&self) -> &Book<Entry> {
        &self.book
    }

    /// Adds an entry; whether it makes sense is for [`Stock::check`] to say before.
    ///
    /// # Errors
    /// As [`Book::add`].
    pub fn add(&mut self, entry: Entry) -> Result<(), AddError<Subject>> {
        self.book.add(entry)
    }

    /// Everybody with an entry that stands: seedlings by number, then varieties by name.
    pub fn subjects(&self) -> Vec<Subject> {
        let mut all: Vec<Subject> = self.book.subjects().cloned().collect();
        all.sort();
        all
    }

    /// A plant's tubers by year of lifting, the last year first.
    pub fn liftings(&self, subject: &Subject) -> Vec<Lifting> {
        self.added_up(subject).0
    }

    /// The tubers of a plant that were lifted last.
    pub fn last_lifting(&self, subject: &Subject) -> Option<Lifting> {
        self.liftings(subject).into_iter().next()
    }

    /// Entries of a plant that tell of more than there was.
    pub fn faults(&self, subject: &Subject) -> Vec<Fault> {
        self.added_up(subject).1
    }

    fn added_up(&self, subject: &Subject) -> (Vec<Lifting>, Vec<Fault>) {
        let mut years: BTreeMap<i16, Lifting> = BTreeMap::new();
        let mut faults = Vec::new();
        for entry in self.book.standing_of(subject) {
            let year = entry.lifting();
            let lifting = years.entry(year).or_insert_with(|| Lifting::of(year));
            faults.extend(lifting.take_up(entry));
        }
        (years.into_values().rev().collect(), faults)
    }

    /// What of a plant may be sold, of its last lifting; `None` of a plant that the book does not have.
    pub fn for_sale(&self, subject: &Subject) -> Option<ForSale> {
        let lifting = self.last_lifting(subject)?;
        Some(ForSale {
            count: lifting.free(),
            price: lifting.price,
            promised: lifting.promised(),
            kept: lifting.kept(),
            here: lifting.here(),
            counted: lifting.counted,
        })
    }

    /// What the winters took of every plant's tubers.
    pub fn losses(&self) -> Losses {
        let own = |subject: Subject| {
            let shares = self.liftings(&subject).into_iter();
            let wintered = shares.filter_map(|lifting| lifting.wintered()).sum();
            (subject, wintered)
        };
        Losses::of(self.subjects().into_iter().map(own).collect())
    }

    /// What the book has of the varieties of a list: tubers on hand with the day on which they were counted,
    /// and how many keep. For the season of `planted`, where that is known, only what was lifted in the year
    /// before it is on hand.
    pub fn known(&self, list: &Varieties, planted: Option<i16>) -> Vec<KnownStore> {
        let losses = self.losses();
        let known = |subject: Subject| {
            let lifting = self.last_lifting(&subject)?;
            let variety = list.list()[list.find(&subject.to_string())?].name.clone();
            let keeps = losses.is_telling().then(|| 1.0 - losses.share(&subject));
            let is_next = planted.is_none_or(|year| lifting.year >= year.saturating_sub(1));
            let counted = lifting.counted.filter(|_| is_next);
            Some(KnownStore {
                variety,
                on_hand: counted.map(|_| own(&lifting)),
                store: StoreCount {
                    counted,
                    keeps: keeps.map(|share| match counted {
                        Some(_) => still_to_keep(&lifting, share),
                        None => share,
                    }),
                },
            })
        };
        self.subjects().into_iter().filter_map(known).collect()
    }

    /// What of the book goes by a variety's name, case and accents apart, as a clause. Another name does
    /// not reach it: entries are never written again.
    pub fn naming(&self, name: &str) -> Option<String> {
        let wanted = folded(name);
        let is_it = |entry: &&Entry| match &entry.of {
            Subject::Variety(name) => folded(name) == wanted,
            Subject::Seedling(_) => false,
        };
        match self.book.entries().iter().filter(is_it).count() {
            0 => None,
            1 => Some("one entry of the stock book".to_string()),
            entries => Some(format!("{entries} entries of the stock book")),
        }
    }

    /// The list with that in its records: to choose and order by, never to be saved.
    pub fn informed(&self, list: &Varieties, planted: Option<i16>) -> Varieties {
        let mut informed = list.clone();
        for known in self.known(list, planted) {
            let Some(at) = informed.find(&known.variety) else {
                continue;
            };
            let record = known.in_record(informed.list()[at].clone());
            // OK because the name stays.
            let _ = informed.replace(at, record);
        }
        informed
    }
}

impl KnownStore {
    /// The record of the variety with this in it.
    pub fn in_record(&self, record: Variety) -> Variety {
        Variety {
            on_hand: self.on_hand.or(record.on_hand),
            store: Some(self.store),
            ..record
        }
    }
}

/// Tubers in store that are the grower's to plant: those that are not promised.
fn own(lifting: &Lifting) -> u32 {
    let tubers = lifting.in_store().saturating_sub(lifting.promised());
    u32::try_from(tubers).unwrap_or(u32::MAX)
}

/// The part of what is in store that will be sound at planting, where such a part keeps of all that
/// came into the winter: what was lost already is not lost again, and after the winter no more is.
fn still_to_keep(lifting: &Lifting, share: f64) -> f64 {
    if lifting.wintered().is_some() {
        return 1.0;
    }
    let all = lifting.all();
    let (there, lost) = (all.tubers() as f64, all.lost as f64);
    match there > 0.0 {
        true => (share * (there + lost) / there).min(1.0),
        false => share,
    }
}

#[cfg(test)]
pub(in crate::stock) mod tests;
