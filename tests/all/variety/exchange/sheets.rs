//! Sheets as growers and suppliers write them.

use trug::colour::Part;
use trug::variety::{Money, Varieties};

use super::imported;

pub(crate) const SHEET: &str = "Variety,Type,Size,Colour,Second color,Height (cm),Stem,Price,Pack size,Supplier,On hand,Photo\n\
    'Haaf Éclat',Formal Decorative,\"4\"\"\",dark red,white,110,18 in,£4.50,3,Oar Bulbs,2,x.jpg\n\
    Ebb Bobbin,BALL,11-12cm,peach,,,55cm,,,,0,\n";

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
        .map(|one| (one.colour.to_string(), one.part))
        .collect();
    let [red, white] = ["dark red", "white"].map(String::from);
    assert_eq!(colours, [(red, Part::Main), (white, Part::Second)]);
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
    let text = include_str!("../../../../catalogue/varieties.ron");
    let list = Varieties::read("varieties.ron", text).expect("the demo");
    let name = list.list()[3].name.clone();
    let csv = format!("cultivar,height,notes\n{},1.1m,\n", name.to_uppercase());
    let (import, after) = imported(csv.as_bytes(), &list);
    let changed = import.changed.iter().map(|one| {
        let headings: Vec<&str> = one.fields.iter().map(|field| field.heading).collect();
        (one.name.clone(), headings)
    });
    let changed: Vec<_> = changed.collect();
    assert_eq!(changed, [(name.to_string(), vec!["height"])]);
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
            "name,price,supplier\nA,4.50,Oar Bulbs",
            "line 2|pack: found a price and no pack",
        ),
        ("name,form\n,ball", "line 2|found no name"),
        (
            "name,on hand\nÁ,1\na,2",
            "line 3|on hand: found \"2\", but line 2 of the same name says \"1\", expected the same",
        ),
        ("name,on hand\nA", "line 2|found 1 cells, expected 2"),
        (
            "name,notes\nA,#REF!",
            "line 2|notes: found the spreadsheet's error #REF!",
        ),
        (
            "name,closes,price,pack,supplier\nA,soon,4,1,G",
            "line 2|closes: found \"soon\", expected a whole day",
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
