//! `trug variety` and the seedlings of `trug row` as a grower uses them: words in; text, errors and an
//! exit status out, and what is on the disk after it.

use std::fs;
use std::path::PathBuf;

use serde_json::json;

use crate::common::lane::SmallLane;
use crate::common::shell::{Answer, trug, trug_anywhere};

/// A folder of one's own with the demo in it.
struct Lane(tempfile::TempDir);

impl Lane {
    fn new() -> Lane {
        let lane = Lane(tempfile::tempdir().expect("a folder"));
        let dir = lane.dir().display().to_string();
        trug(lane.0.path(), &["start", &dir, "--demo"]).done();
        lane
    }

    fn dir(&self) -> PathBuf {
        self.0.path().join("lane")
    }

    fn run(&self, words: &[&str]) -> Answer {
        let dir = self.dir().display().to_string();
        let all = [&["--at", &dir, "--units", "mm"], words].concat();
        trug(self.0.path(), &all)
    }

    fn files(&self) -> [String; 2] {
        ["varieties.ron", "trial.ron"].map(|name| {
            let read = fs::read_to_string(self.dir().join(name));
            read.expect("a file")
        })
    }

    /// What the list has of a variety, as RON.
    fn record(&self, name: &str) -> Option<String> {
        let [list, _] = self.files();
        let named = format!("name: \"{name}\"");
        let mut lines = list.lines();
        lines
            .find(|line| line.contains(&named))
            .map(|line| line.trim().to_string())
    }
}

#[test]
fn my_comments_and_my_units_stay_when_a_command_changes_a_record() {
    let lane = SmallLane::new();
    let list = "// In the shed.\n[\n  (name: \"Haaf Bell\", height: \"4ft\"), // by the door\n  // late\n  (name: \"Ebb Kist\", on_hand: 2),\n]\n";
    fs::write(lane.file("varieties.ron"), list).expect("writes");
    lane.trug(&["variety", "set", "Ebb Kist", "on-hand=3"])
        .done();
    let changed = list.replace("on_hand: 2", "on_hand: 3");
    assert_eq!(lane.text("varieties.ron"), changed);
    let row =
        "[\n  // from the bees\n  (number: \"26-001\"),\n  (number: \"26-002\", place: 2),\n]\n";
    fs::write(lane.file("trial.ron"), row).expect("writes");
    lane.trug(&["row", "set", "26-002", "place=7"]).done();
    assert_eq!(lane.text("trial.ron"), row.replace("place: 2", "place: 7"));
    let settings = "(\n  units: mm, // as the beds are\n  stems_a_plant: 6.0,\n)\n";
    fs::write(lane.file("settings.ron"), settings).expect("writes");
    lane.trug(&["settings", "set", "stems=7"]).done();
    assert_eq!(lane.text("settings.ron"), settings.replace("6.0", "7.0"));
}

