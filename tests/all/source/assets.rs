//! Every number in `assets` says where it is from.
//!
//! A figure that a grower may edit must not pose as known. So each has a mark: `assumed`, `our own`
//! (a choice of ours, such as a size of letters), `common practice, no source`, `from memory`, or
//! `source:` and what it is. The mark stands in a comment
//!
//! - on the number's line or just above it, or so beside a bracket that it lies in; or
//! - in the head of the file, where an entry begins with the field's name and two spaces. An entry
//!   that is indented belongs to the one before it that is less so. The innermost field that has
//!   an entry decides.
//!
//! Of the head only entries count: a remark on the whole file would mark whatever is added later.
//! A table (`.csv`) has its source in its head.

use std::fs;
use std::path::Path;

const MARKS: [&str; 5] = [
    "assumed",
    "our own",
    "common practice, no source",
    "from memory",
    "source:",
];

/// A number, in a string or not.
struct Number<'a> {
    text: &'a str,
    /// Its line, from 0.
    line: usize,
    /// The fields that it lies in, outermost first.
    fields: Vec<&'a str>,
    /// The lines of the brackets about it, but for the outermost, and its own.
    about: Vec<usize>,
}

/// What the head of a file says of a field.
struct Entry<'a> {
    field: &'a str,
    /// The field that it must lie in.
    within: Option<&'a str>,
    column: usize,
    text: String,
}

fn marked(text: &str) -> bool {
    let text = text.to_lowercase();
    MARKS.iter().any(|mark| text.contains(mark))
}

/// The numbers without a mark, each as `line 3: 7 in kinds, body, points`.
fn unmarked(text: &str) -> Vec<String> {
    let (remarks, entries) = (remarks(text), entries(text));
    let known = |number: &Number<'_>| {
        // A `source` says itself where it is from.
        let names_one = number.fields.last() == Some(&"source");
        let remarked = number.about.iter().any(|line| marked(&remarks[*line]));
        let mut inner = number.fields.iter().enumerate().rev();
        let entry = inner.find_map(|(at, field)| {
            let outer = &number.fields[..at];
            let of = |entry: &&Entry<'_>| {
                entry.field == *field && entry.within.is_none_or(|one| outer.contains(&one))
            };
            entries.iter().find(of)
        });
        names_one || remarked || entry.is_some_and(|entry| marked(&entry.text))
    };
    let told = |number: Number<'_>| {
        let Number { text, line, .. } = number;
        format!("line {}: {text} in {}", line + 1, number.fields.join(", "))
    };
    let all = numbers(text).into_iter();
    all.filter(|number| !known(number)).map(told).collect()
}

fn numbers(text: &str) -> Vec<Number<'_>> {
    let mut found = Vec::new();
    // The field of each open bracket, and its line.
    let mut open: Vec<(Option<&str>, usize)> = Vec::new();
    let (mut word, mut field) = (None, None);
    for (line, written) in text.lines().enumerate() {
        let mut rest = code_of(written).0;
        while let Some(first) = rest.chars().next() {
            let length = match first {
                '"' => string_length(rest),
                _ if is_word(first) => rest.find(|c| !is_word(c)).unwrap_or(rest.len()),
                _ => first.len_utf8(),
            };
            let (token, after) = rest.split_at(length);
            rest = after;
            let mut add = |text| {
                let fields = open.iter().filter_map(|one| one.0).chain(field).collect();
                let about = open.iter().skip(1).map(|one| one.1).chain([line]).collect();
                found.push(Number {
                    text,
                    line,
                    fields,
                    about,
                });
            };
            match first {
                '(' | '[' | '{' => open.push((field.take(), line)),
                ')' | ']' | '}' => field = open.pop().and(None),
                ':' => field = word.take(),
                ',' => field = None,
                '0'..='9' => add(token),
                // A string is a key where a colon follows, and may be read as numbers where none does.
                '"' if rest.trim_start().starts_with(':') => word = Some(token.trim_matches('"')),
                '"' => {
                    let words = token.split(|c: char| !is_word(c) && c != '-');
                    let number = |word: &&str| word.starts_with(|c: char| c.is_ascii_digit());
                    words.filter(number).for_each(add);
                }
                _ if is_word(first) => word = Some(token),
                _ => {}
            }
        }
    }
    found
}

