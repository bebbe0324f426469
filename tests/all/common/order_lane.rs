//! A grower's folder with a small list and an order, and `trug order` run in it.
#![allow(dead_code)] // Each test uses a part of it.

use std::fs;
use std::path::Path;

use serde_json::Value;

use super::shell::{Answer, trug};

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

/// A folder with a list and an order, which is settled for a usual season: what that costs is proved.
pub(crate) struct Lane {
    home: tempfile::TempDir,
    aim: &'static [&'static str],
}

impl Lane {
    pub(crate) fn new(plan: &str) -> Lane {
        Lane::with(LIST, plan)
    }

    pub(crate) fn with(list: &str, plan: &str) -> Lane {
        let home = tempfile::tempdir().expect("a folder");
        fs::write(home.path().join("varieties.ron"), list).expect("writes");
        fs::write(home.path().join("order.ron"), plan).expect("writes");
        Lane {
            home,
            aim: &["--on-average"],
        }
    }

    /// The same, in which each need is to be as sure as it asks for.
    pub(crate) fn surely(self) -> Lane {
        Lane { aim: &[], ..self }
    }

    pub(crate) fn path(&self, name: &str) -> String {
        self.home.path().join(name).display().to_string()
    }

    pub(crate) fn dir(&self) -> &Path {
        self.home.path()
    }

    /// What `trug order` answers to words, with this folder.
    pub(crate) fn trug(&self, words: &[&str]) -> Answer {
        let dir = self.dir().display().to_string();
        trug(
            self.dir(),
            &[&["order"], self.aim, words, &["--at", &dir]].concat(),
        )
    }

    pub(crate) fn out(&self, words: &[&str]) -> String {
        self.trug(words).done()
    }

    pub(crate) fn json(&self, words: &[&str]) -> Value {
        let answer = self.trug(&[&["--json"], words].concat());
        let object = answer.object();
        answer.done();
        object
    }

    pub(crate) fn refused(&self, words: &[&str], says: &str) {
        let answer = self.trug(words);
        answer.refused(says);
        answer.fails_in_a_sentence(says);
    }
}

/// An amount of an answer in hundredths.
pub(crate) fn hundredths(value: &Value) -> i64 {
    (value.as_f64().expect("an amount") * 100.0).round() as i64
}
