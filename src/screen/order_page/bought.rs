//! The solution's half: what is bought, then what is planted from the grower's own store.

use super::view::OLDER;
use super::{OrderPage, Side};
use crate::order::{Order, Planted};
use crate::screen::kit::part::mark;
use crate::screen::kit::table::{Column, Columns};
use crate::screen::kit::text::{Row, width};
use crate::screen::theme::Role;
use crate::variety::Money;

/// A name is not cut to less while the supplier has more than its own columns.
const NAME: usize = 18;
/// As much of whose it is as tells suppliers apart.
const WHOSE: usize = 8;

/// One row of it.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Bought {
    /// The variety's place in the list.
    pub(super) row: usize,
    name: String,
    tubers: u64,
    /// What it costs, and whose it is; `None` where none is bought.
    paid: Option<(Money, String)>,
    /// Whether some of it only fills the order up.
    fills: bool,
    fixed: bool,
}

impl OrderPage {
    pub(super) fn order(&self) -> Option<&Order> {
        self.settled.as_ref()?.order.as_ref()
    }

    /// The rows: bought, planted from store, and fixed at none.
    pub(super) fn rows_bought(&self) -> Vec<Bought> {
        let (Ok(plan), Some(ground), Some(order)) = (&self.plan, &self.ground, self.order()) else {
            return Vec::new();
        };
        let fixed = |name: &str| {
            plan.fixed
                .iter()
                .any(|fixed| fixed.variety.as_str() == name)
        };
        let mut rows: Vec<Bought> = Vec::new();
        for bill in &order.bills {
            rows.extend(bill.lines.iter().map(|line| Bought {
                row: line.row,
                name: line.variety.clone(),
                tubers: line.tubers,
                paid: Some((line.cost, bill.supplier.clone())),
                fills: line.padding.is_some(),
                fixed: fixed(&line.variety),
            }));
        }
        let own = order.planted.iter().filter(|one| one.bought == 0);
        rows.extend(own.map(|one| Bought {
            row: one.row,
            name: one.variety.clone(),
            tubers: one.plants,
            paid: None,
            fills: false,
            fixed: fixed(&one.variety),
        }));
        for none in &plan.fixed {
            let Some(row) = ground.list().find(&none.variety) else {
                continue;
            };
            if rows.iter().all(|one| one.row != row) {
                rows.push(Bought {
                    row,
                    name: none.variety.to_string(),
                    tubers: 0,
                    paid: None,
                    fills: false,
                    fixed: true,
                });
            }
        }
        rows
    }

    /// The variety under the cursor of this half.
    pub(super) fn bought(&self) -> Option<Bought> {
        let rows = self.rows_bought();
        rows.get(self.cursor(Side::Bought)).cloned()
    }

    /// What is planted of it.
    pub(super) fn planted(&self) -> Option<&Planted> {
        let row = self.bought()?.row;
        self.order()?.planted.iter().find(|one| one.row == row)
    }

    /// The head of this half: how many lines and what they cost.
    pub(super) fn bought_head(&self) -> String {
        let Some(order) = self.order() else {
            return "Nothing solved yet".to_string();
        };
        let lines: usize = order.bills.iter().map(|bill| bill.lines.len()).sum();
        let postage: u64 = order
            .bills
            .iter()
            .map(|bill| bill.postage.in_hundredths())
            .sum();
        match self.is_fresh() {
            true => format!(
                "Buy {lines}: {}, postage {}",
                order.cost,
                Money::hundredths(postage)
            ),
            false => format!("{OLDER}buy {lines}: {}", order.cost),
        }
    }

    /// As many rows as fit, the cursor among them.
    pub(super) fn bought_table(&self, columns: usize, height: usize) -> Vec<Row> {
        let rows = self.rows_bought();
        if rows.is_empty() {
            let told = if self.settled.is_some() {
                "  Nothing is bought or planted."
            } else {
                "  The order appears here."
            };
            return vec![Row::of(told, Role::Quiet)];
        }
        let cursor = self.cursor_at_work(Side::Bought);
        let seen = self.at[Side::Bought as usize].seen(rows.len(), height);
        let longest = |text: &dyn Fn(&Bought) -> String| {
            let widths = rows.iter().map(|one| width(&text(one)) + 1);
            widths.max().unwrap_or(0)
        };
        let (name, whose) = (longest(&Bought::named), longest(&Bought::whose));
        let table = vec![
            Column::numbers("tubers", 5),
            Column::words(" name", name.min(NAME), name),
            Column::numbers("cost", 8),
            Column::words(" whose", WHOSE, whose),
        ];
        let table = Columns::of(table, 1, columns);
        let row = |at: usize| {
            let mark = mark(at, cursor, &seen, rows.len());
            let cells = rows[at].cells();
            let row = table.row(Row::of(mark, Role::Strong), cells);
            row.in_list(cursor == Some(at))
        };
        seen.clone().map(row).collect()
    }
}

impl Bought {
    fn named(&self) -> String {
        format!(" {}", self.name)
    }

    fn whose(&self) -> String {
        let whose = { self.paid.as_ref() }.map_or("your store", |(_, supplier)| supplier.as_str());
        match self.fills {
            true => format!(" fills up {whose}"),
            false => format!(" {whose}"),
        }
    }

    fn cells(&self) -> [Row; 4] {
        let fixed = if self.fixed { "=" } else { " " };
        let cost = self.paid.as_ref().map(|(cost, _)| cost.to_string());
        [
            Row::of(format!("{}{fixed}", self.tubers), Role::Strong),
            Row::of(self.named(), Role::Plain),
            Row::of(cost.unwrap_or_default(), Role::Plain),
            Row::of(self.whose(), Role::Quiet),
        ]
    }
}
