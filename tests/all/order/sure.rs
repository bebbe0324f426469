//! Orders that are as sure as was asked: what may never happen to a chance, and plans written for
//! `tests/outside/order_sure.py`, which draws their seasons again from what the words mean.

use std::path::PathBuf;

use crate::common::order_lane::Lane;
use crate::common::plans::{Drawn, drawn, facts, read};
use proptest::prelude::*;
use serde_json::json;
use trug::order::{
    Candidates, Order, Pieces, Promised, Status, chances, settle_candidates, settle_surely,
    what_surer_costs,
};
use trug::variety::Money;

/// Plans drawn.
const PLANS: usize = 20;
/// Seasons by which a chance is told in a test of what may not happen: the same for both orders.
const SEASONS: u32 = 300;

/// A drawn plan whose frosts come when they come, with money and beds enough for more than the usual season.
/// Without counts: how those give way to a late frost is told elsewhere.
fn uncertain(seed: u64) -> Drawn {
    let Drawn { list, plan } = drawn(seed);
    let mut plan = serde_json::to_value(plan).expect("a plan");
    let season = &mut plan["season"];
    season["last_frost"] = json!({ "risks": [{ "chance": 90, "on": "2027-04-20" }, { "chance": 10, "on": "2027-05-20" }] });
    season["first_frost"] = json!({ "risks": [{ "chance": 10, "on": "2027-10-01" }, { "chance": 50, "on": "2027-10-18" }] });
    season["counted"] = json!([]);
    plan["beds"][0]["length"] = "40m".into();
    if let Some(money) = plan["money"].as_str() {
        let money: f64 = money.parse().expect("an amount");
        plan["money"] = format!("{:.2}", money * 3.0).into();
    }
    for (at, need) in plan["needs"]
        .as_array_mut()
        .expect("needs")
        .iter_mut()
        .enumerate()
    {
        need["sure"] = [0.9, 0.7, 0.8][at].into();
    }
    Drawn {
        list,
        plan: serde_json::from_value(plan).expect("a plan"),
    }
}

/// An event of two parts that any stem will do for.
fn event() -> serde_json::Value {
    json!({ "name": "lammas fete", "on": "2027-08-28", "pieces": [[6, "garland"]], "sure": 0.85 })
}

const GARLAND: &str = r#"(
  parts: [(id: "base"), (id: "top")],
  pieces: [(name: "garland", stems: {"base": 4, "top": 2})],
)"#;

/// The list and the order as the grower writes them and what the program answers: each plan in one file.
#[test]
fn the_plans_are_written_for_an_outside_simulation() {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("sure");
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).expect("a folder");
    let (mut found, mut plans, mut seed) = (0, 0, 0);
    while plans < PLANS {
        seed += 1;
        let mut drawn = uncertain(seed);
        if seed % 2 == 0 {
            drawn.plan.work = vec![serde_json::from_value(event()).expect("an event")];
        }
        let written = drawn.plan.write().expect("a plan writes");
        let list = drawn.list.write().expect("a list writes");
        let lane = Lane::with(&list, &written).surely();
        std::fs::write(lane.path("pieces.ron"), GARLAND).expect("pieces write");
        // The needs that its event comes to stand among the plan's own.
        let pieces = Pieces::embedded().with_own("pieces.ron", GARLAND);
        let whole = drawn.plan.whole(&pieces.expect("pieces"), &|_| None);
        drawn.plan = whole.expect("an event");
        let Drawn { list, plan } = &drawn;
        let answer = lane.json(&["--seconds", "300"]);
        // What falls short in a usual season has nothing that could be promised.
        if answer["short"] != json!([]) || answer["promises"].is_null() {
            continue;
        }
        plans += 1;
        found += usize::from(answer["status"] == "found");
        let object = json!({
            "list": list.list(), "plan": plan, "facts": facts(&drawn), "answer": answer,
        });
        let file = folder.join(format!("sure-{plans:02}.json"));
        std::fs::write(file, format!("{object:#}")).expect("written");
    }
    assert!(found >= 5, "{found} of {PLANS} had to be made surer");
}

