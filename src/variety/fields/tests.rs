//! What is shown of a field is read as the same, and what is wrong is told in its field.

use super::*;
use crate::record::Figure;
use crate::variety::{Text, Variety};
use std::sync::LazyLock;

const LIST: &str = include_str!("../../../catalogue/varieties.ron");

struct Bench {
    list: Varieties,
    rules: RuleSet,
    words: Vocabulary,
    own: OwnWords,
    known: NamesKnown,
}

static BENCH: LazyLock<Bench> = LazyLock::new(|| {
    let list = Varieties::read("varieties.ron", LIST).expect("the demo's list");
    Bench {
        known: NamesKnown::default(),
        rules: RuleSet::embedded().remove(0),
        words: Vocabulary::embedded(),
        own: OwnWords::default(),
        list,
    }
});

fn ground(row: Option<usize>) -> Ground<'static> {
    Ground {
        rules: &BENCH.rules,
        words: &BENCH.words,
        own: &BENCH.own,
        list: &BENCH.list,
        row,
        known: &BENCH.known,
        units: SizeUnits::Mm,
        stems_a_plant: 8.0,
    }
}

/// A variety of which everything is known.
fn whole() -> Variety {
    let text = r#"(name: "'Tis Haaf'", raiser: "A. Voe", form: (id: "ball", known: guessed, by: "Oar Bulbs"), bloom: "centre=closed tip=rounded", size: "small", diameters: ["98mm", "3 7/8 in"], colours: [(colour: "plum", part: main, pattern: tipped), (colour: "white", part: second, pattern: tipped), (colour: "lab(50 10 10)", part: reverse, pattern: self)], height: "900mm to 1200mm", plant_heights: ["1m"], stem: "60cm", stem_lengths: ["55cm", "60cm"], foliage: dark, vase: (days: 7.5, stems: 6), stated: [(what: diameter, value: "90mm to 110mm", by: "Oar; Bulbs"), (what: vase, value: "8 days")], weather: ["wind:3/12", "rain:0/4"], stems_a_week: 1.25, stems_a_plant: 11, on_hand: 4, offers: [(supplier: "Oar Bulbs", price: "4.50", pack: 3, available: 20, closes: "2027-02-28"), (supplier: "Kale Yard", price: "1", pack: 1)], protected: false, licence: "trial only", notes: "a; b", shortlist: (note: "for the quay"))"#;
    crate::problem::read_ron("varieties.ron", text).expect("a variety")
}

fn given(fields: &[(Key, &str)]) -> Draft {
    let mut draft = Draft::new();
    for (key, text) in fields {
        draft.set(*key, text, ground(None)).expect(text);
    }
    draft
}

#[test]
fn what_is_shown_of_every_field_is_read_as_the_same_variety() {
    let whole = whole();
    let varieties = BENCH.list.list().iter().chain([&whole]);
    let mut seen = std::collections::BTreeSet::new();
    for variety in varieties {
        let draft = Draft::of(variety);
        assert_eq!(draft.record().as_ref(), Some(variety));
        let mut again = Draft::new();
        for field in draft.fields(ground(None)) {
            if !field.text.is_empty() {
                seen.insert(field.key.word);
            }
            let set = again.set(field.key, &field.text, ground(None));
            assert_eq!(set, Ok(()), "{} of {}", field.key, variety.name);
        }
        assert_eq!(again.record().as_ref(), Some(variety));
    }
    let unseen = table::TABLE.iter().map(|row| row.word);
    let unseen: Vec<&str> = unseen.filter(|word| !seen.contains(word)).collect();
    assert_eq!(unseen, Vec::<&str>::new());
}

#[test]
fn what_stands_in_a_field_is_given_again_without_a_change() {
    for variety in [&whole(), &BENCH.list.list()[0]] {
        let draft = Draft::of(variety);
        for field in draft.fields(ground(None)) {
            let mut again = draft.clone();
            assert_eq!(again.set(field.key, &field.text, ground(None)), Ok(()));
            assert_eq!(again, draft, "{}", field.key);
        }
    }
}

