//! What is shown of a seedling is read as the same, and any changes undone are the start.

use proptest::prelude::*;

use super::*;
use crate::trial::SeedlingEdit;

const NAMES: [&str; 5] = ["Haaf Bell", "open-pollinated", "25-001", "", "Ebb Kist"];

fn any_sowing() -> impl Strategy<Value = Sowing> {
    let parents = (
        prop::sample::select(&NAMES[..]),
        prop::sample::select(&NAMES[..]),
    );
    let sown = prop::sample::select(&["", "2026", "2026-03-14"][..]);
    let row = prop::sample::select(&["", "byre", "sea wall"][..]);
    let counts = (prop::option::of(0_u32..40), prop::option::of(1_u32..9));
    (parents, sown, row, counts, 2_u16..9, 0_u16..4).prop_map(
        |((seed, pollen), sown, row, (place, plants), own, more)| {
            let text = |count: Option<u32>| count.map_or(String::new(), |count| count.to_string());
            let mut sowing = Sowing::new(None);
            for (word, text) in [
                ("number", format!("26-{own:03}..26-{:03}", own + more)),
                ("seed", seed.to_string()),
                ("pollen", pollen.to_string()),
                ("sown", sown.to_string()),
                ("row", row.to_string()),
                ("place", text(place)),
                ("plants", text(plants)),
            ] {
                sowing.set(Key::of(word), &text, nothing()).expect(word);
            }
            sowing
        },
    )
}

fn nothing() -> SowingGround<'static> {
    static EMPTY: std::sync::LazyLock<(Trial, Varieties)> =
        std::sync::LazyLock::new(Default::default);
    SowingGround {
        trial: &EMPTY.0,
        list: &EMPTY.1,
        changed: None,
        days: crate::measure::day::Calendar::FILES,
    }
}

/// Any change of the seedlings: of those that are there and of those that are not.
fn any_edit() -> impl Strategy<Value = SeedlingEdit> {
    let number = || (1_u16..14).prop_map(|own| Number::new(2026, own).expect("a number"));
    let one = || any_sowing().prop_map(|sowing| sowing.seedlings().swap_remove(0));
    prop_oneof![
        any_sowing().prop_map(|sowing| SeedlingEdit::add(sowing.seedlings())),
        (number(), one()).prop_map(|(number, seedling)| SeedlingEdit::Put { number, seedling }),
        prop::collection::vec(number(), 1..3).prop_map(SeedlingEdit::Remove),
    ]
}

proptest! {
    #[test]
    fn what_is_shown_of_a_seedling_is_read_as_the_same(sowing in any_sowing()) {
        let fields = sowing.fields(nothing());
        let mut again = Sowing::new(None);
        for field in &fields {
            prop_assert_eq!(again.set(field.key, &field.text, nothing()), Ok(()));
        }
        prop_assert_eq!(&again, &sowing);
        for seedling in sowing.seedlings() {
            prop_assert_eq!(Sowing::of(&seedling).seedlings(), [seedling]);
        }
    }

    #[test]
    fn any_changes_of_the_seedlings_undone_are_the_start(edits in prop::collection::vec(any_edit(), 0..16)) {
        let mut trial = Trial::default();
        trial.edit(SeedlingEdit::add(vec![Seedling::numbered(Number::new(2026, 3).expect("a number"))]));
        let start = trial.clone();
        let mut past = Vec::new();
        for edit in edits {
            let before = trial.clone();
            match trial.edit(edit) {
                Some(back) => past.push(back),
                None => prop_assert_eq!(&trial, &before),
            }
            for seedling in trial.seedlings() {
                prop_assert_eq!(trial.seedling(seedling.number), Some(seedling));
            }
        }
        let end = trial.clone();
        let mut future = Vec::new();
        while let Some(back) = past.pop() {
            future.push(trial.edit(back).expect("it can be taken back"));
        }
        prop_assert_eq!(&trial, &start);
        while let Some(again) = future.pop() {
            prop_assert!(trial.edit(again).is_some());
        }
        prop_assert_eq!(&trial, &end);
    }
}

