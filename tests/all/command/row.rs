//! `trug row` as a grower uses it: words in; text, errors and an exit status out, and what is on
//! the disk in between.

use std::fs;
use std::path::PathBuf;

use serde_json::{Value, json};

use crate::common::shell::{Answer, trug, trug_anywhere};

/// A folder of one's own with a row of two.
struct Lane(tempfile::TempDir);

impl Lane {
    fn new() -> Lane {
        let lane = Lane(tempfile::tempdir().expect("a folder"));
        let dir = lane.dir().display().to_string();
        trug(lane.0.path(), &["start", &dir, "--demo"]).done();
        for file in ["trial.ron", "trial.journal"] {
            fs::remove_file(lane.dir().join(file)).expect("the demo's row");
        }
        lane.ok(&[
            "add",
            "26-1",
            "--seed",
            "Haaf Lantern",
            "--sown",
            "2026-03-12",
        ]);
        lane.ok(&["add", "--seed", "Ebb Mussel", "--pollen", "open-pollinated"]);
        lane
    }

    fn dir(&self) -> PathBuf {
        self.0.path().join("lane")
    }

    fn row(&self, words: &[&str]) -> Answer {
        let dir = self.dir().display().to_string();
        let all = [&["--at", &dir, "--units", "mm", "row"], words].concat();
        trug(self.0.path(), &all)
    }

    fn ok(&self, words: &[&str]) -> String {
        self.row(words).done()
    }

    fn json(&self, words: &[&str]) -> Value {
        let answer = self.row(&[words, &["--json"]].concat());
        let object = answer.object();
        answer.done();
        object
    }

    /// Bad input changes nothing.
    fn refused(&self, words: &[&str], says: &str) {
        let before = self.files();
        self.row(words).refused(says);
        assert_eq!(self.files(), before, "{words:?}");
    }

    fn files(&self) -> [Option<Vec<u8>>; 2] {
        ["trial.ron", "trial.journal"].map(|name| fs::read(self.dir().join(name)).ok())
    }
}

#[test]
fn what_is_noted_adds_up() {
    let lane = Lane::new();
    lane.ok(&[
        "note",
        "26-1",
        "date=2026-08-20",
        "diameter=98mm,104mm,101mm,107mm,100mm",
    ]);
    lane.ok(&[
        "note",
        "26-1",
        "date=2026-08-20",
        "vase=7,8,6,6+",
        "weather=wind:3/12",
        "colour=peach",
    ]);
    let seen = lane.json(&["26-001"]);
    // Invented blooms; mean and limits are our own arithmetic: Student's t (2.776 x s / sqrt 5 is 4.390)
    // on the logarithm of the mean, 102 / e^(4.390 / 102).
    assert_eq!(seen["diameter"]["mean"], json!(102.0));
    assert_eq!(seen["diameter"]["n"], json!(5));
    let low = seen["diameter"]["low"].as_f64().expect("a number");
    assert!((low - 97.703).abs() < 5e-4, "{low}");
    // By hand: one of four at risk ends on day 6 with one censored there, then one of two, then all.
    assert_eq!(
        seen["vase"]["curve"],
        json!([[6.0, 0.75], [7.0, 0.375], [8.0, 0.0]])
    );
    assert_eq!(seen["vase"]["median"], json!(7.0));
    assert_eq!(
        (&seen["vase"]["stems"], &seen["vase"]["censored"]),
        (&json!(4), &json!(1))
    );
    // scipy 1.17.1, binomtest(3, 12).proportion_ci(method="exact"): 0.0549 to 0.5719.
    assert_eq!(seen["damage"]["share"], json!(0.25));
    let limits = ["low", "high"].map(|limit| seen["damage"][limit].as_f64().expect("a number"));
    assert!(
        (limits[0] - 0.0549).abs() < 5e-5 && (limits[1] - 0.5719).abs() < 5e-5,
        "{limits:?}"
    );
    assert_eq!(seen["form"]["rules"], "trade-inch");
    assert_eq!(seen["advice"], "hold");
    assert!(
        seen["missing"]
            .as_array()
            .is_some_and(|missing| !missing.is_empty())
    );
    // Nobody looked at a trait: no form, and no use that could be expected of one or is its own.
    assert_eq!(seen["taken"], Value::Null);
    let uses = seen["fits"].as_array().expect("uses");
    assert!(
        uses.iter().all(|one| one["fitness"] == Value::Null),
        "{uses:?}"
    );
    // A word is no measured colour.
    let colour = &seen["colour"][0];
    assert_eq!(colour["words"], json!(["peach"]));
    assert_eq!(
        (&colour["hex"], &colour["name"]),
        (&Value::Null, &Value::Null)
    );
    let told = lane.ok(&["26-1"]);
    assert!(!told.contains("Fits"), "{told}");
    for part in [
        "not known: no trait was looked at",
        "peach, by word and not measured",
    ] {
        assert!(told.contains(part), "{part}: {told}");
    }
    for part in [
        "mean 102 mm",
        "median 7 days",
        "3 of 12, 25 %",
        "advice: hold",
        "missing: ",
    ] {
        assert!(told.contains(part), "{part}: {told}");
    }
}

