//! One row into one variety: what the row gives is set, what it leaves blank stays.

mod looks;

use super::Terms;
use super::columns::Columns;
use super::field::Field;
use super::term::Kind;
use super::{cell, lengths};
use crate::measure::LengthUnit;
use crate::measure::brief;
use crate::table::{Row, guard};
use crate::variety::evidence::{Days, VaseLife};
use crate::variety::record::{Foliage, Offer, Shortlisted, Variety};
use crate::variety::text::{Text, folded, plain};

/// A row on its way into a variety.
pub(super) struct Merge<'a> {
    columns: &'a Columns,
    row: &'a Row,
    terms: &'a Terms<'a>,
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
pub(super) fn cell_of(columns: &Columns, row: &Row, field: Field) -> Option<String> {
    let at = columns
        .columns
        .iter()
        .position(|column| column.field == Some(field))?;
    let shown = plain(row.cell(at));
    let cell = guard::plain(shown.trim()).trim();
    (!cell.is_empty()).then(|| cell.to_string())
}

impl<'a> Merge<'a> {
    /// Reads `row` over `variety`, which has the row's name.
    pub(super) fn of(
        columns: &'a Columns,
        row: &'a Row,
        terms: &'a Terms<'a>,
        variety: Variety,
    ) -> Merge<'a> {
        let mut merge = Merge {
            columns,
            row,
            terms,
            variety,
            problems: Vec::new(),
            unknown: Vec::new(),
            notes: Vec::new(),
        };
        merge.plain_fields();
        merge.form();
        merge.size();
        merge.colours();
        merge.vase();
        merge.offers();
        merge.shortlist();
        merge
    }

    fn cell(&self, field: Field) -> Option<String> {
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
        let value = cell::text(&cell).and_then(|_| read(&cell));
        value.map_err(|told| self.problem(field, &told)).ok()
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
        let unit = self.unit(Field::Diameters);
        if let Some(value) = self.read(Field::Diameters, |cell| lengths::lengths(cell, unit)) {
            self.variety.diameters = value;
        }
        let unit = self.unit(Field::Height);
        let value = self.read(Field::Height, |cell| lengths::reach(cell, unit));
        self.variety.height = value.or(self.variety.height);
        let unit = self.unit(Field::Stem);
        let value = self.read(Field::Stem, |cell| lengths::reach(cell, unit));
        self.variety.stem = value.or(self.variety.stem);
        let value = self.read(Field::Foliage, |cell| {
            cell::one_of(cell, &Foliage::ALL, Foliage::word)
        });
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

    fn vase(&mut self) {
        let days = self.read(Field::Vase, |cell| {
            let bare = cell.trim_end_matches("days").trim_end_matches("d").trim();
            let plain = bare.bytes().all(|b| b.is_ascii_digit() || b == b'.');
            let number = plain.then(|| bare.parse::<f64>().ok()).flatten();
            let number = number.ok_or_else(|| {
                format!(
                    "found {cell:?}, expected a number of days such as 7.5",
                    cell = brief(cell)
                )
            })?;
            Days::try_from(number)
        });
        let stems = self.read(Field::VaseStems, cell::count);
        match (days, self.variety.vase) {
            (Some(days), Some(old))
                if days != old.days && old.stems.is_some() && stems.is_none() =>
            {
                self.notes.push(format!(
                    "{}: kept {} days in the vase, which was tested, though the file states {}",
                    self.variety.name,
                    old.days.get(),
                    days.get()
                ));
            }
            (Some(days), old) => {
                let stems = stems.or(old.and_then(|old| old.stems));
                self.variety.vase = Some(VaseLife { days, stems });
            }
            (None, Some(old)) => {
                self.variety.vase = Some(VaseLife {
                    stems: stems.or(old.stems),
                    ..old
                })
            }
            (None, None) => {
                if stems.is_some() {
                    self.problem(
                        Field::VaseStems,
                        "found a number of stems and no days, expected both",
                    );
                }
            }
        }
    }

    fn offers(&mut self) {
        let value = self.read(Field::Offers, |cell| {
            cell::items(cell)
                .iter()
                .map(|item| cell::offer(item))
                .collect::<Result<Vec<_>, _>>()
        });
        if let Some(value) = value {
            self.variety.offers = value;
        }
        let price = self.read(Field::Price, cell::money);
        let pack = self.read(Field::Pack, cell::count);
        let available = self.read(Field::Available, cell::whole);
        let closes = self.read(Field::Closes, cell::date);
        if price.is_none() && pack.is_none() && available.is_none() && closes.is_none() {
            return;
        }
        let supplier = self
            .read(Field::Supplier, cell::text)
            .or(self.terms.supplier.cloned());
        let Some(supplier) = supplier else {
            let told =
                "found an offer without a supplier, expected a supplier column, or --supplier NAME";
            return self.problem(Field::Price, told);
        };
        let offers = &mut self.variety.offers;
        let old = offers
            .iter()
            .position(|one| folded(&one.supplier) == folded(&supplier));
        let before = old.map(|at| offers[at].clone());
        let price = price.or(before.as_ref().map(|one| one.price));
        let pack = pack
            .or(before.as_ref().map(|one| one.pack))
            .or(self.terms.pack);
        let (Some(price), Some(pack)) = (price, pack) else {
            let (field, told) = if price.is_none() {
                (
                    Field::Price,
                    "found an offer without a price, expected the price of a pack",
                )
            } else {
                (
                    Field::Pack,
                    "found a price and no pack, expected tubers in a pack, or --pack 1 where the price is of one",
                )
            };
            return self.problem(field, told);
        };
        let offer = Offer {
            supplier: before.as_ref().map_or(supplier, |one| one.supplier.clone()),
            price,
            pack,
            available: available.or(before.as_ref().and_then(|one| one.available)),
            closes: closes.or(before.and_then(|one| one.closes)),
        };
        match old {
            Some(at) => offers[at] = offer,
            None => offers.push(offer),
        }
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