#[test]
fn places_count_on_and_numbers_follow_each_other() {
    let mut sowing = Sowing::new("26-003..005".parse().ok());
    sowing
        .set(Key::of("place"), "7", nothing())
        .expect("a place");
    let told = sowing.seedlings().into_iter();
    let told: Vec<String> = told
        .map(|one| format!("{} {:?}", one.number, one.place))
        .collect();
    assert_eq!(told, ["26-003 Some(7)", "26-004 Some(8)", "26-005 Some(9)"]);
}

#[test]
fn what_cannot_be_is_told_in_its_field() {
    let mut trial = Trial::default();
    let text = r#"[(number: "26-001"), (number: "26-002", seed_parent: "26-001")]"#;
    let seedlings: Vec<Seedling> = crate::problem::read_ron("trial.ron", text).expect("two");
    trial.edit(SeedlingEdit::add(seedlings));
    let list = Varieties::default();
    let ground = |changed: Option<&str>| SowingGround {
        trial: &trial,
        list: &list,
        changed: changed.map(|one| one.parse().expect("a number")),
        days: crate::measure::day::Calendar::FILES,
    };
    let wrong = |fields: &[(&'static str, &str)], changed: Option<&str>| {
        let own = changed.and_then(|one| trial.seedling(one.parse().expect("a number")));
        let mut sowing = own.map_or(Sowing::new(None), Sowing::of);
        for (word, text) in fields {
            sowing
                .set(Key::of(word), text, ground(changed))
                .expect(text);
        }
        let wrong = sowing.wrong(ground(changed));
        wrong.map_or(String::new(), |(key, told)| format!("{key}: {told}"))
    };
    for (fields, changed, told) in [
        (&[][..], None, "number: found no number"),
        (&[("number", "25-001..25-003")], None, ""),
        (
            &[("number", "26-002..26-004")],
            None,
            "number: found the number 26-002 a second time",
        ),
        (
            &[("number", "26-003"), ("pollen", "26-003")],
            None,
            "pollen: found the seedling itself",
        ),
        (
            &[("number", "26-003..26-009"), ("place", "999998")],
            None,
            "place: found places up to 1000004",
        ),
        (
            &[("number", "26-008")],
            Some("26-001"),
            "number: found 26-008: 26-001 is named as a parent of 26-002",
        ),
        (&[("number", "26-008")], Some("26-002"), ""),
        (&[("row", "byre")], Some("26-001"), ""),
    ] {
        let found = wrong(fields, changed);
        assert!(
            found.starts_with(told) && found.is_empty() == told.is_empty(),
            "{found}"
        );
    }
    let refused = Sowing::new(None).set(Key::of("sown"), "spring", ground(None));
    assert!(
        refused
            .expect_err("no day")
            .contains("or a year such as 2026")
    );
    let offered = Sowing::new(None).offered(Key::of("seed"), "26-", ground(None));
    assert_eq!(offered, ["26-001", "26-002"]);
}

#[test]
fn a_seedling_that_was_dropped_when_its_notes_were_withdrawn_is_no_misfit() {
    let entry = |text: &str| crate::problem::read_ron("entries", text).expect("an entry");
    let noted =
        r#"(id: 1, date: "2026-08-20", of: "26-001", what: observed((diameters: ["98mm"])))"#;
    let withdrawn = r#"(id: 2, corrects: 1, date: "2026-08-20", of: "26-001", what: withdrawn)"#;
    let (_, told) = Trial::of(Vec::new(), vec![entry(noted)]);
    assert_eq!(
        told,
        ["entry 1: found the seedling 26-001, expected one of trial.ron"]
    );
    let (trial, told) = Trial::of(Vec::new(), vec![entry(noted), entry(withdrawn)]);
    assert_eq!(told, Vec::<String>::new());
    assert_eq!(trial.why_stays("26-001".parse().expect("a number")), None);
}
