//! What an outside reader of CSV makes of an export: the files that `tests/outside/csv_agrees.py`
//! reads, with what it should find in them.

use std::fs;
use std::path::PathBuf;

use serde_json::{Value, json};
use trug::folder::contents;
use trug::variety::{Shortlisted, Text, Varieties, Variety};

use super::exported;
use crate::common::varieties as generated;

/// Texts that a careless writer or reader of CSV breaks.
const HARD: [&str; 12] = [
    "a \"quoted\" word",
    "a, comma; a semicolon",
    "=HYPERLINK(\"x\")",
    "'=1+1",
    "+44",
    "-1",
    "@SUM(A1)",
    "'tis",
    "café 花 🌼",
    "\"",
    "\\",
    "two  spaces",
];

fn hard() -> Varieties {
    let text = |text: &str| Text::new(text).expect("a text");
    let mut list = Varieties::default();
    for (at, hard) in HARD.iter().enumerate() {
        let mut one = Variety::named(text(&format!("{hard} {at}")));
        one.raiser = Some(text(hard));
        one.notes = Some(text(&format!("{hard}{hard}")));
        one.shortlist = Some(Shortlisted {
            note: Some(text(hard)),
        });
        one.on_hand = (at % 2 == 0).then_some(at as u32);
        list.insert(at, one).expect("each name once");
    }
    list
}

/// The fields that are one text or number, as they are; `null` is an empty cell.
fn expected(variety: &Variety) -> Value {
    let mark = variety.shortlist.as_ref();
    json!({
        "name": variety.name.as_str(),
        "raiser": variety.raiser.as_deref(),
        "form": variety.form.as_ref().map(|form| form.id.as_str()),
        "size": variety.size.as_deref(),
        "height": variety.height.map(|height| height.to_string()),
        "foliage": variety.foliage.map(|leaf| leaf.word()),
        "on hand": variety.on_hand.map(|tubers| tubers.to_string()),
        "licence": variety.licence.as_deref(),
        "notes": variety.notes.as_deref(),
        "shortlist": mark.map(|_| "yes"),
        "shortlist note": mark.and_then(|mark| mark.note.as_deref()),
    })
}

#[test]
fn exports_are_written_for_an_outside_reader() {
    let folder = PathBuf::from(env!("CARGO_TARGET_TMPDIR")).join("csv");
    fs::create_dir_all(&folder).expect("a folder");
    for (name, list) in [
        ("hard", hard()),
        ("demo", contents::varieties(None).expect("the demo")),
        ("generated", generated::varieties(500)),
    ] {
        fs::write(folder.join(format!("{name}.csv")), exported(&list)).expect("writes");
        let rows: Vec<Value> = list.list().iter().map(expected).collect();
        fs::write(folder.join(format!("{name}.json")), json!(rows).to_string()).expect("writes");
    }
}
