//! Which entries of a book are one plant's, and where they begin.

use std::collections::HashMap;

use crate::book::MOST_ENTRIES;
use crate::trial::{Entry, Subject, What};

/// One entry: its number, and the byte of the book that its line begins at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Place {
    pub(super) id: u32,
    pub(super) start: u64,
}

/// What of an entry says where it belongs.
#[derive(Debug, Clone)]
pub(super) struct Mention {
    pub(super) place: Place,
    pub(super) corrects: Option<u32>,
    pub(super) of: Subject,
    withdraws: bool,
}

/// The entries of every plant of a book, by number.
#[derive(Debug, Default)]
pub(super) struct Places {
    by_plant: HashMap<Subject, Vec<Place>>,
    pub(super) entries: u32,
    /// The greatest number.
    pub(super) last: u32,
}

/// Something in a book that only the whole of it can tell, and has to tell each time: a number twice,
/// out of order or past the last; a withdrawal or a correction of nothing of its own plant.
#[derive(Debug, PartialEq, Eq)]
pub(super) struct OnlyWhole;

impl Mention {
    pub(super) fn of(entry: &Entry, start: u64) -> Mention {
        Mention {
            place: Place {
                id: entry.id,
                start,
            },
            corrects: entry.corrects,
            of: entry.of.clone(),
            withdraws: entry.what == What::Withdrawn,
        }
    }

    /// Whether it may stand behind an entry with the number `last`, wherever what it changes is.
    pub(super) fn follows(&self, last: u32) -> Result<(), OnlyWhole> {
        let counted = last < self.place.id && self.place.id <= MOST_ENTRIES;
        let names = self.corrects.is_some() || !self.withdraws;
        (counted && names).then_some(()).ok_or(OnlyWhole)
    }
}

impl Places {
    /// Takes in the next entry of the book.
    pub(super) fn add(&mut self, mention: Mention) -> Result<(), OnlyWhole> {
        mention.follows(self.last)?;
        let own = match self.by_plant.get_mut(&mention.of) {
            Some(own) => own,
            None => self.by_plant.entry(mention.of).or_default(),
        };
        if mention.corrects.is_some_and(|id| find(own, id).is_none()) {
            return Err(OnlyWhole);
        }
        own.push(mention.place);
        self.entries += 1;
        self.last = mention.place.id;
        Ok(())
    }

    /// Every plant with its entries, in the order of the plants.
    pub(super) fn plants(&self) -> Vec<(&Subject, &[Place])> {
        let plants = self.by_plant.iter();
        let mut plants: Vec<_> = plants.map(|(of, own)| (of, &own[..])).collect();
        plants.sort_unstable_by_key(|(of, _)| *of);
        plants
    }
}

/// The entry with this number among one plant's.
pub(super) fn find(own: &[Place], id: u32) -> Option<Place> {
    let at = own.binary_search_by_key(&id, |place| place.id).ok()?;
    Some(own[at])
}
