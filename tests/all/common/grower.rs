//! A grower at a shell: the demo laid out as her own folder, and an empty folder to write in.

use std::path::{Path, PathBuf};
use std::process::{Command, Output};

use tempfile::TempDir;

/// A home that is removed with the value. Her folder is where `trug` looks for it.
pub(crate) struct Grower {
    home: TempDir,
}

impl Grower {
    /// With a copy of the demo.
    pub(crate) fn new() -> Grower {
        let home = tempfile::tempdir().expect("a place for a home");
        let grower = Grower { home };
        std::fs::create_dir(grower.here()).expect("a folder to stand in");
        grower.does("trug start \"$XDG_DATA_HOME/trug\" --demo");
        grower
    }

    /// Where she stands.
    pub(crate) fn here(&self) -> PathBuf {
        self.home.path().join("here")
    }

    /// Her own folder.
    pub(crate) fn folder(&self) -> PathBuf {
        self.data().join("trug")
    }

    fn data(&self) -> PathBuf {
        self.home.path().join("data")
    }

    /// What to set before `trug` starts, and to what.
    pub(crate) fn surroundings(&self) -> [(&'static str, PathBuf); 2] {
        [
            ("HOME", self.home.path().to_path_buf()),
            ("XDG_DATA_HOME", self.data()),
        ]
    }

    /// Types a line.
    pub(crate) fn types(&self, line: &str) -> Output {
        let program = Path::new(env!("CARGO_BIN_EXE_trug"));
        let folder = program.parent().expect("a folder of programs");
        let path = std::env::var("PATH").unwrap_or_default();
        Command::new("sh")
            .args(["-c", line])
            .current_dir(self.here())
            .env("PATH", format!("{}:{path}", folder.display()))
            .envs(self.surroundings())
            .output()
            .expect("a shell")
    }

    /// What a line prints that must be done.
    pub(crate) fn does(&self, line: &str) -> String {
        let output = self.types(line);
        let error = String::from_utf8_lossy(&output.stderr);
        assert!(output.status.success(), "{line}: {error}");
        String::from_utf8_lossy(&output.stdout).into_owned()
    }
}
