//! One line a case: what a person may write, and what they are told.

use serde::Deserialize;

use crate::problem::read_ron;

#[derive(Debug, Deserialize)]
#[serde(deny_unknown_fields)]
#[expect(dead_code, reason = "only its reading is of interest")]
struct Entry {
    name: String,
    stems: Option<u8>,
    height: Option<f64>,
    form: Option<Shape>,
    #[serde(default)]
    weeks: Vec<u8>,
}

#[derive(Debug, Deserialize)]
#[serde(rename_all = "kebab-case")]
enum Shape {
    Ball,
    Cactus,
    SemiCactus,
}

#[track_caller]
fn check(text: &str, expected: &str) {
    let problem = read_ron::<Vec<Entry>>("list.ron", text).expect_err(text);
    assert_eq!(problem.to_string(), format!("list.ron, {expected}"));
}

#[test]
fn a_field_or_a_word_that_is_unknown_lists_those_that_are_known() {
    check(
        "[\n  (name: \"Noust Lamp\", stem: 3),\n]",
        "line 2, column 24: found the field \"stem\", expected name, stems, height, form or weeks",
    );
    check(
        "[\n  (name: \"Noust Lamp\", form: bal),\n]",
        "line 2, column 30: found \"bal\", expected ball, cactus or semi-cactus",
    );
    check(
        "[(name: \"a\", form: semi-cactus)]",
        "line 1, column 20: found semi-cactus, expected r#semi-cactus, as it has a hyphen",
    );
}

#[test]
fn a_value_of_the_wrong_kind_is_shown() {
    check(
        "[\n  (name: 3),\n]",
        "line 2, column 10: found 3, expected text in double quotes",
    );
    check(
        "[(name: \"é\", stems: \"many\")]",
        "line 1, column 21: found \"many\", expected a whole number",
    );
    check(
        "[(name: \"a\", stems: 3.5)]",
        "line 1, column 21: found 3.5, expected a whole number",
    );
    check(
        "[(name: \"a\", stems: -3)]",
        "line 1, column 21: found -3, expected a whole number that is not below or above what \
         fits here",
    );
    check(
        "[(name: \"a\", height: tall)]",
        "line 1, column 22: found tall, expected a number",
    );
    check(
        "[(name: \"a\", form: \"ball\")]",
        "line 1, column 20: found \"ball\", expected a word without quotes",
    );
    check(
        "[(name: \"a\", weeks: 30)]",
        "line 1, column 21: found 30, expected a list, beginning with [",
    );
    check(
        "[\n  \"Noust Lamp\",\n]",
        "line 2, column 3: found \"Noust Lamp\", expected a record, beginning with (",
    );
}

#[test]
fn a_field_that_is_missing_or_there_twice_is_named() {
    check(
        "[\n  (stems: 3),\n]",
        "line 2, column 12: found no field name, expected it before the closing )",
    );
    check(
        "[(name: \"a\", name: \"b\")]",
        "line 1, column 14: found the field name a second time, expected it once",
    );
}

#[test]
fn marks_that_are_missing_are_named_where_they_should_be() {
    check(
        "[\n  (name: \"a\")\n  (name: \"b\"),\n]",
        "line 3, column 3: found (, expected a comma or a closing bracket",
    );
    check(
        "[(name \"a\")]",
        "line 1, column 8: found \"a\", expected a colon",
    );
    check(
        "[(name: \"a\")] [",
        "line 1, column 15: found [, expected the end of the file",
    );
    check(
        "[(name: \"a\\q\")]",
        "line 1, column 9: found \"a\\q\", expected only \\n, \\t, \\\", \\\\ and \\u{...} after a \
         backslash in a text",
    );
    check(
        "[(name: \"a\") /* b\n]",
        "line 1, column 14: found /, expected */ at the end of the comment",
    );
}

#[test]
fn a_text_cut_short_says_where_it_ends() {
    check(
        "",
        "line 1, column 1: found the end of the file, expected a list, beginning with [",
    );
    check(
        "[\n  (name: \"a\"),\n",
        "line 3, column 1: found the end of the file, expected a record, beginning with (",
    );
    check(
        "[\n  (name: \"a\"",
        "line 2, column 13: found the end of the file, expected a comma or a closing bracket",
    );
    check(
        "[\n  (name: \"a\", stems:",
        "line 2, column 21: found the end of the file, expected the rest of the text",
    );
    check(
        "[\n  (name: \"Noust",
        "line 2, column 10: found \"Noust, expected a double quote at the end of this text",
    );
}

/// Cuts and single wrong bytes everywhere: always read, or a problem within the text.
#[test]
fn no_cut_and_no_wrong_byte_breaks_the_reader() {
    let whole = "[\n  (name: \"Noüst \\\"Lamp\\\"\", stems: 3, height: 0.5, form: ball),\n]\n";
    for at in (0..whole.len()).filter(|at| whole.is_char_boundary(*at)) {
        let lines = whole.lines().count() + 2;
        let cut = read_ron::<Vec<Entry>>("list.ron", &whole[..at]);
        assert!(
            at + 1 >= whole.len() || cut.is_err(),
            "cut at {at} was read"
        );
        for wrong in [0_u8, b'"', b'(', b'\\', b'\n', b'#', b'\'', b'/', b'9'] {
            let mut bytes = whole.as_bytes().to_vec();
            bytes[at] = wrong;
            let Ok(text) = String::from_utf8(bytes) else {
                continue;
            };
            if let Err(problem) = read_ron::<Vec<Entry>>("list.ron", &text) {
                assert!(problem.line <= lines, "{text:?}: {problem}");
                assert!(problem.message.contains("found "), "{text:?}: {problem}");
            }
        }
    }
}
