//! Import and export: what goes out comes back, what comes in is read as written or refused whole.

use std::fs;
use std::io::Write as _;
use std::path::Path;
use std::process::{Command, Output};

use proptest::prelude::*;
use serde_json::Value;
use trug::colour::{Part, Pattern, Vocabulary};
use trug::form::RuleSet;
use trug::table;
use trug::variety::exchange::{Columns, Import, OwnWords, Terms, export};
use trug::variety::{
    ColourNote, FormKnown, FormNote, Money, Offer, Shortlisted, Text, Varieties, Variety,
};

#[path = "common/varieties.rs"]
mod generated;

/// What an import of `csv` over `list` would do, and the list afterwards.
fn imported(csv: &[u8], list: &Varieties) -> (Import, Varieties) {
    let (text, _) = table::decode(csv).expect("text");
    let (table, _) = table::parse(&text).expect("a table");
    let rules = &RuleSet::embedded()[0];
    let (colours, own) = (Vocabulary::embedded(), OwnWords::default());
    let terms = Terms {
        rules,
        colours: &colours,
        own: &own,
        supplier: None,
        pack: None,
    };
    let columns = Columns::of(&table, &own).expect("columns");
    let import = Import::of(&table, &columns, list, &terms);
    let mut after = list.clone();
    import.apply(&mut after).expect("the same list");
    (import, after)
}

fn exported(list: &Varieties) -> Vec<u8> {
    table::write(export(list).iter().map(Vec::as_slice))
}

fn comes_back(list: &Varieties) {
    let csv = exported(list);
    let (import, back) = imported(&csv, &Varieties::default());
    assert_eq!((&import.bad, &import.unknown), (&Vec::new(), &Vec::new()));
    assert_eq!(back.list(), list.list());
    let (again, same) = imported(&csv, list);
    assert_eq!(
        (again.new.len(), again.changed.len(), again.same),
        (0, 0, list.len())
    );
    assert_eq!(same.list(), list.list());
}

#[test]
fn an_export_of_generated_varieties_comes_back_as_the_same_list() {
    comes_back(&generated::varieties(500));
}

#[test]
fn an_export_of_the_demo_comes_back_as_the_same_list() {
    let text = include_str!("../catalogue/varieties.ron");
    comes_back(&Varieties::read("varieties.ron", text).expect("the demo"));
}

/// A line of text as a person or a prankster might type it.
fn line() -> impl Strategy<Value = Text> {
    let odd = "[=+@'‘’\"“”;:,|\\\\#() a-zé花🌼-]{1,12}";
    prop_oneof![
        odd,
        "[-=+@]{1,3}[a-z]",
        "'{1,3}[=a-z]{1,3}'?",
        "[^\\p{C}]{1,10}"
    ]
    .prop_filter_map("no text", |text| Text::new(text).ok())
    .prop_filter("a spreadsheet's error is refused", |text| {
        !text.starts_with('#')
    })
}

fn variety() -> impl Strategy<Value = Variety> {
    let texts = (
        line(),
        prop::option::of(line()),
        prop::option::of(line()),
        prop::option::of(line()),
    );
    let offers = prop::collection::vec(
        (
            line(),
            0_u64..100_000,
            1_u32..20,
            prop::option::of(0_u32..50),
        ),
        0..3,
    );
    let colours = prop::collection::vec((0_usize..3, 0_usize..4, 0_usize..5), 0..3);
    (
        texts,
        offers,
        colours,
        prop::option::of(prop::option::of(line())),
        prop::option::of(line()),
    )
        .prop_map(
            |((name, raiser, notes, licence), offers, colours, shortlist, by)| {
                let mut one = Variety::named(name);
                (one.raiser, one.notes, one.licence) = (raiser, notes, licence);
                one.form = by.map(|by| FormNote {
                    id: Text::new("ball").expect("a text"),
                    known: FormKnown::Keyed,
                    by: Some(by),
                });
                one.shortlist = shortlist.map(|note| Shortlisted { note });
                one.offers = offers
                    .into_iter()
                    .map(|(supplier, price, pack, available)| Offer {
                        supplier,
                        price: Money::hundredths(price),
                        pack: pack.try_into().expect("over 0"),
                        available,
                        closes: None,
                    })
                    .collect();
                one.colours = colours
                    .into_iter()
                    .map(|(colour, part, pattern)| ColourNote {
                        colour: Text::new(["peach", "#a1b2c3", "lab(83 14 24)"][colour])
                            .expect("a text"),
                        part: Part::ALL[part],
                        pattern: Pattern::ALL[pattern],
                    })
                    .collect();
                one
            },
        )
}

