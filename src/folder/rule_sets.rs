//! Rule sets: those in the binary, and those that the grower's folder edits or adds.

use std::path::Path;

use super::file;
use super::names::{RULES, TRAITS};
use crate::form::{RuleSet, Traits};
use crate::problem::Problem;

/// Every rule set that can be used, and what was wrong with those that cannot.
#[derive(Debug)]
pub struct RuleSets {
    /// The sets, the one used by default first.
    pub sets: Vec<RuleSet>,
    /// Sentences on files that were passed over. An embedded set stands in for its edited copy.
    pub problems: Vec<String>,
}

/// The embedded sets, with those of the folder put in place of or beside them.
pub fn load(folder: Option<&Path>) -> RuleSets {
    let mut found = RuleSets {
        sets: RuleSet::embedded(),
        problems: Vec::new(),
    };
    let Some(folder) = folder else { return found };
    let traits = found.traits(&folder.join(TRAITS));
    let mut paths: Vec<_> = match std::fs::read_dir(folder.join(RULES)) {
        Ok(entries) => entries
            .filter_map(|entry| Some(entry.ok()?.path()))
            .collect(),
        Err(error) if error.kind() == std::io::ErrorKind::NotFound => Vec::new(),
        Err(error) => {
            found.problems.push(format!(
                "cannot read {}: {error}",
                folder.join(RULES).display()
            ));
            Vec::new()
        }
    };
    paths.retain(|path| path.extension().is_some_and(|extension| extension == "ron"));
    paths.sort();
    for path in paths {
        found.add(&path, &traits);
    }
    found
}

impl RuleSets {
    /// The folder's traits where it has a table of its own that is right, else the embedded ones.
    fn traits(&mut self, path: &Path) -> Traits {
        let embedded = Traits::embedded();
        if !path.exists() {
            return embedded;
        }
        let read = file::read_own(path).map_err(|told| vec![told]);
        let read = read.and_then(|text| Traits::read(TRAITS, &text).map_err(sentences));
        let traits = match read {
            Ok(traits) => traits,
            Err(problems) => {
                return self.passed_over(problems, "the traits in the program are used", embedded);
            }
        };
        // The embedded sets are read anew over the folder's traits, so that all sets share them.
        for (file, text) in RuleSet::embedded_files() {
            if let Err(problems) = RuleSet::read(file, text, &traits) {
                let why = sentences(problems)
                    .into_iter()
                    .map(|p| format!("{TRAITS} does not fit: {p}"))
                    .collect();
                return self.passed_over(why, "the traits in the program are used", embedded);
            }
        }
        let sets = RuleSet::embedded_files().map(|(file, text)| RuleSet::read(file, text, &traits));
        self.sets = sets.into_iter().flatten().collect();
        traits
    }

    fn add(&mut self, path: &Path, traits: &Traits) {
        let name = format!(
            "{RULES}/{}",
            path.file_name().unwrap_or_default().to_string_lossy()
        );
        let read = file::read_own(path).map_err(|told| vec![told]);
        match read.and_then(|text| RuleSet::read(&name, &text, traits).map_err(sentences)) {
            Ok(set) => match self.sets.iter_mut().find(|known| known.id == set.id) {
                Some(known) => *known = set,
                None => self.sets.push(set),
            },
            Err(problems) => {
                self.passed_over(problems, "this file is passed over", ());
            }
        }
    }

    fn passed_over<T>(&mut self, problems: Vec<String>, so: &str, instead: T) -> T {
        self.problems.extend(
            problems
                .into_iter()
                .map(|problem| format!("{problem} ({so})")),
        );
        instead
    }
}

fn sentences(problems: Vec<Problem>) -> Vec<String> {
    problems.iter().map(Problem::to_string).collect()
}
