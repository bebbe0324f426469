//! One order on every drawing of it: text, file of cells, JSON and printed page say the same.

use crate::folder::settings::Settings;
use proptest::prelude::*;
use serde_json::{Value, json};

use super::printed;
use crate::account::{self, Section};
use crate::folder::contents::{Contents, varieties};
use crate::folder::order::plan;
use crate::order::model::Choice;
use crate::order::report::{sheet, sheet_rows};
use crate::order::{Bill, ListContext, Order, OrderLine, Padding, Plan, Terms, settle};
use crate::paper::{Page, Paper};
use crate::table::guard;
use crate::variety::{Index, Money, Varieties};
use jiff::civil::date;

/// The cells of a line as people read them, name first.
fn cells(line: &OrderLine) -> [String; 6] {
    [
        line.variety.clone(),
        line.packs.to_string(),
        (line.tubers / line.packs).to_string(),
        line.tubers.to_string(),
        line.price.to_string(),
        line.cost.to_string(),
    ]
}

/// From what worth the postage of this bill is free, where it is.
fn free_over(plan: &Plan, bill: &Bill) -> Option<Money> {
    let mut terms = plan.suppliers.iter();
    let terms = terms.find(|terms| terms.name.as_str() == bill.supplier)?;
    terms.free_over.filter(|over| bill.goods >= *over)
}

fn number(money: Money) -> Value {
    json!(money.in_hundredths() as f64 / 100.0)
}

/// Holds every drawing of the order sheet against the order itself.
fn all_say_the_same(plan: &Plan, order: &Order, list: &Varieties) {
    let sections = sheet(plan, order, list);
    in_text(plan, order, &sections);
    in_cells(plan, order, &sections);
    as_data(plan, order, &sections);
    on_paper(plan, order, &sections);
}

fn in_text(plan: &Plan, order: &Order, sections: &[Section]) {
    let lines = account::lines(sections, 200);
    let squeezed = |line: &String| line.split_whitespace().collect::<Vec<_>>().join(" ");
    let blocks: Vec<&[String]> = lines.split(String::is_empty).collect();
    assert_eq!(blocks.len(), order.bills.len() + 1, "{lines:#?}");
    for (bill, block) in order.bills.iter().zip(&blocks) {
        assert!(block[0].starts_with(&bill.supplier), "{block:#?}");
        let head = "variety packs tubers a pack tubers price a pack cost";
        assert_eq!(squeezed(&block[1]), head);
        for (line, told) in bill.lines.iter().zip(&block[2..]) {
            assert_eq!(squeezed(told), cells(line).join(" "));
        }
        let free = free_over(plan, bill).map(|over| format!(" (free from {over})"));
        let free = free.unwrap_or_default();
        let (goods, postage, total) = (bill.goods, bill.postage, bill.total());
        let sums = format!("  goods {goods}, postage {postage}{free}, to pay {total}");
        assert_eq!(block.last(), Some(&sums));
        for line in bill
            .lines
            .iter()
            .filter_map(|line| line.padding.map(|_| line))
        {
            let told = format!("  {}: ", line.variety);
            let told = block
                .iter()
                .any(|own| own.starts_with(&told) && own.ends_with("nothing else."));
            assert!(told, "{block:#?}");
        }
    }
    assert_eq!(
        blocks[order.bills.len()].last(),
        Some(&format!("All orders: {}", order.cost))
    );
}

fn in_cells(plan: &Plan, order: &Order, sections: &[Section]) {
    let rows = sheet_rows(sections);
    let mut rows = rows.iter();
    let head = rows.next().expect("a heading").join(",");
    let names = "supplier,variety,packs,tubers a pack,tubers,price a pack,cost,note";
    assert_eq!(head, names);
    for bill in &order.bills {
        for line in &bill.lines {
            let row = rows.next().expect("a row");
            let plain: Vec<&str> = row.iter().map(|cell| guard::plain(cell)).collect();
            assert_eq!(plain[0], bill.supplier);
            assert_eq!(plain[1..7], cells(line));
            assert_eq!(plain[7].is_empty(), line.padding.is_none());
        }
        let postage = rows.next().expect("postage");
        assert_eq!(
            (postage[1].as_str(), &postage[6]),
            ("postage", &bill.postage.to_string())
        );
        let free = free_over(plan, bill).map(|over| format!("free from {over}"));
        assert_eq!(postage[7], free.unwrap_or_default());
    }
    assert_eq!(rows.next(), None);
}

fn as_data(plan: &Plan, order: &Order, sections: &[Section]) {
    let object = account::object(sections);
    let none = Vec::new();
    let list = |id: &str| object[id].as_array().unwrap_or(&none);
    let mut lines = list("lines").iter();
    for (bill, supplier) in order.bills.iter().zip(list("suppliers")) {
        for line in &bill.lines {
            let told = lines.next().expect("a line");
            assert_eq!(
                [
                    &told["variety"],
                    &told["supplier"],
                    &told["packs"],
                    &told["tubers"]
                ],
                [
                    &json!(line.variety),
                    &json!(bill.supplier),
                    &json!(line.packs),
                    &json!(line.tubers)
                ]
            );
            assert_eq!(
                [&told["price"], &told["cost"]],
                [&number(line.price), &number(line.cost)]
            );
            let padding = line.padding.map(|padding| padding.packs);
            assert_eq!(told["padding"]["packs"], json!(padding));
        }
        let free = free_over(plan, bill).map(number);
        assert_eq!(
            *supplier,
            json!({
                "supplier": bill.supplier, "goods": number(bill.goods), "postage": number(bill.postage),
                "free_over": free, "total": number(bill.total()),
            })
        );
    }
    assert_eq!(
        (lines.next(), list("suppliers").len()),
        (None, order.bills.len())
    );
}

