use std::fs;

use super::*;
use crate::folder::lock::Access;

fn folder() -> (tempfile::TempDir, Folder) {
    let dir = tempfile::tempdir().expect("a folder");
    let folder = Folder::open(dir.path(), "now").expect("opens");
    assert!(matches!(folder.access(), Access::Write(_)));
    (dir, folder)
}

fn texts(opened: &Opened) -> Vec<&str> {
    opened.entries.iter().map(|e| e.text.as_str()).collect()
}

/// A journal of three entries, its folder and its bytes.
fn three() -> (tempfile::TempDir, Folder, Vec<u8>) {
    let (dir, folder) = folder();
    let mut journal = folder.journal("row.log").expect("opens").journal;
    for text in ["first", "séc ond", "third"] {
        folder.append(&mut journal, text).expect("saves");
    }
    let bytes = fs::read(dir.path().join("row.log")).expect("reads");
    (dir, folder, bytes)
}

/// CRC-32 of ISO 3309, with the check value `cbf43926` of '123456789' that the catalogue of CRC
/// algorithms lists for CRC-32/ISO-HDLC; from memory.
#[test]
fn an_entry_is_one_line_with_its_sum() {
    let (dir, folder) = folder();
    let mut journal = folder.journal("row.log").expect("opens").journal;
    folder.append(&mut journal, "123456789").expect("saves");
    let text = fs::read_to_string(dir.path().join("row.log")).expect("reads");
    assert_eq!(text, "cbf43926 123456789\n");
    let refused = folder.append(&mut journal, "two\nlines");
    assert!(
        matches!(refused, Err(FolderError::Write(..))),
        "{refused:?}"
    );
    folder.append(&mut journal, "after").expect("saves");
    let opened = folder.journal("row.log").expect("opens");
    assert_eq!(texts(&opened), ["123456789", "after"]);
    assert_eq!(opened.problems, []);
}

/// Cut anywhere: every entry before the cut is read, and the next one is saved behind them.
#[test]
fn a_cut_anywhere_loses_no_entry_before_it() {
    let (dir, folder, whole) = three();
    let path = dir.path().join("row.log");
    for cut in 0..whole.len() {
        fs::write(&path, &whole[..cut]).expect("cuts");
        let ended = whole[..cut].iter().filter(|b| **b == b'\n').count();
        let without_end = whole[cut] == b'\n';
        let left = ended + usize::from(without_end);
        let mut opened = folder.journal("row.log").expect("opens");
        assert_eq!(opened.entries.len(), left, "cut at {cut}");
        let at_start = cut == 0 || whole[cut - 1] == b'\n';
        let torn = usize::from(!without_end && !at_start);
        assert_eq!(opened.problems.len(), torn, "cut at {cut}");

        let _ = fs::remove_file(torn_path(&path));
        folder.append(&mut opened.journal, "next").expect("saves");
        let after = folder.journal("row.log").expect("opens");
        assert_eq!(after.entries.len(), left + 1, "cut at {cut}");
        assert_eq!(after.problems, [], "cut at {cut}");
        assert_eq!(torn_path(&path).exists(), torn == 1, "cut at {cut}");
    }
}

fn torn_path(path: &Path) -> PathBuf {
    torn(path)
}

/// Every single wrong bit, everywhere: it is reported, with its line, and the rest is read.
#[test]
fn a_wrong_bit_anywhere_is_reported_and_the_rest_is_read() {
    let (dir, folder, whole) = three();
    let path = dir.path().join("row.log");
    for at in 0..whole.len() {
        for bit in 0..8 {
            let mut bytes = whole.clone();
            bytes[at] ^= 1 << bit;
            fs::write(&path, &bytes).expect("damages");
            let mut opened = folder.journal("row.log").expect("opens");
            let line = 1 + whole[..at].iter().filter(|b| **b == b'\n').count();
            let first = opened.problems.first().map(|problem| problem.line);
            assert_eq!(first, Some(line), "bit {bit} of byte {at}");
            // A damaged line end joins two entries; otherwise one is lost.
            let lost = if whole[at] == b'\n' && line < 3 { 2 } else { 1 };
            assert_eq!(opened.entries.len(), 3 - lost, "bit {bit} of byte {at}");
            // The next entry is saved, and what was damaged is still somewhere.
            folder.append(&mut opened.journal, "next").expect("saves");
            let mut kept = fs::read(&path).expect("reads");
            kept.extend(fs::read(torn_path(&path)).unwrap_or_default());
            let _ = fs::remove_file(torn_path(&path));
            let part = &bytes[at.saturating_sub(3)..(at + 1).min(bytes.len())];
            assert!(
                kept.windows(part.len()).any(|w| w == part),
                "bit {bit} of byte {at}"
            );
        }
    }
}

#[test]
fn an_edit_by_another_program_is_not_overwritten() {
    let (dir, folder, whole) = three();
    let path = dir.path().join("row.log");
    let mut opened = folder.journal("row.log").expect("opens");
    fs::write(&path, &whole[..10]).expect("edits");
    let refused = folder.append(&mut opened.journal, "next");
    assert!(
        matches!(refused, Err(FolderError::Changed(_))),
        "{refused:?}"
    );
    assert_eq!(fs::read(&path).expect("reads"), &whole[..10]);
}

#[test]
fn a_folder_open_to_read_only_takes_no_entry() {
    let (dir, _writer, whole) = three();
    let reader = Folder::open_to_read(dir.path()).expect("opens");
    let mut opened = reader.journal("row.log").expect("opens");
    assert_eq!(texts(&opened), ["first", "séc ond", "third"]);
    let refused = reader.append(&mut opened.journal, "next");
    assert!(
        matches!(refused, Err(FolderError::ReadOnly(..))),
        "{refused:?}"
    );
    assert_eq!(fs::read(dir.path().join("row.log")).expect("reads"), whole);
}
