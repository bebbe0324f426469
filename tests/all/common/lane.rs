//! A grower's folder with a short list and two seedlings, and `trug` run in it.

use std::fs;
use std::path::{Path, PathBuf};

use super::shell::{Answer, trug};

const LIST: &str = "[\n  (name: \"Haaf Bell\"),\n  (name: \"Ebb Kist\"),\n]\n";
const SEEDLINGS: &str = "[\n  (number: \"26-001\"),\n  (number: \"26-002\"),\n]\n";

/// The folder, in a home that is removed with the value.
pub(crate) struct SmallLane {
    home: tempfile::TempDir,
}

impl SmallLane {
    pub(crate) fn new() -> SmallLane {
        let home = tempfile::tempdir().expect("a home");
        let lane = SmallLane { home };
        fs::create_dir(lane.dir()).expect("a folder");
        fs::write(lane.file("varieties.ron"), LIST).expect("writes");
        fs::write(lane.file("trial.ron"), SEEDLINGS).expect("writes");
        lane
    }

    pub(crate) fn home(&self) -> &Path {
        self.home.path()
    }

    pub(crate) fn dir(&self) -> PathBuf {
        self.home().join("lane")
    }

    /// The path of a file of it.
    pub(crate) fn file(&self, name: &str) -> PathBuf {
        self.dir().join(name)
    }

    pub(crate) fn text(&self, name: &str) -> String {
        fs::read_to_string(self.file(name)).unwrap_or_else(|error| panic!("{name}: {error}"))
    }

    /// What `trug` answers, standing beside the folder.
    pub(crate) fn trug(&self, words: &[&str]) -> Answer {
        trug(self.home(), &[words, &["--at", "lane"]].concat())
    }

    /// Notes something of a seedling.
    pub(crate) fn note(&self) -> Answer {
        self.trug(&["row", "note", "26-001", "cut=3", "--even-so"])
    }

    /// The entries in the book.
    pub(crate) fn entries(&self) -> usize {
        self.text("trial.journal").lines().count()
    }

    /// That its list is as it was laid out.
    #[track_caller]
    pub(crate) fn has_its_list(&self) {
        assert_eq!(self.text("varieties.ron"), LIST);
    }
}
