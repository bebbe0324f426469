//! An entry as it is told to a person. What is typed and kept stands in [`read`](super::read).

use super::entry::{Entry, Event, What};
use crate::account::text::counted;
use crate::variety::Text;

impl Entry {
    /// The entry with its day, who made it and where: `2026-04-18, Ann, byre: 31 sold at 4.50 to the market`.
    pub fn told(&self) -> String {
        let beside = [self.by.as_ref(), self.place.as_ref()];
        let beside: String = beside
            .iter()
            .flatten()
            .map(|one| format!(", {one}"))
            .collect();
        format!("{}{beside}: {}", self.date, self.what_told())
    }

    /// What it tells, its day apart.
    pub fn what_told(&self) -> String {
        match &self.what {
            What::Happened(event) => event.told().join("; "),
            What::Withdrawn => "withdrawn".to_string(),
        }
    }
}

impl Event {
    /// Each thing that happened.
    fn told(&self) -> Vec<String> {
        let mut told = Vec::new();
        let mut say = |one: Option<String>| told.extend(one);
        let number = |count: Option<u32>, what: &str| count.map(|count| format!("{count} {what}"));
        let to = |beside: Option<u32>| match (&self.to, beside) {
            (Some(to), Some(_)) => format!(" to {to}"),
            _ => String::new(),
        };
        let why = self
            .why
            .as_ref()
            .map_or(String::new(), |why| format!(" ({why})"));
        let price = self.price.filter(|_| self.sold.is_some());
        let price = price.map_or(String::new(), |price| format!(" at {price} each"));
        let clumps = |count: u32| format!("{} lifted", counted(count as usize, "clump"));
        say(self.lifted.map(clumps));
        say(number(self.divided, "with an eye, divided"));
        say(number(self.cuttings, "cuttings rooted"));
        say(number(self.stored, "put in store"));
        say(number(self.lost, &format!("lost{why}")));
        say(number(self.potted, "potted up"));
        say(number(self.given, &format!("given{}", to(self.given))));
        say(number(self.sold, &format!("sold{price}{}", to(self.sold))));
        say(number(self.planted, "planted"));
        say(number(
            self.promised,
            &format!("promised{}", to(self.promised)),
        ));
        say(number(self.sound, "sound in store"));
        say(number(self.keep, "to be kept back"));
        let asked = self.price.filter(|_| self.sold.is_none());
        say(asked.map(|price| format!("{price} asked for each")));
        say(self
            .note
            .as_ref()
            .map(|note: &Text| format!("{:?}", note.as_str())));
        told
    }
}
