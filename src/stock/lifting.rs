//! One plant's tubers of one year of lifting, added up entry by entry. The module's head says what each
//! number means.

use jiff::civil::{Date, date};

use super::entry::{Entry, Event};
use super::hoard::{Hoard, Pile, Places, Taken, sum, taken};
use crate::account::text::counted;
use crate::measure::{Money, same_id};
use crate::trial::statistics::share::Share;
use crate::variety::Text;

/// Tubers of one plant that were lifted in one year, after all entries that stand.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Lifting {
    /// The year.
    pub year: i16,
    /// What lies at each place; what lies at none comes first.
    pub places: Places,
    /// What is promised and still here, each name once.
    pub promises: Vec<Promise>,
    /// How many are kept back for the grower's own beds, where that was said.
    pub keep: Option<u64>,
    /// What is asked for each, else what the last ones sold brought each.
    pub price: Option<Money>,
    /// The day on which all in store were last counted; else that of the last entry.
    pub counted: Option<Date>,
    /// Whether that is a count of the store.
    pub is_count: bool,
    /// Why tubers were lost, with how many, in the order of entry.
    pub reasons: Vec<(Text, u64)>,
    /// Tubers, not pots, that were lost.
    lost_in_store: u64,
    /// Tubers that left the store in the new year, other than as lost.
    left_in_new_year: u64,
    /// Whether the store was counted, or some were lost or taken, in the new year.
    is_seen_in_new_year: bool,
    /// Whether the store was counted in the new year.
    is_counted_in_new_year: bool,
    /// Whether what is asked was said.
    asked: bool,
}

/// Tubers promised to somebody.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Promise {
    /// To whom, where that was noted.
    pub to: Option<Text>,
    /// How many are still to be handed over.
    pub count: u64,
}

/// An entry that tells of more than there is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Fault {
    /// Its number.
    pub id: u32,
    /// What was found and what was expected.
    pub told: String,
}

impl Lifting {
    pub(super) fn of(year: i16) -> Lifting {
        Lifting {
            year,
            places: Places::new(),
            promises: Vec::new(),
            keep: None,
            price: None,
            counted: None,
            is_count: false,
            reasons: Vec::new(),
            lost_in_store: 0,
            left_in_new_year: 0,
            is_seen_in_new_year: false,
            is_counted_in_new_year: false,
            asked: false,
        }
    }

    /// All places together.
    pub fn all(&self) -> Hoard {
        let mut all = Hoard::default();
        self.places.values().for_each(|one| all.add(one));
        all
    }

    /// Tubers, in store or divided.
    pub fn in_store(&self) -> u64 {
        self.all().tubers()
    }

    /// Tubers and plants in pots.
    pub fn here(&self) -> u64 {
        self.all().here()
    }

    /// How many of these are promised.
    pub fn promised(&self) -> u64 {
        self.promises.iter().map(|one| one.count).sum()
    }

    /// How many are kept back of what is here.
    pub fn kept(&self) -> u64 {
        self.keep.unwrap_or(0)
    }

    /// How many may be sold: what is here and neither promised nor kept back.
    pub fn free(&self) -> u64 {
        let bound = self.promised() + self.kept();
        self.here().saturating_sub(bound)
    }

    /// The tubers that the winter was seen to take, of those that it was seen to take or leave; `None`
    /// where it is not over yet.
    pub fn wintered(&self) -> Option<Share> {
        let left = self.in_store();
        let over = self.is_counted_in_new_year || left == 0 && self.is_seen_in_new_year;
        let narrow = |count: u64| u32::try_from(count).unwrap_or(u32::MAX / 2);
        let (lost, stayed) = (
            narrow(self.lost_in_store),
            narrow(self.left_in_new_year + left),
        );
        let share = Share::new(lost, lost.saturating_add(stayed))?;
        (over && share.of() > 0).then_some(share)
    }

    /// Takes an entry up; what it tells of that is not there is a fault each.
    pub(super) fn take_up(&mut self, entry: &Entry) -> Vec<Fault> {
        let Some(event) = entry.event() else {
            return Vec::new();
        };
        let mut taking = Taking {
            lifting: self,
            entry,
            place: entry.place.as_ref(),
            is_new_year: is_new_year(entry),
            faults: Vec::new(),
        };
        taking.add(event);
        taking.go(event);
        taking.bind(event);
        let faults = taking.faults;
        if event.sound.is_some() || !self.is_count {
            self.counted = Some(entry.date);
            self.is_count = event.sound.is_some();
        }
        faults
    }
}

/// Whether an entry is of the year after its lifting.
fn is_new_year(entry: &Entry) -> bool {
    entry.date >= date(entry.lifting().saturating_add(1), 1, 1)
}

/// One entry being taken up.
struct Taking<'a> {
    lifting: &'a mut Lifting,
    entry: &'a Entry,
    place: Option<&'a Text>,
    is_new_year: bool,
    faults: Vec<Fault>,
}

