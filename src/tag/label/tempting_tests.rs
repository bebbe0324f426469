//! Plants that tempt a tag to say more than is known, read off the printed words.

use super::*;
use crate::tag::says::tests::grounds_of;

/// A ball with every trait answered.
const BALL: &str = "centre=closed outline=globe tip=rounded set=regular roll=forward rolled=90 line=straight gradient=even rows=14";
/// How the foot of every tag begins and ends.
const FOOT: [&str; 2] = [
    " Plant after the last frost, in sun",
    "Dahlias can irritate skin: wear gloves. Keep them from dogs, cats and horses.",
];

/// The words above the foot of the sale tag of a plant of which these observations were noted, one a day from 1
/// August; or why there is none.
fn words(list: &str, id: &str, observed: &[&str]) -> Result<String, String> {
    let entries = observed.iter().zip(1..).map(|(what, day)| {
        format!("(id: {day}, date: \"2026-08-{day:02}\", of: \"{id}\", what: observed(({what}))),")
    });
    let book = format!("[{}]", entries.collect::<String>());
    let says = grounds_of(list, "[(number: \"26-001\")]", &book, |grounds| {
        grounds.of(&id.parse().expect("a name or a number"))
    });
    let stock = Stock::embedded();
    let sheet = stock.sheet("sale-a4").expect("a sheet");
    let kind = stock.kind(&sheet.kind).expect("a kind");
    let printer = Printer::new(&stock, kind, sheet, false).expect("room");
    let label = printer.label(&says).map_err(|refused| refused.why)?;
    let lines = label.items.iter().filter_map(|item| match item {
        Item::Text(line) => Some(line.text.as_str().replace('\u{a0}', " ")),
        _ => None,
    });
    let told = lines.collect::<Vec<_>>().join(" ");
    let (above, foot) = told.split_once(FOOT[0]).expect("a foot");
    assert!(foot.ends_with(FOOT[1]), "{told}");
    Ok(above.to_string())
}

fn of_the_seedling(observed: &[&str]) -> String {
    words("[]", "26-001", observed).expect("a tag")
}

/// So many blooms of about 10 cm.
fn blooms(count: usize) -> String {
    let sizes = (0..count).map(|at| format!("\"{}mm\",", 100 + at % 3));
    format!("diameters: [{}]", sizes.collect::<String>())
}

#[test]
fn one_bloom_measured_is_one_bloom() {
    assert_eq!(
        of_the_seedling(&["diameters: [\"85mm\"]"]),
        "Dahlia seedling 26-001 Form not yet known Provisional: a seedling still on trial 1 bloom \
         measured so far: 8.5 cm, 3.3 in Seen in bloom so far in August 2026"
    );
}

#[test]
fn looks_that_contradict_make_no_form_and_no_use() {
    let looks = [
        "bloom: \"centre=closed tip=split set=wavy\"",
        "bloom: \"centre=closed tip=pointed roll=back rolled=90 line=straight set=regular\"",
        "bloom: \"centre=closed tip=rounded roll=flat set=regular outline=saucer\"",
    ];
    assert_eq!(
        of_the_seedling(&looks),
        "Dahlia seedling 26-001 Form not yet known Provisional: a seedling still on trial Seen in \
         bloom so far in August 2026"
    );
}

#[test]
fn without_a_vase_test_no_days_are_told_and_uses_are_the_forms() {
    let told = of_the_seedling(&[&format!("bloom: \"{BALL}\", {}", blooms(12))]);
    assert_eq!(
        told,
        "Dahlia seedling 26-001 Ball Provisional: a seedling still on trial Mean 10.1 cm, 4 in \
         across (size between miniature and small), 12 blooms Expected of its form: a cut flower \
         for bunches, stands wind and rain, for the garden border Seen in bloom so far in August \
         2026"
    );
}

#[test]
fn where_every_stem_was_fresh_at_the_end_no_more_days_are_told_than_were_watched() {
    let vase = |days: &str| format!("vase: [{}]", format!("\"{days}\",").repeat(10));
    let ball = format!("bloom: \"{BALL}\", {}", blooms(12));
    for (days, told) in [
        (
            "5+",
            " In the vase: over 5 days (over half of 10 stems still fresh then) ",
        ),
        (
            "9+",
            " Good in the vase: over 9 days (over half of 10 stems still fresh then) ",
        ),
    ] {
        let words = of_the_seedling(&[&ball, &vase(days)]);
        assert!(words.contains(told), "{words}");
        assert_eq!(words.matches("days").count(), 1, "{words}");
    }
}

#[test]
fn a_protected_variety_without_a_licence_gets_no_tag() {
    let list = "[(name: \"Skerry Held\", form: (id: \"ball\", known: keyed), protected: true)]";
    let why = words(list, "Skerry Held", &[]).expect_err("no licence");
    assert!(
        why.starts_with("it is protected and no licence is recorded"),
        "{why}"
    );
}

/// Whoever counted visitors knows that they come; else an open centre is open to them, and no more.
#[test]
fn bees_come_where_they_were_seen_to() {
    let open = "bloom: \"centre=open rows=1 collar=none roll=flat line=straight tip=rounded \
                set=regular outline=saucer gradient=even width=broad\"";
    let told = |visits: &str| of_the_seedling(&[&format!("{open}, {}", blooms(12)), visits]);
    for (visits, came) in [
        ("visits: \"30/20min\"", true),
        ("visits: \"3/20min\"", false),
        ("", false),
    ] {
        let told = told(visits);
        assert_eq!(told.contains("Bees come to it"), came, "{told}");
        assert_eq!(
            told.contains("pen to bees and butterflies"),
            !came,
            "{told}"
        );
    }
    // A ball has nothing for them, whoever came by.
    let ball = format!("bloom: \"{BALL}\", visits: \"30/20min\"");
    assert!(!of_the_seedling(&[&ball]).to_lowercase().contains("bees"));
}
