//! The second way to hold a folder, for a disk that knows no locks: a file that only one program can
//! make, `.trug.held`, and that says who made it.
//!
//! A killed program leaves it behind. On the same machine that is seen: the machine was started anew
//! since, or the process runs no more, or another one has its number. On another machine it cannot be
//! seen; the folder is then read only, and the reason says how to let go of it.

use std::fs::{self, OpenOptions};
use std::io::{self, Read, Write};
use std::path::{Path, PathBuf};
use std::process;
use std::time::Duration;

use super::super::names::HELD;
use super::super::{regular, system};
use super::holder;
use super::reason::{Attempt, Reason};

/// More than what [`Writer::text`] writes.
const LONGEST: u64 = 2_000;
/// Made by the one program that takes a file away which was left behind.
const TAKING_AWAY: &str = ".trug.held.taking-away";
/// After so long that file was itself left behind: what it is made for takes a moment.
const LEFT_BEHIND: Duration = Duration::from_secs(60);

/// The folder, held until this is dropped.
#[derive(Debug)]
pub(super) struct HeldFile {
    path: PathBuf,
    text: String,
}

/// The program that a file names.
#[derive(Debug, Clone, PartialEq, Eq)]
struct Writer {
    machine: String,
    boot: String,
    process: u32,
    began: String,
}

/// Asks once.
pub(super) fn attempt(dir: &Path, since: &str) -> Attempt<HeldFile> {
    if let Some(reason) = by_another(dir) {
        return Attempt::Not(reason);
    }
    let path = dir.join(HELD);
    let text = Writer::this().text(since);
    let made = OpenOptions::new().write(true).create_new(true).open(&path);
    let mut file = match made {
        Ok(file) => file,
        Err(error) if error.kind() == io::ErrorKind::AlreadyExists => {
            return Attempt::Not(Reason::HeldByFile("another program".to_string()));
        }
        Err(error) => return Attempt::Not(Reason::of_file(HELD, &error)),
    };
    match file
        .write_all(text.as_bytes())
        .and_then(|()| file.sync_all())
    {
        Ok(()) => Attempt::Taken(HeldFile { path, text }),
        Err(error) => {
            // OK to fail: the reason then says how to let go of it.
            let _ = fs::remove_file(&path);
            Attempt::Not(Reason::of_file(HELD, &error))
        }
    }
}

/// Who holds the folder in this way; a file that was left behind is taken away.
pub(super) fn by_another(dir: &Path) -> Option<Reason> {
    match read(&dir.join(HELD)) {
        Ok(text) if Writer::of(&text).is_some_and(|writer| writer.is_gone()) => take_away(dir)
            .err()
            .map(|error| Reason::of_file(HELD, &error)),
        Ok(text) => Some(Reason::HeldByFile(holder::who(&text))),
        Err(error) if error.kind() == io::ErrorKind::NotFound => None,
        Err(error) => Some(Reason::of_file(HELD, &error)),
    }
}

impl Drop for HeldFile {
    fn drop(&mut self) {
        let own = read(&self.path).is_ok_and(|text| text == self.text.as_bytes());
        if own {
            // OK to fail: on this machine it is then seen that the program is gone.
            let _ = fs::remove_file(&self.path);
        }
    }
}

impl Writer {
    fn this() -> Writer {
        let process = process::id();
        Writer {
            machine: system::machine(),
            boot: system::boot(),
            process,
            began: system::started(process).unwrap_or_default(),
        }
    }

    /// A line for people, and the rest for programs.
    fn text(&self, since: &str) -> String {
        let Writer {
            machine,
            boot,
            process,
            began,
        } = self;
        format!(
            "{}machine: {machine}\nboot: {boot}\nprocess: {process}\nbegan: {began}\n",
            holder::line(since)
        )
    }

    fn of(text: &[u8]) -> Option<Writer> {
        let text = std::str::from_utf8(text).ok()?;
        let value = |name: &str| {
            let mut lines = text.lines().skip(1);
            lines.find_map(|line| line.strip_prefix(name)?.strip_prefix(": "))
        };
        Some(Writer {
            machine: value("machine")?.to_string(),
            boot: value("boot")?.to_string(),
            process: value("process")?.parse().ok()?,
            began: value("began")?.to_string(),
        })
    }

