//! XLSX and ODS.

use std::io::Write as _;

use super::grower::{Grower, numbers};

#[test]
fn a_workbook_is_read_by_its_first_sheet_or_the_one_named() {
    let grower = Grower::new();
    let mut book = rust_xlsxwriter::Workbook::new();
    let date = rust_xlsxwriter::Format::new().set_num_format("yyyy-mm-dd");
    let sheet = book.add_worksheet();
    sheet.set_name("Dahlias").expect("a name");
    for (column, heading) in [
        "Cultivar",
        "Type",
        "On hand",
        "Price",
        "Pack",
        "Supplier",
        "Order by",
        "Height (cm)",
    ]
    .iter()
    .enumerate()
    {
        sheet.write(2, column as u16, *heading).expect("writes");
    }
    sheet.write(0, 0, "Skerry Lane").expect("writes");
    sheet.write(3, 0, "Haaf Éclat").expect("writes");
    sheet.write(3, 1, "ball").expect("writes");
    sheet.write(3, 2, 4).expect("writes");
    sheet
        .write(
            3,
            3,
            rust_xlsxwriter::Formula::new("4+0.5").set_result("4.5"),
        )
        .expect("writes");
    sheet.write(3, 4, 3).expect("writes");
    sheet.write(3, 5, "Oar Bulbs").expect("writes");
    let day = rust_xlsxwriter::ExcelDateTime::from_ymd(2027, 2, 28).expect("a day");
    sheet.write_with_format(3, 6, &day, &date).expect("writes");
    sheet.write(3, 7, 90.5).expect("writes");
    let other = book.add_worksheet();
    other.set_name("More").expect("a name");
    other.write(0, 0, "name").expect("writes");
    other.write(1, 0, "Ebb Test").expect("writes");
    let file = grower.write("book.xlsx", book.save_to_buffer().expect("a workbook"));

    let (status, answer) = grower.json(&["import", &file]);
    assert_eq!((status, numbers(&answer)), (0, (1, 0, 0)), "{answer:#}");
    for part in [
        "Haaf Éclat",
        "price: \"4.50\"",
        "pack: 3",
        "closes: \"2027-02-28\"",
        "height: \"90.5cm\"",
        "on_hand: 4",
    ] {
        assert!(grower.list().contains(part), "{part}: {}", grower.list());
    }
    let (_, answer) = grower.json(&["import", &file]);
    assert_eq!(numbers(&answer), (0, 0, 1));
    let (_, answer) = grower.json(&["import", &file, "--sheet", "More"]);
    assert_eq!(answer["new"][0], "Ebb Test");
    let dir = grower.path("lane");
    grower
        .trug(&["import", &file, "--sheet", "Less", "--at", &dir])
        .refused("expected one of \"Dahlias\", \"More\"");
}

#[test]
fn a_row_of_a_sheet_whose_last_cells_are_empty_is_read() {
    let grower = Grower::new();
    let mut book = rust_xlsxwriter::Workbook::new();
    let sheet = book.add_worksheet();
    for (row, cells) in [
        &["Cultivar", "Type", "Notes"][..],
        &["Haaf Bell", "ball"],
        &["Ebb Oar"],
        &[
            "Foam Oar",
            "",
            "late",
            "and a remark that no heading stands over",
        ],
    ]
    .into_iter()
    .enumerate()
    {
        for (column, cell) in cells.iter().enumerate() {
            let row = u32::try_from(row).expect("few rows");
            sheet.write(row, column as u16, *cell).expect("writes");
        }
    }
    let file = grower.write("book.xlsx", book.save_to_buffer().expect("a workbook"));
    let (status, answer) = grower.json(&["import", &file]);
    assert_eq!((status, numbers(&answer)), (0, (3, 0, 0)), "{answer:#}");
    // In text a short row has lost a cell, nobody knows which.
    let file = grower.write("book.csv", "Cultivar,Type,Notes\nHaaf Bell,ball\n");
    let (status, answer) = grower.json(&["import", &file]);
    assert_eq!(status, 1, "{answer:#}");
}

/// A workbook by hand, of the parts that OpenDocument 1.3 (OASIS), part 2, asks for.
fn ods(rows: &str) -> Vec<u8> {
    let mut zip = zip::ZipWriter::new(std::io::Cursor::new(Vec::new()));
    let options =
        zip::write::SimpleFileOptions::default().compression_method(zip::CompressionMethod::Stored);
    let content = format!(
        r#"<?xml version="1.0" encoding="UTF-8"?><office:document-content xmlns:office="urn:oasis:names:tc:opendocument:xmlns:office:1.0" xmlns:table="urn:oasis:names:tc:opendocument:xmlns:table:1.0" xmlns:text="urn:oasis:names:tc:opendocument:xmlns:text:1.0" office:version="1.3"><office:body><office:spreadsheet><table:table table:name="Dahlias">{rows}</table:table></office:spreadsheet></office:body></office:document-content>"#
    );
    let manifest = r#"<?xml version="1.0" encoding="UTF-8"?><manifest:manifest xmlns:manifest="urn:oasis:names:tc:opendocument:xmlns:manifest:1.0" manifest:version="1.3"><manifest:file-entry manifest:full-path="/" manifest:media-type="application/vnd.oasis.opendocument.spreadsheet"/><manifest:file-entry manifest:full-path="content.xml" manifest:media-type="text/xml"/></manifest:manifest>"#;
    for (name, text) in [
        ("mimetype", "application/vnd.oasis.opendocument.spreadsheet"),
        ("META-INF/manifest.xml", manifest),
        ("content.xml", &content),
    ] {
        zip.start_file(name, options).expect("a part");
        zip.write_all(text.as_bytes()).expect("writes");
    }
    zip.finish().expect("a workbook").into_inner()
}

#[test]
fn an_opendocument_sheet_is_read() {
    let text = |text: &str| {
        format!(
            r#"<table:table-cell office:value-type="string"><text:p>{text}</text:p></table:table-cell>"#
        )
    };
    let number = |n: &str| {
        format!(
            r#"<table:table-cell office:value-type="float" office:value="{n}"><text:p>{n}</text:p></table:table-cell>"#
        )
    };
    let date = r#"<table:table-cell office:value-type="date" office:date-value="2027-02-28"><text:p>28/02/27</text:p></table:table-cell>"#;
    let row = |cells: &[String]| format!("<table:table-row>{}</table:table-row>", cells.concat());
    let heading = [
        "Variety",
        "On hand",
        "Height (cm)",
        "Price",
        "Pack",
        "Supplier",
        "Closes",
    ]
    .map(text);
    let cells = [
        text("Haaf Éclat"),
        number("4"),
        number("90.5"),
        number("4.5"),
        number("1"),
        text("Oar Bulbs"),
        date.to_string(),
    ];
    let grower = Grower::new();
    let file = grower.write("book.ods", ods(&(row(&heading) + &row(&cells))));
    let (status, answer) = grower.json(&["import", &file]);
    assert_eq!((status, numbers(&answer)), (0, (1, 0, 0)), "{answer:#}");
    for part in [
        "Haaf Éclat",
        "price: \"4.50\"",
        "closes: \"2027-02-28\"",
        "height: \"90.5cm\"",
        "on_hand: 4",
    ] {
        assert!(grower.list().contains(part), "{part}: {}", grower.list());
    }
}
