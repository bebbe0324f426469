//! The folder under kills, two programs, a read-only folder and a full disk.
//!
//! A test starts this same test binary again as a child: [`worker`] does what the environment says
//! and reports on standard output.

mod books;
mod child;
mod full;
mod kills;
mod kinds;
mod links;
mod list;
mod order;
mod read_only;
mod together;

use std::path::Path;
use std::thread::sleep;
use std::time::Duration;

use trug::folder::lock::Access;
use trug::folder::text::{read_records, write_records};
use trug::folder::{FileGuard, Folder, FolderError};

use child::say;

const LIST: &str = "varieties.ron";
const JOURNAL: &str = "row.log";
/// Records of a list in the stream of saves: some 20 KB, so that a write takes a moment.
const RECORDS: usize = 2_000;

/// The list of save `number`: a mix of two saves shows as two numbers or a wrong length.
fn list_of(number: u64) -> String {
    write_records(&vec![number; RECORDS]).expect("writes")
}

fn read_list(folder: &Folder) -> (Option<u64>, FileGuard) {
    let (list, guard) = folder
        .read(LIST, read_records::<u64>)
        .unwrap_or_else(|error| panic!("{error}"));
    let number = list.map(|list| one_number(&list));
    (number, guard)
}

#[track_caller]
fn one_number(list: &[u64]) -> u64 {
    assert_eq!(list.len(), RECORDS, "not whole");
    assert!(list.iter().all(|number| *number == list[0]), "a mix");
    list[0]
}

fn entry_of(number: u64) -> String {
    format!(
        "({number}, note: {:?})",
        "wind from the sea wall ".repeat(40)
    )
}

#[track_caller]
fn entry_number(text: &str) -> u64 {
    let number = text.strip_prefix('(').and_then(|text| text.split_once(','));
    number.expect(text).0.parse().expect(text)
}

/// The child's side of the tests below.
#[test]
#[ignore = "started by the other tests, does nothing by itself"]
fn worker() {
    let (Ok(job), Some(at)) = (std::env::var(child::JOB), std::env::var_os(child::AT)) else {
        return;
    };
    let dir = Path::new(&at);
    match job.as_str() {
        "save" => kills::stream_saves(dir),
        "save-list" => list::stream_saves(dir),
        "save-order" => order::stream_saves(dir),
        "journal" => kills::stream_entries(dir),
        "row" => books::stream_row(dir),
        "stock" => books::stream_stock(dir),
        "hold" => {
            let folder = Folder::open(dir, "14:05").expect("opens");
            say(format_args!(
                "held {}",
                matches!(folder.access(), Access::Write(_))
            ));
            sleep(Duration::from_secs(60));
        }
        "read-only" => read_only::attempt(dir),
        "full" => full::fill_up(dir),
        other => panic!("no such job: {other}"),
    }
}

#[test]
fn a_second_program_reads_and_says_who_writes_until_that_one_is_killed() {
    let dir = tempfile::tempdir().expect("a folder");
    let (mut first, mut out) = child::spawn("hold", dir.path());
    assert_eq!(child::next_said(&mut out).as_deref(), Some("held true"));
    let second = Folder::open(dir.path(), "14:07").expect("opens");
    let Access::ReadOnly(reason) = second.access() else {
        panic!("two writers");
    };
    let said = reason.to_string();
    assert!(
        said.starts_with(&format!("process {}", first.id())),
        "{said}"
    );
    assert!(
        said.ends_with(", since 14:05, has the folder open"),
        "{said}"
    );
    let (_, mut guard) = read_list(&second);
    let refused = second.save(&mut guard, "[]");
    assert!(
        matches!(refused, Err(FolderError::ReadOnly(..))),
        "{refused:?}"
    );
    first.kill().expect("kills");
    first.wait().expect("ends");
    let third = Folder::open(dir.path(), "14:08").expect("opens");
    assert!(
        matches!(third.access(), Access::Write(_)),
        "{:?}",
        third.access()
    );
}
