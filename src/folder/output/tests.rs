use std::path::PathBuf;

use super::super::names::{LOCK, VARIETIES};
use super::*;

/// A grower's folder, and a place for what is written.
struct Places {
    _home: tempfile::TempDir,
    own: PathBuf,
    here: PathBuf,
}

impl Places {
    fn new() -> Places {
        let home = tempfile::tempdir().expect("a folder");
        let (own, here) = (home.path().join("own"), home.path().join("here"));
        fs::create_dir_all(own.join("rules")).expect("makes");
        fs::create_dir(&here).expect("makes");
        for name in [LOCK, VARIETIES, "varieties.ron.last", "rules/mine.ron"] {
            fs::write(own.join(name), "own").expect("writes");
        }
        Places {
            _home: home,
            own,
            here,
        }
    }

    fn output(&self, replace: bool) -> Output<'_> {
        Output {
            folder: Some(&self.own),
            replace,
        }
    }

    #[track_caller]
    fn refuses(&self, path: &Path, replace: bool, says: &str) {
        let output = self.output(replace);
        for refused in [output.check(path), output.write(path, b"new")] {
            let told = refused.expect_err("was written").to_string();
            assert!(told.contains(says), "{}: {told}", path.display());
            assert!(!told.contains('\n'), "{told}");
        }
    }
}

fn read(path: &Path) -> String {
    fs::read_to_string(path).expect("is there")
}

#[test]
fn a_file_that_is_there_is_replaced_only_where_that_was_asked_for() {
    let places = Places::new();
    let path = places.here.join("sheet.csv");
    places.output(false).write(&path, b"one").expect("writes");
    places.refuses(
        &path,
        false,
        "there already, expected a new name: --replace replaces it",
    );
    assert_eq!(read(&path), "one");
    places.output(true).write(&path, b"two").expect("writes");
    assert_eq!(read(&path), "two");
    assert_eq!(fs::read_dir(&places.here).expect("lists").count(), 1);
    let nowhere = places
        .output(true)
        .write(&places.here.join("no/sheet.csv"), b"x");
    let told = nowhere.expect_err("was written").to_string();
    assert!(told.contains("it is not there"), "{told}");
}

#[test]
fn a_file_of_a_growers_folder_is_never_written_over() {
    let places = Places::new();
    let says = "a file of a grower's folder, expected another name";
    for name in [
        VARIETIES,
        "varieties.ron.last",
        LOCK,
        "rules/mine.ron",
        "Varieties.ron",
    ] {
        places.refuses(&places.own.join(name), true, says);
    }
    // Nor is one made that it would read.
    for name in ["trial.journal", "uses.ron", "rules/new.ron"] {
        places.refuses(&places.own.join(name), true, says);
        assert!(!places.own.join(name).exists());
    }
    assert_eq!(read(&places.own.join(VARIETIES)), "own");
    // What is no file of it may be kept there.
    let list = places.own.join("list.csv");
    places.output(false).write(&list, b"list").expect("writes");
    // In any folder of a grower's, not only in this one's own.
    let other = Output {
        folder: None,
        replace: true,
    };
    assert!(other.write(&places.own.join(VARIETIES), b"new").is_err());
}

#[test]
fn a_file_that_a_folder_may_read_is_begun_there_and_not_written_over() {
    let places = Places::new();
    let tags = places.own.join("tags.ron");
    places.output(false).begin(&tags, b"begun").expect("writes");
    let told = places
        .output(true)
        .begin(&tags, b"new")
        .expect_err("was written")
        .to_string();
    assert!(told.contains("a file of a grower's folder"), "{told}");
    assert_eq!(read(&tags), "begun");
}

#[test]
#[cfg(unix)]
fn a_link_or_a_second_name_of_such_a_file_is_refused_as_well() {
    use std::os::unix::fs::symlink;
    let places = Places::new();
    let list = places.own.join(VARIETIES);
    let (link, second) = (places.here.join("link.csv"), places.here.join("second.csv"));
    symlink(&list, &link).expect("links");
    fs::hard_link(&list, &second).expect("links");
    symlink(&places.own, places.here.join("way")).expect("links");
    let way = places.here.join("way").join(VARIETIES);
    for path in [&link, &second, &way] {
        places.refuses(path, true, "a file of a grower's folder");
    }
    assert_eq!(read(&list), "own");
    let nowhere = places.here.join("nowhere.csv");
    symlink(places.here.join("new.csv"), &nowhere).expect("links");
    places.refuses(&nowhere, true, "a link that leads nowhere");
    // Any other link stays, and where it leads is written.
    let (real, shown) = (places.here.join("real.csv"), places.here.join("shown.csv"));
    fs::write(&real, "old").expect("writes");
    symlink(&real, &shown).expect("links");
    places.output(true).write(&shown, b"new").expect("writes");
    assert!(shown.is_symlink());
    assert_eq!(read(&real), "new");
}

#[test]
fn a_file_marked_read_only_is_not_replaced_even_where_that_was_asked_for() {
    let places = Places::new();
    let path = places.here.join("sheet.csv");
    fs::write(&path, "old").expect("writes");
    let mut may = fs::metadata(&path).expect("is there").permissions();
    may.set_readonly(true);
    fs::set_permissions(&path, may).expect("sets");
    places.refuses(&path, true, "marked read-only");
    assert_eq!(read(&path), "old");
}

#[test]
fn what_a_killed_program_left_beside_is_swept_and_nothing_else_is() {
    let places = Places::new();
    let age = |name: &str, seconds| {
        let path = places.here.join(name);
        fs::write(&path, "half").expect("writes");
        let file = fs::File::options().write(true).open(&path).expect("opens");
        let then = std::time::SystemTime::now() - Duration::from_secs(seconds);
        file.set_modified(then).expect("sets");
    };
    age(".sheet.csv.4711.trug-out", 3_600);
    age(".sheet.csv.4712.trug-out", 30);
    age(".notes.trug-out", 3_600);
    age("sheet.csv.4711.trug-out", 3_600);
    places
        .output(false)
        .write(&places.here.join("sheet.csv"), b"new")
        .expect("writes");
    let mut left: Vec<String> = fs::read_dir(&places.here)
        .expect("lists")
        .map(|entry| {
            entry
                .expect("lists")
                .file_name()
                .to_string_lossy()
                .into_owned()
        })
        .collect();
    left.sort();
    assert_eq!(
        left,
        [
            ".notes.trug-out",
            ".sheet.csv.4712.trug-out",
            "sheet.csv",
            "sheet.csv.4711.trug-out"
        ]
    );
}
