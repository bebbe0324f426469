use std::collections::BTreeMap;

use proptest::prelude::*;
use serde::Deserialize;

use super::*;

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
struct Entry {
    name: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    stems: Option<u32>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    height: Option<f64>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    colours: Vec<(String, u8)>,
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    prices: BTreeMap<String, u32>,
}

fn entry(name: &str, stems: Option<u32>) -> Entry {
    Entry {
        name: name.to_string(),
        stems,
        height: None,
        colours: Vec::new(),
        prices: BTreeMap::new(),
    }
}

fn list(count: usize) -> Vec<Entry> {
    (0..count)
        .map(|at| entry(&format!("Noust {at}"), (at % 3 > 0).then_some(at as u32)))
        .collect()
}

#[test]
fn a_list_has_one_record_a_line_without_what_is_unknown() {
    let mut full = entry("Ebb \"Lamp\"\nin two lines", Some(3));
    full.height = Some(90.0);
    full.colours = vec![("peach".to_string(), 80), ("plum".to_string(), 20)];
    full.prices = BTreeMap::from([("Quay Roots".to_string(), 450)]);
    let written = write_records(&[entry("Haaf Ember", None), full.clone()]).expect("writes");
    assert_eq!(
        written,
        r#"[
  (name: "Haaf Ember"),
  (name: "Ebb \"Lamp\"\nin two lines", stems: 3, height: 90.0, colours: [("peach", 80), ("plum", 20)], prices: {"Quay Roots": 450}),
]
"#
    );
    let read = read_records::<Entry>("f.ron", &written).expect("reads");
    assert_eq!(read, [entry("Haaf Ember", None), full]);
    let none: Vec<Entry> = Vec::new();
    assert_eq!(write_records(&none).expect("writes"), "[\n]\n");
    assert_eq!(read_records::<Entry>("f.ron", "[\n]\n"), Ok(none));
}

#[test]
fn a_value_is_spread_over_lines_and_reads_back() {
    let written = write_value(&entry("Haaf Ember", Some(3))).expect("writes");
    assert_eq!(written, "(\n  name: \"Haaf Ember\",\n  stems: 3,\n)\n");
    assert_eq!(
        read_ron::<Entry>("f.ron", &written),
        Ok(entry("Haaf Ember", Some(3)))
    );
}

#[test]
fn a_problem_in_any_part_has_its_place_in_the_whole() {
    let written = write_records(&list(12_000)).expect("writes");
    assert!(written.len() > WORTH_SPLITTING, "{}", written.len());
    for record in [0, 1, 4_000, 8_000, 11_999] {
        let before = format!("(name: \"Noust {record}\"");
        let broken = written.replacen(&before, &format!("{before}, stem: 1"), 1);
        let problem = read_records::<Entry>("f.ron", &broken).expect_err("was read");
        assert_eq!(problem.line, record + 2);
        assert_eq!(problem.column, 3 + before.chars().count() + 2);
    }
}

/// Texts and comments that look like the end of a record where a cut would fall.
#[test]
fn a_list_is_cut_between_records_only() {
    let cases = [
        "[\n  (name: \"a\"),\n  (name: \"b\"),\n  (name: \"c\"),\n]\n",
        "[\n  (name: \"a\n  (x),\n  (y),\n  (z),\n\"),\n  (name: \"b\"),\n]\n",
        "[\n  (name: r#\"a),\n  (x),\n  (y\"#),\n  (name: \"b\"),\n]\n",
        "[\n  (name: \"a\"), /* x),\n  (y),\n  (z), */\n  (name: \"b\"),\n]\n",
        "[\n  (name: \"a\", colours: [\n  (\"x\", 1),\n  (\"y\", 2),\n  (\"z\", 2)]),\n]\n",
        "[\n  (name: \"a\") // x),\n  (name: \"b\"),\n]\n",
        "[\n  (name: \"a\"),\n  (name: \"b\"),\n] // x),\n  (name: \"c\"),\n",
        "[\n  (name: \"a\"),\n  (name: \"b\"),\n]]\n",
        "(\n  (name: \"a\"),\n  (name: \"b\"),\n]\n",
        "\n  (name: \"a\"),\n  (name: \"b\"),\n]\n",
        "[\n  (name: \"a\"),\n  (name: \"b\"),\n",
    ];
    for text in cases {
        let whole = read_ron::<Vec<Entry>>("f.ron", text);
        for parts in 2..=6 {
            if let Some(read) = read_in_parts::<Entry>(text, parts) {
                assert_eq!(Ok(read), whole, "{text:?} in {parts} parts");
            }
        }
    }
    let in_two = read_in_parts::<Entry>(cases[0], 2).map(|list| list.len());
    assert_eq!(in_two, Some(3), "a plain list was not split");
}

/// How long a list takes to read: run by hand with `--release --ignored --nocapture`.
#[test]
#[ignore = "a measurement, which says something in a release build only"]
fn reading_speed() {
    use std::io::Write as _;
    for count in [20_000, 100_000] {
        let mut records = list(count);
        for (at, record) in records.iter_mut().enumerate() {
            record.height = Some(60.0 + (at % 90) as f64);
            record.colours = vec![("peach".to_string(), 80), ("plum".to_string(), 20)];
            record.prices = BTreeMap::from([
                ("Quay Roots".to_string(), 450),
                ("Northern Tubers".to_string(), 520),
            ]);
        }
        let began = std::time::Instant::now();
        let text = write_records(&records).expect("writes");
        let wrote = began.elapsed();
        for parts in [1, 2, 4] {
            let began = std::time::Instant::now();
            let read = read_in_parts::<Entry>(&text, parts)
                .or_else(|| read_ron("f.ron", &text).ok())
                .expect("reads");
            let took = began.elapsed();
            assert_eq!(read.len(), count);
            let megabytes = text.len() as f64 / 1e6;
            writeln!(
                std::io::stderr(),
                "{count} records, {megabytes:.1} MB: written {wrote:?}, in {parts} parts {took:?}"
            )
            .expect("prints");
        }
    }
}

fn any_entry() -> impl Strategy<Value = Entry> {
    let text = "[ -~\n\té),(\\[\\]/*\"]{0,12}";
    (
        text,
        proptest::option::of(any::<u32>()),
        proptest::option::of(-1e9_f64..1e9),
        proptest::collection::vec((text, any::<u8>()), 0..3),
        proptest::collection::btree_map(text, any::<u32>(), 0..3),
    )
        .prop_map(|(name, stems, height, colours, prices)| Entry {
            name,
            stems,
            height,
            colours,
            prices,
        })
}

proptest! {
    #[test]
    fn what_is_written_reads_back_in_any_number_of_parts(
        entries in proptest::collection::vec(any_entry(), 0..12),
    ) {
        let written = write_records(&entries).expect("writes");
        prop_assert_eq!(written.lines().count(), entries.len() + 2);
        prop_assert_eq!(read_records::<Entry>("f.ron", &written), Ok(entries.clone()));
        for parts in 2..5 {
            if let Some(read) = read_in_parts::<Entry>(&written, parts) {
                prop_assert_eq!(&read, &entries);
            }
        }
    }
}
