//! Facts of different worth stay apart: what was measured here, what somebody states, what a supplier
//! has, and what lies in the grower's own store.

use serde_json::{Value, json};

use super::grower::{Grower, numbers};

/// A supplier's list, as it comes.
const OAR: &str = "Variety,Type,Diameter (cm),Height (cm),Vase life,Stock,Price,Pack\n\
    Haaf Bell,ball,10,90-120,6,4,4.00,5\n";
/// What the grower answers about its two headings.
const MEANT: [&str; 4] = [
    "--map",
    "heading:Diameter (cm)=stated diameter",
    "--map",
    "heading:Stock=available",
];
const OF_OAR: [&str; 2] = ["--supplier", "Oar Bulbs"];
/// Needs of a few stems of balls.
const PLAN: &str = r#"(
  ordered: "2027-01-15",
  season: (last_frost: (date: "2027-05-01"), first_frost: (date: "2027-10-10"), planted: "2027-05-01", stems_a_week: 0.9, plants_lost: 0.0, stems_lost: 0.0),
  beds: [(name: "sea wall", length: "20m", width: "1.2m", spacing: "400mm")],
  needs: [(name: "quay stall", stems: 12, weeks: (35, 38), forms: ["ball"])],
)"#;

/// A grower who has taken in the supplier's list.
fn with_the_list() -> Grower {
    let grower = Grower::new();
    let file = grower.write("oar.csv", OAR);
    let words = [&["import", file.as_str()], &OF_OAR[..], &MEANT].concat();
    let (status, answer) = grower.json(&words);
    assert_eq!((status, numbers(&answer)), (0, (1, 0, 0)), "{answer:#}");
    grower
}

fn choice(grower: &Grower) -> Value {
    let (status, answer) = grower.json(&["choose", "haaf bell"]);
    assert_eq!(status, 0);
    answer
}

fn plain(grower: &Grower, words: &[&str]) -> String {
    let dir = grower.path("lane");
    let answer = grower.trug(&[words, &["--at", &dir]].concat());
    answer.done()
}

#[test]
fn a_heading_that_may_be_either_is_asked_about_and_nothing_is_taken() {
    let grower = Grower::new();
    let before = grower.list();
    let dir = grower.path("lane");
    for (heading, cell, both) in [
        ("Stock", "40", ["own store", "supplier has for sale"]),
        ("in stock", "40", ["on hand", "available"]),
        ("Qty", "40", ["on hand", "available"]),
        ("Tubers", "40", ["on hand", "available"]),
        ("Diameter", "10cm", ["you measured", "the list states"]),
        (
            "Bloom diameter (cm)",
            "10",
            ["measured diameters", "stated diameter"],
        ),
    ] {
        let csv = format!("name,{heading}\nHaaf Bell,{cell}\n");
        let file = grower.write("list.csv", csv);
        for words in [&[][..], &OF_OAR, &["--preview"]] {
            let answer = grower.trug(&[&["import", &file, "--at", &dir], words].concat());
            for part in both {
                answer.refused(part);
            }
            answer.refused(&format!("list.csv, line 1: found the heading {heading:?}"));
            answer.refused(&format!("--map heading:{heading:?}="));
            assert_eq!(answer.error.lines().count(), 1, "{}", answer.error);
        }
        assert_eq!(grower.list(), before, "{heading}");
    }
}

#[test]
fn both_headings_of_a_list_are_asked_about_at_once() {
    let grower = Grower::new();
    let file = grower.write("oar.csv", OAR);
    let answer = grower.trug(&["import", &file, "--at", &grower.path("lane")]);
    answer.refused("\"Diameter (cm)\"");
    answer.refused("\"Stock\"");
}

