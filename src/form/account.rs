//! One account of a bloom: what its answers say of its form, for people and for programs.

use super::belief::Keyer;
use super::limits::Close;
use super::near::NearMiss;
use super::question::Question;
use super::reading::{Likely, Reading};
use super::verdict::Status;
use crate::account::{Cell, Column, Pair, Part, Section, Table};
use crate::measure::SizeUnits;

/// Forms with less than this share are not told to people.
const LEAST_SHARE: f64 = 0.01;
/// The most forms told to people.
const MOST_LISTED: usize = 6;
/// The most near misses told to people.
const MOST_NEAR: usize = 4;
/// An answer that misleads with less than this chance is not told, unless answers contradict.
const DOUBTFUL: f64 = 0.1;

impl Keyer {
    /// The account of a reading: the verdict, the likeliest forms, what is near, what to ask next.
    /// Every id in it is from the traits and the rule set.
    pub fn account(&self, reading: &Reading, units: SizeUnits) -> Vec<Section> {
        vec![
            Section::default()
                .with(Part::sentences("", self.verdict_in_words(reading, units)))
                .with(Part::Pairs(self.verdict_data(reading))),
            Section::under("Likeliest, if any answer may be mistaken")
                .with(Part::Table(self.likeliest(reading)))
                .with(Part::Table(self.likely(reading))),
            Section::default()
                .with(Part::sentences("", self.near_in_words(reading, units)))
                .with(Part::Table(self.near_table(reading))),
            self.next_question(reading),
        ]
    }

    fn verdict_in_words(&self, reading: &Reading, units: SizeUnits) -> Vec<String> {
        let mut told = vec![format!("By {}, {}.", self.set.name, self.prior.in_words())];
        told.push(self.verdict_sentence(reading, units));
        let conflict = reading.conflict.iter();
        told.extend(conflict.map(|conflict| self.conflict_sentence(conflict, units)));
        let doubtful = reading
            .suspect
            .filter(|suspect| suspect.chance >= DOUBTFUL || reading.conflict.is_some());
        told.extend(doubtful.map(|suspect| self.suspect_sentence(&suspect)));
        let close = reading.close.iter();
        told.extend(close.map(|close| self.close_sentence(close, units)));
        told
    }

    fn verdict_data(&self, reading: &Reading) -> Vec<Pair> {
        let (status, settled) = match reading.verdict.status {
            Status::Settled(form) => ("settled", self.form_id(form)),
            Status::Open => ("open", Cell::Nothing),
            Status::None => ("none", Cell::Nothing),
        };
        let possible = reading.verdict.possible.iter();
        let ruled_out = reading.ruled_out.iter().map(|(form, by)| {
            Cell::Record(vec![
                ("form", self.form_id(*form)),
                ("by", self.trait_ids(by)),
            ])
        });
        let suspect = reading.suspect.map(|suspect| {
            let chance = Cell::Share(suspect.chance);
            Cell::Record(vec![
                ("trait", self.trait_id(suspect.index)),
                ("chance", chance),
            ])
        });
        let conflict = reading.conflict.as_ref().map(|conflict| {
            let traits = self.trait_ids(&conflict.traits);
            Cell::Record(vec![("traits", traits), ("gap", conflict.gap.into())])
        });
        vec![
            Pair::data("rules", self.set.id.as_str()),
            Pair::data("prior", self.prior.id()),
            Pair::data("status", status),
            Pair::data("form", settled),
            Pair::data("size", reading.size.clone()),
            Pair::data(
                "possible",
                Cell::list(possible.map(|form| self.form_id(*form))),
            ),
            Pair::data("ruled_out", Cell::list(ruled_out)),
            Pair::data("ask", self.question(reading.ask)),
            Pair::data("check", self.question(reading.check)),
            Pair::data("suspect", suspect),
            Pair::data(
                "close",
                Cell::list(reading.close.iter().map(|close| self.close_data(close))),
            ),
            Pair::data("conflict", conflict),
        ]
    }

    fn close_data(&self, close: &Close) -> Cell {
        let print = |number| self.set.traits.get(close.index).print(number);
        Cell::Record(vec![
            ("trait", self.trait_id(close.index)),
            ("limit", print(close.limit).into()),
            (
                "forms",
                Cell::list(close.forms.map(|form| self.form_id(form))),
            ),
            ("on_limit", self.form_id(close.on_limit)),
            ("chance", close.chance.map(Cell::Share).into()),
            ("distance", close.distance.map(print).into()),
            ("more", close.more.into()),
            ("note", self.note(close).into()),
        ])
    }

    fn question(&self, asked: Option<Question>) -> Cell {
        let question = |asked: Question| {
            let bits = Cell::Number(asked.bits, 2);
            Cell::Record(vec![("trait", self.trait_id(asked.index)), ("bits", bits)])
        };
        asked.map(question).into()
    }

    /// The likeliest forms, for people.
    fn likeliest(&self, reading: &Reading) -> Table {
        let columns = [
            Column::figures("", ""),
            Column::words("", ""),
            Column::words("", ""),
        ];
        let told = reading
            .likely
            .iter()
            .filter(|likely| likely.share >= LEAST_SHARE);
        let row = |likely: &Likely| {
            let name = self.set.forms[likely.form].name.as_str();
            let mark = if likely.allowed {
                ""
            } else {
                "(only by a mistake)"
            };
            vec![Cell::Share(likely.share), name.into(), mark.into()]
        };
        Table::of("", columns).with(told.take(MOST_LISTED).map(row))
    }

    /// Every form, for programs.
    fn likely(&self, reading: &Reading) -> Table {
        let row = |likely: &Likely| {
            let share = Cell::Share(likely.share);
            vec![self.form_id(likely.form), share, likely.allowed.into()]
        };
        Table::data("likely", ["form", "share", "allowed"]).with(reading.likely.iter().map(row))
    }

    fn near_in_words(&self, reading: &Reading, units: SizeUnits) -> Vec<String> {
        let Status::Settled(form) = reading.verdict.status else {
            return Vec::new();
        };
        // Only where a bloom is what is left over is it worth saying what it nearly is.
        if !self.set.shape_of(form).catch_all {
            return Vec::new();
        }
        let near = reading.near.iter().take(MOST_NEAR);
        near.map(|near| self.near_sentence(near, units)).collect()
    }

    fn near_table(&self, reading: &Reading) -> Table {
        let row = |near: &NearMiss| {
            let traits: Vec<usize> = near.but_for.iter().map(|(index, _)| *index).collect();
            vec![self.form_id(near.form), self.trait_ids(&traits)]
        };
        Table::data("near", ["form", "but_for"]).with(reading.near.iter().map(row))
    }

    fn next_question(&self, reading: &Reading) -> Section {
        let Some(asked) = reading.ask else {
            return Section::default();
        };
        let one = self.set.traits.get(asked.index);
        let head = format!("Next: {} ({}, {:.2} bits)", one.ask, one.id, asked.bits);
        let answers = format!("{}={}", one.id, one.expected_answer());
        Section::under(head).with(Part::sentences("", [one.look.clone(), answers]))
    }

    fn form_id(&self, form: usize) -> Cell {
        self.set.forms[form].id.as_str().into()
    }

    fn trait_id(&self, index: usize) -> Cell {
        self.set.traits.get(index).id.as_str().into()
    }

    fn trait_ids(&self, traits: &[usize]) -> Cell {
        Cell::list(traits.iter().map(|index| self.trait_id(*index)))
    }
}
