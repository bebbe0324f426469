//! Files that a command names to be read; `store::export` writes them.

use std::path::Path;

/// Reads a text file as UTF-8; a byte-order mark at its head is dropped.
///
/// # Errors
/// One sentence that names the file, and where in it the text is not UTF-8.
pub fn read(path: &Path) -> Result<String, String> {
    let shown = path.display();
    let bytes = std::fs::read(path).map_err(|error| format!("cannot read {shown}: {error}"))?;
    let text = String::from_utf8(bytes).map_err(|error| {
        let at = error.utf8_error().valid_up_to();
        format!(
            "cannot read {shown}: found a byte that is not UTF-8 at byte {at}, expected UTF-8 text"
        )
    })?;
    Ok(text.strip_prefix('\u{feff}').unwrap_or(&text).to_string())
}
