//! What cannot be read or written is one sentence.

use std::path::Path;

use trug::folder::Folder;

use super::grower::{Grower, numbers};
use super::sheets::SHEET;

#[test]
fn what_cannot_be_read_is_one_sentence() {
    let grower = Grower::new();
    let dir = grower.path("lane");
    for (name, bytes, told) in [
        (
            "a.csv",
            &b"photo,bed\nx,1\n"[..],
            "expected one for the name",
        ),
        ("b.csv", b"name,cultivar\nA,B\n", "for the same thing"),
        ("c.csv", b"", "found no rows"),
        ("d.csv", b"name,notes\nA,\"b\n", "never closed"),
        (
            "e.xlsx",
            b"PK\x03\x04rubbish",
            "expected a workbook in XLSX or ODS",
        ),
        (
            "f.xls",
            b"\xd0\xcf\x11\xe0\xa1\xb1\x1a\xe1",
            "expected one saved as XLSX or ODS",
        ),
        ("g.png", b"\x89PNG\r\n\x1a\n\0\0", "found a zero byte"),
    ] {
        let file = grower.write(name, bytes);
        grower
            .trug(&["import", &file, "--at", &dir])
            .fails_in_a_sentence(told);
    }
    let file = grower.write("ok.csv", "name\nHaaf A\n");
    for words in [&["import", &file][..], &["export", &grower.path("out.csv")]] {
        grower.trug(words).fails_in_a_sentence("trug start DIR");
    }
    let answer = grower.trug(&["export", &grower.path("out.xlsx"), "--at", &dir]);
    assert_eq!(answer.status, Some(2));
}

#[test]
fn an_export_file_goes_back_in_without_a_change() {
    let grower = Grower::new();
    let file = grower.write("sheet.csv", SHEET);
    let (status, _) = grower.json(&["import", &file]);
    assert_eq!(status, 0);
    let out = grower.path("out.csv");
    let (status, answer) = grower.json(&["export", &out]);
    assert_eq!((status, answer["varieties"].as_u64()), (0, Some(2)));
    let (status, answer) = grower.json(&["import", &out]);
    assert_eq!((status, numbers(&answer)), (0, (0, 0, 2)), "{answer:#}");
}

#[test]
fn an_import_says_who_has_the_folder_and_changes_nothing() {
    let grower = Grower::new();
    let file = grower.write("sheet.csv", SHEET);
    let before = grower.list();
    let dir = grower.path("lane");
    let held = Folder::open(Path::new(&dir), "14:05").expect("opens");
    let answer = grower.trug(&["import", &file, "--at", &dir]);
    let told = answer.error;
    assert_eq!(answer.status, Some(1), "{told}");
    let who = format!("process {}", std::process::id());
    assert!(
        told.contains(&who) && told.contains("since 14:05"),
        "{told}"
    );
    assert_eq!(grower.list(), before);
    // To look is allowed, and when the other has gone, to write.
    assert_eq!(grower.json(&["import", &file, "--preview"]).0, 0);
    drop(held);
    assert_eq!(grower.json(&["import", &file]).0, 0);
}
