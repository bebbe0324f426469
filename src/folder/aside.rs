//! A small text that the program itself puts aside between two runs: not in the grower's folder, which
//! holds her records and may be on another machine tomorrow, but where the system has such things for a
//! user. It is lost without harm.

use std::fs;
use std::io::{self, Read};
use std::path::PathBuf;

use etcetera::BaseStrategy;

use super::{FolderError, store};

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
    // A pipe would keep the program waiting.
    let metadata = fs::symlink_metadata(&path).ok()?;
    if !metadata.is_file() || metadata.len() > MOST {
        return None;
    }
    let mut text = String::new();
    let file = fs::File::open(&path).ok()?;
    file.take(MOST).read_to_string(&mut text).ok()?;
    Some(text)
}

/// Puts a text aside, or nothing any longer.
///
/// # Errors
/// [`FolderError::NoHome`], or [`FolderError::Write`] with what was there before unchanged.
pub fn save(text: Option<&str>) -> Result<(), FolderError> {
    let path = path().ok_or(FolderError::NoHome)?;
    let failed = |error| FolderError::Write(path.clone(), error);
    let Some(text) = text else {
        return match fs::remove_file(&path) {
            Err(error) if error.kind() != io::ErrorKind::NotFound => Err(failed(error)),
            _ => Ok(()),
        };
    };
    if let Some(dir) = path.parent() {
        fs::create_dir_all(dir).map_err(failed)?;
    }
    store::export(&path, text.as_bytes())
}
