//! No room on the disk.

use std::fs;
use std::io::{BufReader, Read, Write};
use std::path::Path;
use std::process::{Command, Stdio};

use trug::folder::text::{read_records, write_records};
use trug::folder::{Folder, FolderError};

use super::child::{next_said, on_worker, say, this_exe};
use super::{JOURNAL, LIST, entry_of};

/// Saves ever longer files until the system has no room, then shows that all is as it was and that
/// a shorter save is taken.
pub(crate) fn fill_up(dir: &Path) {
    let folder = Folder::open(dir, "now").expect("opens");
    let (_, mut guard) = folder.read(LIST, read_records::<u64>).expect("reads");
    let mut saved = String::new();
    let error = (1..)
        .find_map(|number| {
            let text = write_records(&vec![number; number * 100]).expect("writes");
            let result = folder.save(&mut guard, &text);
            if result.is_ok() {
                saved = text;
            }
            result.err()
        })
        .expect("has an end");
    say(format_args!("{error}"));
    let read = || fs::read_to_string(dir.join(LIST)).expect("is there");
    assert!(!saved.is_empty() && read() == saved, "a save was lost");
    let left = fs::read_dir(dir).expect("lists").count();
    assert_eq!(left, 3, "the lock, the file, the kept copy");
    folder.save(&mut guard, "[]").expect("a short one is taken");
    assert_eq!(read(), "[]");

    let mut journal = folder.journal(JOURNAL).expect("opens").journal;
    let error = (1..)
        .find_map(|number| folder.append(&mut journal, &entry_of(number)).err())
        .expect("has an end");
    say(format_args!("{error}"));
    let opened = folder.journal(JOURNAL).expect("opens");
    assert!(opened.entries.len() > 10 && opened.problems.is_empty());
    let last = opened.entries.len() as u64;
    assert_eq!(opened.entries[last as usize - 1].text, entry_of(last));
    // As where the grower has made room: the same journal takes the next entry.
    fs::remove_file(dir.join("varieties.ron.last")).expect("makes room");
    let taken = folder.append(&mut journal, "short");
    assert!(
        taken.is_ok() || matches!(taken, Err(FolderError::Write(..))),
        "{taken:?}"
    );
    let entries = folder.journal(JOURNAL).expect("opens").entries.len() as u64;
    assert_eq!(entries, last + u64::from(taken.is_ok()));
    say(format_args!("end"));
}

/// What the worker says where the shell command `limit` comes before it.
fn fill_up_under(limit: &str, dir: &Path) -> Option<Vec<String>> {
    let script = format!("{limit} && exec \"$0\" \"$@\"");
    let mut command = Command::new("sh");
    command.arg("-c").arg(script).arg(this_exe());
    on_worker(&mut command, "full", dir);
    run_to_end(command)
}

fn run_to_end(mut command: Command) -> Option<Vec<String>> {
    let mut child = command.spawn().ok()?;
    let mut output = Vec::new();
    let mut out = child.stdout.take().expect("has output");
    out.read_to_end(&mut output).expect("reads");
    let ended = child.wait().expect("ends");
    let mut out = BufReader::new(&output[..]);
    let said: Vec<_> = std::iter::from_fn(|| next_said(&mut out)).collect();
    assert!(ended.success() || said.is_empty(), "{said:?}");
    ended.success().then_some(said)
}

fn check_full(said: &[String], dir: &Path, why: &str) {
    let sentence = |name: &str| {
        format!(
            "could not save {}: {why}; nothing was lost, what was saved before is still there",
            dir.join(name).display()
        )
    };
    assert_eq!(said, [sentence(LIST), sentence(JOURNAL), "end".to_string()]);
}

/// A limit on the size of a file makes a write stop in the middle, as a full disk does.
#[test]
fn a_file_that_finds_no_room_is_one_sentence_and_loses_nothing() {
    let dir = tempfile::tempdir().expect("a folder");
    let said = fill_up_under("trap '' XFSZ && ulimit -f 64", dir.path()).expect("ran");
    check_full(
        &said,
        dir.path(),
        "the file would be larger than is allowed here",
    );
}

/// A disk of a quarter of a megabyte, full. Where the system lets nobody mount one, the test above
/// and the message's own test, on the device that is always full, stand for it.
#[test]
fn a_full_disk_is_one_sentence_and_loses_nothing() {
    let dir = tempfile::tempdir().expect("a folder");
    let mount = "mount -t tmpfs -o size=256k tmpfs \"$1\"";
    let may_mount = Command::new("unshare")
        .args(["-rm", "sh", "-c", mount, "sh"])
        .arg(dir.path())
        .stderr(Stdio::null())
        .status()
        .is_ok_and(|status| status.success());
    if !may_mount {
        writeln!(
            std::io::stderr(),
            "not checked on a real full disk: cannot mount one"
        )
        .expect("says");
        return;
    }
    let mut command = Command::new("unshare");
    let script = format!("{mount} && shift && exec \"$@\"");
    command.args(["-rm", "sh", "-c", &script, "sh"]);
    command.arg(dir.path()).arg(this_exe());
    on_worker(&mut command, "full", dir.path());
    let said = run_to_end(command).expect("ran");
    check_full(&said, dir.path(), "the disk is full");
}
