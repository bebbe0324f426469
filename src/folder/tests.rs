use std::fs;

use super::text::{read_records, write_records};
use super::*;

const NAME: &str = "varieties.ron";

fn folder() -> (tempfile::TempDir, Folder) {
    let dir = tempfile::tempdir().expect("a folder");
    let folder = Folder::open(dir.path(), "2026-08-20 14:05").expect("opens");
    (dir, folder)
}

/// Reads the list, which must be right.
fn read(folder: &Folder) -> (Option<Vec<String>>, FileGuard) {
    folder.read(NAME, read_records).expect("reads")
}

fn list(names: &[&str]) -> String {
    write_records(names).expect("writes")
}

#[test]
fn a_saved_file_reads_back_and_the_one_before_is_kept() {
    let (dir, folder) = folder();
    let (none, mut guard) = read(&folder);
    assert_eq!(none, None);
    for names in [&["Noust Lamp"][..], &["Noust Lamp", "Ebb Ember"], &[]] {
        folder.save(&mut guard, &list(names)).expect("saves");
        let (read, _) = read(&folder);
        assert_eq!(
            read.as_deref(),
            Some(&names.iter().map(|n| n.to_string()).collect::<Vec<_>>()[..])
        );
    }
    let kept = fs::read_to_string(dir.path().join("varieties.ron.last")).expect("is kept");
    assert_eq!(kept, list(&["Noust Lamp", "Ebb Ember"]));
    let mut left: Vec<_> = fs::read_dir(dir.path())
        .expect("lists")
        .map(|entry| entry.expect("lists").file_name())
        .collect();
    left.sort();
    assert_eq!(left, [".trug.lock", NAME, "varieties.ron.last"]);
}

#[test]
fn a_file_that_does_not_parse_gives_no_right_to_save_it() {
    let (dir, folder) = folder();
    let path = dir.path().join(NAME);
    fs::write(&path, "[\n  \"Noust Lamp\",\n  Ebb,\n]\n").expect("writes");
    let error = folder
        .read::<Vec<String>>(NAME, read_records)
        .expect_err("was read");
    assert_eq!(
        error.to_string(),
        "varieties.ron, line 3, column 3: found Ebb, expected text in double quotes; the file was \
         not changed"
    );
    fs::write(dir.path().join("varieties.ron.last"), "[]").expect("writes");
    let error = folder
        .read::<Vec<String>>(NAME, read_records)
        .expect_err("was read");
    assert!(
        error
            .to_string()
            .ends_with("; varieties.ron.last beside it is the copy before its last save"),
        "{error}"
    );
}

#[test]
fn damaged_bytes_and_control_characters_have_a_place() {
    let (dir, folder) = folder();
    for (damaged, expected) in [
        (
            &b"[\n  \"Vo\xe9\",\n]\n"[..],
            "line 2, column 6: found a damaged byte, 0xe9, expected UTF-8 text",
        ),
        (
            b"[\n  \"V\x1bo\",\n]\n",
            "line 2, column 5: found a control character, 0x1b, expected text",
        ),
    ] {
        fs::write(dir.path().join(NAME), damaged).expect("writes");
        let error = folder
            .read::<Vec<String>>(NAME, read_records)
            .expect_err("was read");
        assert_eq!(
            error.to_string(),
            format!("varieties.ron, {expected}; the file was not changed")
        );
    }
}

#[test]
fn a_change_by_another_program_is_not_overwritten() {
    let (dir, folder) = folder();
    let path = dir.path().join(NAME);
    let (_, mut stale) = read(&folder);
    let (_, mut guard) = read(&folder);
    folder
        .save(&mut guard, &list(&["Noust Lamp"]))
        .expect("saves");
    // Made since.
    let refused = folder.save(&mut stale, "[]");
    assert!(
        matches!(refused, Err(FolderError::Changed(_))),
        "{refused:?}"
    );
    // Edited since.
    fs::write(&path, list(&["Noust Lamp", "Ebb Ember"])).expect("edits");
    let refused = folder.save(&mut guard, "[]");
    assert!(
        matches!(refused, Err(FolderError::Changed(_))),
        "{refused:?}"
    );
    assert_eq!(
        fs::read_to_string(&path).ok(),
        Some(list(&["Noust Lamp", "Ebb Ember"]))
    );
    // Read again, it may be saved.
    let (_, mut guard) = read(&folder);
    folder.save(&mut guard, "[]").expect("saves");
    // Removed since: neither the file nor an empty list takes the kept copy's place.
    fs::remove_file(&path).expect("removes");
    let refused = folder.save(&mut guard, "[]");
    assert!(
        matches!(refused, Err(FolderError::Changed(_))),
        "{refused:?}"
    );
    let refused = folder.read::<Vec<String>>(NAME, read_records);
    assert!(
        matches!(refused, Err(FolderError::OnlyKept(_))),
        "{refused:?}"
    );
}

