//! Links in place of the folder's files: what they lead to is neither emptied nor written to.

use std::fs;
use std::os::unix::fs::symlink;

use crate::common::lane::SmallLane;

#[test]
fn a_note_with_a_link_in_place_of_the_lock_leaves_the_list_whole() {
    for hard in [false, true] {
        let lane = SmallLane::new();
        let (list, lock) = (lane.file("varieties.ron"), lane.file(".trug.lock"));
        match hard {
            true => fs::hard_link(list, lock),
            false => symlink("varieties.ron", lock),
        }
        .expect("links");
        let found = match hard {
            true => ".trug.lock: it is one file with 2 names, expected one of its own",
            false => ".trug.lock: it is a link, expected a file",
        };
        lane.note().fails_in_a_sentence(found);
        lane.has_its_list();
        // It can still be read.
        assert!(lane.trug(&["row"]).done().contains("26-001"));
    }
}

#[test]
fn what_is_set_aside_of_a_book_follows_no_link() {
    let lane = SmallLane::new();
    lane.note().done();
    let whole = lane.text("trial.journal");
    fs::write(lane.file("trial.journal"), format!("{whole}0123")).expect("writes");
    let aside = lane.file("trial.journal.torn");
    symlink("varieties.ron", &aside).expect("links");
    let refused = lane.note();
    assert_eq!(refused.status, Some(1));
    let told = "trial.journal.torn: it is a link, expected a file; nothing was lost";
    assert!(refused.error.contains(told), "{refused:?}");
    lane.has_its_list();
    fs::remove_file(&aside).expect("removes");
    lane.note().done();
    assert_eq!(fs::read_to_string(&aside).ok().as_deref(), Some("0123\n"));
    assert_eq!(lane.entries(), 2);
}

#[test]
fn a_book_that_is_another_file_of_the_folder_takes_no_entry() {
    for hard in [false, true] {
        let lane = SmallLane::new();
        let (list, book) = (lane.file("varieties.ron"), lane.file("trial.journal"));
        match hard {
            true => fs::hard_link(list, book),
            false => symlink("varieties.ron", book),
        }
        .expect("links");
        let refused = lane.note();
        assert_eq!(refused.status, Some(1));
        let told =
            "it is the same file as varieties.ron, expected one of its own; nothing was lost";
        assert!(refused.error.contains(told), "{refused:?}");
        lane.has_its_list();
    }
}

#[test]
fn a_book_kept_elsewhere_by_a_link_grows_there_and_the_link_stays() {
    let lane = SmallLane::new();
    let (book, real) = (lane.file("trial.journal"), lane.home().join("book"));
    symlink(&real, &book).expect("links");
    // Where it leads nowhere, nothing is made there.
    lane.note()
        .fails_in_a_sentence("it is a link that leads nowhere");
    assert!(!real.exists());
    fs::write(&real, "").expect("writes");
    lane.note().done();
    assert!(book.is_symlink());
    assert_eq!(
        fs::read_to_string(&real).expect("a book").lines().count(),
        1
    );
}

#[test]
fn a_list_that_is_a_link_to_nowhere_is_not_replaced() {
    let lane = SmallLane::new();
    let list = lane.file("varieties.ron");
    fs::remove_file(&list).expect("removes");
    symlink(lane.home().join("elsewhere.ron"), &list).expect("links");
    fs::write(lane.home().join("new.csv"), "name\nHaaf Lamp\n").expect("writes");
    lane.trug(&["import", "new.csv"])
        .fails_in_a_sentence("it is a link that leads nowhere, expected a file or nothing");
    assert!(list.is_symlink() && !lane.home().join("elsewhere.ron").exists());
}