#[test]
fn every_field_can_be_emptied() {
    let mut draft = Draft::of(&whole());
    let last = |draft: &Draft| {
        let fields = draft.fields(ground(None)).into_iter().rev();
        let mut filled = fields.filter(|field| !field.text.is_empty());
        filled.find(|field| field.key != Draft::NAME)
    };
    while let Some(field) = last(&draft) {
        let before = draft.clone();
        let set = draft.set(field.key, "", ground(None));
        assert_eq!(set, Ok(()), "{}", field.key);
        // What a colour always has, and how a form is known, go with it alone.
        if before == draft {
            let of = if field.key.word.starts_with("form") {
                "form"
            } else {
                "colour"
            };
            let of = Key::nth(of, field.key.place);
            assert_eq!(draft.set(of, "", ground(None)), Ok(()), "{}", field.key);
        }
        assert!(before != draft, "{}", field.key);
    }
    let name = whole().name;
    assert_eq!(draft.record(), Some(Variety::named(name)));
}

#[test]
fn a_variety_with_a_form_a_colour_and_an_offer_is_seven_texts() {
    let draft = given(&[
        (Key::of("name"), "Kist Lum"),
        (Key::of("form"), "Formal Decorative"),
        (
            Key::of("colour"),
            "plum (main, tipped); white (second, tipped)",
        ),
        (Key::of("supplier"), "Oar Bulbs"),
        (Key::of("price"), "£4,50"),
        (Key::of("pack"), "3"),
        (Key::nth("supplier", 1), "Kale Yard"),
        (Key::nth("price", 1), "2"),
        (Key::nth("pack", 1), "1"),
    ]);
    let record = draft.record().expect("whole");
    assert_eq!(
        record.form.expect("a form").id.as_str(),
        "formal-decorative"
    );
    assert_eq!((record.colours.len(), record.offers.len()), (2, 2));
    let fields = draft.fields(ground(None));
    let keys: Vec<String> = fields.iter().map(|field| field.key.to_string()).collect();
    assert_eq!(
        keys[..19],
        [
            "name",
            "form",
            "form-known",
            "form-by",
            "colour",
            "pattern",
            "colour-2",
            "part-2",
            "pattern-2",
            "colour-3",
            "supplier",
            "price",
            "pack",
            "available",
            "closes",
            "supplier-2",
            "price-2",
            "pack-2",
            "available-2"
        ]
    );
    assert!(keys.contains(&"supplier-3".to_string()), "room for another");
}

#[test]
fn what_is_wrong_is_told_in_its_field() {
    let mut draft = Draft::new();
    let told = |draft: &Draft| {
        draft
            .wrong(ground(None))
            .map(|(key, told)| format!("{key}: {told}"))
    };
    assert_eq!(
        told(&draft).as_deref(),
        Some("name: found no name, expected one")
    );
    let taken = BENCH.list.list()[0].name.to_uppercase();
    draft
        .set(Key::of("name"), &taken, ground(None))
        .expect("a name");
    assert!(told(&draft).is_some_and(|told| told.starts_with("name: found the name")));
    let own = Ground {
        row: Some(0),
        ..ground(None)
    };
    assert_eq!(draft.wrong(own), None, "it may keep its own name");
    draft
        .set(Key::of("name"), "Kist Lum", ground(None))
        .expect("a name");
    draft
        .set(Key::of("supplier"), "Oar Bulbs", ground(None))
        .expect("a supplier");
    insta::assert_snapshot!(told(&draft).expect("no price"), @"price: found an offer of Oar Bulbs without a price, expected what a pack costs, such as 4.50");
    draft
        .set(Key::of("price"), "4.50", ground(None))
        .expect("a price");
    insta::assert_snapshot!(told(&draft).expect("no pack"), @"pack: found an offer of Oar Bulbs without a pack, expected tubers in a pack, 1 where the price is of one");
    assert_eq!(draft.record(), None);
    draft
        .set(Key::of("supplier"), "", ground(None))
        .expect("nothing");
    assert_eq!(told(&draft), None, "without a supplier there is no offer");
    draft
        .set(Key::of("vase-stems"), "6", ground(None))
        .expect("stems");
    assert!(told(&draft).is_some_and(|told| told.starts_with("vase-days: ")));
}

