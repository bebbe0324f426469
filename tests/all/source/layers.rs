//! The arrows between the modules, and who alone may touch files, the terminal and the clock.

use super::sources::{Source, sources};

/// What each module of the crate may use beside itself.
const MAY_USE: [(&str, &[&str]); 26] = [
    ("cores", &[]),
    ("measure", &[]),
    ("matching", &[]),
    ("problem", &[]),
    ("history", &[]),
    ("record", &[]),
    ("table", &[]),
    ("account", &["measure", "problem", "table"]),
    ("colour", &["measure", "problem"]),
    ("geometry", &["colour"]),
    ("paper", &["geometry", "colour", "problem"]),
    ("chart", &["account", "paper", "geometry", "colour"]),
    ("form", &["account", "measure", "problem"]),
    ("draw", &["cores", "geometry", "form", "colour"]),
    (
        "variety",
        &[
            "cores", "account", "chart", "form", "colour", "history", "matching", "measure",
            "problem", "record", "table",
        ],
    ),
    ("book", &["account", "variety", "measure", "problem"]),
    (
        "trial",
        &[
            "cores", "account", "book", "chart", "variety", "form", "colour", "measure", "problem",
            "record", "table",
        ],
    ),
    (
        "stock",
        &[
            "account", "book", "trial", "variety", "form", "measure", "problem", "table",
        ],
    ),
    (
        "order",
        &[
            "cores", "account", "chart", "paper", "geometry", "variety", "form", "colour",
            "measure", "problem", "record", "table",
        ],
    ),
    (
        "life",
        &[
            "account", "order", "stock", "trial", "variety", "form", "measure", "problem",
        ],
    ),
    (
        "tag",
        &[
            "cores", "account", "paper", "stock", "trial", "variety", "draw", "geometry", "form",
            "colour", "measure", "problem", "table",
        ],
    ),
    (
        "settings",
        &[
            "order", "tag", "variety", "colour", "measure", "problem", "record",
        ],
    ),
    (
        "folder",
        &[
            "account", "book", "settings", "tag", "order", "stock", "trial", "variety", "form",
            "colour", "measure", "problem", "record", "table",
        ],
    ),
    (
        "screen",
        &[
            "cores", "life", "account", "book", "settings", "tag", "chart", "paper", "order",
            "stock", "trial", "variety", "draw", "geometry", "form", "colour", "history",
            "matching", "measure", "problem", "record",
        ],
    ),
    (
        "command",
        &[
            "life", "account", "book", "folder", "screen", "settings", "tag", "chart", "paper",
            "order", "stock", "trial", "variety", "draw", "form", "colour", "measure", "problem",
            "record", "table",
        ],
    ),
    ("main", &["command", "screen", "folder"]),
];

/// Words that only some modules may say.
const RESERVED: [(&str, &[&str]); 10] = [
    ("std::fs", &["folder"]),
    ("File::open", &["folder"]),
    ("ratatui", &["screen"]),
    ("crossterm", &["screen"]),
    ("krilla", &["paper"]),
    ("skrifa", &["paper"]),
    ("tiny_skia", &["draw"]),
    ("println!", &[]),
    ("SystemTime::now", &["main", "command"]),
    ("DateTime::now", &["main", "command"]),
];

#[test]
fn modules_use_only_what_lies_below_them() {
    let modules: Vec<&str> = MAY_USE.iter().map(|(module, _)| *module).collect();
    for source in sources().iter().filter(|source| source.module() != ["lib"]) {
        let (module, path) = (source.module().swap_remove(0), &source.path);
        let allowed = MAY_USE.iter().find(|(own, _)| *own == module);
        let (_, allowed) = allowed.unwrap_or_else(|| panic!("{module} has no row in the table"));
        let code = source.code();
        for other in modules
            .iter()
            .filter(|other| **other != module && !allowed.contains(other))
        {
            for way in [format!("crate::{other}"), format!("trug::{other}")] {
                let used = code.match_indices(&way).any(|(at, _)| {
                    !code[at + way.len()..].starts_with(|c: char| c.is_alphanumeric() || c == '_')
                });
                assert!(
                    !used,
                    "{} uses {other}, which {module} may not",
                    path.display()
                );
            }
        }
    }
}

#[test]
fn files_terminal_and_clock_are_touched_at_the_edge_alone() {
    for source in sources().iter().filter(|source| !source.is_of_tests()) {
        let (module, path) = (source.module().swap_remove(0), &source.path);
        let code = source.code();
        for (word, allowed) in RESERVED {
            let said = code.contains(word) && !allowed.contains(&module.as_str());
            assert!(
                !said,
                "{} says {word}, which {module} may not",
                path.display()
            );
        }
    }
}

#[test]
fn pages_are_cut_into_areas_in_one_place() {
    let of_pages = |source: &&Source| {
        source.path.starts_with("screen")
            && !source.is_of_tests()
            && !source.path.ends_with("kit/area.rs")
    };
    for source in sources().iter().filter(of_pages) {
        let code = source.code();
        for word in ["Rect {", "Rect::"] {
            let rectangle = |(at, _): (usize, &str)| !code[..at].ends_with(char::is_alphanumeric);
            // What follows an arrow is the body of a function that gives one back.
            let cut = code
                .match_indices(word)
                .any(|found| rectangle(found) && !code[..found.0].trim_end().ends_with("->"));
            assert!(!cut, "{} cuts a rectangle: {word}", source.path.display());
        }
    }
}
