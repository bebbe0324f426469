//! Files that are read as text: one that a command names, and the folder's own data; `output` writes
//! them.

use std::path::Path;

use super::names::{NAMED, most};
use super::regular;
use super::system::in_words;

/// Reads a text file that a command names as UTF-8; a byte-order mark at its head is dropped.
///
/// # Errors
/// One sentence that names the file: what stands there if it is no file, how large it may be, and
/// where in it the text is not UTF-8.
pub fn read(path: &Path) -> Result<String, String> {
    read_up_to(path, NAMED)
}

/// The same of a file of the folder, which may be as large as its name allows.
pub(super) fn read_own(path: &Path) -> Result<String, String> {
    read_up_to(path, most(path))
}

fn read_up_to(path: &Path, most: u64) -> Result<String, String> {
    let shown = path.display();
    let (bytes, _) = regular::read(path, most)
        .map_err(|error| format!("cannot read {shown}: {}", in_words(&error)))?;
    let text = String::from_utf8(bytes).map_err(|error| {
        let at = error.utf8_error().valid_up_to();
        format!(
            "cannot read {shown}: found a byte that is not UTF-8 at byte {at}, expected UTF-8 text"
        )
    })?;
    Ok(text.strip_prefix('\u{feff}').unwrap_or(&text).to_string())
}
