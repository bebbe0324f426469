//! The least-cost order, proved: the demo's, and 500 candidate varieties over 26 weeks and 8 needs
//! with packs, tight beds and needs that ask for several varieties and forms, without and with 200
//! more that only fill an order up. Each model is written
//! as free MPS, so that `tests/outside/order_agrees.py` can time HiGHS on the same file and print
//! the ratio. `-- SEEDS` draws so many large ones.
//!
//! Then the same kinds 80 % sure, seasons and all, beside their average orders; `-- sure` does these alone,
//! `-- sure demo` the demo's.
#![allow(clippy::print_stdout)]

#[path = "../tests/all/common/orders.rs"]
mod orders;

use std::path::PathBuf;
use std::time::{Duration, Instant};

use orders::{Demo, Kind, Planned, planned, with_fillers};
use trug::order::model::Model;
use trug::order::solve::least_cost;
use trug::order::{
    Candidates, ListContext, Plan, Settled, Status, settle_candidates, settle_surely,
};
use trug::variety::{Index, Varieties};

/// Varieties that only fill an order up.
const FILLERS: usize = 200;
/// A solve is stopped after so long, as a person would.
const PATIENCE: Duration = Duration::from_secs(60);

/// The demo as it is solved, and with every offer as it is written for other solvers.
fn demo() -> (Model, Model) {
    let demo = Demo::read();
    let index = Index::new(&demo.list, demo.grounds());
    let against = ListContext {
        list: &demo.list,
        index: &index,
        grounds: demo.grounds(),
        sure: trug::order::USUALLY_SURE,
    };
    let candidates = Candidates::of(&demo.plan, against).expect("candidates");
    let whole = Candidates::whole(&demo.plan, against).expect("a plan");
    [candidates.model, whole]
        .map(|model| Model {
            money: None,
            ..model
        })
        .into()
}

const LARGE: Kind = Kind {
    varieties: 500,
    weeks: 26,
    needs: 8,
    diverse: true,
    tight: true,
    step: 25,
};
/// How large the beds of a large plan are that is to be sure, in hundredths of what it has on average.
const BEDS: [u64; 2] = [300, 120];

fn main() {
    let words: Vec<String> = std::env::args().skip(1).collect();
    let large = words.iter().find_map(|number| number.parse().ok());
    let has = |word: &str| words.iter().any(|one| one == word);
    if !has("sure") {
        on_average(large.unwrap_or(4));
    }
    let large = if has("demo") { 0 } else { large.unwrap_or(4) };
    surely(large);
    println!("most memory: {}", most_memory());
}

/// The demo and so many large plans, each 80 % sure and on average.
fn surely(large: u64) {
    let demo = Demo::read();
    let index = Index::new(&demo.list, demo.grounds());
    let against = ListContext {
        list: &demo.list,
        index: &index,
        grounds: demo.grounds(),
        sure: trug::order::USUALLY_SURE,
    };
    let candidates = Candidates::of(&demo.plan, against).expect("candidates");
    tell("demo", &demo.plan, candidates, &demo.list);
    for seed in 1..=large {
        for beds in BEDS {
            let Planned {
                plan,
                list,
                candidates,
            } = planned(seed, LARGE, beds);
            tell(
                &format!("large-{seed}, beds {beds} %"),
                &plan,
                candidates,
                &list,
            );
        }
    }
}

fn tell(name: &str, plan: &Plan, candidates: Candidates, list: &Varieties) {
    let start = Instant::now();
    let average = settle_candidates(candidates.clone(), &mut |_| start.elapsed() > PATIENCE);
    let average_took = start.elapsed();
    let start = Instant::now();
    let sure = settle_surely(plan, candidates, list, &mut |_| start.elapsed() > PATIENCE);
    let took = start.elapsed();
    let cost = |settled: &Settled| settled.order.as_ref().map(|order| order.cost.to_string());
    let gap = match sure.status {
        Status::Found { gap, .. } => format!("found, gap {:.1} %", gap * 100.0),
        other => format!("{other:?}"),
    };
    let chances: Vec<String> = { sure.promises.iter() }
        .map(|one| format!("{:.3}", one.chance / one.sure))
        .collect();
    println!(
        "{name}: on average {:?} after {:.2} s; surely {:?} after {:.2} s, {gap}; chance over asked {}",
        cost(&average),
        average_took.as_secs_f64(),
        cost(&sure),
        took.as_secs_f64(),
        chances.join(" ")
    );
}

/// As the system tells it, where it does.
fn most_memory() -> String {
    let status = std::fs::read_to_string("/proc/self/status").unwrap_or_default();
    let most = status.lines().find_map(|line| line.strip_prefix("VmHWM:"));
    most.map_or("not told here".to_string(), |most| most.trim().to_string())
}

fn on_average(large: u64) {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("mps-timed");
    std::fs::create_dir_all(&folder).expect("a folder");
    let mut expected = String::from("file\tcost\tour_microseconds\n");
    let kind = LARGE;
    let drawn = (1..=large).map(|seed| (format!("large-{seed}"), seed));
    let large = drawn.flat_map(|(name, seed)| {
        let model = orders::drawn(seed, kind);
        let padded = with_fillers(&model, seed, FILLERS, 300..1500, kind.step);
        [
            (name.clone(), model.clone(), model),
            (format!("{name}-padded"), padded.clone(), padded),
        ]
    });
    let (demo, whole) = demo();
    for (name, model, whole) in std::iter::once(("demo".to_string(), demo, whole)).chain(large) {
        let start = Instant::now();
        let mut at_20 = None;
        let solved = least_cost(&model, &mut |progress| {
            let time = start.elapsed();
            if time > Duration::from_secs(20) && at_20.is_none() {
                at_20 = progress.best.map(|best| (best - progress.bound) / best);
            }
            time > PATIENCE
        });
        let time = start.elapsed();
        println!(
            "{name:10} {} offers: {} after {:.2} s, {} nodes, gap {:.3} %, after 20 s {}",
            model.offers.len(),
            if solved.is_optimal() {
                "proved"
            } else {
                "stopped"
            },
            time.as_secs_f64(),
            solved.nodes,
            solved.gap().unwrap_or(1.0) * 100.0,
            at_20.map_or("done".to_string(), |gap| format!("{:.3} %", gap * 100.0)),
        );
        if solved.is_optimal() {
            std::fs::write(folder.join(format!("{name}.mps")), whole.to_mps()).expect("written");
            expected += &format!("{name}.mps\t{}\t{}\n", solved.value, time.as_micros());
        }
    }
    std::fs::write(folder.join("expected.tsv"), expected).expect("written");
    println!(
        "written for tests/outside/order_agrees.py: {}",
        folder.display()
    );
}