    /// Whether it can be seen that the program runs no more.
    fn is_gone(&self) -> bool {
        let machine = system::machine();
        let here = !machine.is_empty() && self.machine == machine;
        here && (self.boot != system::boot()
            || system::started(self.process).is_none_or(|began| began != self.began))
    }
}

fn read(path: &Path) -> io::Result<Vec<u8>> {
    let mut options = OpenOptions::new();
    regular::check(&fs::symlink_metadata(path)?)?;
    let file = system::not_through_a_link(options.read(true)).open(path)?;
    regular::check(&file.metadata()?)?;
    let mut text = Vec::new();
    file.take(LONGEST).read_to_end(&mut text)?;
    Ok(text)
}

/// Takes away a file that was left behind, one program at a time: another one may have seen the same
/// and have made its own since.
fn take_away(dir: &Path) -> io::Result<()> {
    let alone = dir.join(TAKING_AWAY);
    if let Err(error) = OpenOptions::new().write(true).create_new(true).open(&alone) {
        let age = fs::symlink_metadata(&alone).and_then(|found| found.modified());
        let age = age.map(|made| made.elapsed().unwrap_or_default());
        if age.is_ok_and(|age| age > LEFT_BEHIND) {
            fs::remove_file(&alone)?;
        }
        return Err(error);
    }
    let path = dir.join(HELD);
    let gone = read(&path).is_ok_and(|text| Writer::of(&text).is_some_and(|one| one.is_gone()));
    let taken = if gone { fs::remove_file(&path) } else { Ok(()) };
    fs::remove_file(&alone).and(taken)
}

#[cfg(test)]
mod tests {
    use super::*;

    fn held(dir: &Path, writer: &Writer) {
        fs::write(dir.join(HELD), writer.text("14:05")).expect("writes");
    }

    fn not(attempt: Attempt<HeldFile>) -> String {
        match attempt {
            Attempt::Taken(_) => panic!("two writers"),
            Attempt::Not(reason) => reason.to_string(),
        }
    }

    #[test]
    fn what_a_program_that_runs_no_more_left_behind_is_taken_away() {
        let dir = tempfile::tempdir().expect("a folder");
        let this = Writer::this();
        assert_eq!(
            Writer::of(this.text("14:05").as_bytes()),
            Some(this.clone())
        );
        let gone = [
            Writer {
                process: 2_147_483_646,
                ..this.clone()
            },
            Writer {
                boot: "another".into(),
                ..this.clone()
            },
            Writer {
                began: "another".into(),
                ..this
            },
        ];
        for writer in gone {
            held(dir.path(), &writer);
            let taken = attempt(dir.path(), "14:06");
            assert!(matches!(taken, Attempt::Taken(_)), "{writer:?}");
            drop(taken);
            assert_eq!(fs::read_dir(dir.path()).expect("lists").count(), 0);
        }
    }

    #[test]
    fn another_machine_is_named_and_how_to_let_go_of_what_it_left() {
        let dir = tempfile::tempdir().expect("a folder");
        let writer = Writer {
            machine: "haaf".into(),
            boot: "another".into(),
            ..Writer::this()
        };
        held(dir.path(), &writer);
        let told = not(attempt(dir.path(), "14:06"));
        assert!(
            told.starts_with("process ") && told.contains("since 14:05, has the folder"),
            "{told}"
        );
        assert!(
            told.ends_with("take .trug.held out of the folder"),
            "{told}"
        );
        fs::write(dir.path().join(HELD), "").expect("writes");
        let told = not(attempt(dir.path(), "14:06"));
        assert!(
            told.starts_with("another program has the folder open"),
            "{told}"
        );
    }

    #[test]
    #[cfg(unix)]
    fn a_link_in_its_place_is_left_and_so_is_what_it_leads_to() {
        let dir = tempfile::tempdir().expect("a folder");
        let list = dir.path().join("varieties.ron");
        fs::write(&list, "[]").expect("writes");
        std::os::unix::fs::symlink(&list, dir.path().join(HELD)).expect("links");
        let told = not(attempt(dir.path(), "14:06"));
        assert!(
            told.ends_with(".trug.held: it is a link, expected a file"),
            "{told}"
        );
        assert_eq!(fs::read_to_string(&list).ok().as_deref(), Some("[]"));
    }
}