/// Every need that is said to be met has at least the chance that was asked, and meets the usual season too.
#[test]
fn what_is_said_to_be_sure_is() {
    let mut surer = 0;
    for seed in 1..=6 {
        let drawn = uncertain(seed);
        read(&drawn, |against| {
            let candidates = Candidates::of(&drawn.plan, against).expect("candidates");
            let average = settle_candidates(candidates.clone(), &mut |_| false);
            let settled = settle_surely(&drawn.plan, candidates, &drawn.list, &mut |_| false);
            let (Some(least), Some(order)) = (&average.order, &settled.order) else {
                return;
            };
            if !settled.status.meets_all() {
                return;
            }
            let model = &settled.candidates.model;
            assert_eq!(order.short().count(), 0, "{seed}");
            assert!(
                model
                    .money
                    .is_none_or(|money| order.cost.in_hundredths() <= money)
            );
            assert!(model.places.is_none_or(|places| order.plants <= places));
            assert!(order.cost >= least.cost, "{seed}");
            let reached = settled
                .promises
                .iter()
                .all(|one| one.is_met() || one.is_beyond());
            match settled.status {
                Status::Optimal => assert!(reached && order.cost == least.cost, "{seed}"),
                Status::Found { bound, .. } => {
                    surer += 1;
                    assert!(bound == least.cost, "{seed}");
                    assert!(reached, "{seed}: {:?}", settled.promises);
                }
                _ => {}
            }
        });
    }
    assert!(surer >= 2, "{surer}");
}

/// More tubers on hand take nothing from anybody, though they may fill the beds: an order that was as sure as asked
/// stays so, and the usual season's costs no more.
#[test]
fn more_on_hand_never_leaves_an_order_less_sure() {
    let mut sure = 0;
    for seed in 1..=10 {
        let drawn = uncertain(seed);
        let settled = |drawn: &Drawn| {
            read(drawn, |against| {
                let candidates = Candidates::of(&drawn.plan, against).expect("candidates");
                let least = settle_candidates(candidates.clone(), &mut |_| false);
                let settled = settle_surely(&drawn.plan, candidates, &drawn.list, &mut |_| false);
                let mut promises = settled.promises.iter();
                let as_sure = settled.status.meets_all()
                    && promises.all(|one| one.is_met() || one.is_beyond());
                (as_sure, least.order.map(|order| order.cost))
            })
        };
        let (as_sure, least) = settled(&drawn);
        if !as_sure {
            continue;
        }
        sure += 1;
        let mut list = drawn.list.clone();
        for at in 0..list.list().len() {
            let mut record = list.list()[at].clone();
            record.on_hand = Some(record.on_hand.unwrap_or(0) + 6);
            list.replace(at, record).expect("the same name");
        }
        let plan = drawn.plan.clone();
        let (stays, costs) = settled(&Drawn { list, plan });
        assert!(stays, "{seed}");
        assert!(costs <= least, "{seed}: {costs:?}, {least:?}");
    }
    assert!(sure >= 3, "{sure}");
}

#[test]
fn surer_never_costs_less() {
    let mut of = [None, Some(0)].into_iter().peekable();
    for seed in 1..=30 {
        let (Some(need), drawn) = (of.peek().copied(), uncertain(seed)) else {
            return;
        };
        let told = read(&drawn, |against| {
            let candidates = Candidates::of(&drawn.plan, against).expect("candidates");
            surer_costs_more(seed, &drawn, candidates, need)
        });
        if told {
            of.next();
        }
    }
    assert_eq!(of.next(), None, "too few plans that can be met");
}

