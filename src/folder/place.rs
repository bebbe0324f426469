//! Where the grower's folder is, and how a new one is laid out.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use etcetera::BaseStrategy;

use super::lock::{self, Access, Wait};
use super::{FolderError, store};

/// The grower's folder: `at` if it is given, else the default. `None` if the default has not been
/// laid out yet.
///
/// # Errors
/// [`FolderError::NoFolder`] if `at` is given and is no folder, [`FolderError::NoHome`].
pub fn find(at: Option<&Path>) -> Result<Option<PathBuf>, FolderError> {
    match at {
        Some(dir) if dir.is_dir() => Ok(Some(dir.to_path_buf())),
        Some(dir) => Err(FolderError::NoFolder(dir.to_path_buf())),
        None => Ok(Some(by_default()?).filter(|dir| dir.is_dir())),
    }
}

/// Where the folder is if nobody says otherwise: `trug` in the place the system gives a user's
/// data, such as `~/.local/share/trug`.
///
/// # Errors
/// [`FolderError::NoHome`] if the system does not say where the home folder is.
pub fn by_default() -> Result<PathBuf, FolderError> {
    etcetera::choose_base_strategy()
        .map(|strategy| strategy.data_dir().join("trug"))
        .map_err(|_| FolderError::NoHome)
}

/// Lays out a folder of `files`, each a name and a text, making the folder if need be. All of them
/// are there afterwards, or none. `since` is as for [`super::Folder::open`].
///
/// # Errors
/// [`FolderError::Exists`] with the first file that is there already, [`FolderError::ReadOnly`] if
/// another program has the folder, or [`FolderError::Write`].
pub fn start(dir: &Path, files: &[(&str, &str)], since: &str) -> Result<(), FolderError> {
    let failed = |error: io::Error| FolderError::Write(dir.to_path_buf(), error);
    // Look before anything is made, so that a refusal leaves not even an empty lock file.
    refuse_existing(dir, files)?;
    fs::create_dir_all(dir).map_err(failed)?;
    store::sync_parent(dir).map_err(failed)?;
    let access = lock::acquire(dir, since, Wait::AMoment).map_err(failed)?;
    if let Access::ReadOnly(reason) = access {
        return Err(FolderError::ReadOnly(dir.to_path_buf(), reason));
    }
    // Look again, for nobody else can lay out files from here on.
    refuse_existing(dir, files)?;
    for (done, (name, text)) in files.iter().enumerate() {
        if let Err(error) = store::save(&dir.join(name), text) {
            for (name, _) in &files[..done] {
                // OK to fail: the error to report is the one that stopped the layout.
                let _ = fs::remove_file(dir.join(name));
            }
            return Err(error);
        }
    }
    Ok(())
}

fn refuse_existing(dir: &Path, files: &[(&str, &str)]) -> Result<(), FolderError> {
    for (name, _) in files {
        let path = dir.join(name);
        for path in [store::kept(&path), path] {
            // A link that leads nowhere is something of the grower's, too.
            if path.symlink_metadata().is_ok() {
                return Err(FolderError::Exists(path));
            }
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_new_folder_has_all_files_and_overwrites_none() {
        let home = tempfile::tempdir().expect("a folder");
        let dir = home.path().join("skerry/lane");
        let files = [("varieties.ron", "[\n]\n"), ("order.ron", "()\n")];
        start(&dir, &files, "now").expect("starts");
        assert_eq!(
            fs::read_to_string(dir.join("order.ron")).ok().as_deref(),
            Some("()\n")
        );

        fs::remove_file(dir.join("varieties.ron")).expect("removes");
        let error = start(&dir, &files, "now").expect_err("overwrote");
        assert_eq!(
            error.to_string(),
            format!(
                "found {} there already, expected a folder without it; nothing was changed",
                dir.join("order.ron").display()
            )
        );
        assert!(!dir.join("varieties.ron").exists(), "laid out one of two");
    }

    #[test]
    fn a_folder_that_cannot_be_made_is_one_sentence() {
        let home = tempfile::tempdir().expect("a folder");
        let file = home.path().join("file");
        fs::write(&file, "x").expect("writes");
        let error = start(&file.join("lane"), &[("a.ron", "")], "now").expect_err("started");
        let error = error.to_string();
        assert!(error.contains("it is a file, expected a folder"), "{error}");
    }

    #[test]
    fn a_folder_that_is_asked_for_must_be_there() {
        let home = tempfile::tempdir().expect("a folder");
        let found = find(Some(home.path())).expect("finds");
        assert_eq!(found.as_deref(), Some(home.path()));
        let nowhere = home.path().join("nowhere");
        assert!(matches!(find(Some(&nowhere)), Err(FolderError::NoFolder(dir)) if dir == nowhere));
        let default = by_default().expect("a home folder");
        assert!(default.ends_with("trug"), "{}", default.display());
    }
}
