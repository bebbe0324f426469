//! Linux, macOS and their kin.

use std::fs;
use std::os::unix::fs::MetadataExt;
use std::path::Path;

/// Whether a folder belongs to the user who runs this, or to the one who installs the system.
pub(in crate::folder) fn is_mine(dir: &Path) -> bool {
    let me = rustix::process::geteuid().as_raw();
    fs::metadata(dir).is_ok_and(|found| [me, 0].contains(&found.uid()))
}
