//! Where nothing is known of a variety a use does not rank it first, and what is learned of it that is
//! good never costs it a place.

use crate::common::shell::trug_anywhere;
use crate::common::shipped::Shipped;
use crate::common::varieties;

use proptest::prelude::*;
use serde_json::json;
use trug::variety::{By, Index, Ranking, Varieties, Variety};

/// The order of the names of a list, the best for a use first.
fn ranked(list: &Varieties, shipped: &Shipped, use_id: &str) -> Vec<String> {
    let context = shipped.context(8.0);
    let index = Index::new(list, context);
    let ranking = Ranking {
        by: By::Fitness,
        use_at: context.uses.find(use_id),
        ..Ranking::default()
    };
    let all = index.narrowed(&[]);
    let ranked = index.ranked(&all, &ranking, list.len());
    let name = |row: usize| list.list()[row].name.to_string();
    ranked.into_iter().map(|one| name(one.row)).collect()
}

/// A fact that no use could wish better, and the uses that ask for it.
struct Good {
    field: &'static str,
    value: serde_json::Value,
    uses: &'static [&'static str],
}

fn good_facts() -> [Good; 3] {
    [
        Good {
            field: "weather",
            value: json!(["wind:0/40"]),
            uses: &["exposed", "border"],
        },
        Good {
            field: "height",
            value: json!("800mm"),
            uses: &["exposed", "border"],
        },
        Good {
            field: "vase",
            value: json!({ "days": 9.0, "stems": 12 }),
            uses: &["market-bunch", "worn", "filler", "event-focal"],
        },
    ]
}

/// The variety without what is known of it that the fact would tell, its form too.
fn stripped(one: &Variety, fact: &Good) -> Variety {
    let mut record = serde_json::to_value(one).expect("a record");
    let fields = record.as_object_mut().expect("fields");
    for field in ["form", "bloom", fact.field] {
        fields.remove(field);
    }
    // What somebody states tells it too.
    fields.remove("stated");
    fields.remove("plant_heights");
    serde_json::from_value(record).expect("a record")
}

fn with(one: &Variety, fact: &Good) -> Variety {
    let mut record = serde_json::to_value(one).expect("a record");
    record[fact.field] = fact.value.clone();
    serde_json::from_value(record).expect("a record")
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(40))]

    #[test]
    fn a_variety_of_which_one_more_good_fact_is_recorded_never_ranks_lower(
        rows in 5_usize..60,
        at in any::<prop::sample::Index>(),
        fact in 0_usize..3,
        wanted in any::<prop::sample::Index>(),
    ) {
        let shipped = Shipped::new();
        let fact = &good_facts()[fact];
        let use_id = wanted.get(fact.uses);
        let row = at.index(rows);
        let mut list = varieties::varieties(rows);
        let before = stripped(&list.list()[row], fact);
        let name = before.name.to_string();
        list.replace(row, before.clone()).expect("its own name");
        let place = |list: &Varieties| {
            let ranked = ranked(list, &shipped, use_id);
            ranked.iter().position(|one| *one == name).expect("in the list")
        };
        let unknown = place(&list);
        list.replace(row, with(&before, fact)).expect("its own name");
        let known = place(&list);
        prop_assert!(known <= unknown, "{name} for {use_id} by its {}: {unknown} to {known}", fact.field);
    }
}

/// Of a bloom of which nothing is known but a name nothing is said of any use, and it stands last.
#[test]
fn a_variety_of_which_nothing_is_known_never_ranks_first() {
    let shipped = Shipped::new();
    let mut list = varieties::varieties(30);
    let unknown = json!({ "name": "Zzz Nobody Knows" });
    let unknown: Variety = serde_json::from_value(unknown).expect("a record");
    list.insert(0, unknown).expect("a name of its own");
    for one in shipped.context(8.0).uses.list() {
        let last = ranked(&list, &shipped, &one.id).pop();
        assert_eq!(last.as_deref(), Some("Zzz Nobody Knows"), "{}", one.id);
    }
}

/// Two novelties whose weather nobody knows stood first of the demo for an exposed place, at 100 %.
#[test]
fn what_was_never_seen_in_the_wind_does_not_lead_the_list_for_an_exposed_place() {
    let answer = trug_anywhere(&["choose", "--use", "exposed", "--top", "240", "--json"]).object();
    let varieties = answer["varieties"].as_array().expect("varieties");
    let why = |one: &serde_json::Value| one["why"].to_string();
    let unknown = |one: &serde_json::Value| why(one).contains("nothing is known of it in wind");
    assert!(!varieties.iter().take(12).any(unknown));
    let first = varieties
        .iter()
        .find(|one| unknown(one))
        .expect("a novelty");
    assert!(
        why(first).contains("taken as the middle of your list"),
        "{first}"
    );
    assert!(first["fitness"].as_f64().expect("a share") < 0.9, "{first}");
}
