//! The program run as in a shell, by somebody whose home is an empty folder.

use std::path::Path;
use std::process::{Command, Output, Stdio};

use serde_json::Value;

/// `trug` with words, ready to run: no setting of whoever runs the tests reaches it.
pub(crate) fn command(home: &Path) -> Command {
    let mut command = Command::new(env!("CARGO_BIN_EXE_trug"));
    command
        .current_dir(home)
        .env("HOME", home)
        .env_remove("XDG_DATA_HOME");
    command
}

/// What it answers to words typed in a folder, which is also the home.
pub(crate) fn trug(home: &Path, words: &[&str]) -> Answer {
    let output = command(home).args(words).stdin(Stdio::null()).output();
    Answer::to(words, output)
}

/// As [`trug`], in an empty home of which nothing is left.
pub(crate) fn trug_anywhere(words: &[&str]) -> Answer {
    let home = tempfile::tempdir().expect("a place for a home");
    trug(home.path(), words)
}

/// What a run printed and how it ended.
#[derive(Debug)]
pub(crate) struct Answer {
    words: String,
    pub(crate) status: Option<i32>,
    pub(crate) out: String,
    pub(crate) error: String,
}

impl Answer {
    fn to(words: &[&str], output: std::io::Result<Output>) -> Answer {
        let output = output.expect("the program starts");
        let text = |bytes| String::from_utf8(bytes).expect("text");
        Answer {
            words: words.join(" "),
            status: output.status.code(),
            out: text(output.stdout),
            error: text(output.stderr),
        }
    }

    /// What is printed by a run that must do its work.
    #[track_caller]
    pub(crate) fn done(self) -> String {
        assert_eq!(self.status, Some(0), "{}: {}", self.words, self.error);
        self.out
    }

    /// What stands under the head of an answer of the demo.
    #[track_caller]
    pub(crate) fn of_the_demo(self) -> String {
        let printed = self.done();
        let (head, answer) = printed.split_once("\n\n").expect("a head");
        assert!(head.starts_with("From the demo"), "{head}");
        answer.to_string()
    }

    /// The one object that is printed, however the run ended.
    #[track_caller]
    pub(crate) fn object(&self) -> Value {
        serde_json::from_str(&self.out)
            .unwrap_or_else(|wrong| panic!("{}: {wrong}: {}", self.words, self.error))
    }

    /// Bad input: exit status 2, nothing on standard output, why on standard error.
    #[track_caller]
    pub(crate) fn refused(&self, says: &str) {
        assert_eq!(self.status, Some(2), "{}: {}", self.words, self.error);
        self.says_why_not(says);
    }

    /// The same in a sentence of one line, whatever kept it from its work.
    #[track_caller]
    pub(crate) fn fails_in_a_sentence(&self, says: &str) {
        assert_ne!(self.status, Some(0), "{}", self.words);
        assert_eq!(self.error.lines().count(), 1, "{self:?}");
        self.says_why_not(says);
    }

    #[track_caller]
    fn says_why_not(&self, says: &str) {
        assert!(self.out.is_empty() && self.error.contains(says), "{self:?}");
    }
}
