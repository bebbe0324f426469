//! The least-cost order, proved: the demo's, and 500 candidate varieties over 26 weeks and 8 needs
//! with packs, tight beds and needs that ask for several varieties and forms, without and with 200
//! more that only fill an order up. Each model is written
//! as free MPS, so that `tests/outside/order_agrees.py` can time HiGHS on the same file and print
//! the ratio. `-- SEEDS` draws so many large ones.
#![allow(clippy::print_stdout)]

#[path = "../tests/all/common/orders.rs"]
mod orders;

use std::path::PathBuf;
use std::time::{Duration, Instant};

use orders::{Demo, Kind, with_fillers};
use trug::order::model::Model;
use trug::order::solve::least_cost;
use trug::order::{Candidates, ListContext};
use trug::variety::Index;

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

fn main() {
    let large = std::env::args()
        .skip(1)
        .find_map(|number| number.parse().ok());
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("mps-timed");
    std::fs::create_dir_all(&folder).expect("a folder");
    let mut expected = String::from("file\tcost\tour_microseconds\n");
    let kind = Kind {
        varieties: 500,
        weeks: 26,
        needs: 8,
        diverse: true,
        tight: true,
        step: 25,
    };
    let drawn = (1..=large.unwrap_or(4)).map(|seed| (format!("large-{seed}"), seed));
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
