//! A folder whose permissions forbid a save.

use std::fs;
use std::io::BufReader;
use std::os::unix::fs::PermissionsExt;
use std::os::unix::process::CommandExt;
use std::path::Path;

use trug::folder::lock::Access;
use trug::folder::{Folder, place};

use super::child::{child, next_said, say, this_exe};
use super::{LIST, list_of, read_list};

/// Says what each attempt in a folder that may not be written gives.
pub(crate) fn attempt(dir: &Path) {
    let folder = Folder::open(dir, "now").expect("opens");
    let access = match folder.access() {
        Access::Write(_) => "write".to_string(),
        Access::ReadOnly(reason) => reason.to_string(),
    };
    say(format_args!("{access}"));
    let (number, mut guard) = read_list(&folder);
    say(format_args!("read {number:?}"));
    let refused = folder.save(&mut guard, "[]").expect_err("saved");
    say(format_args!("{refused}"));
    let refused = place::start(&dir.join("new"), &[(LIST, "[]")], "now").expect_err("started");
    say(format_args!("{refused}"));
}

#[test]
fn a_folder_that_may_not_be_written_is_read_and_loses_nothing() {
    let home = tempfile::tempdir().expect("a folder");
    let dir = home.path().join("lane");
    place::start(&dir, &[(LIST, &list_of(7))], "now").expect("starts");
    let may = |path: &Path, mode| {
        fs::set_permissions(path, fs::Permissions::from_mode(mode)).expect("sets");
    };
    // Permissions do not bind the superuser: as such, the child is another user, who must be able
    // to reach the binary.
    let exe = home.path().join("worker");
    fs::copy(this_exe(), &exe).expect("copies");
    may(&exe, 0o755);
    may(home.path(), 0o755);
    may(&dir, 0o555);
    let binds = fs::write(dir.join("probe"), "").is_err();
    let run = || {
        let mut command = child(&exe, "read-only", &dir);
        if !binds {
            command.uid(65_534).gid(65_534);
        }
        let output = command.output().expect("runs");
        assert!(output.status.success(), "{output:?}");
        let mut out = BufReader::new(&output.stdout[..]);
        std::iter::from_fn(|| next_said(&mut out)).collect::<Vec<_>>()
    };
    let shown = dir.display();
    let refused_start = format!(
        "could not save {shown}/new: this user may not do that there; nothing was lost, what was \
         saved before is still there"
    );

    // Neither the folder nor the lock file: known as the folder is opened.
    may(&dir.join(".trug.lock"), 0o444);
    let reason = "the folder cannot be written to, this user may not do that there";
    assert_eq!(
        run(),
        [
            reason.to_string(),
            "read Some(7)".to_string(),
            format!("did not save {shown}/{LIST}: {reason}; nothing was lost"),
            refused_start.clone(),
        ]
    );
    // The lock file but not the folder: known as something is saved.
    may(&dir.join(".trug.lock"), 0o666);
    assert_eq!(
        run(),
        [
            "write".to_string(),
            "read Some(7)".to_string(),
            format!(
                "could not save {shown}/{LIST}: this user may not do that there; nothing was lost, \
                 what was saved before is still there"
            ),
            refused_start,
        ]
    );
    may(&dir, 0o755);
    assert_eq!(fs::read_to_string(dir.join(LIST)).ok(), Some(list_of(7)));
}
