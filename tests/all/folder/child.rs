//! The test binary as its own child, and what the child says.

use std::io::{BufRead, BufReader, Write};
use std::path::{Path, PathBuf};
use std::process::{Child, ChildStdout, Command, Stdio};

/// What the child is to do.
pub(crate) const JOB: &str = "TRUG_TEST_JOB";
/// In which folder.
pub(crate) const AT: &str = "TRUG_TEST_FOLDER";

pub(crate) fn say(what: std::fmt::Arguments) {
    let mut out = std::io::stdout().lock();
    writeln!(out, "<{what}>").expect("says");
    out.flush().expect("says");
}

pub(crate) fn child(exe: &Path, job: &str, dir: &Path) -> Command {
    let mut command = Command::new(exe);
    on_worker(&mut command, job, dir);
    command
}

pub(crate) fn on_worker(command: &mut Command, job: &str, dir: &Path) {
    command
        .args(["--ignored", "--exact", "--nocapture", "folder::worker"])
        .env(JOB, job)
        .env(AT, dir)
        .stdin(Stdio::null())
        .stdout(Stdio::piped());
}

pub(crate) fn this_exe() -> PathBuf {
    std::env::current_exe().expect("knows itself")
}

pub(crate) fn spawn(job: &str, dir: &Path) -> (Child, BufReader<ChildStdout>) {
    let mut child = child(&this_exe(), job, dir).spawn().expect("starts");
    let out = BufReader::new(child.stdout.take().expect("has output"));
    (child, out)
}

/// What the worker says next, among the lines of the test runner; `None` at its end. A line cut
/// by a kill was not said.
pub(crate) fn next_said(out: &mut impl BufRead) -> Option<String> {
    let mut line = String::new();
    while out.read_line(&mut line).expect("reads") > 0 {
        let said = line
            .strip_suffix(">\n")
            .and_then(|line| line.split_once('<'));
        if let Some((_, said)) = said {
            return Some(said.to_string());
        }
        line.clear();
    }
    None
}
