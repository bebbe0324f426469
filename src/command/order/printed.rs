//! The order sheet on paper: a supplier begins a page, and the last column waits for the post.

use anyhow::Result;

use super::{Worked, bad};
use crate::order::report::order_by;
use crate::order::{Bill, Order, Plan};
use crate::paper::{Column, Margins, Page, Paper, Table};
use crate::variety::Varieties;

/// Room at the edges of the page, mm.
const MARGINS: Margins = Margins::even(12.0);
/// The columns: heading, hint, width in mm.
const COLUMNS: [(&str, &str, f64); 7] = [
    ("variety", "", 55.0),
    ("packs", "", 14.0),
    ("tubers a pack", "", 16.0),
    ("tubers", "", 14.0),
    ("price a pack", "", 18.0),
    ("cost", "", 20.0),
    ("came", "date, sound tubers", 34.0),
];

/// The pages of every supplier of whom something is bought.
///
/// # Errors
/// Where a name has a letter that the fonts lack, or the paper is too small.
pub(super) fn pages(worked: &Worked, order: &Order, paper: &Paper) -> Result<Vec<Page>> {
    let mut pages = Vec::new();
    for bill in &order.bills {
        let table = table(&worked.plan, &worked.list, bill);
        pages.extend(table.pages(paper, MARGINS, (0.0, 0.0)).map_err(bad)?);
    }
    Ok(pages)
}

/// One supplier's order: its lines, and under them what they come to.
fn table(plan: &Plan, list: &Varieties, bill: &Bill) -> Table {
    let closes = order_by(plan, bill, list);
    let tubers: u64 = bill.lines.iter().map(|line| line.tubers).sum();
    let lines = bill.lines.iter().map(|line| {
        vec![
            line.variety.clone(),
            line.packs.to_string(),
            line.tubers.checked_div(line.packs).unwrap_or(0).to_string(),
            line.tubers.to_string(),
            line.price.to_string(),
            line.cost.to_string(),
        ]
    });
    let sum = |name: &str, amount: String| {
        let mut cells = vec![String::new(); COLUMNS.len() - 1];
        cells[0] = name.to_string();
        cells[COLUMNS.len() - 2] = amount;
        cells
    };
    let sums = [
        sum("goods", bill.goods.to_string()),
        sum("postage", bill.postage.to_string()),
        sum("to pay", bill.total().to_string()),
    ];
    let last = closes.map_or(String::new(), |closes| format!("Order by {closes}. "));
    let padding: String = bill.padding().map(|told| told + " ").collect();
    Table {
        title: format!("Order to {}", bill.supplier),
        note: format!("{last}{tubers} tubers. {padding}From:"),
        columns: COLUMNS
            .iter()
            .map(|(heading, hint, width)| Column {
                heading: (*heading).to_string(),
                hint: (*hint).to_string(),
                width: *width,
            })
            .collect(),
        rows: lines.chain(sums).collect(),
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::folder::order::plan;
    use crate::order::Line;
    use crate::variety::Money;

    #[test]
    fn every_line_and_what_they_come_to_is_on_the_page() {
        let line = |variety: &str, packs: u64, cost: u64| Line {
            row: 0,
            variety: variety.to_string(),
            packs,
            tubers: packs * 3,
            price: Money::hundredths(cost / packs),
            cost: Money::hundredths(cost),
            padding: None,
        };
        let bill = Bill {
            supplier: "Oar Bulbs".to_string(),
            lines: vec![line("Haaf Bell", 6, 5400), line("Ebb Kist", 1, 425)],
            goods: Money::hundredths(5825),
            postage: Money::hundredths(500),
        };
        let list = Varieties::read("varieties.ron", "[(name: \"Haaf Bell\")]").expect("a list");
        let plan = plan(None).expect("the demo").expect("a plan");
        let paper = Paper::named("a5").expect("a paper");
        let pages = table(&plan, &list, &bill).pages(&paper, MARGINS, (0.0, 0.0));
        let pages = pages.expect("pages");
        assert_eq!(pages.len(), 1);
        assert_eq!(pages[0].strays().count(), 0);
        let texts: Vec<&str> = pages[0].lines().map(|line| line.text.as_str()).collect();
        for text in [
            "Order to Oar Bulbs",
            "Haaf Bell",
            "18",
            "54.00",
            "58.25",
            "5.00",
            "to pay",
            "63.25",
        ] {
            assert!(texts.contains(&text), "{text:?} is not in {texts:?}");
        }
    }
}
