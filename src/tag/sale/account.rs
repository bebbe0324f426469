//! The account of what is for sale: the same for the command, for files and for programs.

use super::{Offer, Sale};
use crate::account::{Cell, Column, Part, Section, Seen, Table};
use crate::colour::Family;
use crate::tag::about::About;

/// What was seen of it, in short.
const EVIDENCE: [About; 4] = [About::Status, About::Uses, About::Vase, About::Season];

impl Sale {
    /// What is offered as a table, and for programs what is not and why.
    pub fn account(&self) -> Vec<Section> {
        let withheld = self.withheld.iter();
        let withheld =
            withheld.map(|one| vec![one.subject.to_string().into(), one.why.as_str().into()]);
        let withheld = Table::data("withheld", ["plant", "why"]).with(withheld);
        let section = Section::under("For sale").with(Part::Table(self.table()));
        vec![section.with(Part::Table(withheld))]
    }

    /// What is offered as a file of cells, under a heading.
    pub fn cells(&self) -> Vec<Vec<String>> {
        self.table().file_rows()
    }

    fn table(&self) -> Table {
        let columns = [
            Column::words("plant", "plant").seen(Seen::AsData),
            Column::words("name", "name"),
            Column::words("colour", "colour"),
            Column::words("form", "form"),
            Column::words("size", "size").seen(Seen::AsData),
            Column::words("evidence", "evidence").seen(Seen::AsData),
            Column::words("licence", "licence").seen(Seen::AsData),
            Column::figures("left", "left"),
            Column::figures("price", "each"),
            Column::words("currency", "currency").seen(Seen::AsData),
            Column::words("counted", "counted"),
        ];
        let rows = self.offers.iter().map(|one| self.row(one));
        Table::of("offers", columns).with(rows)
    }

    fn row(&self, offer: &Offer) -> Vec<Cell> {
        let fact = |about: About| -> Cell {
            let mut told = offer
                .says
                .about(std::slice::from_ref(&about))
                .map(|fact| &fact.text);
            told.next()
                .map_or(Cell::Nothing, |text| text.as_str().into())
        };
        let evidence = offer.says.about(&EVIDENCE).map(|fact| fact.text.as_str());
        let evidence: Vec<&str> = evidence.collect();
        let currency = self.currency.as_deref().filter(|_| offer.price.is_some());
        vec![
            offer.says.subject.to_string().into(),
            offer.says.trade_name().into(),
            offer.family.map(Family::word).into(),
            fact(About::Form),
            fact(About::Size),
            match evidence.is_empty() {
                true => Cell::Nothing,
                false => evidence.join("; ").into(),
            },
            fact(About::Licence),
            offer.left.into(),
            offer.price.into(),
            currency.into(),
            offer.counted.into(),
        ]
    }
}