/// An answer is given once, in the grower's own words, and serves the next list.
#[test]
fn an_answer_to_either_is_remembered() {
    let grower = with_the_list();
    let file = grower.write("oar.csv", OAR);
    let (status, answer) = grower.json(&["import", &file, "--supplier", "Oar Bulbs"]);
    assert_eq!((status, numbers(&answer)), (0, (0, 0, 1)), "{answer:#}");
    // A term of before, which no longer says which it is, is asked about again.
    let words = grower.path("lane") + "/words.ron";
    std::fs::write(&words, "(headings: {\"Lager\": \"stock\"})").expect("writes");
    let file = grower.write("lager.csv", "name,Lager\nHaaf Bell,4\n");
    let answer = grower.trug(&["import", &file, "--at", &grower.path("lane")]);
    answer.refused("the heading \"Lager\", which may be");
}

#[test]
fn headings_that_say_what_they_are_are_read_as_they_say() {
    let grower = Grower::new();
    let csv = "name,On hand,Available,Supplier,Price,Pack,Measured diameter,Stated diameter,Catalogue size,Measured height,Measured stems\n\
        Haaf Bell,3,40,Oar Bulbs,4.00,5,98mm; 96mm,90-110mm,small,1.1m,50cm; 54cm\n";
    let file = grower.write("list.csv", csv);
    let (status, answer) = grower.json(&["import", &file]);
    assert_eq!((status, numbers(&answer)), (0, (1, 0, 0)), "{answer:#}");
    let list = grower.list();
    for part in [
        "on_hand: 3,",
        "available: 40",
        "diameters: [\"98mm\", \"96mm\"]",
        "(what: diameter, value: \"90mm to 110mm\")",
        "size: \"small\"",
        "plant_heights: [\"1.1m\"]",
        "stem_lengths: [\"50cm\", \"54cm\"]",
    ] {
        assert!(list.contains(part), "{part}: {list}");
    }
}

#[test]
fn tubers_available_are_counted_in_whole_packs() {
    let grower = Grower::new();
    let csv = "name,Tubers available,Supplier,Price,Pack\nHaaf Bell,14,Oar Bulbs,4.00,5\n";
    let file = grower.write("list.csv", csv);
    assert_eq!(grower.json(&["import", &file]).0, 0);
    let list = grower.list();
    assert!(list.contains("available: 2"), "{list}");
    assert!(!list.contains("on_hand"), "{list}");
}

#[test]
fn what_a_supplier_s_list_states_is_kept_as_stated_by_the_supplier() {
    let list = with_the_list().list();
    for part in [
        "(what: diameter, value: \"10cm\", by: \"Oar Bulbs\")",
        "(what: height, value: \"90cm to 120cm\", by: \"Oar Bulbs\")",
        "(what: vase, value: \"6 days\", by: \"Oar Bulbs\")",
        "form: (id: \"ball\", known: stated, by: \"Oar Bulbs\")",
        "available: 4",
    ] {
        assert!(list.contains(part), "{part}: {list}");
    }
    for never in ["diameters:", "on_hand", " vase:", " height:"] {
        assert!(!list.contains(never), "{never}: {list}");
    }
}

#[test]
fn the_raiser_is_named_in_a_column_and_stands_beside_the_supplier() {
    let grower = with_the_list();
    let csv = "name,Stated diameter,Stated by\nHaaf Bell,12cm,Skerry Lane\n";
    let file = grower.write("raiser.csv", csv);
    assert_eq!(grower.json(&["import", &file]).0, 0);
    let told = &choice(&grower)["varieties"][0]["stated"];
    let by = |at: usize| (told[at]["what"].as_str(), told[at]["by"].as_str());
    assert_eq!(by(0), (Some("diameter"), Some("Oar Bulbs")), "{told:#}");
    assert_eq!(by(1), (Some("diameter"), Some("Skerry Lane")), "{told:#}");
}

