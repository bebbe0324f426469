//! Why the folder could not do something, each in one sentence.

use std::fmt;
use std::io;
use std::path::PathBuf;

use super::lock::Reason;
use super::system::in_words;
use crate::problem::Problem;

/// Why a file or folder could not be read or written. Each displays as one sentence with the
/// place, what happened, and what became of the data.
#[derive(Debug)]
pub enum FolderError {
    /// The text was read, and is not what it should be. The file is left as it is.
    Unreadable {
        /// Where, what was found, what was expected.
        problem: Problem,
        /// The name of the kept copy of the file as it was before the last save, if there is one.
        kept: Option<String>,
    },
    /// The folder is not there.
    NoFolder(PathBuf),
    /// Reading failed.
    Read(PathBuf, io::Error),
    /// Writing failed, and the file is as it was.
    Write(PathBuf, io::Error),
    /// The new file is in place, but the disk did not confirm that it would survive a power cut.
    Unconfirmed(PathBuf, io::Error),
    /// Another program changed, made or removed the file after it was read.
    Changed(PathBuf),
    /// The folder is open to read only.
    ReadOnly(PathBuf, Reason),
    /// The file itself is marked read-only.
    Protected(PathBuf),
    /// The file is gone, though the kept copy of it is there.
    OnlyKept(PathBuf),
    /// A new folder would overwrite this file.
    Exists(PathBuf),
    /// The system does not say where the home folder is.
    NoHome,
}

impl fmt::Display for FolderError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            Self::Unreadable { problem, kept } => {
                write!(f, "{problem}; the file was not changed")?;
                match kept {
                    Some(kept) => write!(f, "; {kept} beside it is the copy before its last save"),
                    None => Ok(()),
                }
            }
            Self::NoFolder(path) => write!(
                f,
                "found no folder {}, expected one that was laid out before; nothing was changed",
                path.display()
            ),
            Self::Read(path, error) => write!(
                f,
                "could not read {}: {}; nothing was changed",
                path.display(),
                in_words(error)
            ),
            Self::Write(path, error) => write!(
                f,
                "could not save {}: {}; nothing was lost, what was saved before is still there",
                path.display(),
                in_words(error)
            ),
            Self::Unconfirmed(path, error) => write!(
                f,
                "saved {}, but the disk did not confirm it: {}; save again before switching off",
                path.display(),
                in_words(error)
            ),
            Self::Changed(path) => write!(
                f,
                "did not save {}: another program changed it after it was opened; nothing was \
                 lost, open it again to see that change",
                path.display()
            ),
            Self::ReadOnly(path, reason) => {
                write!(
                    f,
                    "did not save {}: {reason}; nothing was lost",
                    path.display()
                )
            }
            Self::Protected(path) => write!(
                f,
                "did not save {}: the file is marked read-only; nothing was lost",
                path.display()
            ),
            Self::OnlyKept(path) => write!(
                f,
                "found no {}, but the copy kept of it ends in .last: copy that back, or move it \
                 away to begin anew; nothing was changed",
                path.display()
            ),
            Self::Exists(path) => write!(
                f,
                "found {} there already, expected a folder without it; nothing was changed",
                path.display()
            ),
            Self::NoHome => f.write_str(
                "found no home folder for this user, expected one, or --at with a folder; nothing \
                 was changed",
            ),
        }
    }
}

/// Without a source: the sentence has all of it, and whoever tells causes too would say it twice.
impl std::error::Error for FolderError {}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    #[cfg(target_os = "linux")]
    fn a_full_disk_is_called_a_full_disk() {
        use std::io::Write as _;
        // The kernel's own device that is always full, so this is the error a full disk gives.
        let error = std::fs::OpenOptions::new()
            .write(true)
            .open("/dev/full")
            .and_then(|mut full| full.write_all(b"x"))
            .expect_err("/dev/full took a byte");
        assert_eq!(
            FolderError::Write("row/trial.ron".into(), error).to_string(),
            "could not save row/trial.ron: the disk is full; nothing was lost, what was saved \
             before is still there"
        );
    }
}