fn is_word(c: char) -> bool {
    c.is_alphanumeric() || c == '_' || c == '.'
}

/// The length in bytes of the string that a text begins with. No string goes over a line's end.
fn string_length(text: &str) -> usize {
    let mut escaped = false;
    let end = text.char_indices().skip(1).find(|(_, c)| {
        let ends = *c == '"' && !escaped;
        escaped = *c == '\\' && !escaped;
        ends
    });
    end.map_or(text.len(), |(at, _)| at + 1)
}

/// What a line holds before its comment, and the comment.
fn code_of(line: &str) -> (&str, &str) {
    let mut at = 0;
    while let Some(rest) = line.get(at..).filter(|rest| !rest.is_empty()) {
        if rest.starts_with("//") {
            return (&line[..at], rest);
        }
        at += match rest.chars().next() {
            Some('"') => string_length(rest),
            first => first.map_or(1, char::len_utf8),
        };
    }
    (line, "")
}

/// For each line the comment on it and the comments just above it, those of the head apart.
fn remarks(text: &str) -> Vec<String> {
    let (mut above, mut all) = (String::new(), Vec::new());
    let head = head(text).count();
    for (at, line) in text.lines().enumerate() {
        let (code, comment) = code_of(line);
        let alone = code.trim().is_empty();
        if alone && !comment.is_empty() && at >= head {
            above = above + comment + " ";
            all.push(String::new());
        } else {
            all.push(std::mem::take(&mut above) + comment);
        }
    }
    all
}

/// The lines of the comment that a file begins with.
fn head(text: &str) -> impl Iterator<Item = &str> {
    text.lines().take_while(|line| line.starts_with("//"))
}

fn entries(text: &str) -> Vec<Entry<'_>> {
    let mut entries: Vec<Entry<'_>> = Vec::new();
    let mut ended = true;
    for line in head(text) {
        let mut rest = line.trim_start_matches('/');
        if rest.trim().is_empty() {
            ended = true;
            continue;
        }
        // One line may begin an entry and the first of those within it.
        while let Some((field, more)) = begun(rest) {
            let column = line.len() - rest.trim_start().len();
            let outer = entries.iter().rev().find(|entry| entry.column < column);
            entries.push(Entry {
                field,
                within: outer.map(|entry| entry.field),
                column,
                text: String::new(),
            });
            (rest, ended) = (more, false);
        }
        if let Some(entry) = entries.last_mut().filter(|_| !ended) {
            entry.text += rest.trim();
            entry.text += " ";
        }
    }
    entries
}

/// The field that a line of a head begins with, and what follows.
fn begun(line: &str) -> Option<(&str, &str)> {
    let line = line.trim_start();
    let end = line.find("  ")?;
    let (field, more) = line.split_at(end);
    let is_field = |c: char| c.is_ascii_lowercase() || c == '_';
    field.chars().all(is_field).then_some((field, more))
}

/// Every file of `assets` with this ending, and its text.
fn files(ending: &str) -> Vec<(String, String)> {
    let mut folders = vec![Path::new(env!("CARGO_MANIFEST_DIR")).join("assets")];
    let mut files = Vec::new();
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(folder).expect("a folder") {
            let path = entry.expect("an entry").path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|own| own == ending) {
                let text = fs::read_to_string(&path).expect("a text");
                files.push((path.display().to_string(), text));
            }
        }
    }
    files.sort();
    files
}

#[test]
fn every_number_says_where_it_is_from() {
    let files = files("ron");
    let count: usize = files.iter().map(|(_, text)| numbers(text).len()).sum();
    assert!(count > 500, "{count} numbers in {} files", files.len());
    for (name, text) in files {
        assert_eq!(unmarked(&text), [""; 0], "{name}");
    }
}

