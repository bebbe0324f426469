//! No two files of a module know each other both ways, by whatever round: what a file uses lies below
//! it, so that it can be read without what is above.
//!
//! Only what is named by its path counts (`use`, `super::a::b`, `crate::a::b`). A name that a file
//! passes on with `pub use` is the file's that has it. `mod` declares a file and does not use it.

use std::collections::{BTreeMap, BTreeSet};

use super::sources::sources;

type Path = Vec<String>;

/// The paths of a `use`, its braces multiplied out: `a::{b, c as d}` is `a::b` and `a::c`.
fn multiplied(tree: &str) -> Vec<Path> {
    let names = |text: &str| -> Path {
        let bare = text.split(" as ").next().unwrap_or_default();
        let parts = bare.split("::").map(|part| part.trim().to_string());
        parts.filter(|part| !part.is_empty()).collect()
    };
    let Some((head, rest)) = tree.split_once('{') else {
        return vec![names(tree)];
    };
    let inner = rest.rsplit_once('}').map_or(rest, |(inner, _)| inner);
    let mut depth = 0;
    let parts = inner.split(|c: char| {
        depth += i32::from(c == '{') - i32::from(c == '}');
        c == ',' && depth == 0
    });
    let below = parts
        .filter(|part| !part.trim().is_empty())
        .flat_map(multiplied);
    below.map(|path| [names(head), path].concat()).collect()
}

/// What one file names.
#[derive(Default)]
struct Named {
    /// Uses and paths within expressions.
    uses: Vec<Path>,
    /// Uses that it passes on.
    passed_on: Vec<Path>,
}

impl Named {
    fn of(code: &str) -> Named {
        // Who may see a thing is no use of it.
        let seen_by = code
            .split("pub(in ")
            .enumerate()
            .map(|(at, part)| match at {
                0 => part.to_string(),
                _ => format!("pub{}", part.split_once(')').map_or("", |(_, rest)| rest)),
            });
        let code: String = seen_by.collect();
        let mut named = Named::default();
        let mut rest = String::new();
        for statement in code.split_inclusive(';') {
            let start = statement.rfind("use ").filter(|at| {
                let before = statement[..*at].lines().last().unwrap_or_default().trim();
                before.is_empty() || before.starts_with("pub")
            });
            let Some(at) = start else {
                rest += statement;
                continue;
            };
            let visible = statement[..at]
                .lines()
                .last()
                .is_some_and(|line| line.contains("pub"));
            rest += &statement[..at];
            let tree = statement[at + 4..].trim_end_matches(';');
            let paths = multiplied(&tree.replace('\n', " "));
            match visible {
                true => named.passed_on.extend(paths),
                false => named.uses.extend(paths),
            }
        }
        for start in ["crate::", "super::", "self::"] {
            for (at, _) in rest.match_indices(start) {
                let whole = |c: char| !c.is_alphanumeric() && c != '_' && c != ':';
                let word = rest[at..].split(whole).next().unwrap_or_default();
                if rest[..at].chars().next_back().is_none_or(whole) {
                    named.uses.extend(multiplied(word.trim_end_matches(':')));
                }
            }
        }
        named
    }
}

/// The files of the crate by the modules that they are.
struct Files(BTreeMap<Path, Named>);

impl Files {
    /// A path as it is from the crate's root; `None` for what is not of this crate.
    fn absolute(&self, from: &[String], path: &[String]) -> Option<Path> {
        let mut base = from.to_vec();
        let mut rest = path;
        match path.first()?.as_str() {
            "crate" => return Some(path[1..].to_vec()),
            "self" => rest = &path[1..],
            "super" => {
                while rest.first().is_some_and(|part| part == "super") {
                    base.pop();
                    rest = &rest[1..];
                }
            }
            first => {
                let child = [from, &[first.to_string()]].concat();
                self.0.get(&child)?;
            }
        }
        base.extend_from_slice(rest);
        Some(base)
    }

    /// The file that has what an absolute path names.
    fn home(&self, path: &[String], depth: usize) -> Option<&Path> {
        let length = (1..=path.len())
            .rev()
            .find(|length| self.0.contains_key(&path[..*length]))?;
        let (module, named) = self.0.get_key_value(&path[..length])?;
        let passed_on = path.get(length).and_then(|name| {
            named
                .passed_on
                .iter()
                .find(|path| path.last() == Some(name))
        });
        let further = passed_on
            .filter(|_| depth < 8)
            .and_then(|path| self.home(&self.absolute(module, path)?, depth + 1));
        further.or(Some(module))
    }

    /// What each file uses of its own module.
    fn arrows(&self) -> BTreeMap<&Path, BTreeSet<&Path>> {
        let used = |(module, named): &(&Path, &Named)| {
            let homes = named
                .uses
                .iter()
                .filter_map(|path| self.home(&self.absolute(module, path)?, 0));
            homes
                .filter(|home| home != module && home[0] == module[0])
                .collect()
        };
        self.0.iter().map(|file| (file.0, used(&file))).collect()
    }
}

/// The files that can be reached from themselves.
fn circles<'a>(arrows: &BTreeMap<&'a Path, BTreeSet<&'a Path>>) -> Vec<&'a Path> {
    let comes_back = |file: &&&Path| {
        let mut reached = BTreeSet::new();
        let mut next: Vec<&Path> = arrows[**file].iter().copied().collect();
        while let Some(one) = next.pop() {
            if reached.insert(one) {
                next.extend(&arrows[one]);
            }
        }
        reached.contains(**file)
    };
    arrows.keys().filter(comes_back).copied().collect()
}

#[test]
fn no_file_uses_what_uses_it() {
    let of_the_program = sources().into_iter().filter(|source| !source.is_of_tests());
    let files = of_the_program.map(|source| (source.module(), Named::of(&source.code())));
    let files = Files(files.collect());
    let arrows = files.arrows();
    let count: usize = arrows.values().map(BTreeSet::len).sum();
    assert!(count > 300, "found only {count} uses between files");
    let found: Vec<String> = circles(&arrows)
        .iter()
        .map(|path| path.join("::"))
        .collect();
    assert!(found.is_empty(), "in circles: {found:#?}");
}

#[test]
fn the_check_itself_sees_a_circle() {
    let file = |module: &str, code: &str| {
        let module: Path = module.split("::").map(str::to_string).collect();
        (module, Named::of(code))
    };
    let seen = |files: Vec<(Path, Named)>| {
        let files = Files(files.into_iter().collect());
        circles(&files.arrows())
            .iter()
            .map(|path| path.join("::"))
            .collect::<Vec<_>>()
    };
    let top = || file("m", "mod a;\nmod b;\npub use a::{A, Other};\n");
    let (a, above) = (
        file("m::a", "use super::b::{self, B};"),
        file("m::c", "use crate::m::A;"),
    );
    assert_eq!(
        seen(vec![top(), a, above, file("m::b", "fn b() {}")]),
        [""; 0]
    );
    let (a, b) = (
        file("m::a", "use super::b::B;"),
        file("m::b", "use super::A;"),
    );
    assert_eq!(seen(vec![top(), a, b]), ["m::a", "m::b"]);
    let (a, b) = (
        file("m::a", "fn a() { crate::m::b::go() }"),
        file("m::b", "use crate::m::{A as Z};"),
    );
    assert_eq!(seen(vec![top(), a, b]), ["m::a", "m::b"]);
}
