//! The one door through which every value of a file of RON is saved: what the grower wrote there of what
//! is not changed stays as it is written.

use super::text::kept::Holds;
use super::{FileGuard, Folder, FolderError, names, store};

impl Folder {
    /// Saves a value, that the program would write as `written`, in place of the one that the file of
    /// `guard` holds. Comments, order and units of what is not changed stay, and a value that the file
    /// had before, while the program ran, gets the very text that it had.
    ///
    /// # Errors
    /// As [`Folder::save`].
    pub fn save_value(
        &self,
        guard: &mut FileGuard,
        written: &str,
        holds: Holds,
    ) -> Result<(), FolderError> {
        let path = self.dir().join(&guard.name);
        self.writable(&path)?;
        let Some(loaded) = store::load(&path, names::most(&path))? else {
            return self.save(guard, written);
        };
        // OK because a file that is not as it was read is refused below: so is one that is no text.
        let old = String::from_utf8(loaded.bytes).unwrap_or_default();
        if guard.stamp.as_ref() != Some(&loaded.stamp) {
            return Err(FolderError::Changed(path));
        }
        let next = guard.past.next(&old, written, holds);
        drop(old);
        let saved = self.save(guard, &next.text);
        if matches!(saved, Ok(()) | Err(FolderError::Unconfirmed(..))) {
            guard.past.saved(next);
        }
        saved
    }
}
