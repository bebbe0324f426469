//! The grower's settings: `settings.ron`.

use super::text::kept::Holds;
use super::{FileGuard, Folder, FolderError, text};
use crate::problem::read_ron;

pub use super::names::SETTINGS;
pub use crate::settings::Settings;

/// The settings of an opened folder, and the right to save them; what is assumed where it has none.
///
/// # Errors
/// [`FolderError`] with the place of what is wrong; nothing can then be saved over it.
pub fn open_settings(folder: &Folder) -> Result<(Settings, FileGuard), FolderError> {
    let (settings, guard) = folder.read(SETTINGS, |file, text| read_ron::<Settings>(file, text))?;
    Ok((settings.unwrap_or_default(), guard))
}

/// Saves the settings in place of those of the folder.
///
/// # Errors
/// [`FolderError`]; after every error but [`FolderError::Unconfirmed`] the file is as it was.
pub fn save_settings(
    folder: &Folder,
    guard: &mut FileGuard,
    settings: &Settings,
) -> Result<(), FolderError> {
    let written = text::write_value(settings).map_err(|error| {
        FolderError::Write(folder.dir().join(SETTINGS), std::io::Error::other(error))
    })?;
    folder.save_value(guard, &written, Holds::Value(text::value_again::<Settings>))
}
