//! The order sheet by supplier: what is read out on the telephone or put in the post.

use super::columns::aligned;
use super::dates::order_by;
use crate::order::{Bill, Order, Plan};
use crate::variety::exchange::neutral;
use crate::variety::{Money, Varieties};

/// The sheet as lines: by supplier packs, tubers, price and cost, then goods, postage and total.
/// Every total is the sum of its lines.
pub fn sheet(plan: &Plan, order: &Order, list: &Varieties) -> Vec<String> {
    let mut lines = Vec::new();
    for bill in &order.bills {
        let terms = plan
            .suppliers
            .iter()
            .find(|terms| terms.name.as_str() == bill.supplier);
        let closes = order_by(plan, bill, list);
        let by = closes.map_or(String::new(), |closes| format!(", order by {closes}"));
        lines.push(format!("{}{by}", bill.supplier));
        let mut rows = vec![cells([
            ">packs", ">of", ">tubers", "variety", ">a pack", ">cost",
        ])];
        for line in &bill.lines {
            rows.push(cells([
                &line.packs.to_string(),
                &line.tubers.checked_div(line.packs).unwrap_or(0).to_string(),
                &line.tubers.to_string(),
                &line.variety,
                &line.price.to_string(),
                &line.cost.to_string(),
            ]));
        }
        lines.extend(aligned(&rows).iter().map(|line| format!("  {line}")));
        lines.push(format!(
            "  goods {}, postage {}{}: {}",
            bill.goods,
            bill.postage,
            free(bill, terms.and_then(|terms| terms.free_over)),
            bill.total()
        ));
        lines.push(String::new());
    }
    if order.bills.is_empty() {
        lines.push("Nothing is to be bought.".to_string());
    }
    lines.push(format!("All orders: {}", order.cost));
    lines
}

/// The same as rows of a table, the heading first: the costs of all rows sum to the order's cost.
/// A cell that a spreadsheet would take for a formula has an apostrophe in front.
pub fn sheet_rows(order: &Order) -> Vec<Vec<String>> {
    let mut rows = vec![cells([
        "supplier",
        "variety",
        "packs",
        "tubers a pack",
        "tubers",
        "price a pack",
        "cost",
    ])];
    for bill in &order.bills {
        for line in &bill.lines {
            rows.push(cells([
                &neutral(&bill.supplier),
                &neutral(&line.variety),
                &line.packs.to_string(),
                &line.tubers.checked_div(line.packs).unwrap_or(0).to_string(),
                &line.tubers.to_string(),
                &line.price.to_string(),
                &line.cost.to_string(),
            ]));
        }
        let postage = bill.postage.to_string();
        rows.push(cells([
            &neutral(&bill.supplier),
            "postage",
            "",
            "",
            "",
            "",
            &postage,
        ]));
    }
    rows
}

impl Bill {
    /// Goods and postage.
    pub fn total(&self) -> Money {
        Money::hundredths(self.goods.in_hundredths() + self.postage.in_hundredths())
    }
}

fn free(bill: &Bill, over: Option<Money>) -> String {
    match over.filter(|over| bill.goods >= *over) {
        Some(over) => format!(" (free from {over})"),
        None => String::new(),
    }
}

fn cells<const N: usize>(cells: [&str; N]) -> Vec<String> {
    cells.map(str::to_string).to_vec()
}