#[test]
fn an_export_has_the_two_apart_and_goes_back_in_without_a_change() {
    let grower = with_the_list();
    let csv = "name,measured diameters,on hand,measured stems\nHaaf Bell,85mm,2,50cm\n";
    let file = grower.write("own.csv", csv);
    assert_eq!(grower.json(&["import", &file]).0, 0);
    let out = grower.path("out.csv");
    assert_eq!(grower.json(&["export", &out]).0, 0);
    let written = std::fs::read_to_string(&out).expect("an export");
    for part in [
        "measured diameters",
        "85mm",
        "Oar Bulbs: diameter 10cm",
        "on hand",
        "Oar Bulbs: 5 for 4.00, 4 available",
    ] {
        assert!(written.contains(part), "{part}: {written}");
    }
    let before = grower.list();
    // Nor does it become another supplier's where one is named.
    for words in [&[][..], &["--supplier", "Quay Roots"]] {
        let (status, answer) = grower.json(&[&["import", out.as_str()], words].concat());
        assert_eq!((status, numbers(&answer)), (0, (0, 0, 1)), "{answer:#}");
        assert_eq!(grower.list(), before);
    }
}

#[test]
fn a_stated_size_is_stated_on_a_tag_and_never_measured() {
    let grower = with_the_list();
    let (status, answer) = grower.json(&["tag", "Haaf Bell"]);
    assert_eq!(status, 0, "{answer:#}");
    let facts = &answer["tags"][0]["facts"];
    let size = facts["size"].as_str().expect("a size");
    assert!(size.ends_with(", stated by Oar Bulbs"), "{size}");
    assert!(!size.contains("bloom") && !size.contains("mean"), "{size}");
    // Days that somebody states are no test, and no use rests on them.
    assert_eq!(facts["vase"], Value::Null);
    let uses = facts["uses"].as_str().expect("uses");
    assert!(uses.starts_with("expected of its form"), "{uses}");
}

#[test]
fn the_detail_says_who_states_a_thing_and_what_was_measured() {
    let grower = with_the_list();
    let found = &choice(&grower)["varieties"][0];
    assert_eq!(found["size_known"], "stated", "{found:#}");
    assert_eq!(found["measured"], Value::Null);
    let vase = json!({"what": "vase", "value": "6 days", "by": "Oar Bulbs"});
    assert_eq!(found["stated"][2], vase, "{found:#}");
    let file = grower.write(
        "own.csv",
        "name,measured diameters,measured stems\nHaaf Bell,85mm; 87mm,50cm\n",
    );
    assert_eq!(grower.json(&["import", &file]).0, 0);
    let found = &choice(&grower)["varieties"][0];
    assert_eq!(found["size_known"], "measured", "{found:#}");
    let here = json!({"diameter": {"mean": 86.0, "count": 2}, "stem": {"mean": 500.0, "count": 1}});
    assert_eq!(found["measured"], here, "{found:#}");
    let csv = "name,stem\nEbb Bell,60cm\n";
    let file = grower.write("other.csv", csv);
    assert_eq!(grower.json(&["import", &file]).0, 0);
    let told = plain(
        &grower,
        &[
            "choose",
            "--compare",
            "haaf bell",
            "ebb bell",
            "--units",
            "mm",
        ],
    );
    for part in [
        "ball (stated by Oar Bulbs)",
        "86 mm, mean of 2",
        "100 mm (stated by Oar Bulbs)",
        "50 cm (1 stem measured)",
        "60 cm (stated)",
    ] {
        assert!(told.contains(part), "{part}: {told}");
    }
}

/// A statement is worth three blooms, however many lists copy it; only blooms are observed.
#[test]
fn scores_count_a_stated_size_as_stated() {
    let grower = with_the_list();
    let words = [
        "choose",
        "haaf bell",
        "--use",
        "market-bunch",
        "--units",
        "mm",
    ];
    let told = plain(&grower, &words);
    assert!(
        told.contains("(100 mm stated by Oar Bulbs, 102 mm expected of ball)"),
        "{told}"
    );
    let file = grower.write("own.csv", "name,measured diameters\nHaaf Bell,85mm; 87mm\n");
    assert_eq!(grower.json(&["import", &file]).0, 0);
    let told = plain(&grower, &words);
    assert!(
        told.contains(
            "(86 mm observed of 2 blooms, 100 mm stated by Oar Bulbs, 102 mm expected of ball)"
        ),
        "{told}"
    );
}

