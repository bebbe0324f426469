//! Kills at random moments of saves of a grower's list as long as a long one is.

use std::path::Path;

use trug::folder::contents::open_varieties;
use trug::folder::text::{read_records, write_records};
use trug::folder::{FileGuard, Folder};
use trug::variety::Varieties;

use super::child::say;
use super::kills::kill_during_saves;
use crate::common::varieties::varieties;

/// Varieties of the list: some 700 KB, so that a write takes several turns of the system.
const LENGTH: usize = 2_000;
/// The moments of a kill, microseconds after a save: saves and the pauses between them.
const MOMENTS: u64 = 60_000;

/// The list of save `number`: every variety has so many tubers on hand, so that a mix of two saves
/// shows.
fn list_of(plain: &Varieties, number: u32) -> String {
    let mut list = plain.list().to_vec();
    list.iter_mut().for_each(|one| one.on_hand = Some(number));
    write_records(&list).expect("writes")
}

/// The number of the save that the folder opens with.
fn opened(folder: &Folder, plain: &Varieties) -> (Option<u32>, FileGuard) {
    let (list, guard) = open_varieties(folder).unwrap_or_else(|error| panic!("{error}"));
    (number_of(&list, plain), guard)
}

/// `None` of no list; the rest must be the list of one save, whole.
#[track_caller]
fn number_of(list: &Varieties, plain: &Varieties) -> Option<u32> {
    let number = list.list().first()?.on_hand;
    assert_eq!(list.len(), plain.len(), "not whole");
    for (found, plain) in list.list().iter().zip(plain.list()) {
        assert_eq!(found.on_hand, number, "a mix");
        let mut found = found.clone();
        found.on_hand = plain.on_hand;
        assert_eq!(&found, plain);
    }
    number
}

#[test]
fn a_long_list_killed_during_saves_is_the_last_one_saved_or_the_next() {
    let dir = tempfile::tempdir().expect("a folder");
    let plain = varieties(LENGTH);
    kill_during_saves("save-list", dir.path(), MOMENTS, |kill, said| {
        let folder = Folder::open(dir.path(), "now").expect("opens");
        let found = u64::from(opened(&folder, &plain).0.expect("is there"));
        assert!(
            found == said || found == said + 1,
            "kill {kill}: {said} was called saved, {found} is there"
        );
        if found > 1 {
            let kept = std::fs::read_to_string(dir.path().join("varieties.ron.last"));
            let kept = read_records("kept", &kept.expect("is kept")).expect("is whole");
            let kept = Varieties::of(kept).expect("each name once");
            let kept = u64::from(number_of(&kept, &plain).expect("is there"));
            assert!(kept == found || kept == found - 1, "kept {kept} of {found}");
        }
    });
}

pub(crate) fn stream_saves(dir: &Path) {
    let plain = varieties(LENGTH);
    let folder = Folder::open(dir, "now").expect("opens");
    let (number, mut guard) = opened(&folder, &plain);
    for number in number.map_or(1, |number| number + 1).. {
        folder
            .save(&mut guard, &list_of(&plain, number))
            .unwrap_or_else(|error| panic!("{error}"));
        say(format_args!("saved {number}"));
    }
}