proptest! {
    #[test]
    fn an_import_of_an_export_is_the_same_list(all in prop::collection::vec(variety(), 1..8)) {
        let mut list = Varieties::default();
        for variety in all {
            // A name that is there already is left out: the list has each once.
            let _ = list.insert(list.len(), variety);
        }
        comes_back(&list);
        let text = String::from_utf8(exported(&list)).expect("UTF-8");
        let (table, _) = table::parse(&text).expect("a table");
        for cell in table.rows.iter().flat_map(|row| &row.cells) {
            prop_assert!(!cell.starts_with(['=', '+', '-', '@', '\t', '\r']), "{}", cell);
        }
    }

    #[test]
    fn any_bytes_are_read_or_refused_without_panic(bytes in prop::collection::vec(any::<u8>(), 0..200)) {
        if let Ok((text, _)) = table::decode(&bytes) && let Ok((table, _)) = table::parse(&text) {
            let _ = Columns::of(&table, &OwnWords::default());
        }
    }

    #[test]
    fn any_cells_are_read_or_refused_without_panic(cell in ".{0,20}", other in "[0-9a-z'\",;:./ -]{0,20}") {
        let heading = "name,form,size,diameter,colour,colours,height,vase,weather,offers,price,closes,bloom";
        let quoted = format!("\"{}\"", cell.replace('"', "\"\""));
        let row = ["Haaf Test"].into_iter().map(String::from)
            .chain((0..12).map(|at| if at % 2 == 0 { quoted.clone() } else { format!("\"{}\"", other.replace('"', "\"\"")) }));
        let csv = format!("{heading}\n{}\n", row.collect::<Vec<_>>().join(","));
        if !csv.contains('\0') {
            let _ = imported(csv.as_bytes(), &Varieties::default());
        }
    }
}

const SHEET: &str = "Variety,Type,Size,Colour,Second color,Height (cm),Stem,Price,Pack size,Supplier,Stock,Photo\n\
    'Haaf Éclat',Formal Decorative,\"4\"\"\",dark red,white,110,18 in,£4.50,3,Geo Bulbs,2,x.jpg\n\
    Voe Bobbin,BALL,11-12cm,peach,,,55cm,,,,0,\n";

fn checks_the_sheet(bytes: &[u8]) {
    let (import, list) = imported(bytes, &Varieties::default());
    assert!(import.is_whole(), "{:?} {:?}", import.bad, import.unknown);
    let first = &list.list()[0];
    assert_eq!(first.name.as_str(), "Haaf Éclat");
    assert_eq!(
        first.form.as_ref().map(|form| form.id.as_str()),
        Some("formal-decorative")
    );
    assert_eq!(first.size.as_deref(), Some("miniature"));
    assert_eq!(first.height.map(|one| one.middle_mm()), Some(1100.0));
    assert!((first.stem.expect("a stem").middle_mm() - 457.2).abs() < 1e-9);
    assert_eq!(first.offers[0].price, Money::hundredths(450));
    let colours: Vec<_> = first
        .colours
        .iter()
        .map(|one| (one.colour.as_str(), one.part))
        .collect();
    assert_eq!(colours, [("dark red", Part::Main), ("white", Part::Second)]);
    let second = &list.list()[1];
    assert_eq!(
        (second.on_hand, second.size.as_deref()),
        (Some(0), Some("small"))
    );
    assert_eq!((second.height, second.offers.len()), (None, 0));
    let (again, _) = imported(bytes, &list);
    assert_eq!(
        (again.new.len(), again.changed.len(), again.same),
        (0, 0, 2)
    );
}

