//! The order sheet by supplier: what is read out on the telephone or put in the post. One account,
//! from which the text, the printed page, the file of cells and the JSON are drawn.

use super::dates::order_by;
use crate::account::{Cell, Column, Pair, Part, Section, Seen, Table};
use crate::order::{Bill, Order, OrderLine, Plan};
use crate::variety::{Money, Varieties};

/// The sheet: a section for each supplier of whom something is bought, with its lines and what they
/// come to, and what all orders come to. Every total is the sum of its lines.
pub fn sheet(plan: &Plan, order: &Order, list: &Varieties) -> Vec<Section> {
    let bills = order.bills.iter().map(|bill| supplier(plan, bill, list));
    let nothing = order.bills.is_empty();
    let nothing = nothing.then(|| "Nothing is to be bought.".to_string());
    let all = format!("All orders: {}", order.cost);
    let last = Section::default().with(Part::sentences("", nothing.into_iter().chain([all])));
    bills.chain([last]).collect()
}

/// The sheet as rows of a file of cells, the heading first: each supplier's lines and its postage,
/// so that the costs of all rows sum to the order's cost.
pub fn sheet_rows(sheet: &[Section]) -> Vec<Vec<String>> {
    let mut rows = vec![lines().heading()];
    for section in sheet {
        for table in section.tables() {
            rows.extend(table.rows.iter().map(|row| table.file_row(row)));
            let postage = section.sums().filter(|sum| sum.id == POSTAGE);
            rows.extend(postage.map(|postage| {
                let row = table.row([
                    ("supplier", section.head.as_str().into()),
                    ("variety", postage.name.into()),
                    ("cost", postage.cell.clone()),
                    ("padding", postage.note.as_str().into()),
                ]);
                table.file_row(&row)
            }));
        }
    }
    rows
}

/// The one sum that is not made of the lines above it.
const POSTAGE: &str = "postage";

/// What is bought, a row for each variety; widths are of the printed page.
fn lines() -> Table {
    let columns = [
        Column::words("supplier", "supplier").seen(Seen::AsData),
        Column::words("variety", "variety").wide(55.0),
        Column::figures("packs", "packs").wide(14.0),
        Column::figures("a_pack", "tubers a pack").wide(16.0),
        Column::figures("tubers", "tubers").wide(14.0),
        Column::figures("price", "price a pack").wide(18.0),
        Column::figures("cost", "cost").wide(20.0),
        Column::words("padding", "note").seen(Seen::AsData),
        Column::words("", "for my own use")
            .hinted("came: date, sound tubers")
            .wide(34.0)
            .seen(Seen::OnPaper),
    ];
    Table::of("lines", columns)
}

fn supplier(plan: &Plan, bill: &Bill, list: &Varieties) -> Section {
    let mut terms = plan.suppliers.iter();
    let terms = terms.find(|terms| terms.name.as_str() == bill.supplier);
    let free_over = terms.and_then(|terms| terms.free_over);
    let free_over = free_over.filter(|over| bill.goods >= *over);
    let free = free_over.map(|over| format!("free from {over}"));
    let table = lines();
    let row = |line: &OrderLine| {
        table.row([
            ("supplier", bill.supplier.as_str().into()),
            ("variety", line.variety.as_str().into()),
            ("packs", line.packs.into()),
            ("a_pack", line.tubers.checked_div(line.packs).into()),
            ("tubers", line.tubers.into()),
            ("price", line.price.into()),
            ("cost", line.cost.into()),
            ("padding", line.padding()),
        ])
    };
    let rows: Vec<Vec<Cell>> = bill.lines.iter().map(row).collect();
    let sums = vec![
        Pair::data("supplier", bill.supplier.as_str()),
        Pair::new("goods", "goods", bill.goods),
        Pair::new(POSTAGE, "postage", bill.postage).noted(free.unwrap_or_default()),
        Pair::data("free_over", free_over),
        Pair::new("total", "to pay", bill.total()),
    ];
    let tubers: u64 = bill.lines.iter().map(|line| line.tubers).sum();
    let all = format!("{tubers} tubers in all.");
    let padding = bill.lines.iter().filter_map(OrderLine::padding_sentence);
    let by = order_by(plan, bill, list).map(|day| format!("order by {day}"));
    Section {
        head: bill.supplier.clone(),
        note: by.unwrap_or_default(),
        parts: vec![
            Part::Table(table.with(rows)),
            Part::sentences("", [all].into_iter().chain(padding)),
            Part::Sums("suppliers", sums),
        ],
    }
}

impl Bill {
    /// Goods and postage.
    pub fn total(&self) -> Money {
        Money::hundredths(self.goods.in_hundredths() + self.postage.in_hundredths())
    }
}

impl OrderLine {
    /// How many of its packs only fill the order up, and to what: `2 packs to reach the least order
    /// of 20.00, and needed for nothing else`.
    pub(super) fn padding_in_words(&self) -> Option<String> {
        let padding = self.padding?;
        let packs = match (padding.packs, self.packs) {
            (1, 1) => "1 pack".to_string(),
            (some, all) if some == all => format!("{all} packs"),
            (some, all) => format!("{some} of {all} packs"),
        };
        Some(format!(
            "{packs} {}, and needed for nothing else",
            padding.purpose()
        ))
    }

    /// The same as a sentence of its own.
    fn padding_sentence(&self) -> Option<String> {
        Some(format!("{}: {}.", self.variety, self.padding_in_words()?))
    }

    /// The same with its figures.
    fn padding(&self) -> Cell {
        let (Some(padding), Some(told)) = (self.padding, self.padding_in_words()) else {
            return Cell::Nothing;
        };
        let figures = vec![
            ("packs", padding.packs.into()),
            ("least", padding.least.into()),
            ("free_over", padding.free_over.into()),
            ("told", told.as_str().into()),
        ];
        Cell::worded(told, Cell::Record(figures))
    }
}
