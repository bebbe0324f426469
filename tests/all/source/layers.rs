//! The arrows between the modules, and who alone may touch files, the terminal and the clock.

use std::fs;
use std::path::{Path, PathBuf};

/// What each module of the crate may use beside itself.
const MAY_USE: [(&str, &[&str]); 16] = [
    ("measure", &[]),
    ("problem", &[]),
    ("table", &[]),
    ("account", &["measure", "problem", "table"]),
    ("paper", &["measure", "problem"]),
    ("colour", &["measure", "problem"]),
    ("form", &["account", "measure", "problem"]),
    ("draw", &["form", "colour", "measure", "problem"]),
    (
        "variety",
        &["account", "form", "colour", "measure", "problem", "table"],
    ),
    (
        "trial",
        &[
            "account", "variety", "form", "colour", "measure", "problem", "table",
        ],
    ),
    (
        "order",
        &[
            "account", "variety", "form", "colour", "measure", "problem", "table",
        ],
    ),
    (
        "tag",
        &[
            "account", "paper", "trial", "variety", "draw", "form", "colour", "measure", "problem",
            "table",
        ],
    ),
    (
        "folder",
        &[
            "account", "tag", "order", "trial", "variety", "form", "colour", "measure", "problem",
            "table",
        ],
    ),
    (
        "screen",
        &[
            "account", "tag", "paper", "order", "trial", "variety", "draw", "form", "colour",
            "measure", "problem",
        ],
    ),
    (
        "command",
        &[
            "account", "folder", "screen", "tag", "paper", "order", "trial", "variety", "draw",
            "form", "colour", "measure", "problem", "table",
        ],
    ),
    ("main", &["command", "screen", "folder"]),
];

/// Words that only some modules may say.
const RESERVED: [(&str, &[&str]); 9] = [
    ("std::fs", &["folder"]),
    ("File::open", &["folder"]),
    ("ratatui", &["screen"]),
    ("crossterm", &["screen"]),
    ("krilla", &["paper"]),
    ("skrifa", &["paper"]),
    ("println!", &[]),
    ("SystemTime::now", &["main", "command"]),
    ("DateTime::now", &["main", "command"]),
];

fn sources() -> Vec<(String, PathBuf, String)> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut folders = vec![root.clone()];
    let mut found = Vec::new();
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(&folder).expect("src is readable") {
            let path = entry.expect("src is readable").path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|extension| extension == "rs") {
                let below = path.strip_prefix(&root).expect("below src").to_path_buf();
                let first = below
                    .iter()
                    .next()
                    .expect("a name")
                    .to_string_lossy()
                    .to_string();
                let module = first.trim_end_matches(".rs").to_string();
                let text = fs::read_to_string(&path).expect("source is readable");
                found.push((module, below, text));
            }
        }
    }
    assert!(found.len() > 30, "the sources were not found");
    found
}

/// The lines of code: no comments, and nothing that is there for tests alone. The code is as rustfmt
/// leaves it, so that an item ends with a line of its own indentation.
fn code(text: &str) -> String {
    let mut kept = Vec::new();
    let mut lines = text.lines();
    while let Some(line) = lines.next() {
        let indent = &line[..line.len() - line.trim_start().len()];
        if line.trim() != "#[cfg(test)]" {
            kept.push(line.split("//").next().unwrap_or_default());
            continue;
        }
        let ends = [format!("{indent}}}"), format!("{indent}}};")];
        let item = lines
            .by_ref()
            .skip_while(|line| line.trim().starts_with("#["));
        let mut first = true;
        for line in item {
            let single = std::mem::take(&mut first) && line.ends_with(';');
            if single || ends.iter().any(|end| end == line) {
                break;
            }
        }
    }
    kept.join("\n")
}

/// Whether a file is there for tests alone.
fn is_of_tests(path: &Path) -> bool {
    path.iter()
        .any(|part| part.to_string_lossy().contains("tests"))
}

#[test]
fn modules_use_only_what_lies_below_them() {
    let modules: Vec<&str> = MAY_USE.iter().map(|(module, _)| *module).collect();
    for (module, path, text) in sources() {
        if module == "lib" {
            continue;
        }
        let allowed = MAY_USE.iter().find(|(own, _)| *own == module);
        let (_, allowed) = allowed.unwrap_or_else(|| panic!("{module} has no row in the table"));
        let code = code(&text);
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
    let of_the_program = |source: &(String, PathBuf, String)| !is_of_tests(&source.1);
    for (module, path, text) in sources().into_iter().filter(of_the_program) {
        let code = code(&text);
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
fn the_check_itself_sees_a_wrong_arrow() {
    let text = "use crate::a; // crate::b\n#[cfg(test)]\nuse crate::c;\nuse crate::d;\n\
                #[cfg(test)]\n#[path = \"x.rs\"]\nmod tests {\n    use crate::e;\n}\nuse crate::f;";
    assert_eq!(code(text), "use crate::a; \nuse crate::d;\nuse crate::f;");
}
