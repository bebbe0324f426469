//! What speaks against an entry before it is added.

use std::fmt;

use jiff::civil::Date;

use super::Trial;
use crate::book::Doubt;
use crate::colour::Vocabulary;
use crate::form::space::Block;
use crate::form::{Answers, RuleSet};
use crate::measure::SizeUnits;
use crate::trial::entry::{Entry, Observation, What};
use crate::trial::evidence::in_bloom;
use crate::trial::seedling::{Sown, Subject};
use crate::variety::Varieties;

/// What an entry is checked against.
#[derive(Debug, Clone, Copy)]
pub struct EntryContext<'a> {
    /// The rules whose traits are answered.
    pub rules: &'a RuleSet,
    /// The grower's list.
    pub list: &'a Varieties,
    /// The colour words.
    pub words: &'a Vocabulary,
    /// The units that lengths are told in.
    pub units: SizeUnits,
    /// The day on which it is entered.
    pub today: Date,
    /// Whether the grower named the entry's day; else it is today because nobody did.
    pub day_is_told: bool,
    /// When blooms are to be had, where that is known.
    pub bloom_days: Option<BloomDays>,
}

/// The days between which the garden blooms; of every year the same.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub struct BloomDays {
    /// The first day on which anything planted can be in bloom.
    pub first: Date,
    /// The day by which the first frost has come in nine years of ten.
    pub frost: Date,
}

impl Trial {
    /// What speaks against the entry; nothing where it may be saved as it is.
    pub fn check(&self, entry: &Entry, grounds: &EntryContext<'_>) -> Vec<Doubt> {
        let mut doubts = Vec::new();
        let mut doubt = |refuses, told: String| doubts.push(Doubt { refuses, told });
        for told in self.book().refusals(entry) {
            doubt(true, told);
        }
        for told in self.against(&entry.of, entry.date, grounds.list, grounds.today) {
            doubt(true, told);
        }
        if let What::Observed(seen) = &entry.what {
            self.check_day(entry, seen, grounds, &mut doubt);
            self.check_bloom(seen, grounds, &mut doubt);
            self.check_figures(entry, seen, grounds, &mut doubt);
        }
        doubts
    }

    /// Why nothing can be noted of a subject on a day: it is yet to come, or the subject is not there or
    /// was not sown yet. A sentence each.
    pub fn against(&self, of: &Subject, date: Date, list: &Varieties, today: Date) -> Vec<String> {
        let mut told = Vec::new();
        if date > today {
            told.push(format!(
                "date: found {date}, expected a day up to today, {today}"
            ));
        }
        match of {
            Subject::Seedling(number) => match self.seedling(*number) {
                None => told.push(format!(
                    "found the seedling {number}, expected one of the row"
                )),
                Some(seedling) => {
                    let sown = seedling.sown.unwrap_or(Sown::Year(number.year()));
                    if date < sown.first_day() {
                        told.push(format!(
                            "date: found {date}, expected a day after {number} was sown ({sown})"
                        ));
                    }
                }
            },
            Subject::Variety(name) if list.find(name).is_none() => told.push(format!(
                "found the variety {:?}, expected one of the list, or a seedling's number such as 26-014",
                name.as_str()
            )),
            Subject::Variety(_) => {}
        }
        told
    }

    /// A day that nobody told, and the same note twice.
    fn check_day(
        &self,
        entry: &Entry,
        seen: &Observation,
        grounds: &EntryContext<'_>,
        doubt: &mut impl FnMut(bool, String),
    ) {
        let date = entry.date;
        if let Some(days) = grounds.bloom_days
            && !grounds.day_is_told
            && in_bloom(seen)
        {
            let of_year = |day: Date| (day.month(), day.day());
            let (first, frost) = (days.first.strftime("%-d %B"), days.frost.strftime("%-d %B"));
            let odd = if of_year(date) > of_year(days.frost) {
                Some(format!(
                    "after the first frost, which in nine years of ten has come by {frost}"
                ))
            } else if of_year(date) < of_year(days.first) {
                Some(format!(
                    "before anything planted is in bloom, from about {first}"
                ))
            } else {
                None
            };
            if let Some(odd) = odd {
                doubt(
                    false,
                    format!(
                        "date: found none, so today, {date}: {odd}; expected the day on which it was seen"
                    ),
                );
            }
        }
        let replaced = self.replaced(entry);
        let same = self.of_subject(&entry.of).into_iter().find(|other| {
            Some(other.id) != replaced
                && (other.date, &other.by, &other.what) == (date, &entry.by, &entry.what)
        });
        if let Some(same) = same {
            let id = same.id;
            doubt(
                false,
                format!("found the same note as entry {id} of {date}, expected it once"),
            );
        }
    }

    /// The entry that this one corrects, as it stands: it says nothing against the correction.
    pub(super) fn replaced(&self, entry: &Entry) -> Option<u32> {
        Some(self.book().replaced(entry)?.id)
    }

    fn check_bloom(
        &self,
        seen: &Observation,
        grounds: &EntryContext<'_>,
        doubt: &mut impl FnMut(bool, String),
    ) {
        let words: Vec<&str> = seen
            .bloom
            .as_deref()
            .unwrap_or_default()
            .split_whitespace()
            .collect();
        for shade in &seen.colours {
            if let Err(error) = grounds.words.resolve(&shade.colour) {
                doubt(true, format!("colour: {error}"));
            }
        }
        let rules = grounds.rules;
        match Answers::read(&words, &rules.traits) {
            Err(error) => doubt(true, error.to_string()),
            Ok(answers) => {
                let block: Block = answers.block(rules.scales());
                if !rules.valid().iter().any(|own| own.meets(&block)) {
                    doubt(false, "found answers that no bloom can have together, expected one of them to be mistaken: they count as they are".to_string());
                }
            }
        }
    }
}

impl fmt::Display for Doubt {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.told)
    }
}

#[cfg(test)]
mod tests;
