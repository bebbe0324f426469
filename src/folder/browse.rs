//! What stands in a folder of the grower's disk, to choose a file from.

use std::path::Path;

use super::system::in_words;

/// More names than anyone looks through; the rest is counted.
const MOST_NAMES: usize = 5000;

/// What stands in a folder.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Names {
    /// Each name, and whether it is a folder: folders first, then by name.
    pub names: Vec<(String, bool)>,
    /// How many more there are.
    pub more: usize,
}

/// The names in a folder; those that are no text are left out.
///
/// # Errors
/// One clause that names the folder.
pub fn names(folder: &Path) -> Result<Names, String> {
    let told = |error: std::io::Error| {
        format!(
            "found no folder {} to look in: {}",
            folder.display(),
            in_words(&error)
        )
    };
    let mut found = Names::default();
    for entry in std::fs::read_dir(folder).map_err(told)? {
        // One that went away meanwhile is not there.
        let Ok(entry) = entry else { continue };
        let Ok(name) = entry.file_name().into_string() else {
            continue;
        };
        match found.names.len() < MOST_NAMES {
            // By where it leads: a link to a folder is looked in as one.
            true => found.names.push((name, entry.path().is_dir())),
            false => found.more += 1,
        }
    }
    let order = |(name, is_folder): &(String, bool)| (!is_folder, name.to_lowercase());
    found.names.sort_by_cached_key(order);
    Ok(found)
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn folders_come_first_and_what_is_no_folder_is_told() {
        let home = tempfile::tempdir().expect("a folder");
        for name in ["b.csv", "A.xlsx"] {
            std::fs::write(home.path().join(name), "name\n").expect("a file");
        }
        std::fs::create_dir(home.path().join("z lists")).expect("a folder");
        let found = names(home.path()).expect("names");
        let shown: Vec<&str> = found.names.iter().map(|(name, _)| name.as_str()).collect();
        assert_eq!((shown, found.more), (vec!["z lists", "A.xlsx", "b.csv"], 0));
        let told = names(&home.path().join("b.csv")).expect_err("a file");
        assert!(told.contains("expected a folder"), "{told}");
    }
}