/// Whether an order of a usual season is not sure enough for some step, and if so that such a step takes a
/// dearer one, whichever order is at hand.
fn surer_costs_more(seed: u64, drawn: &Drawn, candidates: Candidates, need: Option<usize>) -> bool {
    let Drawn { list, plan } = drawn;
    let usual = settle_candidates(candidates.clone(), &mut |_| false);
    let order = usual.order.as_ref().filter(|_| usual.status.meets_all());
    let Some(order) = order else {
        return false;
    };
    let chances = chances(plan, &candidates, list, order, 10_000).throughout;
    let least = need.map_or_else(
        || chances.iter().copied().fold(1.0, f64::min),
        |need| chances[need],
    );
    // Neither sure of every step nor of none.
    if !(0.3..0.9).contains(&least) {
        return false;
    }
    let surely = settle_surely(plan, candidates, list, &mut |_| false);
    for settled in [&usual, &surely] {
        let of = need.map(Promised::Need);
        let steps = what_surer_costs(plan, settled, list, of, &mut |_| false);
        assert_eq!(steps.len(), 5, "{seed}");
        let costs: Vec<Money> = steps.iter().filter_map(|step| step.1).collect();
        assert!(costs.is_sorted(), "{seed}: {steps:?}");
        // What is not found at one step is not found at a surer one.
        assert!(steps.iter().skip(costs.len()).all(|step| step.1.is_none()));
        for (sure, cost) in &steps {
            let more = cost.is_none_or(|cost| cost > order.cost);
            assert!(
                more || least > sure - 0.02,
                "{seed}: {sure} for {cost:?}, {least}"
            );
        }
    }
    true
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(24))]

    /// In the same seasons, a plant more of anything takes no stem from any need.
    #[test]
    fn a_plant_more_never_lowers_a_chance(seed in 1_u64..60, plants in prop::collection::vec(0_u64..9, 17), more in 0_usize..17) {
        let drawn = uncertain(seed);
        read(&drawn, |against| {
            let mut candidates = Candidates::of(&drawn.plan, against).expect("candidates");
            let own = candidates.model.varieties.iter_mut();
            own.for_each(|variety| variety.on_hand = 10);
            let chances = |plants: Vec<u64>| {
                let average = settle_candidates(candidates.clone(), &mut |_| true);
                let mut choice = average.order.map(|order| order.choice).unwrap_or_default();
                choice.packs.resize(candidates.model.offers.len(), 0);
                choice.plants = plants;
                choice.counted = Vec::new();
                let order = Order::of(&candidates, choice);
                chances(&drawn.plan, &candidates, &drawn.list, &order, SEASONS)
            };
            let count = candidates.model.varieties.len();
            let few: Vec<u64> = plants.iter().copied().chain(std::iter::repeat(0)).take(count).collect();
            let mut many = few.clone();
            if count > 0 {
                many[more % count] += 1;
            }
            let (few, many) = (chances(few), chances(many));
            for (few, many) in few.throughout.iter().zip(&many.throughout) {
                prop_assert!(many >= few);
            }
            for (few, many) in few.met.iter().flatten().zip(many.met.iter().flatten()) {
                prop_assert!(many.1 >= few.1);
            }
            Ok(())
        })?;
    }
}

/// A chance that is told is told in text and in the object alike, where it is as great as asked and where it
/// is not.
#[test]
fn the_page_and_the_object_promise_the_same() {
    let lane = Lane::new(crate::common::order_lane::PLAN).surely();
    let mut unmet = 0;
    for words in [&[][..], &["--set", "money=70"]] {
        let (object, text) = (lane.json(words), lane.out(words));
        let needs = text.split("most from").nth(1).expect("needs");
        for promise in object["promises"].as_array().expect("promises") {
            let name = promise["need"].as_str().expect("a name");
            let told = needs.lines().find(|line| line.starts_with(name));
            let share = |word: &str| promise[word].as_f64().expect(word) * 100.0;
            let (sure, chance) = (share("sure"), share("chance"));
            assert_eq!(promise["met"], chance >= sure);
            let figures = match chance >= sure {
                true => format!("  {chance:.0} %  "),
                false => format!("  {:.0} of {sure:.0} %  ", chance.floor()),
            };
            assert!(told.expect(name).contains(&figures), "{told:?} {figures}");
            unmet += usize::from(chance < sure);
        }
    }
    assert!(unmet > 0);
}

/// The advice taken: asked to be so sure, or surer, an order costs what it was said to cost. A search that
/// finds a dearer one than a surer search did is outdone by that one.
#[test]
fn what_surer_is_said_to_cost_is_what_it_costs() {
    let lane = Lane::new(crate::common::order_lane::PLAN).surely();
    let told = lane.json(&["--surer", "quay stall"]);
    let steps = told["surer"].as_array().expect("steps").iter().rev();
    let (mut least, mut dearer) = (f64::INFINITY, 0);
    for step in steps {
        let asked = format!("quay stall=sure={}", step["sure"]);
        let answer = lane.json(&["--set", &asked, "--set", "money=none"]);
        assert_eq!(answer["promises"][0]["met"], true, "{step}");
        least = least.min(answer["cost"].as_f64().expect("an order"));
        assert_eq!(step["cost"], least, "{told:#}");
        dearer += usize::from(least > told["bound"].as_f64().expect("a bound"));
    }
    assert!(dearer > 1, "{told:#}");
}
