//! A small text that the program itself puts aside between two runs: not in the grower's folder, which
//! holds her records and may be on another machine tomorrow, but where the system has such things for a
//! user. It is lost without harm.

use std::fs;
use std::io;
use std::path::PathBuf;

use etcetera::BaseStrategy;

use super::output::{Output, OutputError};
use super::{FolderError, regular};

/// The file.
const HALF_KEYED: &str = "half-keyed.ron";

/// More bytes are none of ours: nine blooms, each with a line of 4,000 characters, take less.
const MOST: u64 = 256 * 1024;

/// Where it is: `trug` in the place that the system gives a program's state, such as
/// `~/.local/state/trug`, or else a user's data.
fn path() -> Option<PathBuf> {
    let strategy = etcetera::choose_base_strategy().ok()?;
    let dir = strategy.state_dir().unwrap_or_else(|| strategy.data_dir());
    Some(dir.join("trug").join(HALF_KEYED))
}

/// The text that was put aside; `None` where there is none or it cannot be read.
pub fn load() -> Option<String> {
    let path = path()?;
    let (bytes, _) = regular::read(&path, MOST).ok()?;
    String::from_utf8(bytes).ok()
}

/// Puts a text aside, or nothing any longer.
///
/// # Errors
/// [`OutputError`]: what was there before is unchanged.
pub fn save(text: Option<&str>) -> Result<(), OutputError> {
    let path = path().ok_or(OutputError::Failed(FolderError::NoHome))?;
    let failed = |error| OutputError::Failed(FolderError::Write(path.clone(), error));
    let Some(text) = text else {
        return match fs::remove_file(&path) {
            Err(error) if error.kind() != io::ErrorKind::NotFound => Err(failed(error)),
            _ => Ok(()),
        };
    };
    if let Some(dir) = path.parent() {
        fs::create_dir_all(dir).map_err(failed)?;
    }
    let output = Output {
        folder: None,
        replace: true,
    };
    output.write(&path, text.as_bytes())
}
