mod book;

use std::fs;

use jiff::civil::Date;
use proptest::prelude::*;

use super::*;
use crate::book::MOST_ENTRIES;
use crate::colour::Vocabulary;
use crate::folder::names::{ENTRIES, INDEX};
use crate::folder::row::{open_row, open_row_of};
use crate::form::RuleSet;
use crate::measure::SizeUnits;
use crate::trial::{EntryContext, Trial, What};
use crate::variety::Varieties;
use book::{PLANTS, book, entry, folder, line, next, plain_book, subject, text};

/// That notes on each plant are checked as against the whole book, whichever entry they change, and
/// all that is told of the book is told. Answers what was asked after.
fn is_as_the_whole(folder: &Folder, changed: &[Option<u32>]) -> Vec<String> {
    let rules = &RuleSet::embedded()[0];
    let list = Varieties::read("varieties.ron", "[(name: \"Haaf Kettle\")]").expect("a list");
    let grounds = EntryContext {
        rules,
        list: &list,
        words: &Vocabulary::embedded(),
        units: SizeUnits::Mm,
        today: Date::constant(2026, 9, 30),
        day_is_told: true,
        bloom_days: None,
    };
    let (whole, all) = open_row(folder).expect("opens");
    let id = all.next_id(&whole.trial);
    let mut asked = Vec::new();
    for (whose, changed) in (0..PLANTS).flat_map(|whose| changed.iter().map(move |of| (whose, of)))
    {
        let own = subject(whose);
        let (part, files) = open_row_of(folder, &own, *changed).expect("opens");
        assert_eq!(files.next_id(&part.trial), id);
        assert_eq!(part.problems, whole.problems);
        let book = |trial: &Trial| format!("{:?}", trial.book_of(&own));
        assert_eq!(book(&part.trial), book(&whole.trial));
        for what in 0..18 {
            let note = entry(id, whose, what, *changed);
            let told = part.trial.check(&note, &grounds);
            assert_eq!(told, whole.trial.check(&note, &grounds), "{note:?}");
            asked.extend(told.into_iter().map(|doubt| doubt.told));
        }
    }
    asked
}

fn is_by_index(folder: &Folder) -> bool {
    excerpt(folder, ENTRIES, &subject(0), None).is_some()
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(4))]

    /// Corrections, withdrawals and withdrawals of those among them, entered by this way and the other.
    #[test]
    fn a_note_is_checked_as_against_the_whole_book(
        drawn in prop::collection::vec((0..PLANTS, any::<u8>(), prop::option::weighted(0.4, any::<u8>())), 530..560),
        added in prop::collection::vec((0..PLANTS, any::<u8>(), prop::option::weighted(0.6, any::<u8>()), any::<bool>()), 0..16),
    ) {
        let mut book = book(drawn);
        let (_dir, folder) = folder(&book);
        is_as_the_whole(&folder, &[None]);
        for (whose, what, back, by_part) in added {
            let own = subject(whose);
            let (row, mut files) = match by_part {
                true => open_row_of(&folder, &own, None).expect("opens"),
                false => open_row(&folder).expect("opens"),
            };
            let entry = next(&book, files.next_id(&row.trial), (whose, what, back));
            files.enter(&folder, &entry).expect("saves");
            book.push(entry);
        }
        prop_assert!(is_by_index(&folder));
        let last = book.len() as u32;
        let (whole, _) = open_row(&folder).expect("opens");
        let is_withdrawn = |id: &u32| whole.trial.ended_by(*id).is_some_and(|by| by.what == What::Withdrawn);
        let withdrawn = (1..=last).rfind(is_withdrawn);
        let asked = is_as_the_whole(&folder, &[None, Some(1), Some(300), withdrawn, Some(last - 9), Some(last), Some(9_999)]);
        for told in ["beside", "which entry", "tubers lifted", "expected one of 26-0", "the number of an earlier entry"] {
            prop_assert!(asked.iter().any(|one| one.contains(told)), "{}", told);
        }
    }
}

/// A book of which something has to be told, in its old part or in what was added last.
#[test]
fn what_does_not_fit_in_a_long_book_is_told_at_each_note() {
    let book = plain_book();
    let of_another = entry(521, 1, 0, Some(6));
    let takes_back_anothers = entry(521, 1, 2, Some(6));
    let of_nothing = entry(521, 1, 0, Some(9_999));
    let withdraws_nothing = Entry {
        what: What::Withdrawn,
        ..entry(521, 1, 0, None)
    };
    let unknown = Entry {
        of: "26-077".parse().expect("a number"),
        ..entry(521, 0, 0, None)
    };
    for (stray, is_told) in [
        (
            of_another,
            "entry 6, which is of 26-001, expected one of 26-002",
        ),
        (takes_back_anothers, "it withdraws nothing"),
        (of_nothing, "found 9999, expected the number of an earlier"),
        (withdraws_nothing, "found a withdrawal that names no entry"),
        (
            unknown,
            "found the seedling 26-077, expected one of trial.ron",
        ),
        (
            entry(520, 1, 0, None),
            "found a second entry with this number",
        ),
        (
            entry(MOST_ENTRIES + 1, 1, 0, None),
            "found a number past 999999999",
        ),
    ] {
        for is_added in [false, true] {
            let (dir, folder) = folder(&book);
            if is_added {
                assert!(is_by_index(&folder));
            }
            let strayed = [text(&book), line(&stray)].concat();
            fs::write(dir.path().join(ENTRIES), strayed).expect("edits");
            is_as_the_whole(&folder, &[None, Some(6), Some(520)]);
            for _ in 0..2 {
                let (part, _) = open_row_of(&folder, &subject(0), None).expect("opens");
                let told = part.problems.join("; ");
                assert!(told.contains(is_told), "{is_added} {told}");
                let place = "trial.journal, line";
                assert!(told.starts_with(place), "{is_added} {told}");
            }
        }
    }
}

