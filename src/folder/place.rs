//! Where the grower's folder is, and how a new one is laid out.

use std::fs;
use std::io;
use std::path::{Path, PathBuf};

use etcetera::BaseStrategy;

use super::lock::{self, Access, Wait};
use super::{FolderError, names, store, system};

/// What can say which folder is meant.
#[derive(Debug, Default)]
pub struct Said {
    /// What the grower typed.
    pub at: Option<PathBuf>,
    /// What [`AT`] holds.
    pub environment: Option<PathBuf>,
    /// Where she stands.
    pub here: Option<PathBuf>,
}

/// The variable of the environment that names the folder.
pub const AT: &str = "TRUG_AT";

impl Said {
    /// What was typed, with what the environment says.
    pub fn of(at: Option<&Path>) -> Said {
        let environment = std::env::var_os(AT).filter(|name| !name.is_empty());
        Said {
            at: at.map(Path::to_path_buf),
            environment: environment.map(PathBuf::from),
            // OK to do without: where one stands may have been removed meanwhile.
            here: std::env::current_dir().ok(),
        }
    }

    /// The grower's folder: the one that is named, else the one that she stands in or that is nearest
    /// above, else the one in the usual place. `None` if there is none of these.
    ///
    /// # Errors
    /// [`FolderError::NoFolder`] if one is named and is no folder, [`FolderError::NoHome`].
    pub fn find(&self) -> Result<Option<PathBuf>, FolderError> {
        match self.at.as_ref().or(self.environment.as_ref()) {
            Some(dir) if dir.is_dir() => Ok(Some(dir.clone())),
            Some(dir) => Err(FolderError::NoFolder(dir.clone())),
            None => match self.here.as_deref().and_then(around) {
                Some(dir) => Ok(Some(dir)),
                None => Ok(Some(by_default()?).filter(|dir| dir.is_dir())),
            },
        }
    }
}

/// The folder of ours that `here` is in. Nobody else's is taken: one that another user put above
/// would choose what is read, and where notes go.
fn around(here: &Path) -> Option<PathBuf> {
    let found = here.ancestors().find(|dir| names::has_records(dir))?;
    system::is_safe_to_find(found).then(|| found.to_path_buf())
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

/// The folder that was typed: `~/garden` is in the home folder.
pub fn typed(text: &str) -> PathBuf {
    let home = || etcetera::home_dir().ok();
    match text
        .strip_prefix("~/")
        .and_then(|rest| Some(home()?.join(rest)))
    {
        Some(dir) => dir,
        None => PathBuf::from(text),
    }
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

    /// What is named counts more than where one stands, and the nearest above more than one further up.
    #[test]
    fn the_folder_is_found_from_inside_it() {
        let home = tempfile::tempdir().expect("a folder");
        let (lane, wall) = (
            home.path().join("lane"),
            home.path().join("lane/sheets/wall"),
        );
        fs::create_dir_all(wall.join("new")).expect("makes");
        fs::write(lane.join("trial.journal"), "").expect("writes");
        let from = |here: &Path| Said {
            here: Some(here.to_path_buf()),
            ..Said::default()
        };
        let found = |said: Said| said.find().expect("finds");
        assert_eq!(found(from(&lane)).as_ref(), Some(&lane));
        assert_eq!(found(from(&wall.join("new"))).as_ref(), Some(&lane));
        // A folder of that name is no file of ours.
        fs::create_dir(wall.join("order.ron")).expect("makes");
        assert_eq!(found(from(&wall)).as_ref(), Some(&lane));
        fs::write(wall.join("varieties.ron"), "[]").expect("writes");
        assert_eq!(found(from(&wall)).as_ref(), Some(&wall));
        let environment = |said: Said| Said {
            environment: Some(lane.clone()),
            ..said
        };
        assert_eq!(found(environment(from(&wall))).as_ref(), Some(&lane));
        let typed = Said {
            at: Some(home.path().to_path_buf()),
            ..environment(from(&wall))
        };
        assert_eq!(found(typed).as_deref(), Some(home.path()));
        let gone = Said {
            environment: Some(home.path().join("gone")),
            ..Said::default()
        };
        assert!(matches!(gone.find(), Err(FolderError::NoFolder(_))));
    }

    #[test]
    fn a_folder_that_is_asked_for_must_be_there() {
        let home = tempfile::tempdir().expect("a folder");
        let find = |at: &Path| {
            let at = Some(at.to_path_buf());
            Said {
                at,
                ..Said::default()
            }
            .find()
        };
        let found = find(home.path()).expect("finds");
        assert_eq!(found.as_deref(), Some(home.path()));
        let nowhere = home.path().join("nowhere");
        assert!(matches!(find(&nowhere), Err(FolderError::NoFolder(dir)) if dir == nowhere));
        let default = by_default().expect("a home folder");
        assert!(default.ends_with("trug"), "{}", default.display());
    }
}