#[test]
fn a_correction_is_a_new_entry_and_the_old_one_stays() {
    let lane = Lane::new();
    lane.ok(&["note", "26-1", "date=2026-08-20", "diameter=89mm,104mm"]);
    let first = lane.files()[1].clone().expect("a book");
    lane.ok(&[
        "note",
        "26-1",
        "date=2026-08-20",
        "corrects=1",
        "diameter=98mm,104mm",
    ]);
    let seen = lane.json(&["26-1"]);
    assert_eq!(
        (&seen["diameter"]["mean"], &seen["diameter"]["n"]),
        (&json!(101.0), &json!(2))
    );
    let book = lane.files()[1].clone().expect("a book");
    assert!(book.starts_with(&first), "the old entry was overwritten");
    lane.ok(&["note", "26-1", "withdraw=1"]);
    assert_eq!(lane.json(&["26-1"])["diameter"], Value::Null);
}

impl Lane {
    /// Writes a line at the end of the book as another program might.
    fn append(&self, entry: &str) {
        let path = self.dir().join("trial.journal");
        let mut book = fs::read(&path).unwrap_or_default();
        let sum = crc32fast::hash(entry.as_bytes());
        book.extend(format!("{sum:08x} {entry}\n").into_bytes());
        fs::write(path, book).expect("writes");
    }
}