#[test]
fn the_same_sheet_is_read_in_every_encoding_and_delimiter() {
    let utf16 = |text: &str, low_first: bool| -> Vec<u8> {
        let units = std::iter::once(0xfeff).chain(text.encode_utf16());
        units
            .flat_map(|unit| {
                if low_first {
                    unit.to_le_bytes()
                } else {
                    unit.to_be_bytes()
                }
            })
            .collect()
    };
    let latin: Vec<u8> = SHEET
        .chars()
        .map(|c| u8::try_from(u32::from(c)).expect("Latin-1"))
        .collect();
    checks_the_sheet(SHEET.as_bytes());
    checks_the_sheet(format!("\u{feff}{SHEET}").as_bytes());
    checks_the_sheet(&utf16(SHEET, true));
    checks_the_sheet(&utf16(SHEET, false));
    checks_the_sheet(&latin);
    for delimiter in [";", "\t", "|"] {
        checks_the_sheet(SHEET.replace(',', delimiter).as_bytes());
    }
    checks_the_sheet(SHEET.replace('\n', "\r\n").as_bytes());
    checks_the_sheet(format!("Skerry Lane 2026\n\n{}", SHEET.replace(',', ";")).as_bytes());
}

#[test]
fn only_the_fields_that_the_file_gives_are_changed() {
    let text = include_str!("../catalogue/varieties.ron");
    let list = Varieties::read("varieties.ron", text).expect("the demo");
    let name = list.list()[3].name.clone();
    let csv = format!("cultivar,height,notes\n{},1.1m,\n", name.to_uppercase());
    let (import, after) = imported(csv.as_bytes(), &list);
    assert_eq!(import.changed, [(name.to_string(), vec!["height"])]);
    let mut wanted = list.list()[3].clone();
    wanted.height = after.list()[3].height;
    assert_eq!(after.list()[3], wanted);
    assert_eq!(wanted.height.map(|one| one.middle_mm()), Some(1100.0));
}

#[test]
fn what_the_grower_observed_is_kept_against_what_a_file_states() {
    let list =
        r#"[(name: "Haaf Test", form: (id: "ball", known: keyed), vase: (days: 7.5, stems: 6))]"#;
    let list = Varieties::read("varieties.ron", list).expect("a list");
    let (import, after) = imported(b"name,form,vase life\nHaaf Test,pompon,5 days\n", &list);
    assert_eq!(
        (import.same, import.notes.len()),
        (1, 2),
        "{:?}",
        import.notes
    );
    assert_eq!(after.list(), list.list());
    let (import, _) = imported(b"name,form,form known\nHaaf Test,pompon,keyed\n", &list);
    assert_eq!(import.changed.len(), 1);
}

#[test]
fn a_bad_row_is_told_with_line_found_and_expected() {
    for (csv, told) in [
        (
            "name,height\nA,90",
            "line 2|height: found \"90\" without a unit, expected one in the cell",
        ),
        (
            "name,height\n\nA,tall",
            "line 3|height: found \"tall\", expected a length",
        ),
        (
            "name,on hand\nA,-1",
            "line 2|on hand: found \"-1\", expected a whole number",
        ),
        (
            "name,price\nA,4.50",
            "line 2|price: found an offer without a supplier",
        ),
        (
            "name,price,supplier\nA,4.50,Geo Bulbs",
            "line 2|pack: found a price and no pack",
        ),
        ("name,form\n,ball", "line 2|found no name"),
        (
            "name,stock\nÁ,1\na,2",
            "line 3|found the name a second time, first on line 2",
        ),
        ("name,stock\nA", "line 2|found 1 cells, expected 2"),
        (
            "name,notes\nA,#REF!",
            "line 2|notes: found the spreadsheet's error #REF!",
        ),
        (
            "name,closes,price,pack,supplier\nA,soon,4,1,G",
            "line 2|closes: found \"soon\", expected a day",
        ),
        (
            "name,size\nA,4-8 in",
            "line 2|size: found \"4-8 in\", which is no one size",
        ),
    ] {
        let (import, list) = imported(csv.as_bytes(), &Varieties::default());
        let bad = import
            .bad
            .first()
            .unwrap_or_else(|| panic!("{csv} was read"));
        let found = format!("line {}|{}", bad.line, bad.told);
        assert!(found.starts_with(told), "{csv}: {found}");
        assert_eq!(
            list.list()
                .iter()
                .filter(|one| one.name.as_str() == "a")
                .count(),
            0
        );
    }
}

/// A folder that was started, and the program run with it.
struct Grower(tempfile::TempDir);

