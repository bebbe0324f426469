//! The life of the variety that Choose has under its cursor, from what all pages hold of it.

use super::App;
use super::kit::text::{Row, lines};
use super::theme::Role;
use crate::account;
use crate::life::{LifeSources, Ordered};
use crate::trial::Subject;

impl App {
    /// Its life, for the sheet.
    pub(super) fn life(&self, columns: usize) -> Vec<Row> {
        let Some(variety) = self.choose.chosen() else {
            return lines("No variety is left to show.", Role::Plain, columns);
        };
        let sources = LifeSources {
            trial: self.row.trial(),
            stock: self.stock.stock(),
            traits: self.row.traits(),
        };
        let year = self.stock.planted();
        let ordered = year.and_then(|year| Ordered::of(self.order.settled_orders(), year, variety));
        let life = sources.life(&Subject::Variety(variety.name.clone()), ordered);
        let mut rows = vec![
            Row::of(variety.name.as_str(), Role::Heading),
            Row::default(),
        ];
        let told = account::lines(&life.account(), columns).into_iter();
        rows.extend(told.map(|line| Row::of(line, Role::Plain)));
        rows
    }
}