#[test]
fn a_wrong_entry_number_leaves_the_evidence_of_another_plant_alone() {
    let lane = Lane::new();
    lane.ok(&["note", "26-1", "date=2026-08-20", "diameter=98mm,104mm"]);
    for words in ["withdraw=1", "corrects=1"] {
        let note = ["note", "26-2", words, "cut=3"];
        let words = if words == "withdraw=1" {
            &note[..3]
        } else {
            &note[..]
        };
        lane.refused(
            words,
            "found entry 1, which is of 26-001, expected one of 26-002",
        );
    }
    let before = lane.json(&["26-1"]);
    // A book that holds such entries already.
    lane.append(r#"(id: 2, corrects: 1, date: "2026-08-21", of: "26-002", what: withdrawn)"#);
    lane.append(
        r#"(id: 3, corrects: 1, date: "2026-08-21", of: "26-002", what: observed((cut: 3)))"#,
    );
    assert_eq!(lane.json(&["26-1"]), before);
    let told = lane.row(&["26-1"]).error;
    for part in [
        "trial.journal, line 2: entry 2: found entry 1, which is of 26-001, expected one of 26-002",
        "it withdraws nothing",
        "trial.journal, line 3: entry 3: found entry 1",
    ] {
        assert!(told.contains(part), "{part}: {told}");
    }
    assert_eq!(lane.json(&["26-2"])["cut"][0]["stems"], json!(3));
}

#[test]
fn a_withdrawal_is_withdrawn_and_the_plant_shows_who_withdrew_what() {
    let lane = Lane::new();
    let count = || lane.json(&["26-1"])["diameter"]["n"].clone();
    lane.ok(&[
        "note",
        "26-1",
        "date=2026-08-20",
        "by=Ann",
        "diameter=98mm,104mm",
    ]);
    lane.ok(&["note", "26-1", "date=2026-08-21", "by=Magnus", "withdraw=1"]);
    assert_eq!(count(), Value::Null);
    lane.refused(
        &["note", "26-1", "withdraw=1"],
        "which entry 2 has withdrawn",
    );
    lane.ok(&["note", "26-1", "date=2026-08-22", "by=Ann", "withdraw=2"]);
    assert_eq!(count(), json!(2));
    let told = lane.ok(&["26-1"]);
    let history = "withdraws entry 1; withdrawn by entry 3 (Ann, 2026-08-22)";
    for part in [history, "withdraws the withdrawal, entry 2"] {
        assert!(told.contains(part), "{part}: {told}");
    }
    let entries = &lane.json(&["26-1"])["entries"];
    assert_eq!(
        (&entries[0]["history"], &entries[1]["history"]),
        (&Value::Null, &json!(history))
    );
    assert_eq!(entries[1]["id"], json!(2));
    lane.ok(&["note", "26-1", "date=2026-08-22", "withdraw=3"]);
    assert_eq!(count(), Value::Null);
}

#[test]
fn an_absurd_entry_number_takes_no_number_from_the_notes_after_it() {
    let lane = Lane::new();
    lane.append(r#"(id: 4294967295, date: "2026-08-20", of: "26-001", what: observed((cut: 3)))"#);
    let answer = lane.row(&["note", "26-1", "date=2026-08-21", "cut=4"]);
    let told = "trial.journal, line 1: entry 4294967295: found a number past 999999999";
    assert!(answer.error.contains(told), "{}", answer.error);
    assert!(answer.done().contains("entry 2, saved"));
    assert!(
        lane.ok(&["note", "26-1", "date=2026-08-22", "cut=5"])
            .contains("entry 3, saved")
    );
    // Each has a number of its own, so that each can be withdrawn.
    lane.ok(&["note", "26-1", "withdraw=2"]);
    assert_eq!(lane.json(&["26-1"])["cut"][0]["stems"], json!(3 + 5));
}

#[test]
fn what_is_odd_is_asked_after_once_and_saved_where_it_is_meant() {
    let lane = Lane::new();
    lane.ok(&[
        "note",
        "26-1",
        "date=2026-08-20",
        "diameter=3.4in,3.3in,3.5in",
    ]);
    let odd = ["note", "26-1", "date=2026-08-27", "diameter=9in"];
    lane.refused(&odd, "diameter: found 9 in (228.6 mm), expected ");
    lane.refused(
        &odd,
        "beside 3 other blooms of 26-001; nothing is saved: --even-so",
    );
    lane.refused(
        &[
            "note",
            "26-1",
            "date=2026-08-20",
            "diameter=3.4in,3.3in,3.5in",
        ],
        "found the same note as entry 1 of 2026-08-20",
    );
    // What cannot be is refused whatever is said, with words that are near.
    for words in [
        &["note", "26-1", "date=2026-08-20", "colour=blsh"][..],
        &[
            "note",
            "26-1",
            "date=2026-08-20",
            "colour=blsh",
            "--even-so",
        ],
    ] {
        lane.refused(
            words,
            "found \"blsh\", expected a colour word such as blush",
        );
    }
    lane.ok(&[&odd[..], &["--even-so"]].concat());
    // Two days far apart know little, but not that a bloom is less than nothing across.
    let seen = &lane.json(&["26-1"])["diameter"];
    let [low, high] = ["low", "high"].map(|of| seen[of].as_f64().expect("a number"));
    assert!(low > 0.0 && high > 228.6, "{seen}");
    let told = lane.ok(&["26-1"]);
    assert!(!told.contains("to -") && !told.contains(": -"), "{told}");
}

#[test]
fn what_is_odd_on_a_sheet_is_asked_after_before_anything_is_taken() {
    let lane = Lane::new();
    let path = lane.0.path().join("blooms.csv");
    let shown = path.display().to_string();
    let rows =
        "seedling,date,diameter (mm)\n26-001,2026-08-20,\"86,88,84\"\n26-001,2026-08-27,228\n";
    fs::write(&path, rows).expect("writes");
    lane.refused(
        &["import", &shown],
        "1 thing to check, so nothing was taken",
    );
    assert_eq!(lane.json(&["import", &shown, "--preview"])["new"], json!(2));
    assert_eq!(
        lane.json(&["import", &shown, "--even-so"])["taken"],
        json!(2)
    );
}

#[test]
fn a_decision_is_kept_with_its_reason_and_counts_in_the_row() {
    let lane = Lane::new();
    lane.ok(&["decide", "26-1", "keep", "--reason", "stands the wind"]);
    let row = lane.json(&[]);
    assert_eq!(
        row["whole"]["counts"],
        json!({ "sown": 2, "keep": 1, "hold": 0, "cull": 0 })
    );
    let decided = &lane.json(&["26-1"])["decision"];
    assert_eq!(
        (&decided["fate"], &decided["reason"]),
        (&json!("keep"), &json!("stands the wind"))
    );
}

#[test]
fn what_cannot_be_so_is_refused_in_one_sentence_and_changes_nothing() {
    let lane = Lane::new();
    for (words, told) in [
        (&["note", "26-9", "cut=3"][..], "26-009"),
        (&["note", "26-1", "cutt=3"], "\"cutt\""),
        (&["note", "26-1", "diameter=9km"], "diameter: found \"9km\""),
        (
            &["note", "26-1", "date=2126-01-01", "cut=3"],
            "expected a day up to today",
        ),
        (&["note", "26-1", "date=2020-01-01", "cut=3"], "was sown"),
        (&["note", "26-1", "vase=6++"], "6+ where it was still fresh"),
        (&["note", "26-1", "weather=wind:13/12"], "wind:3/12"),
        (&["note", "26-1", "corrects=7", "cut=3"], "found 7"),
        (&["note", "Nobody Here", "cut=3"], "Nobody Here"),
        (&["note", "26-1", "note=\u{1b}[2J"], "control character"),
        (&["decide", "26-1", "maybe"], "keep, hold or cull"),
        (&["add", "26-1"], "26-001"),
        (&["add", "x"], "26-014"),
        (&["99-1"], "99-001"),
        (&["sheet", "--for", "bees"], "blooms or counts"),
        (&["sheet", "--out", "sheet.doc"], ".csv"),
        (&["sheet", "--out", "sheet.pdf", "--paper", "a9"], "a4"),
    ] {
        lane.refused(words, told);
    }
    let error = trug_anywhere(&["row", "note", "24-1", "cut=3"]).error;
    assert!(error.contains("the demo is never written to"), "{error}");
}

#[test]
fn a_pencil_sheet_comes_back_whole_or_not_at_all_and_once() {
    let lane = Lane::new();
    let path = lane.0.path().join("counts.csv");
    let shown = path.display().to_string();
    lane.ok(&["sheet", "--out", &shown]);
    let blank = fs::read_to_string(&path).expect("a sheet");
    let heading: Vec<&str> = blank
        .lines()
        .next()
        .expect("a heading")
        .split(',')
        .collect();
    let filled = |cells: &[(&str, &str)]| {
        let row = heading.iter().map(|name| {
            let cell = cells
                .iter()
                .find(|(id, _)| name.trim_start_matches('\u{feff}').split(' ').next() == Some(*id));
            cell.map_or(String::new(), |(_, value)| format!("\"{value}\""))
        });
        row.collect::<Vec<_>>().join(",")
    };
    let good = filled(&[
        ("seedling", "26-001"),
        ("date", "2026-08-20"),
        ("vase", "7,8,6+"),
        ("cut", "4"),
    ]);
    let bad = filled(&[
        ("seedling", "26-002"),
        ("date", "2026-08-20"),
        ("weather", "gale:1/2"),
    ]);
    let write = |rows: &[&String]| {
        let rows: Vec<&str> = rows.iter().map(|row| row.as_str()).collect();
        fs::write(
            &path,
            format!("{}\n{}\n", heading.join(","), rows.join("\n")),
        )
        .expect("writes");
    };
    write(&[&good, &bad]);
    lane.refused(&["import", &shown], "line 3");
    write(&[&good]);
    assert_eq!(lane.json(&["import", &shown])["taken"], json!(1));
    let once = lane.files();
    assert_eq!(lane.json(&["import", &shown])["same"], json!(1));
    assert_eq!(lane.files(), once);
    assert_eq!(lane.json(&["26-1"])["vase"]["stems"], json!(3));
}

#[test]
fn a_pencil_sheet_prints_on_the_paper_that_is_asked_for() {
    let lane = Lane::new();
    let path = lane.0.path().join("blooms.pdf");
    let shown = path.display().to_string();
    // ISO 216 and ANSI/ASME Y14.1 in points, across the paper since a sheet of blooms is wide.
    for (paper, size) in [("a4", "841.89"), ("letter", "792")] {
        lane.ok(&[
            "sheet",
            "26-1",
            "--for",
            "blooms",
            "--paper",
            paper,
            "--out",
            &shown,
            "--replace",
        ]);
        let bytes = fs::read(&path).expect("a sheet");
        let text = String::from_utf8_lossy(&bytes);
        assert!(text.starts_with("%PDF-"), "{paper}");
        assert!(text.contains(&format!("/MediaBox[0 0 {size}")), "{paper}");
    }
}

#[test]
fn a_pencil_sheet_in_inches_is_on_the_usual_paper_of_who_measures_so() {
    let lane = Lane::new();
    let path = lane.0.path().join("blooms.pdf");
    let shown = path.display().to_string();
    for (units, size) in [("mm", "841.89"), ("in", "792")] {
        let sheet = ["sheet", "26-1", "--for", "blooms", "--units", units];
        lane.ok(&[&sheet[..], &["--out", &shown, "--replace"]].concat());
        let bytes = fs::read(&path).expect("a sheet");
        let text = String::from_utf8_lossy(&bytes);
        assert!(text.contains(&format!("/MediaBox[0 0 {size}")), "{units}");
    }
}

#[test]
fn what_was_seen_of_a_variety_reaches_its_score() {
    let lane = Lane::new();
    let dir = lane.dir().display().to_string();
    let choose = || {
        let words = [
            "--at",
            &dir,
            "choose",
            "Haaf Lantern",
            "--use",
            "market-bunch",
            "--json",
        ];
        let object = trug_anywhere(&words).object();
        object["varieties"][0].clone()
    };
    let before = choose();
    let list = fs::read(lane.dir().join("varieties.ron")).expect("a list");
    let vase = format!("vase={}", ["2"; 30].join(","));
    lane.ok(&["note", "Haaf Lantern", "date=2026-08-20", &vase]);
    let after = choose();
    let fitness = |one: &Value| one["fitness"].as_f64().expect("a number");
    assert!(fitness(&after) < fitness(&before) - 0.1, "{before} {after}");
    let why = after["why"].to_string();
    assert!(why.contains("observed of 30 stems"), "{why}");
    // The evidence has a place of its own: the list is not written.
    assert_eq!(
        fs::read(lane.dir().join("varieties.ron")).expect("a list"),
        list
    );
}

/// What a grower asks: does this one last longer than that one?
#[test]
fn plants_are_compared_by_their_days_in_the_vase() {
    let lane = Lane::new();
    lane.ok(&["note", "26-1", "date=2026-08-20", "vase=7,8,8,9"]);
    lane.ok(&["note", "26-2", "date=2026-08-20", "vase=3,4,4,5"]);
    let text = lane.ok(&["compare", "26-1", "26-2"]);
    // By hand: of the 8! / 4!^2 = 70 ways to deal eight stems out, this one and its mirror image are
    // so far apart: 2 of 70.
    for told in [
        "26-001 lasts longer than 26-002: p = 0.029 by all 70 arrangements of the stems",
        "All stems of 26-001 are of one day",
        "26-002: median 4 days",
    ] {
        assert!(text.contains(told), "{told}: {text}");
    }
    let object = lane.json(&["compare", "26-2", "26-1"]);
    let pair = &object["pairs"][0];
    assert_eq!(pair["verdict"], "second longer");
    assert_eq!(pair["tests"]["exact"], true);
    let p = pair["tests"]["p"].as_f64().expect("a number");
    assert!((p - 2.0 / 70.0).abs() < 1e-12, "{p}");
    assert_eq!(object["plants"][0]["vase"]["median"], json!(4.0));
    lane.refused(&["compare", "26-1"], "2");
    lane.refused(&["compare", "26-1", "26-1"], "a second time");
    lane.refused(&["compare", "26-1", "26-7"], "26-007");
}

/// The demo's decided seedlings have two parents each and are counted once.
#[test]
fn the_row_counts_each_seedling_once_and_a_parent_says_how_sure_it_is() {
    let object = trug_anywhere(&["row", "--json"]).object();
    let whole = &object["whole"];
    let count = |of: &str| whole["counts"][of].as_u64().expect("a count");
    let decided = count("keep") + count("hold") + count("cull");
    assert_eq!(whole["stays"]["open"], json!(decided));
    for parent in whole["parents"].as_array().expect("parents") {
        let told = &parent["would_stay"];
        match parent["stays"]["open"].as_u64().expect("a count") {
            0..5 => assert_eq!(told, &Value::Null, "{parent}"),
            _ => {
                let [low, share, high] =
                    ["low", "share", "high"].map(|of| told[of].as_f64().expect("a number"));
                assert!(low < share && share < high, "{parent}");
            }
        }
    }
}

/// What was decided and what is advised is one word in the text of the row, in its JSON and in the
/// account of each plant; and the blank sheet has the plants that still stand.
#[test]
fn the_row_says_the_same_on_every_drawing_of_it() {
    let text = |words: &[&str]| trug_anywhere(words).of_the_demo();
    let row = text(&["row"]);
    let object = trug_anywhere(&["row", "--json"]).object();
    let table: Vec<&str> = row.lines().take_while(|line| !line.is_empty()).collect();
    let head = table[0];
    let names = [
        "plant",
        "form so far",
        "mean",
        "vase",
        "damage",
        "decision",
        "advice",
        "what next",
    ];
    let columns: Vec<usize> = names
        .iter()
        .map(|name| head.find(name).expect(name))
        .collect();
    assert!(columns.is_sorted(), "{head}");
    let cell = |line: &str, at: usize| {
        let letters = line.chars().skip(columns[at]);
        let wide = columns
            .get(at + 1)
            .map_or(usize::MAX, |end| end - columns[at]);
        letters.take(wide).collect::<String>().trim().to_string()
    };
    let plants = object["plants"].as_array().expect("plants");
    assert_eq!(plants.len(), table.len() - 1);
    let mut stands = Vec::new();
    for (plant, line) in plants.iter().zip(&table[1..]) {
        assert_eq!(cell(line, 0), plant["id"].as_str().expect("an id"));
        let advice = plant["advice"].as_str().expect("advice");
        let decided = match plant["decision"]["fate"].as_str() {
            Some("keep") => "kept".to_string(),
            Some("hold") => "held".to_string(),
            Some("cull") => "culled".to_string(),
            _ => "open".to_string(),
        };
        assert_eq!(cell(line, 5), decided, "{line}");
        assert_eq!(cell(line, 6), advice, "{line}");
        let damage = &plant["damage"]["by_weather"];
        let worst = damage.as_array().into_iter().flatten();
        let worst = worst
            .filter_map(|one| one["share"].as_f64())
            .reduce(f64::max);
        assert_eq!(cell(line, 4) == "?", worst.is_none(), "{line}");
        if decided != "culled" {
            stands.push(cell(line, 0));
        }
    }
    let asked: Vec<&Value> = plants.iter().step_by(9).collect();
    for plant in asked {
        let id = plant["id"].as_str().expect("an id");
        let told = text(&["row", id]);
        let advice = format!(
            "The gate's advice: {}.",
            plant["advice"].as_str().expect("advice")
        );
        assert!(told.contains(&advice), "{told}");
        if let Some(date) = plant["decision"]["date"].as_str() {
            let line = table
                .iter()
                .find(|line| line.starts_with(id))
                .expect("a line");
            let decided = format!("{} on {date}", cell(line, 5));
            assert!(told.contains(&decided), "{decided}: {told}");
        }
    }
    let folder = tempfile::tempdir().expect("a folder");
    let file = folder.path().join("sheet.csv").display().to_string();
    trug_anywhere(&["row", "sheet", "--out", &file]).done();
    let mut sheet = csv::Reader::from_path(&file).expect("CSV");
    let written = sheet
        .records()
        .map(|row| row.expect("a row")[0].to_string());
    let mut written: Vec<String> = written.collect();
    written.sort();
    stands.sort();
    assert_eq!(written, stands);
}
