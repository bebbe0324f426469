//! Texts as a person may write them, and where a value of them stands.

use fastrand::Rng;
use proptest::prelude::*;

use super::*;

/// The line and the column of the value, and what stands there up to the line's end.
#[track_caller]
fn check(text: &str, path: Path, expected: &str) {
    let problem = Places::of(text).problem("f.ron", Wrong::new(path, ""));
    let line = text.lines().nth(problem.line - 1).expect("a line");
    let rest: String = line.chars().skip(problem.column - 1).collect();
    let told = format!("{}:{} {rest}", problem.line, problem.column);
    assert_eq!(told, expected, "{text}");
}

fn need(at: usize) -> Path {
    Path::field("needs").nth(at)
}

#[test]
fn a_value_is_found_whatever_stands_before_it() {
    let needs = "(needs: [
  // a comment with needs: [(name: \"x\")], and a quote \"
  (name: \"wedding: Anna\", use: \"market\"), /* and /* within */ ( \" */
  (name: \"a \\\"quoted\\\" (one), use: 1\", use: 'x'),
  (name: r##\"raw \"# (\"##, r#use: '\\'', weeks: (33, 39)),
  (name: \"wedding: Anna\", use: b\"(\"),
])";
    check(
        needs,
        need(0).then("name"),
        "3:10 \"wedding: Anna\", use: \"market\"), /* and /* within */ ( \" */",
    );
    check(needs, need(1).then("use"), "4:45 'x'),");
    check(needs, need(2).then("use"), "5:34 '\\'', weeks: (33, 39)),");
    check(needs, need(2).then("weeks").nth(1), "5:52 39)),");
    check(
        needs,
        need(3).then("name"),
        "6:10 \"wedding: Anna\", use: b\"(\"),",
    );
    check(needs, need(3).then("use"), "6:32 b\"(\"),");
}

#[test]
fn all_on_one_line_is_told_by_its_column() {
    let text = "(a:(é:\"ü\",b:[1,2]),b:3)";
    check(text, Path::field("b"), "1:22 3)");
    check(text, Path::field("a").then("b").nth(1), "1:16 2]),b:3)");
    check(text, Path::field("a").then("é"), "1:7 \"ü\",b:[1,2]),b:3)");
}

#[test]
fn what_is_left_out_is_told_where_it_would_stand() {
    let text = "(\n  season: (planted: \"x\"),\n)";
    check(
        text,
        Path::field("season").then("ramp"),
        "2:11 (planted: \"x\"),",
    );
    check(text, Path::field("beds").nth(2), "1:1 (");
    assert_eq!(Places::of("").offset(&Path::field("beds")), 0);
}

#[test]
fn a_field_is_found_by_the_name_it_had_before() {
    let path = || {
        Path::default().on(Step::Renamed {
            now: "ramp",
            once: "curve",
        })
    };
    check("(curve: [1],\n ramp: [2])", path(), "2:8 [2])");
    check("(curve: [1])", path(), "1:9 [1])");
}

#[test]
fn names_of_records_and_what_is_switched_on_are_passed_over() {
    let text = "#![enable(implicit_some)]\nPlan(\n  bed: Some(Bed(name: \"a\")),\n  kind: Count(2, 30),\n  limits: {\"a: b\": 1, \"c\": 2},\n  last: None,\n)";
    check(text, Path::field("bed").then("name"), "3:23 \"a\")),");
    check(text, Path::field("kind").nth(1), "4:18 30),");
    check(text, Path::field("limits").nth(1), "5:28 2},");
    check(text, Path::field("last"), "6:9 None,");
}

/// A value in some way of writing it, with where every value within it begins.
struct Written {
    text: String,
    places: Vec<(Path, usize)>,
    dice: Rng,
}

const FIELDS: [&str; 5] = ["name", "use", "weeks", "a", "needs"];
const BLANKS: [&str; 6] = ["", " ", "\n  ", "// a: (\"\n", "/* \" /* ) */ */", "\t"];
const LEAVES: [&str; 9] = [
    "7",
    "-0.5",
    "\"a: (b], \\\"name: \\\\\"",
    "r#\"name: \"(\"#",
    "'\\''",
    "'\"'",
    "Ball",
    "b\"[\"",
    "\"été \\u{1f33c}\"",
];

impl Written {
    fn blank(&mut self) {
        let blank = BLANKS[self.dice.usize(..BLANKS.len())];
        self.text += blank;
    }

    fn value(&mut self, path: Path, depth: usize) {
        self.blank();
        self.places.push((path.clone(), self.text.len()));
        let shape = self.dice.u8(..if depth == 0 { 1 } else { 5 });
        let count = self.dice.usize(..4);
        let (open, close) = match shape {
            1 => ("[", "]"),
            2 => ("(", ")"),
            3 => ("Shape (", ")"),
            4 => ("{", "}"),
            _ => {
                self.text += LEAVES[self.dice.usize(..LEAVES.len())];
                return;
            }
        };
        self.text += open;
        let mut fields = FIELDS;
        self.dice.shuffle(&mut fields);
        for (at, field) in fields.into_iter().enumerate().take(count) {
            self.blank();
            match shape {
                2 | 3 => {
                    self.text += field;
                    self.blank();
                    self.text += ":";
                    self.value(path.clone().then(field), depth - 1);
                }
                4 => {
                    self.text += "\"k: 1\"";
                    self.text += ":";
                    self.value(path.clone().nth(at), depth - 1);
                }
                _ => self.value(path.clone().nth(at), depth - 1),
            }
            self.blank();
            if at + 1 < count || self.dice.bool() {
                self.text += ",";
            }
        }
        self.blank();
        self.text += close;
    }
}

proptest! {
    #[test]
    fn every_value_is_found_however_it_is_written(seed in any::<u64>()) {
        let mut written = Written {
            text: String::new(),
            places: Vec::new(),
            dice: Rng::with_seed(seed),
        };
        written.value(Path::default(), 4);
        let places = Places::of(&written.text);
        for (path, offset) in &written.places {
            prop_assert_eq!(places.offset(path), *offset, "{:?} in {}", path, written.text);
        }
    }

    #[test]
    fn any_text_at_all_is_read_to_its_end(text in "[()\\[\\]{}:,'\"\\\\/*#r!a é\n]{0,60}") {
        let places = Places::of(&text);
        let path = Path::field("a").nth(1);
        prop_assert!(places.problem("f", Wrong::new(path, "")).line >= 1);
    }
}

#[test]
fn brackets_without_end_are_passed_over() {
    let deep = "(a: [".repeat(100_000);
    assert!(Places::of(&deep).offset(&Path::field("a")) < 10);
    let closed = format!("({}1{}, 2)", "[".repeat(5000), "]".repeat(5000));
    check(&closed, Path::at(1), "1:10005 2)");
}