impl Grower {
    fn new() -> Grower {
        let grower = Grower(tempfile::tempdir().expect("a place"));
        let dir = grower.path("lane");
        assert!(grower.trug(&["start", &dir]).status.success());
        grower
    }

    fn path(&self, name: &str) -> String {
        self.0.path().join(name).display().to_string()
    }

    fn write(&self, name: &str, bytes: impl AsRef<[u8]>) -> String {
        fs::write(self.path(name), bytes).expect("writes");
        self.path(name)
    }

    fn trug(&self, words: &[&str]) -> Output {
        Command::new(env!("CARGO_BIN_EXE_trug"))
            .args(words)
            .env("HOME", self.0.path())
            .env_remove("XDG_DATA_HOME")
            .output()
            .expect("the program starts")
    }

    /// Runs with the folder and `--json`; the exit status and the answer.
    fn json(&self, words: &[&str]) -> (i32, Value) {
        let dir = self.path("lane");
        let words = [words, &["--at", &dir, "--json"]].concat();
        let output = self.trug(&words);
        let told = String::from_utf8_lossy(&output.stderr).to_string();
        let answer = serde_json::from_slice(&output.stdout).unwrap_or_else(|_| panic!("{told}"));
        (output.status.code().expect("a status"), answer)
    }

    fn list(&self) -> String {
        fs::read_to_string(Path::new(&self.path("lane")).join("varieties.ron")).expect("a list")
    }
}

fn numbers(answer: &Value) -> (usize, usize, u64) {
    let count = |key: &str| answer[key].as_array().expect("a list").len();
    (
        count("new"),
        count("changed"),
        answer["same"].as_u64().expect("a number"),
    )
}

#[test]
fn own_words_are_listed_mapped_once_and_remembered() {
    let grower = Grower::new();
    let file = grower.write(
        "sheet.csv",
        "name,form,colour\nHaaf A,FD large,brick dust\nHaaf B,fd  LARGE,red\nHaaf C,bal,red\n",
    );
    let before = grower.list();
    let (status, answer) = grower.json(&["import", &file]);
    assert_eq!((status, answer["outcome"].as_str()), (1, Some("refused")));
    assert_eq!(answer["unknown"][0]["lines"], serde_json::json!([2, 3]));
    let ball = answer["unknown"]
        .as_array()
        .expect("words")
        .iter()
        .find(|one| one["word"] == "bal");
    assert_eq!(ball.expect("bal")["near"][0], "ball");
    assert_eq!(grower.list(), before);

    let wrong = grower.trug(&[
        "import",
        &file,
        "--at",
        &grower.path("lane"),
        "--map",
        "form:bal=bell",
    ]);
    assert_eq!(wrong.status.code(), Some(2));
    assert!(String::from_utf8_lossy(&wrong.stderr).contains("such as ball"));

    let maps = [
        "--map",
        "form:FD large=formal-decorative",
        "--map",
        "form:bal=ball",
        "--map",
        "colour:brick dust=brick (main, tipped); white (second, tipped)",
    ];
    let (status, answer) = grower.json(&[&["import", file.as_str()], &maps[..]].concat());
    assert_eq!((status, numbers(&answer)), (0, (3, 0, 0)), "{answer:#}");
    assert_eq!(answer["remembered"].as_array().map(Vec::len), Some(3));
    assert!(
        grower
            .list()
            .contains("(colour: \"white\", part: second, pattern: tipped)")
    );
    let saved = grower.list();
    let (status, answer) = grower.json(&["import", &file]);
    assert_eq!((status, numbers(&answer)), (0, (0, 0, 3)), "{answer:#}");
    assert_eq!(
        (answer["outcome"].as_str(), grower.list()),
        (Some("unchanged"), saved)
    );
}

#[test]
fn nothing_is_half_imported_unless_bad_rows_are_left_out_on_purpose() {
    let grower = Grower::new();
    let file = grower.write("sheet.csv", "name,height\nHaaf A,90cm\nHaaf B,90\n");
    let before = grower.list();
    let (status, answer) = grower.json(&["import", &file]);
    assert_eq!((status, answer["bad"][0]["line"].as_u64()), (1, Some(3)));
    assert_eq!(grower.list(), before);
    let (status, answer) = grower.json(&["import", &file, "--preview", "--skip-bad"]);
    assert_eq!((status, answer["outcome"].as_str()), (0, Some("previewed")));
    assert_eq!(grower.list(), before);
    let (status, answer) = grower.json(&["import", &file, "--skip-bad"]);
    assert_eq!(
        (status, answer["left_out"].as_u64(), numbers(&answer)),
        (0, Some(1), (1, 0, 0))
    );
    assert!(grower.list().contains("Haaf A") && !grower.list().contains("Haaf B"));
}

