//! The account of a life: the same in the command, on the screen and for programs.

use super::{Life, Lifted, Noted, Year};
use crate::account::text::counted;
use crate::account::{Cell, Column, Part, Section, Seen, Table};

impl Life {
    /// Year by year, then day by day.
    pub fn account(&self) -> Vec<Section> {
        if self.years.is_empty() && self.days.is_empty() {
            let told =
                "Nothing was bought, cut, lifted or sold of it that is on record.".to_string();
            let none = [self.years(), self.days()].map(Part::Table);
            let mut section = Section::under(told);
            section.parts.extend(none);
            return vec![section];
        }
        let ordered = self.ordered().map(|told| Part::sentences("", vec![told]));
        let mut years = Section::under("Year by year").with(Part::Table(self.years()));
        years.parts.extend(ordered);
        let days = Section::under("Day by day").with(Part::Table(self.days()));
        vec![years, days]
    }

    fn years(&self) -> Table {
        let columns = [
            Column::words("year", "year"),
            Column::figures("bought", "bought"),
            Column::figures("planted", "planted"),
            Column::figures("cut", "cut"),
            Column::figures("clumps", "clumps"),
            Column::figures("divided", "divided"),
            Column::figures("lost", "lost"),
            Column::figures("given", "given"),
            Column::figures("sold", "sold"),
            Column::figures("takings", "for"),
            Column::figures("here", "here"),
        ];
        let rows = self.years.iter().map(|(year, own)| row(*year, own));
        Table::of("years", columns).with(rows)
    }

    fn days(&self) -> Table {
        let columns = [
            Column::words("day", "day"),
            Column::words("book", "book").seen(Seen::AsData),
            Column::words("told", "what"),
        ];
        let row = |one: &Noted| vec![one.on.into(), one.book.into(), one.told.as_str().into()];
        Table::of("days", columns).with(self.days.iter().map(row))
    }

    /// `For 2027 the order settled on 2026-11-20 buys 6 and plants 8.`
    fn ordered(&self) -> Option<String> {
        let ordered = self.ordered?;
        let of = ordered.of;
        let bought = match (of.packs, of.tubers) {
            (0, _) => "buys none".to_string(),
            (_, Some(tubers)) => format!("buys {}", counted(tubers as usize, "tuber")),
            (packs, None) => format!("buys {}", counted(packs as usize, "pack")),
        };
        let (year, on, plants) = (ordered.year, ordered.on, of.plants);
        Some(format!(
            "For {year} the order settled on {on} {bought} and plants {plants}."
        ))
    }
}

fn row(year: i16, own: &Year) -> Vec<Cell> {
    // A nought says no more than a blank, and is in its way.
    let some = |count: u64| Some(count).filter(|count| *count > 0);
    let of = |count: fn(&Lifted) -> u64| -> Cell {
        own.lifted
            .as_ref()
            .and_then(|lifted| some(count(lifted)))
            .into()
    };
    let takings = own.lifted.filter(|lifted| lifted.sold > 0);
    vec![
        Cell::Count(year.unsigned_abs().into()),
        own.bought.into(),
        own.planted.into(),
        own.cut.into(),
        of(|one| one.clumps),
        of(|one| one.divided),
        of(|one| one.lost),
        of(|one| one.given),
        of(|one| one.sold),
        takings.map(|lifted| lifted.takings).into(),
        own.lifted.map(|lifted| lifted.here).into(),
    ]
}
