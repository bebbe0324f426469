//! Whether a path is a file of a grower's folder, by its place and name or by being one of its files
//! under another name.

use std::ffi::OsString;
use std::fs;
use std::path::{Path, PathBuf};

use super::names::{self, RULES, looks_like_one};
use super::{store, system};

/// Whether `path` is, or would become, a file that some folder of a grower's reads or keeps; `own` is
/// the grower's own, whose files are known by a link and by a second name, too.
pub(super) fn is_of_a_folder(path: &Path, own: Option<&Path>) -> bool {
    let led = path.canonicalize().ok();
    let mut placed = [Some(path), led.as_deref()].into_iter().flatten();
    placed.any(is_so_placed) || own.is_some_and(|own| is_one_of(path, own))
}

/// By its place and its name.
fn is_so_placed(path: &Path) -> bool {
    let (Some(name), Some(folder)) = (path.file_name(), store::parent(path)) else {
        return false;
    };
    let name = name.to_string_lossy();
    if names::is_known(&name) {
        return looks_like_one(folder);
    }
    let folder = folder
        .canonicalize()
        .unwrap_or_else(|_| folder.to_path_buf());
    let is_rule_set = Path::new(&*name)
        .extension()
        .is_some_and(|ending| ending == "ron")
        && folder.file_name().is_some_and(|name| name == RULES);
    is_rule_set && folder.parent().is_some_and(looks_like_one)
}

/// Whether it is one of the files of this folder, whatever it is called.
fn is_one_of(path: &Path, folder: &Path) -> bool {
    let Ok(found) = fs::metadata(path) else {
        return false;
    };
    let (led, identity) = (path.canonicalize().ok(), system::identity(&found));
    files(folder).iter().any(|file| {
        let same_place = led.is_some() && file.canonicalize().ok() == led;
        let same_file = || {
            fs::metadata(file)
                .ok()
                .and_then(|file| system::identity(&file))
        };
        same_place || identity.is_some() && same_file() == identity
    })
}

/// Every file that the folder may have.
fn files(folder: &Path) -> Vec<PathBuf> {
    let named = names::known().map(|name| folder.join(name));
    let entries = fs::read_dir(folder.join(RULES))
        .into_iter()
        .flatten()
        .flatten();
    let own = named.chain(entries.map(|entry| entry.path()));
    own.flat_map(|path| {
        let with = |ending: &str| {
            let mut name = OsString::from(&path);
            name.push(ending);
            PathBuf::from(name)
        };
        [with(".last"), with(".torn"), path]
    })
    .collect()
}