#[test]
fn escape_sequences_never_reach_the_output() {
    let grower = Grower::new();
    let csv = "na\u{1b}[2Jme,name,fo\u{9b}rm,form,notes,height\n\
        x\u{1b}]0;t\u{7},Haaf\u{1b}[31m Red\u{202e},y,FD\u{1b}[1m,a\u{1b}[2Jb\u{8},\u{1b}[5m9\n";
    let file = grower.write("sheet.csv", csv);
    let dir = grower.path("lane");
    for words in [
        &["import", "--preview"][..],
        &["import"],
        &["import", "--json"],
        &["import", "--skip-bad"],
        &["import", "--map", "form:FD [1m=ball"],
    ] {
        let output = grower.trug(&[words, &[&file, "--at", &dir]].concat());
        let said = [output.stdout, output.stderr].concat();
        let said = String::from_utf8(said).expect("UTF-8");
        assert!(said.contains("Haaf"), "{said}");
        let odd = said
            .chars()
            .find(|c| c.is_control() && *c != '\n' || *c == '\u{202e}');
        assert_eq!(odd, None, "{said:?}");
    }
}

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
    sheet.write(3, 5, "Geo Bulbs").expect("writes");
    let day = rust_xlsxwriter::ExcelDateTime::from_ymd(2027, 2, 28).expect("a day");
    sheet.write_with_format(3, 6, &day, &date).expect("writes");
    sheet.write(3, 7, 90.5).expect("writes");
    let other = book.add_worksheet();
    other.set_name("More").expect("a name");
    other.write(0, 0, "name").expect("writes");
    other.write(1, 0, "Voe Test").expect("writes");
    let file = grower.write("book.xlsx", book.save_to_buffer().expect("a workbook"));

    let (status, answer) = grower.json(&["import", &file]);
    assert_eq!((status, numbers(&answer)), (0, (1, 0, 0)), "{answer:#}");
    for part in [
        "Haaf Éclat",
        "price: \"4.50\"",
        "pack: 3",
        "closes: \"2027-02-28\"",
        "height: \"905mm\"",
        "on_hand: 4",
    ] {
        assert!(grower.list().contains(part), "{part}: {}", grower.list());
    }
    let (_, answer) = grower.json(&["import", &file]);
    assert_eq!(numbers(&answer), (0, 0, 1));
    let (_, answer) = grower.json(&["import", &file, "--sheet", "More"]);
    assert_eq!(answer["new"][0], "Voe Test");
    let dir = grower.path("lane");
    let output = grower.trug(&["import", &file, "--sheet", "Less", "--at", &dir]);
    let told = String::from_utf8_lossy(&output.stderr).to_string();
    assert_eq!(output.status.code(), Some(2));
    assert!(
        told.contains("expected one of \"Dahlias\", \"More\""),
        "{told}"
    );
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
        "Stock",
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
        text("Geo Bulbs"),
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
        "height: \"905mm\"",
        "on_hand: 4",
    ] {
        assert!(grower.list().contains(part), "{part}: {}", grower.list());
    }
}

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
        let output = grower.trug(&["import", &file, "--at", &dir]);
        let said = String::from_utf8_lossy(&output.stderr).to_string();
        assert!(
            !output.status.success() && said.contains(told) && said.lines().count() == 1,
            "{said}"
        );
    }
    let file = grower.write("ok.csv", "name\nHaaf A\n");
    for words in [&["import", &file][..], &["export", &grower.path("out.csv")]] {
        let output = grower.trug(words);
        let said = String::from_utf8_lossy(&output.stderr).to_string();
        assert!(
            !output.status.success() && said.contains("trug start DIR"),
            "{said}"
        );
    }
    let output = grower.trug(&["export", &grower.path("out.xlsx"), "--at", &dir]);
    assert_eq!(output.status.code(), Some(2));
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
