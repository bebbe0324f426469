use super::*;
use crate::stock::sums::tests::{stock, trial};
use crate::variety::Varieties;

const LIST: &str = r#"[(name: "Haaf Bell"), (name: "Ebb Kist")]"#;

fn filled(stock: &Stock, csv: &str) -> Result<Filled, Vec<String>> {
    let list = Varieties::read("varieties.ron", LIST).expect("a list");
    let trial = trial();
    let grounds = StockContext {
        trial: &trial,
        list: &list,
        today: Date::constant(2026, 6, 1),
    };
    let (table, _) = table::parse(csv).expect("a table");
    let day = Some(Date::constant(2026, 5, 1));
    let read = Filled::of(&table, stock, &grounds, day, &Calendar::FILES);
    read.map_err(|rows| rows.iter().map(ToString::to_string).collect())
}

#[test]
fn a_sheet_comes_back_as_entries_once() {
    let mut stock = stock(&[
        ("Haaf Bell", "date=2025-10-20 divided=20 place=byre"),
        ("Haaf Bell", "date=2025-10-20 divided=10 place=loft"),
        ("24-001", "date=2025-10-20 divided=10"),
        ("Ebb Kist", "date=2025-10-20 divided=10"),
        ("Ebb Kist", "date=2025-11-20 sold=10"),
    ]);
    assert_eq!(Purpose::Lifting.usual(&stock).len(), 3);
    let blank = Purpose::Store.blank(&stock, &Purpose::Store.usual(&stock));
    let rows = blank.in_a_file();
    assert_eq!(
        rows[0],
        [
            "plant", "place", "date", "by", "sound", "lost", "why", "potted", "planted", "note"
        ]
    );
    let printed: Vec<[&str; 2]> = rows[1..]
        .iter()
        .map(|row| [row[0].as_str(), row[1].as_str()])
        .collect();
    assert_eq!(
        printed,
        [["24-001", ""], ["Haaf Bell", "byre"], ["Haaf Bell", "loft"]]
    );
    let csv = "plant,place,date,by,sound,lost,why,potted,planted,note\n24-001,,,,,,,,,\nhaaf bell,byre,2026-04-01,Ann,17,2,rotten,,,\nHaaf Bell,loft,,,,,,4,,\"dry, all of it\"\n";
    let read = filled(&stock, csv).expect("reads");
    assert_eq!((read.entries.len(), read.same, read.blank), (2, 0, 1));
    assert_eq!(read.strange, []);
    let words: Vec<String> = read.entries.iter().map(Entry::print).collect();
    assert_eq!(
        words,
        [
            "date=2026-04-01 by=Ann year=2025 place=byre lost=2 why=rotten sound=17",
            "date=2026-05-01 year=2025 place=loft potted=4 note='dry, all of it'",
        ]
    );
    for entry in read.entries {
        assert_eq!(stock.add(entry), Ok(()));
    }
    let again = filled(&stock, csv).expect("reads");
    assert_eq!((again.entries.len(), again.same), (0, 2));
}

#[test]
fn nothing_is_taken_of_a_sheet_with_a_wrong_row() {
    let stock = stock(&[("Haaf Bell", "date=2025-10-20 divided=20")]);
    for (csv, told) in [
        (
            "plant,sold\nHaaf Bell,15\nHaaf Bell,15\n",
            "line 3: sold: found 15 of Haaf Bell, lifted in 2025, expected at most the 5 tubers that are here",
        ),
        (
            "plant,sold\nHaaf Bell,many\n",
            "line 2: sold: found \"many\"",
        ),
        (
            "plant,sold\nOar Kist,1\n",
            "line 2: found the variety \"Oar Kist\"",
        ),
        (
            "plant,rotten\nHaaf Bell,1\n",
            "line 1: found the column \"rotten\", expected plant or one of date",
        ),
        (
            "plant,sold,sold\nHaaf Bell,1,1\n",
            "line 1: found the column \"sold\" a second time",
        ),
        ("sold\n1\n", "line 1: found no column plant"),
    ] {
        let rows = filled(&stock, csv).expect_err(csv);
        assert!(rows.len() == 1 && rows[0].starts_with(told), "{rows:?}");
    }
}
