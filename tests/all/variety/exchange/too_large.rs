//! Files that are small, and large once they are read: each is refused in a sentence, soon, and by a
//! program that may hold no more than what a large list takes.

use std::process::Command;
use std::time::{Duration, Instant};

use zip::CompressionMethod::Deflated;

use super::grower::Grower;
use crate::hostile::shapes::{ods, ods_content, packed, parts, xlsx};

/// What the program may hold, in KiB, its own code and the system's libraries counted.
const MOST_KIBIBYTES: u64 = 2 * 1024 * 1024;
/// Many times what any of them takes.
const LONGEST: Duration = Duration::from_secs(60);

#[track_caller]
fn refused(name: &str, bytes: impl AsRef<[u8]>, says: &str) {
    let grower = Grower::new();
    let file = grower.write(name, bytes);
    let begun = Instant::now();
    let limited = format!("ulimit -v {MOST_KIBIBYTES}; exec \"$0\" \"$@\"");
    let output = Command::new("sh")
        .args(["-c", &limited, env!("CARGO_BIN_EXE_trug")])
        .args(["import", &file, "--at", &grower.path("lane")])
        .output()
        .expect("the program starts");
    let error = String::from_utf8(output.stderr).expect("text");
    assert_eq!(output.status.code(), Some(1), "{name}: {error}");
    assert!(
        error.lines().count() == 1 && error.contains(says),
        "{error}"
    );
    assert!(begun.elapsed() < LONGEST, "{name}: {:?}", begun.elapsed());
}

/// The small workbook with a piece of one of its parts in place of another.
fn xlsx_with(part: &str, from: &str, to: &str) -> Vec<u8> {
    let parts = parts(&xlsx());
    let changed: Vec<(String, Vec<u8>)> = { parts.into_iter() }
        .map(|(name, bytes)| match name == part {
            true => {
                let text = String::from_utf8(bytes).expect("XML");
                assert!(text.contains(from), "{text}");
                (name, text.replacen(from, to, 1).into_bytes())
            }
            false => (name, bytes),
        })
        .collect();
    let parts = changed
        .iter()
        .map(|(name, bytes)| (name.as_str(), bytes.as_slice()));
    packed(parts, Deflated)
}

const SHEET: &str = "xl/worksheets/sheet1.xml";
const TEXTS: &str = "xl/sharedStrings.xml";

#[test]
fn one_cell_in_the_last_corner_of_a_sheet() {
    let mut book = rust_xlsxwriter::Workbook::new();
    let sheet = book.add_worksheet();
    sheet.write(0, 0, "Variety").expect("writes");
    sheet.write(1_048_575, 16_383, "x").expect("writes");
    let book = book.save_to_buffer().expect("a workbook");
    refused("corner.xlsx", book, "more than 1000000 rows");
    let end = "</sheetData>";
    let wide = format!("<row r=\"9\"><c r=\"XFD9\"><v>1</v></c></row>{end}");
    refused(
        "wide.xlsx",
        xlsx_with(SHEET, end, &wide),
        "line 9: found more than 500 columns",
    );
}

#[test]
fn a_text_of_a_megabyte_in_a_cell() {
    let long = "x".repeat(1_000_000);
    refused(
        "long.xlsx",
        xlsx_with(TEXTS, "Haaf", &long),
        "a cell of more than 64 KiB",
    );
    let cell = |text: &str| {
        format!(
            "<table:table-row><table:table-cell office:value-type=\"string\"><text:p>{text}</text:p></table:table-cell></table:table-row>"
        )
    };
    refused(
        "long.ods",
        ods(ods_content(&cell(&long)).as_bytes()),
        "a cell of more than 64 KiB",
    );
    refused(
        "long.csv",
        format!("Variety\n{long}\n"),
        "line 2: found a cell of more than 64 KiB",
    );
    let spaces = cell("a<text:s text:c=\"4000000000\"/>b");
    refused(
        "spaces.ods",
        ods(ods_content(&spaces).as_bytes()),
        "a cell of more than 64 KiB",
    );
}

#[test]
fn five_megabytes_of_rows_and_twenty_of_commas() {
    refused(
        "rows.csv",
        "a\n".repeat(2_500_000),
        "more than 1000000 rows",
    );
    refused(
        "cells.csv",
        ",".repeat(20_000_000),
        "line 1: found more than 500 columns",
    );
}

#[test]
fn an_ods_of_a_few_bytes_that_repeats_rows_and_cells() {
    let rows = |row: &str, cell: &str| {
        let text = format!(
            "<table:table-row table:number-rows-repeated=\"{row}\"><table:table-cell table:number-columns-repeated=\"{cell}\" office:value-type=\"string\"><text:p>Haaf Test and more</text:p></table:table-cell></table:table-row>"
        );
        ods(ods_content(&text).as_bytes())
    };
    refused(
        "rows.ods",
        rows("18446744073709551615", "1"),
        "more than 1000000 rows",
    );
    refused(
        "cells.ods",
        rows("1", "18446744073709551615"),
        "more than 500 columns",
    );
    refused(
        "both.ods",
        rows("1000000", "100"),
        "more than 5000000 cells",
    );
}

#[test]
fn a_workbook_that_unpacks_to_gigabytes_or_says_that_it_has_them() {
    let blanks = " ".repeat(1 << 20).repeat(300);
    let bomb = packed([("content.xml", blanks.as_bytes())], Deflated);
    assert!(bomb.len() < 2_000_000, "{}", bomb.len());
    refused("bomb.ods", &bomb, "a cell of more than 64 KiB");
    let marks = "<a/>".repeat(1 << 18).repeat(300);
    let bomb = packed([("content.xml", marks.as_bytes())], Deflated);
    refused("marks.ods", &bomb, "more than 256 MiB");
    let lie = xlsx_with(TEXTS, "uniqueCount=\"", "uniqueCount=\"99999999999999");
    refused("lie.xlsx", lie, "counts more texts than it has");
}

/// A text that stands once in the file, and in every one of many cells.
#[test]
fn a_text_of_one_sheet_in_every_cell_of_it() {
    let long = "x".repeat(60_000);
    let cells: String = (10..10_010)
        .map(|row| {
            format!(
                "<row r=\"{row}\"><c r=\"A{row}\" t=\"inlineStr\"><is><t>{}</t></is></c></row>",
                &long[..30_000]
            )
        })
        .collect();
    let end = "</sheetData>";
    let many = xlsx_with(SHEET, end, &format!("{cells}{end}"));
    refused("many.xlsx", many, "more than 256 MiB");
}