#[test]
fn a_long_book_is_read_by_its_index_and_a_short_one_is_not() {
    let (dir, long) = folder(&plain_book());
    assert!(is_by_index(&long));
    assert!(dir.path().join(INDEX).exists());
    let (dir, short) = folder(&plain_book()[..40]);
    assert!(!is_by_index(&short));
    assert!(!dir.path().join(INDEX).exists());
}

/// A figure changed by hand with its sum, in a line of the same length; the same with the sum left
/// as it was; an entry taken out; one put in; cut; all of another book.
#[test]
fn a_book_changed_behind_the_index_is_read_as_it_is() {
    let book = plain_book();
    let mut changed = book.clone();
    changed[6] = entry(7, 0, 4, None);
    let damaged = text(&book).replacen("x\"", "y\"", 1);
    let mut fewer = book.clone();
    fewer.remove(3);
    let mut twice = book.clone();
    twice.push(entry(520, 1, 0, None));
    let cut = text(&book)[..280_000].to_string();
    let other: Vec<Entry> = (1..=540).map(|id| entry(id, 3, 12, None)).collect();
    for edited in [
        text(&changed),
        damaged.clone(),
        text(&fewer),
        text(&twice),
        cut,
        text(&other),
    ] {
        let (dir, folder) = folder(&book);
        assert!(is_by_index(&folder));
        fs::write(dir.path().join(ENTRIES), &edited).expect("edits");
        is_as_the_whole(&folder, &[None, Some(7), Some(520)]);
        if edited == damaged {
            assert!(!is_by_index(&folder), "the damage must be told each time");
        }
    }
}

/// Every byte of the head and some of the rest wrong, and the file cut anywhere.
#[test]
fn a_spoiled_index_is_made_anew() {
    let (dir, folder) = folder(&plain_book());
    is_as_the_whole(&folder, &[None]);
    let path = dir.path().join(INDEX);
    let good = fs::read(&path).expect("reads");
    let (whole, _) = open_row(&folder).expect("opens");
    let is_right = || {
        let (part, _) = open_row_of(&folder, &subject(0), None).expect("opens");
        let seen = |trial: &Trial| trial.of_subject(&subject(0)).len();
        assert_eq!(seen(&part.trial), seen(&whole.trial));
        assert!(is_by_index(&folder));
    };
    for at in (0..200).chain((200..good.len()).step_by(501)) {
        let mut bad = good.clone();
        bad[at] ^= 0x15;
        fs::write(&path, &bad).expect("spoils");
        is_right();
        fs::write(&path, &good[..at]).expect("cuts");
        is_right();
    }
    fs::write(&path, "[(name: \"a list\")]").expect("spoils");
    is_right();
}

/// What stands in the index's place is neither read, nor written into, nor waited for.
#[test]
#[cfg(unix)]
fn a_link_or_a_second_name_in_place_of_the_index_is_not_written_through() {
    let book = plain_book();
    for placed in ["link", "name", "folder"] {
        let (dir, folder) = folder(&book);
        is_as_the_whole(&folder, &[None]);
        let (index, list) = (dir.path().join(INDEX), dir.path().join("varieties.ron"));
        // As an index that is to be written into because the book was touched.
        fs::rename(&index, &list).expect("moves");
        fs::write(dir.path().join(ENTRIES), text(&book)).expect("touches");
        let before = fs::read(&list).expect("reads");
        match placed {
            "link" => std::os::unix::fs::symlink(&list, &index).expect("links"),
            "name" => fs::hard_link(&list, &index).expect("names"),
            _ => fs::create_dir(&index).expect("makes"),
        }
        is_as_the_whole(&folder, &[None]);
        let (row, mut files) = open_row_of(&folder, &subject(0), None).expect("opens");
        let note = entry(files.next_id(&row.trial), 0, 1, None);
        files.enter(&folder, &note).expect("saves");
        assert_eq!(fs::read(&list).expect("reads"), before, "{placed}");
        assert_eq!(is_by_index(&folder), placed != "folder", "{placed}");
        let left: Vec<_> = fs::read_dir(dir.path()).expect("reads").flatten().collect();
        let left = left.into_iter().map(|one| one.file_name());
        let half = |name: &std::ffi::OsString| name.to_string_lossy().ends_with(".trug-new");
        assert_eq!(left.filter(half).count(), 0, "{placed}");
    }
}
