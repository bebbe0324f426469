//! How well the questions serve, over simulated blooms and simulated mistakes.

use trug::form::{Keyer, RuleSet};

use crate::common::policy::{Policy, Tally};

/// Few blooms, so the thresholds leave three standard errors; `benches/questions.rs` takes 10,000.
fn tally(keyer: &Keyer, policy: Policy, mistake: f64) -> Tally {
    let mut random = fastrand::Rng::with_seed(29);
    policy.tally(keyer, mistake, 700, &mut || random.f64())
}

#[test]
fn with_no_mistakes_every_bloom_ends_at_its_form_near_the_shortest_key() {
    for set in RuleSet::embedded() {
        let keyer = Keyer::even(set);
        let key = keyer.shortest_key(true).expect("a key");
        let told = tally(&keyer, Policy::Strict, 0.0);
        assert_eq!(told.first, 1.0);
        assert!(told.looks <= 1.15 * key.mean, "{told:?} {}", key.mean);
    }
}

/// One look a trait cannot do it: the likeliest form after every trait was asked is right less
/// often than second looks make it. That looks err independently is assumed.
#[test]
fn second_looks_pass_what_one_look_a_trait_can_reach() {
    let keyer = Keyer::even(RuleSet::embedded().remove(0));
    let ceiling = tally(&keyer, Policy::Everything, 0.1);
    let careful = tally(&keyer, Policy::CAREFUL, 0.1);
    assert!(ceiling.first < 0.85, "{ceiling:?}");
    assert!(careful.first > 0.9 && careful.third > 0.95, "{careful:?}");
    assert!(careful.looks < ceiling.looks, "{careful:?}");
    let count = tally(&keyer, Policy::Count, 0.1);
    assert!(count.first < careful.first - 0.3, "{count:?}");
}
