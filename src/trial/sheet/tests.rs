use jiff::civil::Date;

use super::*;
use crate::measure::day::Calendar;
use crate::table::{parse, write};
use crate::trial::evidence::tests::Bench;
use crate::trial::{EntryContext, Seedling};

fn grounds(bench: &Bench) -> EntryContext<'_> {
    EntryContext {
        rules: &bench.keyer.set,
        list: &bench.list,
        words: &bench.words,
        units: SizeUnits::Mm,
        today: Date::constant(2026, 9, 1),
        day_is_told: true,
        bloom_days: None,
    }
}

fn read(bench: &Bench, trial: &Trial, text: &str) -> Result<Filled, Vec<String>> {
    let (table, _) = parse(text).expect("a table");
    let day = Some(Date::constant(2026, 8, 20));
    let days = Calendar::noting(Date::constant(2026, 9, 1), None);
    Filled::of(&table, trial, &grounds(bench), day, days)
        .map_err(|bad| bad.iter().map(ToString::to_string).collect())
}

#[test]
fn the_diameters_shown_on_a_sheet_are_in_its_own_unit() {
    let bench = Bench::new();
    let (trial, _) = Trial::of(Vec::new(), Vec::new());
    let traits = &bench.keyer.set.traits;
    for (units, told) in [(SizeUnits::Mm, "98,104"), (SizeUnits::In, "3.9,4.1")] {
        let sheet = Purpose::Blooms.blank(&trial, &[], traits, units);
        let mut columns = sheet.table.columns.iter();
        let column = columns.find(|column| column.id == "diameter");
        assert_eq!(column.expect("a column").hint, told);
    }
}

#[test]
fn a_blank_sheet_has_room_to_write() {
    let bench = Bench::new();
    let mut seedling = Seedling::numbered("24-003".parse().expect("a number"));
    seedling.row = Some(crate::variety::Text::new("sea wall").expect("a text"));
    seedling.place = Some(4);
    let (trial, _) = Trial::of(vec![seedling], Vec::new());
    let subjects = ["24-003", "Haaf Light"].map(|text| text.parse().expect(text));
    let traits = &bench.keyer.set.traits;
    let sheet = Purpose::Counts.blank(&trial, &subjects, traits, SizeUnits::Mm);
    let text = sheet.text();
    let lines: Vec<&str> = text.lines().collect();
    assert_eq!(
        lines[2..4],
        [
            "|seedling  |place     |date      |by    |cut  |stem (cm)  |open  |weather    |vase            |visits  |plants|tubers|sound    |note              |",
            "|          |          |2026-08-20|      |stems|lengths    |blooms|wind:3/12  |7,8,6,6+        |7/10min |stand |lifted|in spring|                  |",
        ]
    );
    assert!(
        lines[5].starts_with("|24-003    |sea wall 4|"),
        "{}",
        lines[5]
    );
    assert_eq!(lines.len(), 2 + 2 + 2 * 3);
    let blooms = Purpose::Blooms.blank(&trial, &subjects, traits, SizeUnits::In);
    assert_eq!(blooms.table.columns[4].name, "diameter (in)");
    assert_eq!(blooms.table.columns.len(), 4 + 2 + 12 + 1);
    let rows = blooms.in_a_file();
    let written = String::from_utf8(write(rows.iter().map(Vec::as_slice))).expect("a text");
    let filled = read(&bench, &trial, &written).expect("a blank sheet is read");
    assert_eq!((filled.entries.len(), filled.blank), (0, 2));
}

#[test]
fn a_filled_sheet_is_taken_once() {
    let bench = Bench::new();
    let mut trial = bench.trial(&[("24-001", "cut=1")]);
    let text = "seedling,place,date,by,diameter (mm),stem (cm),vase,tip,note\r\n\
        24-001,sea wall 1,,Ann,\"98,104.5\",55,\"7,6+\",,\"Strong, straight\"\r\n\
        24-002,sea wall 2,2026-08-21,,3.9in,,,split,\r\n\
        24-002,sea wall 2,2026-08-21,,3.9in,,,split,\r\n\
        24-003,,,,,,,,\r\n";
    let filled = read(&bench, &trial, text).expect("three entries");
    assert_eq!((filled.entries.len(), filled.same, filled.blank), (3, 0, 1));
    assert_eq!(
        filled.entries[0].print(),
        "date=2026-08-20 by=Ann diameter=98mm,104.5mm stem=55cm vase=7,6+ note='Strong, straight'"
    );
    assert_eq!(filled.entries[2].id, 4);
    for entry in filled.entries {
        trial.add(entry).expect("the next number");
    }
    let again = read(&bench, &trial, text).expect("the same sheet");
    assert_eq!((again.entries.len(), again.same, again.blank), (0, 3, 1));
    // A correction made since does not bring the slip back.
    trial
        .add(bench.entry(9, "24-001", "date=2026-08-20 cut=3 corrects=2"))
        .expect("a correction");
    let again = read(&bench, &trial, text).expect("the same sheet");
    assert_eq!((again.entries.len(), again.same), (0, 3));
}

#[test]
fn a_bad_row_keeps_every_row_out_and_says_why() {
    let bench = Bench::new();
    let trial = bench.trial(&[]);
    let told = read(
        &bench,
        &trial,
        "seedling,cut,vase\n24-001,3,\n24-010,3,\n24-002,x,\n,4,\n24-003,,7,6\n24-004,4,-\n",
    )
    .expect_err("five");
    assert_eq!(
        told,
        [
            "line 3: found the seedling 24-010, expected one of the row",
            "line 4: cut: found \"x\", expected stems cut, a whole number from 0 to 9999",
            "line 5: seedling: found \"\", expected a seedling's number such as 26-014, or a variety's name",
            "line 6: found 4 cells, expected 3; a cell with commas stands in quotation marks",
            "line 7: vase: found \"-\", expected days over 0 and at most 60 for each stem, such as 7, or 6+ where it was still fresh",
        ]
    );
    for (heading, told) in [
        (
            "name,cut",
            "line 1: found the column \"name\", expected seedling, place, date, by, diameter",
        ),
        (
            "cut",
            "line 1: found no column seedling, expected one with the seedling's number or the variety's name",
        ),
        (
            "seedling,diameter (cm)",
            "line 1: found the unit \"cm\" of diameter, expected mm or in",
        ),
        (
            "seedling,cut,cut",
            "line 1: found the column \"cut\" a second time, expected each once",
        ),
    ] {
        let found = read(&bench, &trial, &format!("{heading}\n24-001,3\n")).expect_err(heading);
        assert!(found[0].starts_with(told), "{}", found[0]);
    }
    assert!(read(&bench, &trial, "").is_err());
}
