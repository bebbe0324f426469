//! A grower's folder with a small list and an order, and `trug order` run in it.
#![allow(dead_code)] // Each test uses a part of it.

use std::fs;
use std::path::Path;
use std::process::{Command, Output};

use serde_json::Value;

pub(crate) const LIST: &str = r#"[
  (name: "Haaf Bell", form: (id: "ball", known: keyed), colours: [(colour: "plum", part: main, pattern: self)], offers: [(supplier: "Oar Bulbs", price: "4.00", pack: 1), (supplier: "Ebb Nursery", price: "9.00", pack: 3)]),
  (name: "=Haaf Drift", form: (id: "single", known: keyed), colours: [(colour: "white", part: main, pattern: self)], offers: [(supplier: "Oar Bulbs", price: "3.00", pack: 1, closes: "2027-02-01")]),
  (name: "Ebb Kist", form: (id: "ball", known: keyed), colours: [(colour: "white", part: main, pattern: self)], on_hand: 10),
]"#;
pub(crate) const PLAN: &str = r#"// The order of a test.
(
  ordered: "2027-01-15",
  season: (last_frost: (date: "2027-05-01"), first_frost: (date: "2027-10-10"), planted: "2027-05-01", stems_a_week: 0.9, plants_lost: 0.0, stems_lost: 0.0),
  beds: [(name: "sea wall", length: "20m", width: "1.2m", spacing: "400mm")],
  money: "450",
  suppliers: [(name: "Oar Bulbs", postage: "5", free_over: "100", closes: "2027-02-28")],
  needs: [
    (name: "quay stall", stems: 12, weeks: (33, 38), forms: ["ball"]),
    (name: "lifeboat day", stems: 8, weeks: (36, 36), colours: ["plum"]),
    (name: "chapel", stems: 4, weeks: (35, 36), forms: ["single"]),
  ],
)"#;

/// A folder with a list and an order.
pub(crate) struct Lane(tempfile::TempDir);

impl Lane {
    pub(crate) fn new(plan: &str) -> Lane {
        Lane::with(LIST, plan)
    }

    pub(crate) fn with(list: &str, plan: &str) -> Lane {
        let home = tempfile::tempdir().expect("a folder");
        fs::write(home.path().join("varieties.ron"), list).expect("writes");
        fs::write(home.path().join("order.ron"), plan).expect("writes");
        Lane(home)
    }

    pub(crate) fn path(&self, name: &str) -> String {
        self.0.path().join(name).display().to_string()
    }

    pub(crate) fn dir(&self) -> &Path {
        self.0.path()
    }

    pub(crate) fn trug(&self, words: &[&str]) -> Output {
        run(Some(self.0.path()), words)
    }

    pub(crate) fn out(&self, words: &[&str]) -> String {
        let output = self.trug(words);
        let error = String::from_utf8_lossy(&output.stderr);
        assert!(output.status.success(), "{words:?}: {error}");
        String::from_utf8(output.stdout).expect("text")
    }

    pub(crate) fn json(&self, words: &[&str]) -> Value {
        let words = [&["--json"], words].concat();
        serde_json::from_str(&self.out(&words)).expect("one JSON object")
    }

    pub(crate) fn refused(&self, words: &[&str], told: &str) {
        let output = self.trug(words);
        let error = String::from_utf8_lossy(&output.stderr);
        assert_eq!(output.status.code(), Some(2), "{words:?}: {error}");
        assert!(output.stdout.is_empty(), "{words:?}");
        assert!(
            error.contains(told) && error.lines().count() == 1,
            "{words:?}: {error}"
        );
    }
}

/// Runs `trug order` in a folder, or where there is none.
pub(crate) fn run(folder: Option<&Path>, words: &[&str]) -> Output {
    let home = tempfile::tempdir().expect("a place for a home");
    let at = folder.map(|folder| ["--at".to_string(), folder.display().to_string()]);
    Command::new(env!("CARGO_BIN_EXE_trug"))
        .arg("order")
        .args(words)
        .args(at.into_iter().flatten())
        .current_dir(home.path())
        .env("HOME", home.path())
        .env_remove("XDG_DATA_HOME")
        .output()
        .expect("the program starts")
}

/// An amount of an answer in hundredths.
pub(crate) fn hundredths(value: &Value) -> i64 {
    (value.as_f64().expect("an amount") * 100.0).round() as i64
}
