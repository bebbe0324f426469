//! Windows.

use std::path::Path;

/// Whether a folder belongs to the user who runs this. The library of the language does not say whose
/// a folder is here; what others may write is a matter of the folder's own list of rights.
pub(in crate::folder) fn is_mine(dir: &Path) -> bool {
    dir.is_dir()
}
