//! A plant in full: what its entries add up to, what the gate advises, what it is fit for, its book.

use super::{Plant, Wording};
use crate::account::{Cell, Column, Pair, Part, Section, Seen, Sentence, Table};
use crate::form::sentences::percent;
use crate::trial::{Entry, Fate, Fit, Trial, What};
use crate::variety::{FitBasis, Use};

/// How well a plant fits each use.
#[derive(Debug, Clone, Copy)]
pub struct Fits<'a> {
    /// The fits, as they are told.
    pub fits: &'a [Fit],
    /// The uses that they name by their places.
    pub uses: &'a [Use],
}

impl Plant<'_> {
    /// Everything that is known of it.
    pub fn account(&self, trial: &Trial, fits: Fits<'_>, by: &Wording<'_>) -> Vec<Section> {
        let sums = self.sums(trial, by).with(Part::Pairs(self.figures(by)));
        let mut sections = vec![sums, self.advised()];
        sections.extend(fits.sections());
        sections.push(self.book(trial, by));
        sections
    }

    /// What its entries add up to, under its name and where it comes from.
    pub fn sums(&self, trial: &Trial, by: &Wording<'_>) -> Section {
        let subject = &self.evidence.subject;
        let from = trial
            .seedling_of(subject)
            .map(|seedling| seedling.description());
        let from = from.unwrap_or_else(|| "of your list, under trial".to_string());
        let told = self.evidence.lines(by.keyer, self.listed, by.units);
        let told = told
            .into_iter()
            .map(|line| Pair::new("", line.about, line.text));
        Section::under(format!("{subject}: {from}")).with(Part::Pairs(told.collect()))
    }

    /// What the gate advises, and why.
    pub fn advised(&self) -> Section {
        let advice = self.advice;
        let sentences = |id, lead, texts: &[String]| {
            let text = texts.iter().cloned();
            Part::Sentences(id, text.map(|text| Sentence { lead, text }).collect())
        };
        let mut why = [
            sentences("reasons", "because", &advice.reasons),
            sentences("missing", "missing", &advice.missing),
        ];
        // A plant is held for what is missing, and kept or culled for what is known.
        if advice.fate == Fate::Hold {
            why.reverse();
        }
        let [first, second] = why;
        Section::under(format!("The gate's advice: {}.", advice.fate.word()))
            .with(Part::Pairs(vec![Pair::data("advice", advice.fate.word())]))
            .with(first)
            .with(second)
            .with(sentences("not_known", "not known", &advice.unknown))
    }

    /// Every entry about it, and of what was changed the history in words.
    pub fn book(&self, trial: &Trial, by: &Wording<'_>) -> Section {
        let columns = [
            Column::words("", ""),
            Column::figures("id", ""),
            Column::words("words", ""),
            Column::words("history", "").seen(Seen::AsData),
        ];
        let row = |(entry, ended_by): &(&Entry, Option<&Entry>)| {
            let mark = if ended_by.is_none() { "" } else { "-" };
            let history = history(entry, *ended_by, trial);
            let told = entry.told(&by.keyer.set.traits);
            let told = match &history {
                Some(history) => format!("{told} ({history})"),
                None => told,
            };
            let told = Cell::worded(told, entry.print());
            vec![mark.into(), entry.id.into(), told, history.into()]
        };
        let own = trial.book_of(&self.evidence.subject);
        let table = Table::of("entries", columns).with(own.iter().map(row));
        Section::under("Its entries").with(Part::Table(table))
    }
}

/// What an entry changed, and what became of it: `withdraws entry 4; withdrawn by entry 9 (Ann,
/// 2026-08-21)`; `None` of one that has no history.
fn history(entry: &Entry, ended_by: Option<&Entry>, trial: &Trial) -> Option<String> {
    let changes = entry.corrects.map(|named| {
        let is_withdrawn = |id: u32| {
            trial
                .entry(id)
                .is_some_and(|one| one.what == What::Withdrawn)
        };
        match (&entry.what, is_withdrawn(named)) {
            (What::Withdrawn, true) => format!("withdraws the withdrawal, entry {named}"),
            (What::Withdrawn, false) => format!("withdraws entry {named}"),
            (What::Observed(_) | What::Decided(_), _) => format!("corrects entry {named}"),
        }
    });
    let ended = ended_by.map(|by| {
        let done = match by.what {
            What::Withdrawn => "withdrawn",
            What::Observed(_) | What::Decided(_) => "corrected",
        };
        let who = by.by.as_ref().map(|who| format!("{who}, "));
        let (id, date) = (by.id, by.date);
        format!("{done} by entry {id} ({}{date})", who.unwrap_or_default())
    });
    let told: Vec<String> = changes.into_iter().chain(ended).collect();
    (!told.is_empty()).then(|| told.join("; "))
}

impl Fits<'_> {
    /// A sentence for each ground on which it may be said, and the figures.
    fn sections(&self) -> Vec<Section> {
        let grounds = [
            (FitBasis::Own, "Fits by what was seen on it"),
            (FitBasis::Expected, "Fits as expected of its form"),
        ];
        let mut sections: Vec<Section> = Vec::new();
        for (ground, head) in grounds {
            let own = self.fits.iter().filter(|fit| fit.ground == Some(ground));
            let told = own.filter_map(|fit| {
                let name = &self.uses[fit.use_at].name;
                Some(format!("{name} {}", percent(fit.fitness?)))
            });
            let told: Vec<String> = told.collect();
            if !told.is_empty() {
                let told = format!("{head}: {}.", told.join(", "));
                sections.push(Section::default().with(Part::sentences("", [told])));
            }
        }
        let row = |fit: &Fit| {
            let ground = fit.ground.map(|ground| match ground {
                FitBasis::Own => "seen on it",
                FitBasis::Expected => "expected of its form",
            });
            // Where nothing of it may be said a number would say it.
            let fitness = fit.fitness.filter(|_| ground.is_some()).map(Cell::Share);
            let name = self.uses[fit.use_at].name.as_str();
            vec![name.into(), fitness.into(), ground.into()]
        };
        let table =
            Table::data("fits", ["use", "fitness", "ground"]).with(self.fits.iter().map(row));
        sections.push(Section::default().with(Part::Table(table)));
        sections
    }
}
