//! Workbooks of parts that were changed: a byte flipped in a packed part only breaks its sum.

use std::io::{Cursor, Read, Write};

use fastrand::Rng;
use zip::write::SimpleFileOptions;
use zip::{CompressionMethod, ZipArchive, ZipWriter};

/// The parts that are packed in a workbook.
pub(crate) fn parts(workbook: &[u8]) -> Vec<(String, Vec<u8>)> {
    let mut archive = ZipArchive::new(Cursor::new(workbook)).expect("a packed file");
    (0..archive.len())
        .map(|at| {
            let mut part = archive.by_index(at).expect("a part");
            let mut bytes = Vec::new();
            part.read_to_end(&mut bytes).expect("reads");
            (part.name().expect("a name").into_owned(), bytes)
        })
        .collect()
}

/// Parts packed.
pub(crate) fn packed<'a>(
    parts: impl IntoIterator<Item = (&'a str, &'a [u8])>,
    method: CompressionMethod,
) -> Vec<u8> {
    let mut zip = ZipWriter::new(Cursor::new(Vec::new()));
    let options = SimpleFileOptions::default().compression_method(method);
    for (name, bytes) in parts {
        zip.start_file(name, options).expect("a part");
        zip.write_all(bytes).expect("writes");
    }
    zip.finish().expect("a workbook").into_inner()
}

/// A small workbook as a spreadsheet writes it.
pub(crate) fn xlsx() -> Vec<u8> {
    let mut book = rust_xlsxwriter::Workbook::new();
    let date = rust_xlsxwriter::Format::new().set_num_format("yyyy-mm-dd");
    let sheet = book.add_worksheet();
    for (column, heading) in ["Variety", "Form", "On hand", "Price", "Closes"]
        .iter()
        .enumerate()
    {
        sheet.write(0, column as u16, *heading).expect("writes");
    }
    sheet.write(1, 0, "Haaf Éclat").expect("writes");
    sheet.write(1, 1, "ball").expect("writes");
    sheet.write(1, 2, 4).expect("writes");
    let sum = rust_xlsxwriter::Formula::new("4+0.5").set_result("4.5");
    sheet.write(1, 3, sum).expect("writes");
    let day = rust_xlsxwriter::ExcelDateTime::from_ymd(2027, 2, 28).expect("a day");
    sheet.write_with_format(1, 4, &day, &date).expect("writes");
    sheet.write(2, 0, true).expect("writes");
    book.save_to_buffer().expect("a workbook")
}

/// The content of an ODS with these rows.
pub(crate) fn ods_content(rows: &str) -> String {
    format!(
        r#"<?xml version="1.0" encoding="UTF-8"?><office:document-content xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0" office:version="1.3"><office:body><office:spreadsheet><table:table table:name="Dahlias">{rows}</table:table></office:spreadsheet></office:body></office:document-content>"#
    )
}

/// An ODS with such a content.
pub(crate) fn ods(content: &[u8]) -> Vec<u8> {
    let mimetype = &b"application/vnd.oasis.opendocument.spreadsheet"[..];
    packed(
        [("mimetype", mimetype), ("content.xml", content)],
        CompressionMethod::Stored,
    )
}

/// The small workbook with one of its parts in the place of that which has the same beginning.
pub(super) fn xlsx_with(changed: Vec<u8>, dice: &mut Rng) -> Vec<u8> {
    thread_local! {
        static PARTS: Vec<(String, Vec<u8>)> = parts(&xlsx());
    }
    PARTS.with(|all| {
        // Now and then the packed file itself is what was changed.
        if changed.starts_with(b"PK") && dice.bool() {
            return changed;
        }
        let shared = |part: &[u8]| {
            part.iter()
                .zip(&changed)
                .take_while(|(a, b)| a == b)
                .count()
        };
        let like = (0..all.len())
            .max_by_key(|at| shared(&all[*at].1))
            .unwrap_or(0);
        let parts = all
            .iter()
            .enumerate()
            .map(|(at, (name, bytes))| match at == like {
                true => (name.as_str(), changed.as_slice()),
                false => (name.as_str(), bytes.as_slice()),
            });
        packed(parts, CompressionMethod::Stored)
    })
}