impl Taking<'_> {
    fn hoard(&mut self) -> &mut Hoard {
        let place = self.place.cloned();
        self.lifting.places.entry(place).or_default()
    }

    /// What came into being.
    fn add(&mut self, event: &Event) {
        if let Some(clumps) = event.lifted {
            self.hoard().clumps += u64::from(clumps);
        }
        if let Some(tubers) = event.divided {
            let hoard = self.hoard();
            hoard.divided += u64::from(tubers);
            hoard.bench += u64::from(tubers);
        }
        if let Some(cuttings) = event.cuttings {
            self.hoard().pots += u64::from(cuttings);
        }
        if let Some(tubers) = event.stored {
            let mut left = u64::from(tubers);
            for place in [self.place.cloned(), None] {
                if let Some(hoard) = self.lifting.places.get_mut(&place) {
                    let moved = hoard.bench.min(left);
                    hoard.bench -= moved;
                    left -= moved;
                }
            }
            self.hoard().store += u64::from(tubers);
        }
    }

    /// What went.
    fn go(&mut self, event: &Event) {
        for one in self.took("lost", event.lost, &Pile::GOING) {
            self.lose(one);
        }
        if let (Some(why), Some(lost)) = (&event.why, event.lost) {
            self.lifting.reasons.push((why.clone(), lost.into()));
        }
        for one in self.took("potted", event.potted, &[Pile::Tubers]) {
            self.leave(&one);
            self.at(&one).pots += one.count;
        }
        for one in self.took("given", event.given, &Pile::GOING) {
            self.leave(&one);
            self.at(&one).given += one.count;
        }
        let price = event.price.unwrap_or_default();
        for one in self.took("sold", event.sold, &Pile::GOING) {
            self.leave(&one);
            let takings = price.in_hundredths().saturating_mul(one.count);
            let hoard = self.at(&one);
            hoard.sold += one.count;
            hoard.takings = sum(hoard.takings, Money::hundredths(takings));
        }
        for one in self.took("planted", event.planted, &Pile::PLANTED) {
            self.leave(&one);
            self.at(&one).planted += one.count;
        }
    }

    /// Promises, the count of the store, what is kept back and asked.
    fn bind(&mut self, event: &Event) {
        let handed = event.sold.or(event.given);
        if let (Some(count), Some(to)) = (handed, &event.to) {
            let kept = |one: &&mut Promise| one.to.as_ref().is_some_and(|own| same_id(own, to));
            if let Some(promise) = self.lifting.promises.iter_mut().find(kept) {
                promise.count = promise.count.saturating_sub(count.into());
            }
        }
        if let Some(count) = event.promised {
            self.promise(count.into(), event.to.as_ref());
        }
        self.lifting.promises.retain(|one| one.count > 0);
        if let Some(sound) = event.sound {
            self.count(sound.into());
        }
        if let Some(keep) = event.keep {
            self.lifting.keep = Some(keep.into());
        }
        match (event.price, event.sold) {
            (Some(price), None) => {
                self.lifting.price = Some(price);
                self.lifting.asked = true;
            }
            (Some(price), Some(_)) if !self.lifting.asked => self.lifting.price = Some(price),
            _ => {}
        }
    }

    fn promise(&mut self, count: u64, to: Option<&Text>) {
        let free = self.lifting.here().saturating_sub(self.lifting.promised());
        if count > free {
            self.fault("promised", count, free, "that are here and not promised");
        }
        let to_whom = |one: &&mut Promise| match (&one.to, to) {
            (Some(own), Some(to)) => same_id(own, to),
            (own, to) => own.is_none() && to.is_none(),
        };
        let promises = &mut self.lifting.promises;
        match promises.iter_mut().find(to_whom) {
            Some(promise) => promise.count += count.min(free),
            None => promises.push(Promise {
                to: to.cloned(),
                count: count.min(free),
            }),
        }
    }

    /// All tubers of the place were counted, or of all places: what is missing was lost.
    fn count(&mut self, sound: u64) {
        let place = self.place;
        let own = self.lifting.places.iter();
        let own = own.filter(|(at, _)| place.is_none() || at.as_ref() == place);
        let there: u64 = own.map(|(_, hoard)| hoard.tubers()).sum();
        if sound > there {
            self.fault("sound", sound, there, "that are in store");
        }
        let missing = there.saturating_sub(sound);
        for one in taken(&mut self.lifting.places, place, &[Pile::Tubers], missing) {
            self.lose(one);
        }
        self.lifting.is_seen_in_new_year |= self.is_new_year;
        self.lifting.is_counted_in_new_year |= self.is_new_year;
    }

    /// Takes so many from where they lie; a fault where there are fewer.
    fn took(&mut self, word: &str, count: Option<u32>, piles: &[Pile]) -> Vec<Taken> {
        let Some(count) = count.map(u64::from).filter(|count| *count > 0) else {
            return Vec::new();
        };
        let all = taken(&mut self.lifting.places, self.place, piles, count);
        let there: u64 = all.iter().map(|one| one.count).sum();
        if there < count {
            let of = match piles {
                [Pile::Tubers] => "that are in store",
                _ => "that are here",
            };
            self.fault(word, count, there, of);
        }
        all
    }

    fn lose(&mut self, one: Taken) {
        self.at(&one).lost += one.count;
        if one.pile == Pile::Tubers {
            self.lifting.lost_in_store += one.count;
            self.lifting.is_seen_in_new_year |= self.is_new_year;
        }
    }

    fn leave(&mut self, one: &Taken) {
        if one.pile == Pile::Tubers && self.is_new_year {
            self.lifting.left_in_new_year += one.count;
            self.lifting.is_seen_in_new_year = true;
        }
    }

    fn at(&mut self, one: &Taken) -> &mut Hoard {
        let place = one.place.clone();
        self.lifting.places.entry(place).or_default()
    }

    fn fault(&mut self, word: &str, found: u64, there: u64, of: &str) {
        let (year, of_plant) = (self.lifting.year, &self.entry.of);
        let place = self.place.map_or(String::new(), |at| format!(" at {at}"));
        let there = counted(usize::try_from(there).unwrap_or(usize::MAX), "tuber");
        self.faults.push(Fault {
            id: self.entry.id,
            told: format!(
                "{word}: found {found} of {of_plant}, lifted in {year}, expected at most the {there} {of}{place}"
            ),
        });
    }
}
