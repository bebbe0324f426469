//! The order sheet by supplier: what is read out on the telephone or put in the post.

use super::columns::aligned;
use super::dates::order_by;
use crate::order::{Bill, Line, Order, Plan};
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
        lines.extend(bill.padding().map(|told| format!("  {told}")));
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
        "bought",
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
                &line.padding_told().unwrap_or_default(),
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
            "",
        ]));
    }
    rows
}

impl Bill {
    /// Goods and postage.
    pub fn total(&self) -> Money {
        Money::hundredths(self.goods.in_hundredths() + self.postage.in_hundredths())
    }

    /// A sentence for each line of which some packs only fill the order up.
    pub fn padding(&self) -> impl Iterator<Item = String> + '_ {
        let told = |line: &Line| Some(format!("{}: {}.", line.variety, line.padding_told()?));
        self.lines.iter().filter_map(told)
    }
}

impl Line {
    /// How many of its packs only fill the order up, and to what: `2 packs to reach the least order
    /// of 20.00, and needed for nothing else`.
    pub fn padding_told(&self) -> Option<String> {
        let padding = self.padding?;
        let packs = match (padding.packs, self.packs) {
            (1, 1) => "1 pack".to_string(),
            (some, all) if some == all => format!("{all} packs"),
            (some, all) => format!("{some} of {all} packs"),
        };
        Some(format!(
            "{packs} {}, and needed for nothing else",
            padding.told()
        ))
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
