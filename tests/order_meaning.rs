//! Plans drawn with all that a plan can ask for, settled by `trug order`, and written for
//! `tests/outside/order_meaning.py`, which settles them again from what the words mean.

#[path = "common/order_lane.rs"]
mod order_lane;
#[path = "common/plans.rs"]
mod plans;

use std::path::PathBuf;

use order_lane::Lane;
use plans::{Drawn, drawn, facts};
use serde_json::json;

/// Plans drawn.
const PLANS: u64 = 44;

/// The list and the order as the grower writes them, facts of the list that the words of needs ask
/// about, and what the program answers: each plan in one file.
#[test]
fn the_plans_are_written_for_an_outside_solver() {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("plans");
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).expect("a folder");
    let mut statuses = Vec::new();
    for seed in 1..=PLANS {
        let Drawn { list, plan } = drawn(seed);
        let written = plan.write().expect("a plan writes");
        let lane = Lane::with(&list.write().expect("a list writes"), &written);
        let answer = lane.json(&["--seconds", "120"]);
        // What is not proved could not be compared.
        let status = answer["status"].as_str().expect("a status").to_string();
        assert_ne!(status, "stopped", "{seed}: {}", answer["told"]);
        statuses.push(status);
        let object = json!({
            "list": list.list(), "plan": plan, "facts": facts(&list, &plan), "answer": answer,
        });
        let file = folder.join(format!("plan-{seed:02}.json"));
        std::fs::write(file, format!("{object:#}")).expect("written");
    }
    let met = statuses
        .iter()
        .filter(|status| *status == "optimal")
        .count();
    assert!(
        met * 2 >= statuses.len() && met < statuses.len(),
        "{statuses:?}"
    );
}