/// As after a kill between the two renames of a save: both names are one file.
#[test]
#[cfg(unix)]
fn a_save_goes_on_where_a_kill_left_one_file_with_two_names() {
    let (dir, folder) = folder();
    let (_, mut guard) = read(&folder);
    folder
        .save(&mut guard, &list(&["Noust Lamp"]))
        .expect("saves");
    let (path, kept) = (dir.path().join(NAME), dir.path().join("varieties.ron.last"));
    fs::hard_link(&path, &kept).expect("links");
    fs::write(dir.path().join(".varieties.ron.trug-new"), "half").expect("writes");
    drop(folder);
    let folder = Folder::open(dir.path(), "now").expect("opens");
    assert!(!dir.path().join(".varieties.ron.trug-new").exists());
    let (_, mut guard) = read(&folder);
    folder.save(&mut guard, "[]").expect("saves");
    assert_eq!(fs::read_to_string(&kept).ok(), Some(list(&["Noust Lamp"])));
    assert_eq!(fs::read_to_string(&path).ok().as_deref(), Some("[]"));
    assert!(!dir.path().join(".varieties.ron.trug-last").exists());
}

#[test]
#[cfg(unix)]
fn a_linked_file_stays_a_link_and_permissions_stay() {
    use std::os::unix::fs::PermissionsExt;
    let (dir, folder) = folder();
    let real = tempfile::tempdir().expect("a folder");
    let target = real.path().join("list.ron");
    fs::write(&target, "[]").expect("writes");
    fs::set_permissions(&target, fs::Permissions::from_mode(0o640)).expect("sets");
    std::os::unix::fs::symlink(&target, dir.path().join(NAME)).expect("links");
    let (_, mut guard) = read(&folder);
    folder
        .save(&mut guard, &list(&["Noust Lamp"]))
        .expect("saves");
    folder
        .save(&mut guard, &list(&["Ebb Ember"]))
        .expect("saves again");
    assert!(dir.path().join(NAME).is_symlink());
    assert_eq!(fs::read_to_string(&target).ok(), Some(list(&["Ebb Ember"])));
    let mode = fs::metadata(&target)
        .expect("is there")
        .permissions()
        .mode();
    assert_eq!(mode & 0o777, 0o640);
}

#[test]
fn a_file_marked_read_only_is_not_replaced() {
    let (dir, folder) = folder();
    let path = dir.path().join(NAME);
    fs::write(&path, "[]").expect("writes");
    let mut may = fs::metadata(&path).expect("is there").permissions();
    may.set_readonly(true);
    fs::set_permissions(&path, may).expect("sets");
    let (_, mut guard) = read(&folder);
    let refused = folder.save(&mut guard, "[\n]\n");
    assert!(
        matches!(refused, Err(FolderError::Protected(_))),
        "{refused:?}"
    );
    assert_eq!(fs::read_to_string(&path).ok().as_deref(), Some("[]"));
}

#[test]
fn a_second_opening_is_told_who_has_the_folder_and_may_read() {
    let (dir, first) = folder();
    let (_, mut guard) = read(&first);
    first
        .save(&mut guard, &list(&["Noust Lamp"]))
        .expect("saves");
    let second = Folder::open(dir.path(), "14:07").expect("opens");
    let Access::ReadOnly(reason) = second.access() else {
        panic!("two writers");
    };
    let said = reason.to_string();
    assert!(
        said.starts_with(&format!("process {}", std::process::id())),
        "{said}"
    );
    assert!(
        said.ends_with("since 2026-08-20 14:05, has the folder open"),
        "{said}"
    );
    let (names, mut guard) = read(&second);
    assert_eq!(names, Some(vec!["Noust Lamp".to_string()]));
    let refused = second
        .save(&mut guard, "[]")
        .expect_err("saved")
        .to_string();
    assert!(
        refused.contains(&said) && refused.ends_with("; nothing was lost"),
        "{refused}"
    );
    drop(first);
    let third = Folder::open(dir.path(), "14:08").expect("opens");
    assert!(
        matches!(third.access(), Access::Write(_)),
        "{:?}",
        third.access()
    );
}

#[test]
fn a_folder_that_is_not_there_is_one_sentence() {
    let (dir, _folder) = folder();
    let nowhere = dir.path().join("nowhere");
    let error = Folder::open(&nowhere, "now").expect_err("opened");
    assert!(matches!(error, FolderError::NoFolder(_)), "{error}");
    fs::write(dir.path().join("file"), "").expect("writes");
    let error = Folder::open(&dir.path().join("file"), "now")
        .expect_err("opened")
        .to_string();
    assert!(error.contains("it is a file, expected a folder"), "{error}");
}
