use std::fs::{self, TryLockError};

use super::super::names::{HELD, LOCK};
use super::*;

fn opened(dir: &Path) -> Access {
    acquire(dir, "14:05", Wait::AMoment).expect("opens")
}

#[track_caller]
fn reason(access: Access) -> String {
    match access {
        Access::Write(_) => panic!("may write"),
        Access::ReadOnly(reason) => reason.to_string(),
    }
}

/// A disk that knows no locks.
fn no_locks(_: &File) -> Result<(), TryLockError> {
    #[cfg(unix)]
    let code = rustix::io::Errno::NOTSUP.raw_os_error();
    #[cfg(windows)]
    let code = 50;
    Err(TryLockError::Error(io::Error::from_raw_os_error(code)))
}

fn without_locks(dir: &Path, since: &str) -> Access {
    acquire_by(no_locks, dir, since, Wait::AMoment).expect("opens")
}

#[test]
#[cfg(unix)]
fn a_link_in_place_of_the_lock_empties_nothing() {
    let dir = tempfile::tempdir().expect("a folder");
    let list = dir.path().join("varieties.ron");
    let lock = dir.path().join(LOCK);
    fs::write(&list, "[\n]\n").expect("writes");
    let head = "the folder cannot be written to, .trug.lock: it is";
    std::os::unix::fs::symlink(&list, &lock).expect("links");
    assert_eq!(
        reason(opened(dir.path())),
        format!("{head} a link, expected a file")
    );
    fs::remove_file(&lock).expect("removes");
    // A link that leads nowhere makes nothing there.
    std::os::unix::fs::symlink(dir.path().join("new"), &lock).expect("links");
    assert_eq!(
        reason(opened(dir.path())),
        format!("{head} a link, expected a file")
    );
    assert!(!dir.path().join("new").exists());
    fs::remove_file(&lock).expect("removes");
    fs::hard_link(&list, &lock).expect("links");
    assert_eq!(
        reason(opened(dir.path())),
        format!("{head} one file with 2 names, expected one of its own")
    );
    assert_eq!(fs::read_to_string(&list).ok().as_deref(), Some("[\n]\n"));
}

#[test]
fn a_lock_file_with_a_text_of_others_keeps_it() {
    let dir = tempfile::tempdir().expect("a folder");
    let lock = dir.path().join(LOCK);
    for text in ["the notes of August", "[\n]\n"] {
        fs::write(&lock, text).expect("writes");
        assert_eq!(
            reason(opened(dir.path())),
            "the folder cannot be written to, .trug.lock: it has a text that trug did not write, \
             expected an empty file"
        );
        assert_eq!(fs::read_to_string(&lock).ok().as_deref(), Some(text));
    }
    // What a killed program left is no such text.
    fs::write(&lock, "process 4711 on skerry, since 14:05,\n").expect("writes");
    assert!(matches!(opened(dir.path()), Access::Write(_)));
    assert_eq!(fs::read_to_string(&lock).ok().as_deref(), Some(""));
}

#[test]
#[cfg(unix)]
fn a_pipe_in_place_of_the_lock_is_refused_without_waiting() {
    let dir = tempfile::tempdir().expect("a folder");
    fs::create_dir(dir.path().join(LOCK)).expect("makes");
    let told = reason(opened(dir.path()));
    assert!(
        told.ends_with(".trug.lock: it is a folder, expected a file"),
        "{told}"
    );
    fs::remove_dir(dir.path().join(LOCK)).expect("removes");
    let pipe = std::process::Command::new("mkfifo")
        .arg(dir.path().join(LOCK))
        .status();
    assert!(pipe.expect("runs").success());
    let told = reason(opened(dir.path()));
    assert!(
        told.ends_with(".trug.lock: it is a pipe, expected a file"),
        "{told}"
    );
}

#[test]
fn a_disk_without_locks_has_one_writer_too() {
    let dir = tempfile::tempdir().expect("a folder");
    let first = without_locks(dir.path(), "14:05");
    assert!(matches!(first, Access::Write(_)), "{first:?}");
    assert!(dir.path().join(HELD).exists());
    let told = reason(without_locks(dir.path(), "14:06"));
    assert!(
        told.starts_with(&format!("process {}", std::process::id())),
        "{told}"
    );
    // A program that has locks keeps to it as well.
    assert_eq!(reason(opened(dir.path())), told);
    drop(first);
    assert!(!dir.path().join(HELD).exists());
    assert!(matches!(
        without_locks(dir.path(), "14:07"),
        Access::Write(_)
    ));
    assert!(matches!(opened(dir.path()), Access::Write(_)));
}

#[test]
fn who_is_waited_for_is_told_once_and_a_writer_who_ends_is_followed() {
    let dir = tempfile::tempdir().expect("a folder");
    let first = opened(dir.path());
    let mut told = Vec::new();
    let second = std::thread::scope(|scope| {
        scope.spawn(|| {
            std::thread::sleep(Duration::from_millis(900));
            drop(first);
        });
        let mut tell = |words: &str| told.push(words.to_string());
        acquire(dir.path(), "14:06", Wait::Patiently(&mut tell)).expect("opens")
    });
    assert!(matches!(second, Access::Write(_)), "{second:?}");
    let [told] = &told[..] else {
        panic!("{told:?}")
    };
    let head = format!("waiting: process {}", std::process::id());
    assert!(
        told.starts_with(&head) && told.ends_with("has the folder open"),
        "{told}"
    );
}