#[test]
fn a_variety_is_added_changed_and_dropped_by_words() {
    let lane = Lane::new();
    let before = lane.files();
    let added = lane.run(&[
        "variety",
        "add",
        "Kist Lum",
        "form=pompon",
        "colour=plum; white",
        "supplier=Oar Bulbs",
        "price=4,50",
        "pack=3",
    ]);
    let added = added.done();
    assert!(
        added.starts_with("Kist Lum added, saved; the list holds 241 now.\n"),
        "{added}"
    );
    for line in ["  form: pompon\n", "  colour-2: white\n", "  price: 4.50\n"] {
        assert!(added.contains(line), "{added}");
    }
    insta::assert_snapshot!(lane.record("Kist Lum").expect("added"), @r#"(name: "Kist Lum", form: (id: "pompon", known: stated), colours: [(colour: "plum", part: main, pattern: self), (colour: "white", part: second, pattern: self)], offers: [(supplier: "Oar Bulbs", price: "4.50", pack: 3)]),"#);
    let set = lane.run(&[
        "--json",
        "variety",
        "set",
        "kist lum",
        "price=5",
        "supplier-2=Kale Yard",
        "pack-2=1",
        "price-2=2",
    ]);
    let fields = json!([
        { "field": "price", "before": "4.50", "after": "5.00" },
        { "field": "supplier-2", "before": "", "after": "Kale Yard" },
        { "field": "price-2", "before": "", "after": "2.00" },
        { "field": "pack-2", "before": "", "after": "1" },
    ]);
    let object = set.object();
    assert_eq!(
        (&object["name"], &object["done"]),
        (&json!("Kist Lum"), &json!("changed"))
    );
    let mut told = object["fields"].as_array().expect("fields").clone();
    let key = |one: &serde_json::Value| one["field"].to_string();
    told.sort_by_key(key);
    let mut expected = fields.as_array().expect("fields").clone();
    expected.sort_by_key(key);
    assert_eq!(told, expected);
    let again = lane
        .run(&["variety", "set", "Kist Lum", "price=5.00"])
        .done();
    assert!(again.contains("is as it was"), "{again}");
    // The second offer goes, and all else but the name.
    lane.run(&[
        "variety",
        "set",
        "Kist Lum",
        "supplier-2=",
        "supplier=",
        "colour=",
        "colour-2=",
        "form=",
    ])
    .done();
    let record = lane.record("Kist Lum").expect("still there");
    assert_eq!(record, r#"(name: "Kist Lum"),"#);
    let dropped = lane.run(&["variety", "drop", "KIST LUM"]).done();
    assert_eq!(
        dropped,
        "Kist Lum dropped, saved; the list holds 240 now.\n"
    );
    assert_eq!(lane.files(), before);
}

#[test]
fn what_is_wrong_is_told_with_its_field_and_nothing_is_saved() {
    let lane = Lane::new();
    let before = lane.files();
    for (words, told) in [
        (
            &["variety", "add", "Kist Lum", "form=bal"][..],
            "form: found \"bal\", expected a form such as ball",
        ),
        (
            &["variety", "add", "Kist Lum", "supplier=Oar Bulbs"],
            "price: found an offer of Oar Bulbs without a price",
        ),
        (
            &["variety", "add", "Kist Lum", "price-2=4"],
            "price-2: found supplier-2, expected supplier-1 before it",
        ),
        (
            &["variety", "add", "Kist Lum", "pirce=4"],
            "found the field \"pirce\", expected one of name, form",
        ),
        (
            &["variety", "add", "Kist Lum", "ball"],
            "expected FIELD=VALUE",
        ),
        (
            &["variety", "add", "Kist Lum", "price=4", "price=5"],
            "price: found it twice",
        ),
        (
            &["variety", "add", "ebb buttermilk"],
            "name: found the name \"Ebb Buttermilk\" a second time",
        ),
        (
            &["variety", "set", "Ebb Butermilk", "notes=late"],
            "perhaps Ebb Buttermilk",
        ),
        (
            &["row", "add", "26-090", "place=far"],
            "place: found \"far\", expected a whole number",
        ),
        (&["row", "add", "26-090..26-080"], "the lower first"),
        (
            &["row", "set", "24-002", "number=24-001"],
            "number: found the number 24-001 a second time",
        ),
        (
            &["row", "set", "99-001", "place=1"],
            "found 99-001, expected a seedling of the row",
        ),
        (&["row", "drop", "24-002"], "24-002 has"),
    ] {
        lane.run(words).refused(told);
        assert_eq!(lane.files(), before, "{words:?}");
    }
    trug_anywhere(&["variety", "add", "Kist Lum"]).refused("the demo is never written to");
}

#[test]
fn a_name_that_the_row_goes_by_is_kept_unless_it_is_meant() {
    let lane = Lane::new();
    let parent = "Haaf Squill";
    lane.run(&["row", "add", "26-090", "seed=Haaf Squill"])
        .done();
    for words in [
        &["variety", "set", parent, "name=Haaf Scilla"][..],
        &["variety", "drop", parent],
    ] {
        lane.run(words).refused("The name Haaf Squill stays in");
        lane.run(words).refused("--even-so saves it");
    }
    lane.run(&["variety", "set", parent, "name=HAAF SQUILL"])
        .done();
    lane.run(&["variety", "set", parent, "name=Haaf Scilla", "--even-so"])
        .done();
    assert!(lane.record("Haaf Scilla").is_some());
    lane.run(&["variety", "drop", "Haaf Scilla"]).done();
}

#[test]
fn several_seedlings_are_added_at_once_changed_and_dropped() {
    let lane = Lane::new();
    let before = lane.files();
    let added = lane
        .run(&[
            "row",
            "add",
            "26-091..093",
            "seed=Haaf Squill",
            "--pollen",
            "open",
            "row=byre",
            "place=7",
        ])
        .done();
    assert!(
        added.starts_with("26-091..26-093 are in the row, saved;"),
        "{added}"
    );
    let [_, row] = lane.files();
    assert!(row.contains(r#"(number: "26-093", seed_parent: "Haaf Squill", pollen_parent: "open-pollinated", row: "byre", place: 9)"#), "{row}");
    let set = lane
        .run(&["row", "set", "26-093", "place=12", "pollen="])
        .done();
    assert_eq!(
        set,
        "26-093 changed, saved.\n  pollen: open-pollinated -> ?\n  place: 9 -> 12\n"
    );
    let object = lane
        .run(&["--json", "row", "add", "seed=Haaf Squill"])
        .object();
    let number = object["number"].as_str().expect("a number").to_string();
    assert_eq!(object["numbers"], json!([number]));
    lane.run(&["row", "drop", "26-091", "26-092", "26-093", &number])
        .done();
    assert_eq!(lane.files(), before);
}

#[test]
fn fields_are_listed_by_help_with_what_may_stand_there() {
    let help = trug_anywhere(&["variety", "add", "--help"]).done();
    for word in trug::variety::Draft::words() {
        assert!(help.contains(&format!("\n  {word} ")), "{word}: {help}");
    }
    let help = trug_anywhere(&["row", "set", "--help"]).done();
    for word in trug::trial::Sowing::words() {
        assert!(help.contains(&format!("\n  {word} ")), "{word}: {help}");
    }
}