#[test]
fn a_stated_size_narrows_the_list_and_keys_no_form() {
    let grower = Grower::new();
    let csv = "name,bloom,stated diameter\n\
        Haaf Bell,centre=closed outline=globe tip=rounded set=regular roll=forward rolled=90,60mm\n";
    let file = grower.write("list.csv", csv);
    assert_eq!(grower.json(&["import", &file]).0, 0);
    let by = |place: &str| grower.json(&["choose", "--where", place]).1["varieties"].clone();
    let count = |place: &str| by(place).as_array().map(Vec::len);
    assert_eq!(
        (count("size=miniature"), count("form=unknown")),
        (Some(1), Some(1))
    );
    let file = grower.write("own.csv", "name,measured diameters\nHaaf Bell,60mm\n");
    assert_eq!(grower.json(&["import", &file]).0, 0);
    assert_eq!(count("form=miniature-ball"), Some(1));
}

#[test]
fn only_the_own_store_costs_nothing_and_a_supplier_s_stock_bounds_what_is_bought() {
    let grower = with_the_list();
    let plan = grower.path("lane") + "/order.ron";
    std::fs::write(&plan, PLAN).expect("writes");
    let (status, answer) = grower.json(&["order", "--on-average"]);
    assert_eq!(
        (status, &answer["status"]),
        (0, &json!("optimal")),
        "{answer:#}"
    );
    // 14 plants at 0.9 stems a week, in packs of five: three of the four that there are.
    assert_eq!(
        (&answer["cost"], &answer["lines"][0]["packs"]),
        (&json!(12.0), &json!(3))
    );
    // Of two packs no more than two can be had.
    let csv = "name,available,supplier\nHaaf Bell,2,Oar Bulbs\n";
    let file = grower.write("fewer.csv", csv);
    assert_eq!(grower.json(&["import", &file]).0, 0);
    let (_, answer) = grower.json(&["order", "--on-average"]);
    assert_ne!(answer["status"], "optimal", "{answer:#}");
    // The same tubers in the own store cost nothing.
    let file = grower.write("own.csv", "name,on hand\nHaaf Bell,40\n");
    assert_eq!(grower.json(&["import", &file]).0, 0);
    let (_, answer) = grower.json(&["order", "--on-average"]);
    assert_eq!(
        (&answer["status"], &answer["cost"]),
        (&json!("optimal"), &json!(0.0)),
        "{answer:#}"
    );
}

/// Records of before are read as they are: a length or days without a name are stated by nobody known.
#[test]
fn a_list_of_before_reads_as_it_was() {
    let grower = Grower::new();
    let list = "[\n  (name: \"Haaf Bell\", form: (id: \"ball\", known: stated), size: \"small\", diameters: [\"98mm\"], height: \"900mm to 1200mm\", stem: \"500mm\", vase: (days: 6.0), on_hand: 4, offers: [(supplier: \"Oar Bulbs\", price: \"4.00\", pack: 1, available: 9)]),\n]\n";
    std::fs::write(grower.path("lane") + "/varieties.ron", list).expect("writes");
    let out = grower.path("out.csv");
    assert_eq!(grower.json(&["export", &out]).0, 0);
    let (status, answer) = grower.json(&["import", &out]);
    assert_eq!((status, numbers(&answer)), (0, (0, 0, 1)), "{answer:#}");
    assert_eq!(grower.list(), list);
    let found = choice(&grower)["varieties"][0].clone();
    let here = json!({"diameter": {"mean": 98.0, "count": 1}});
    assert_eq!(found["measured"], here, "{found:#}");
    let stated = found["stated"].as_array().expect("a list");
    let told: Vec<&str> = stated
        .iter()
        .filter_map(|one| one["value"].as_str())
        .collect();
    assert_eq!(told, ["small", "900mm to 1200mm", "500mm", "6 days"]);
    assert!(
        stated.iter().all(|one| one["by"] == Value::Null),
        "{found:#}"
    );
}
