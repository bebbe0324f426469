//! The sources of the crate as text, for what must hold of them.

use std::fs;
use std::path::{Path, PathBuf};

/// One file of `src`.
pub(super) struct Source {
    /// Where it is, below `src`.
    pub(super) path: PathBuf,
    /// What it holds.
    pub(super) text: String,
}

impl Source {
    /// Its path as a module's: `["order", "solve", "tree"]`; `mod.rs` is the folder itself.
    pub(super) fn module(&self) -> Vec<String> {
        let bare = self.path.with_extension("");
        let parts = bare.iter().map(|part| part.to_string_lossy().to_string());
        parts.filter(|part| part != "mod").collect()
    }

    /// Whether it is there for tests alone.
    pub(super) fn is_of_tests(&self) -> bool {
        (self.path.iter()).any(|part| part.to_string_lossy().contains("tests"))
    }

    /// Its lines of code: see [`code`].
    pub(super) fn code(&self) -> String {
        code(&self.text)
    }
}

/// Every file of `src`.
pub(super) fn sources() -> Vec<Source> {
    let root = Path::new(env!("CARGO_MANIFEST_DIR")).join("src");
    let mut folders = vec![root.clone()];
    let mut found = Vec::new();
    while let Some(folder) = folders.pop() {
        for entry in fs::read_dir(&folder).expect("src is readable") {
            let path = entry.expect("src is readable").path();
            if path.is_dir() {
                folders.push(path);
            } else if path.extension().is_some_and(|extension| extension == "rs") {
                let text = fs::read_to_string(&path).expect("source is readable");
                let path = path.strip_prefix(&root).expect("below src").to_path_buf();
                found.push(Source { path, text });
            }
        }
    }
    assert!(found.len() > 30, "the sources were not found");
    found
}

/// The lines of code: no comments, and nothing that is there for tests alone. The code is as rustfmt
/// leaves it, so that an item ends with a line of its own indentation.
pub(super) fn code(text: &str) -> String {
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

#[test]
fn what_is_there_for_tests_alone_is_no_code() {
    let text = "use crate::a; // crate::b\n#[cfg(test)]\nuse crate::c;\nuse crate::d;\n\
                #[cfg(test)]\n#[path = \"x.rs\"]\nmod tests {\n    use crate::e;\n}\nuse crate::f;";
    assert_eq!(code(text), "use crate::a; \nuse crate::d;\nuse crate::f;");
}
