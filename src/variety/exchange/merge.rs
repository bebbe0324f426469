//! One row into one variety: what the row gives is set, what it leaves blank stays.

mod looks;
mod measures;
mod offers;

use std::borrow::Cow;

use super::Terms;
use super::columns::Columns;
use super::field::Field;
use super::kind::Kind;
use super::term::{Meaning, meant};
use super::{cell, known::Known};
use crate::measure::LengthUnit;
use crate::table::{Row, guard};
use crate::variety::record::{Foliage, Shortlisted, Variety};
use crate::variety::text::{Text, as_shown};

/// A row on its way into a variety.
pub(super) struct Merge<'a> {
    columns: &'a Columns,
    row: &'a Row,
    terms: &'a Terms<'a>,
    known: &'a Known<'a>,
    /// The variety as it will be.
    pub(super) variety: Variety,
    /// What cannot be read, a clause each with its heading.
    pub(super) problems: Vec<String>,
    /// Words that are no term.
    pub(super) unknown: Vec<(Kind, String)>,
    /// What was left as it is, and why.
    pub(super) notes: Vec<String>,
}

/// The cell of a field, as it is meant to be read: guarded formulas and control characters undone.
pub(super) fn cell_of<'a>(columns: &Columns, row: &'a Row, field: Field) -> Option<Cow<'a, str>> {
    let at = columns
        .columns
        .iter()
        .position(|column| column.field == Some(field))?;
    let meant = |shown: &'a str| guard::plain(shown.trim()).trim();
    let cell = match as_shown(row.cell(at)) {
        Cow::Borrowed(shown) => Cow::Borrowed(meant(shown)),
        Cow::Owned(shown) => Cow::Owned(guard::plain(shown.trim()).trim().to_string()),
    };
    (!cell.is_empty()).then_some(cell)
}

impl<'a> Merge<'a> {
    /// Reads `row` over `variety`, which has the row's name.
    pub(super) fn of(
        columns: &'a Columns,
        row: &'a Row,
        known: &'a Known<'a>,
        variety: Variety,
    ) -> Merge<'a> {
        let mut merge = Merge {
            columns,
            row,
            terms: known.terms,
            known,
            variety,
            problems: Vec::new(),
            unknown: Vec::new(),
            notes: Vec::new(),
        };
        merge.plain_fields();
        merge.form();
        merge.colours();
        merge.measures();
        merge.offers();
        merge.shortlist();
        merge
    }

    fn cell(&self, field: Field) -> Option<Cow<'a, str>> {
        cell_of(self.columns, self.row, field)
    }

    fn unit(&self, field: Field) -> Option<LengthUnit> {
        let mut columns = self.columns.columns.iter();
        columns
            .find(|column| column.field == Some(field))
            .and_then(|column| column.unit)
    }

    /// The value of a field's cell where it has one that can be read; a failure is noted.
    fn read<T>(&mut self, field: Field, read: impl FnOnce(&str) -> Result<T, String>) -> Option<T> {
        let cell = self.cell(field)?;
        let value = cell::value(&cell).and_then(|()| read(&cell));
        value.map_err(|told| self.problem(field, &told)).ok()
    }

    /// The value that a word of a few stands for, in terms or in the grower's own or the trade's words.
    fn one_of<T: Copy>(
        &mut self,
        field: Field,
        kind: Kind,
        all: &[T],
        word: impl Fn(T) -> &'static str,
    ) -> Option<T> {
        let cell = self.read(field, |cell| Ok(cell.to_string()))?;
        match meant(kind, &cell, self.terms) {
            Some(Meaning::Term(term)) => all.iter().copied().find(|one| word(*one) == term),
            Some(Meaning::Left) => None,
            None => {
                self.unknown.push((kind, cell));
                None
            }
        }
    }

    fn problem(&mut self, field: Field, told: &str) {
        self.problems.push(format!("{}: {told}", field.heading()));
    }

    fn plain_fields(&mut self) {
        let set = |slot: &mut Option<Text>, value: Option<Text>| {
            if value.is_some() {
                *slot = value;
            }
        };
        let value = self.read(Field::Raiser, cell::text);
        set(&mut self.variety.raiser, value);
        let traits = &self.terms.rules.traits;
        let value = self.read(Field::Bloom, |cell| {
            let pairs: Vec<&str> = cell.split_whitespace().collect();
            crate::form::Answers::read(&pairs, traits).map_err(|error| error.to_string())?;
            cell::text(cell)
        });
        if let Some(value) = value {
            self.variety.bloom = Some(value.into());
        }
        let value = self.read(Field::Licence, cell::text);
        set(&mut self.variety.licence, value);
        let value = self.read(Field::Notes, cell::text);
        set(&mut self.variety.notes, value);
        let value = self.one_of(Field::Foliage, Kind::Foliage, &Foliage::ALL, Foliage::word);
        self.variety.foliage = value.or(self.variety.foliage);
        let value = self.read(Field::Weather, |cell| {
            let each = cell::items(&cell.replace(',', ";"))
                .into_iter()
                .map(|one| one.parse());
            each.collect::<Result<_, _>>()
                .map_err(|error: crate::variety::ParseWeatherError| error.to_string())
        });
        if let Some(value) = value {
            self.variety.weather = value;
        }
        let value = self.read(Field::StemsAWeek, cell::stems_a_week);
        self.variety.stems_a_week = value.or(self.variety.stems_a_week);
        let value = self.read(Field::StemsAPlant, cell::count);
        self.variety.stems_a_plant = value.or(self.variety.stems_a_plant);
        let value = self.read(Field::OnHand, cell::whole);
        self.variety.on_hand = value.or(self.variety.on_hand);
        let value = self.read(Field::Protected, cell::yes_no);
        self.variety.protected = value.or(self.variety.protected);
    }

    fn shortlist(&mut self) {
        match self.read(Field::Shortlist, cell::yes_no) {
            Some(true) => {
                self.variety
                    .shortlist
                    .get_or_insert_with(Shortlisted::default);
            }
            Some(false) => self.variety.shortlist = None,
            None => {}
        }
        if let Some(note) = self.read(Field::ShortlistNote, cell::text) {
            self.variety.shortlist = Some(Shortlisted { note: Some(note) });
        }
    }
}