#[test]
fn a_text_that_means_nothing_is_refused_and_nothing_is_changed() {
    let draft = Draft::of(&whole());
    for (key, text, expected) in [
        (Key::of("form"), "bal", "ball"),
        (
            Key::of("form-known"),
            "sure",
            "one of stated, keyed, guessed",
        ),
        (Key::of("colour"), "plumm", "plum"),
        (
            Key::nth("colour", 1),
            "red; white; pink",
            "at most 3 colours",
        ),
        (Key::nth("colour", 3), "red", "at most 3 colours"),
        (Key::of("part"), "tip", "one of main"),
        (Key::of("pattern"), "spotted", "one of self"),
        (Key::of("price"), "four", "such as 4 or 4.50"),
        (Key::of("pack"), "0", "over 0"),
        (
            Key::nth("price", 4),
            "4.50",
            "expected supplier-3 before it",
        ),
        (Key::of("closes"), "soon", "a whole day such as"),
        (Key::of("size"), "vast", "small"),
        (Key::of("measured-diameters"), "98mm; wide", "a length"),
        (Key::of("height"), "120-90cm", "a span such as 90-120cm"),
        (Key::of("weather"), "hail:1/2", "found"),
        (Key::of("foliage"), "blue", "one of green, bronze, dark"),
        (Key::of("on-hand"), "-1", "a whole number"),
        (Key::of("stems-a-plant"), "10000", "at most 9999"),
        (Key::of("protected"), "perhaps", "yes or no"),
        (Key::of("bloom"), "centre=shut", "found"),
        (
            Key::nth("name", 1),
            "Ebb",
            "a field of a variety: name, form",
        ),
        (Key::of("nmae"), "Ebb", "a field of a variety: name, form"),
        (Key::of("notes"), "#REF!", "the spreadsheet's error"),
    ] {
        let mut again = draft.clone();
        let told = again.set(key, text, ground(None)).expect_err(text);
        assert!(told.contains(expected), "{key}: {told}");
        assert_eq!(again, draft, "{key}");
    }
}

#[test]
fn another_form_is_not_what_somebody_stated_of_the_one_before() {
    let mut draft = Draft::of(&whole());
    draft
        .set(Key::of("form"), "pompon", ground(None))
        .expect("a form");
    let form = draft
        .record()
        .and_then(|record| record.form)
        .expect("a form");
    assert_eq!((form.known.word(), form.by), ("stated", None));
}

#[test]
fn values_are_offered_as_they_are_typed() {
    let draft = Draft::new();
    let offered =
        |word: &'static str, typed: &str| draft.offered(Key::of(word), typed, ground(None));
    assert_eq!(offered("form", "pom")[0], "pompon");
    assert_eq!(
        offered("pattern", "t"),
        ["tipped", "bicolour"].map(String::from)[..1]
    );
    assert!(offered("colour", "").len() > 30);
    let first = &BENCH.known.suppliers(&BENCH.list)[0];
    assert!(offered("supplier", &first[..3]).contains(&first.to_string()));
    assert_eq!(offered("notes", "a"), Vec::<String>::new());
}

#[test]
fn a_copy_has_all_but_its_name_and_what_is_the_growers_own() {
    let copy = Draft::copy_of(&whole());
    assert_eq!((copy.name(), copy.record()), (None, None));
    let mut named = copy.clone();
    named
        .set(Key::of("name"), "Kist Lum", ground(None))
        .expect("a name");
    let expected = Variety {
        name: Text::new("Kist Lum").expect("a name"),
        on_hand: None,
        shortlist: None,
        ..whole()
    };
    assert_eq!(named.record(), Some(expected));
}

#[test]
fn every_field_says_what_it_means_and_what_may_stand_there() {
    for field in Draft::of(&whole()).fields(ground(None)) {
        assert!(
            field.means.ends_with(['.', '?']) && field.takes.ends_with('.'),
            "{}",
            field.key
        );
    }
    let stems = |draft: &Draft| {
        let fields = draft.fields(ground(None)).into_iter();
        let found = fields
            .clone()
            .find(|field| field.key == Key::of("stems-a-plant"));
        found.map(|field| field.figure)
    };
    assert_eq!(stems(&Draft::new()), Some(Figure::Assumed));
    assert_eq!(stems(&Draft::of(&whole())), Some(Figure::Stated));
}
