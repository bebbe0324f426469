//! Plans drawn with all that a plan can ask for, settled by `trug order`, and written for
//! `tests/outside/order_meaning.py`, which settles them again from what the words mean.

use std::path::PathBuf;

use crate::common::order_lane::Lane;
use crate::common::plans::{Drawn, drawn, facts, read};
use serde_json::json;
use trug::order::Candidates;
use trug::order::solve::least_cost;

/// Plans drawn.
const PLANS: u64 = 44;

/// What is left out of the candidates lowers no cost: with every offer of the list the least cost is
/// the same.
#[test]
fn every_offer_of_the_list_costs_as_much_as_the_candidates() {
    let mut fewer = 0;
    for seed in 1..=PLANS {
        let drawn = drawn(seed);
        read(&drawn, |against| {
            let candidates = Candidates::of(&drawn.plan, against).expect("candidates");
            let mut whole = Candidates::whole(&drawn.plan, against).expect("a plan");
            whole.limit_packs();
            fewer += usize::from(candidates.model.offers.len() < whole.offers.len());
            let [one, other] = [&candidates.model, &whole]
                .map(|model| least_cost(model, &mut |progress| progress.nodes > 50_000));
            assert!(one.is_optimal() || one.is_impossible(), "{seed}");
            assert_eq!((one.value, one.bound), (other.value, other.bound), "{seed}");
        });
    }
    assert!(fewer >= 10, "{fewer}");
}

/// The list and the order as the grower writes them, facts of the list that the words of needs ask
/// about, and what the program answers: each plan in one file.
#[test]
fn the_plans_are_written_for_an_outside_solver() {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("plans");
    let _ = std::fs::remove_dir_all(&folder);
    std::fs::create_dir_all(&folder).expect("a folder");
    let mut statuses = Vec::new();
    for seed in 1..=PLANS {
        let drawn = drawn(seed);
        let Drawn { list, plan } = &drawn;
        let written = plan.write().expect("a plan writes");
        let lane = Lane::with(&list.write().expect("a list writes"), &written);
        let answer = lane.json(&["--seconds", "120"]);
        // What is not proved could not be compared.
        let status = answer["status"].as_str().expect("a status").to_string();
        assert_ne!(status, "stopped", "{seed}: {}", answer["told"]);
        statuses.push(status);
        let object = json!({
            "list": list.list(), "plan": plan, "facts": facts(&drawn), "answer": answer,
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
