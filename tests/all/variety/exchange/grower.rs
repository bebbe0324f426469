//! The program as the grower runs it.

use std::fs;
use std::path::Path;

use serde_json::Value;

use crate::common::shell::{Answer, trug};

/// A folder that was started, and the program run with it.
pub(crate) struct Grower(tempfile::TempDir);

impl Grower {
    pub(crate) fn new() -> Grower {
        let grower = Grower(tempfile::tempdir().expect("a place"));
        let dir = grower.path("lane");
        grower.trug(&["start", &dir]).done();
        grower
    }

    pub(crate) fn path(&self, name: &str) -> String {
        self.0.path().join(name).display().to_string()
    }

    pub(crate) fn write(&self, name: &str, bytes: impl AsRef<[u8]>) -> String {
        fs::write(self.path(name), bytes).expect("writes");
        self.path(name)
    }

    pub(crate) fn trug(&self, words: &[&str]) -> Answer {
        trug(self.0.path(), words)
    }

    /// Runs with the folder and `--json`; the exit status and the answer.
    pub(crate) fn json(&self, words: &[&str]) -> (i32, Value) {
        let dir = self.path("lane");
        let answer = self.trug(&[words, &["--at", &dir, "--json"]].concat());
        (answer.status.expect("a status"), answer.object())
    }

    pub(crate) fn list(&self) -> String {
        fs::read_to_string(Path::new(&self.path("lane")).join("varieties.ron")).expect("a list")
    }
}

pub(crate) fn numbers(answer: &Value) -> (usize, usize, u64) {
    let count = |key: &str| answer[key].as_array().expect("a list").len();
    (
        count("new"),
        count("changed"),
        answer["same"].as_u64().expect("a number"),
    )
}