/// The check would fail: in each file it finds a number that is added without a mark, and every
/// number once the comments are gone.
#[test]
fn a_number_without_a_mark_is_found_in_each_file() {
    for (name, text) in files("ron") {
        let end = text.trim_end().rfind('\n').expect("lines") + 1;
        let (before, after) = text.split_at(end);
        let more = unmarked(&format!("{before}  gizmo: 7.5,\n{after}"));
        let line = before.lines().count() + 1;
        assert_eq!(more, [format!("line {line}: 7.5 in gizmo")], "{name}");
        let bare: Vec<&str> = text.lines().map(|line| code_of(line).0).collect();
        let bare = bare.join("\n");
        let named = |number: &&Number<'_>| number.fields.last() != Some(&"source");
        let count = numbers(&text).iter().filter(named).count();
        assert_eq!(unmarked(&bare).len(), count, "{name}");
    }
}

#[test]
fn a_mark_holds_where_it_stands() {
    for (text, told) in [
        // On the line, just above it, beside a bracket; not on the line before.
        (
            "(\n  a: 1, // Assumed.\n  b: 2,\n)",
            &["line 3: 2 in b"][..],
        ),
        (
            "(\n  // From memory.\n  a: 1,\n\n  b: 2,\n)",
            &["line 5: 2 in b"],
        ),
        (
            "(\n  // Our own.\n  a: [\n    (b: 1),\n  ],\n  c: 2,\n)",
            &["line 6: 2 in c"],
        ),
        // An entry of the head; one within another; a remark on the whole is none.
        (
            "// Assumed, all of it.\n//\n// a  length\n// b  Assumed\n(\n  a: 1,\n  b: 2,\n)",
            &["line 6: 1 in a"],
        ),
        (
            "// a  in it:\n//      b  Assumed\n(\n  a: (b: 1, c: 2),\n  b: 3,\n)",
            &["line 4: 2 in a, c", "line 5: 3 in b"],
        ),
        (
            "// a  b  from memory\n//    c  what it\n//       is. Assumed\n(a: (b: 1, c: 2, d: 3))",
            &["line 4: 3 in a, d"],
        ),
        // The innermost entry decides.
        (
            "// a  Assumed\n//      b  length\n(\n  a: (b: 1, c: 2),\n)",
            &["line 4: 1 in a, b"],
        ),
        // In words, but not in a name; in a comment there is none.
        (
            "(a: \"at most 10 of a4, 2..5\", b: \"50 %\", source: \"1969\") // 3",
            &["line 1: 10 in a", "line 1: 2..5 in a", "line 1: 50 in b"],
        ),
        (
            "({\"b-c\": 4}, \"// d: \\\" 5\", Some(6))",
            &["line 1: 4 in b-c", "line 1: 5 in ", "line 1: 6 in "],
        ),
    ] {
        assert_eq!(unmarked(text), told, "{text}");
    }
}

#[test]
fn every_table_has_its_source_in_its_head() {
    let files = files("csv");
    assert!(files.len() >= 2, "{} files", files.len());
    for (name, text) in files {
        let head: Vec<&str> = text
            .lines()
            .take_while(|line| line.starts_with('#'))
            .collect();
        assert!(
            head.iter().any(|line| line.starts_with("# Source: ")),
            "{name}"
        );
    }
}

#[test]
fn every_spelling_says_where_it_is_from() {
    for name in ["spellings.ron", "patterns.ron"] {
        let files = files("ron");
        let (_, text) = files
            .iter()
            .find(|(path, _)| path.ends_with(name))
            .expect(name);
        let records = text.lines().filter(|line| line.contains("spelt: ["));
        let mut count = 0;
        for record in records {
            let (_, source) = record.split_once("source: \"").expect(record);
            assert!(marked(source), "{name}: {record}");
            count += 1;
        }
        assert!(count >= 10, "{count} records in {name}");
    }
}
