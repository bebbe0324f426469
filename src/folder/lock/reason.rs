//! Why a folder is open to read only, and how one attempt to become its writer ends.

use std::fmt;
use std::io;

use super::super::names::HELD;
use super::super::system::in_words;

/// Why a folder is open to read only. Displays as a clause: `process 4711 on skerry has the folder
/// open since 14:05`.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Reason {
    /// Nothing more was asked for.
    Asked,
    /// Another program is the writer: who it is, as it wrote itself down.
    Held(String),
    /// The same where the disk knows no locks: a file says so, which may have been left behind.
    HeldByFile(String),
    /// The system refuses: why, in words.
    Refused(String),
}

/// How one attempt ended.
pub(super) enum Attempt<T> {
    /// This program is the writer.
    Taken(T),
    /// It is not, and why: only of another program that has the folder it is worth another attempt.
    Not(Reason),
}

impl Reason {
    /// What kept the program's own file of this name from being opened or written.
    pub(super) fn of_file(name: &str, error: &io::Error) -> Reason {
        use io::ErrorKind as Kind;
        let words = in_words(error);
        Reason::Refused(match error.kind() {
            Kind::Other | Kind::IsADirectory => format!("{name}: {words}"),
            _ => words,
        })
    }
}

impl fmt::Display for Reason {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Reason::Asked => f.write_str("the folder was opened to read only"),
            Reason::Held(who) => write!(f, "{who} has the folder open"),
            Reason::HeldByFile(who) => write!(
                f,
                "{who} has the folder open; if that program runs no more, take {HELD} out of the \
                 folder"
            ),
            Reason::Refused(why) => write!(f, "the folder cannot be written to, {why}"),
        }
    }
}