/// Each supplier's pages, told apart by their titles: the cells of each line side by side.
fn on_paper(plan: &Plan, order: &Order, sections: &[Section]) {
    let paper = Paper::named("a4").expect("a paper");
    let pages = printed::pages(sections, &paper, &Settings::default(), date(2026, 11, 30));
    let pages = pages.expect("pages");
    assert!(pages.iter().all(|page| page.strays().count() == 0));
    for bill in &order.bills {
        let title = format!("Order to {}", bill.supplier);
        let is_own = |page: &&Page| page.lines().any(|line| line.text.as_str() == title);
        let rows: Vec<Vec<String>> = pages.iter().filter(is_own).flat_map(rows_of).collect();
        for line in &bill.lines {
            let cells = cells(line).to_vec();
            assert!(rows.contains(&cells), "{cells:?} is not in {rows:#?}");
        }
        let free = free_over(plan, bill).map(|over| format!(" (free from {over})"));
        for (name, amount) in [
            ("goods".to_string(), bill.goods),
            (format!("postage{}", free.unwrap_or_default()), bill.postage),
            ("to pay".to_string(), bill.total()),
        ] {
            let sum = vec![name, amount.to_string()];
            assert!(rows.contains(&sum), "{sum:?} is not in {rows:#?}");
        }
    }
}

/// The words of a page that stand in one row, from the left.
fn rows_of(page: &Page) -> Vec<Vec<String>> {
    let mut texts: Vec<(i64, i64, String)> = page
        .lines()
        .map(|line| {
            let [y, x] = [line.at().y, line.at().x].map(|at| (at * 10.0).round() as i64);
            (y, x, line.text.as_str().to_string())
        })
        .collect();
    texts.sort();
    let rows = texts.chunk_by(|one, other| one.0 == other.0);
    rows.map(|row| row.iter().map(|one| one.2.clone()).collect())
        .collect()
}

/// The demo's plan with these suppliers' terms.
fn terms(suppliers: Vec<Terms>) -> Plan {
    let mut plan = plan(None).expect("the demo").expect("a plan");
    plan.suppliers = suppliers;
    plan
}

#[test]
fn the_demos_order_is_the_same_on_every_drawing_of_it() {
    let contents = Contents::load(None).expect("the demo");
    let list = varieties(None).expect("the demo's list");
    let grounds = contents.grounds(&contents.sets[0]);
    let index = Index::new(&list, grounds);
    let against = ListContext {
        list: &list,
        index: &index,
        grounds,
        sure: crate::order::USUALLY_SURE,
    };
    let plan = plan(None).expect("the demo").expect("a plan");
    let settled = settle(&plan, against, &mut |_| false).expect("settled");
    let order = settled.order.expect("an order");
    assert!(order.bills.len() > 1);
    all_say_the_same(&plan, &order, &list);
}

prop_compose! {
    fn a_line(supplier: usize, at: usize)(packs in 1_u64..30, pack in 1_u64..12, price in 1_u64..3_000, fills in 0_u64..3) -> OrderLine {
        let names = ["Haaf Bell", "=Ebb Kist", "Noust \u{e9}clair", "Wrack-Damson"];
        let least = Some(Money::hundredths(2_000));
        OrderLine {
            row: 0,
            variety: format!("{} {supplier}", names[at]),
            packs,
            tubers: packs * pack,
            price: Money::hundredths(price),
            cost: Money::hundredths(packs * price),
            padding: (1..=packs).contains(&fills).then_some(Padding { packs: fills, least, free_over: None }),
        }
    }
}

/// A bill, and from what worth its postage is free.
fn a_bill(at: usize) -> impl Strategy<Value = (Bill, Option<u64>)> {
    let lines = (0..4_usize)
        .map(|line| a_line(at, line))
        .collect::<Vec<_>>();
    (
        lines,
        1..=4_usize,
        0..900_u64,
        prop::option::of(0..60_000_u64),
    )
        .prop_map(move |(mut lines, count, postage, free_over)| {
            lines.truncate(count);
            let goods = lines.iter().map(|line| line.cost.in_hundredths()).sum();
            let free = free_over.is_some_and(|over| goods >= over);
            let bill = Bill {
                supplier: format!("Gullgarth {at}"),
                lines,
                goods: Money::hundredths(goods),
                postage: Money::hundredths(if free { 0 } else { postage }),
            };
            (bill, free_over)
        })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(48))]
    #[test]
    fn a_drawn_order_is_the_same_on_every_drawing_of_it(
        bills in (0..3_usize).prop_flat_map(|count| (0..count).map(a_bill).collect::<Vec<_>>())
    ) {
        let suppliers = bills.iter().map(|(bill, free_over)| Terms {
            name: bill.supplier.clone().try_into().expect("a name"),
            postage: Money::hundredths(500),
            free_over: free_over.map(Money::hundredths),
            least: None,
            closes: None,
        });
        let plan = terms(suppliers.collect());
        let bills: Vec<Bill> = bills.into_iter().map(|(bill, _)| bill).collect();
        let order = Order {
            cost: Money::hundredths(bills.iter().map(|bill| bill.total().in_hundredths()).sum()),
            bills,
            planted: Vec::new(),
            weekly: Vec::new(),
            plants: 0,
            choice: Choice::default(),
        };
        let list = Varieties::read("varieties.ron", "[(name: \"Haaf Bell\")]").expect("a list");
        all_say_the_same(&plan, &order, &list);
    }
}
