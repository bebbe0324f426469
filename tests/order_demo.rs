//! The demo's order, settled from the grower's files to the last sum.

#[path = "common/orders.rs"]
mod orders;

use std::time::Instant;

use orders::Demo;
use trug::order::{Against, Mend, Plan, Settled, Status, chances, mends, settle, without};
use trug::variety::Index;

fn with<T>(change: impl FnOnce(&mut Plan), then: impl FnOnce(&Plan, Against<'_>, Settled) -> T) -> T {
    let mut demo = Demo::read();
    change(&mut demo.plan);
    let index = Index::new(&demo.list, demo.grounds());
    let against = Against { list: &demo.list, index: &index, grounds: demo.grounds() };
    let settled = settle(&demo.plan, against, &mut |_| false).expect("a plan that means something");
    then(&demo.plan, against, settled)
}

#[test]
fn show() {
    let start = Instant::now();
    with(|_| (), |plan, against, settled| {
        println!("{:?} {:?} nodes {} candidates {} offers {} places {}", start.elapsed(), settled.status, settled.nodes, settled.candidates.rows.len(), settled.candidates.offers.len(), plan.places());
        for (at, need) in plan.needs.iter().enumerate() { println!("{} {}", need.name, settled.candidates.matches.iter().filter(|m| m.iter().any(|m| m.need == at)).count()); }
        let order = settled.order.as_ref().unwrap();
        for bill in &order.bills { println!("{} goods {} postage {} lines {}", bill.supplier, bill.goods, bill.postage, bill.lines.len()); for l in &bill.lines { println!("   {} {} packs {} tubers {}", l.variety, l.packs, l.tubers, l.cost); } }
        println!("cost {} plants {} short {:?}", order.cost, order.plants, order.short().collect::<Vec<_>>());
        let t = Instant::now();
        println!("mends {:?} {:?}", mends(plan, against, &settled, &mut |_| false), t.elapsed());
        let t = Instant::now();
        println!("without {:?} {:?}", without(&settled, order.planted[0].candidate, &mut |_| false), t.elapsed());
        let t = Instant::now();
        let planned: Vec<bool> = settled.candidates.rows.iter().map(|r| against.list.list()[*r].stems_a_plant.is_none()).collect();
        let c = chances(plan, &settled.candidates, order, &planned, 200);
        println!("chances {:?} {:?}", t.elapsed(), c);
    });
}
