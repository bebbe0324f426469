//! Files that only grow are opened here: the book of entries, and what is set aside of it.

use std::fs::{self, File, Metadata, OpenOptions};
use std::io::{self, Seek, SeekFrom};
use std::path::Path;

use super::{names, regular, system};

/// Opens a book to add to its end, and answers whether it was made just now.
///
/// A link in its place is followed, for a grower may keep the file itself elsewhere; but nothing is
/// made where a link leads nowhere, and a book that is another file of the folder, by a link or by a
/// second name, is refused.
///
/// # Errors
/// What stands there instead, in words.
pub(super) fn open(path: &Path) -> io::Result<(File, bool)> {
    let options = || {
        let mut options = OpenOptions::new();
        system::at_once(options.append(true));
        options
    };
    match fs::metadata(path) {
        Ok(found) => {
            regular::check(&found)?;
            let file = options().open(path)?;
            let found = file.metadata()?;
            regular::check(&found)?;
            match other_name(path, &found) {
                None => Ok((file, false)),
                Some(name) => Err(io::Error::other(format!(
                    "it is the same file as {name}, expected one of its own"
                ))),
            }
        }
        Err(error) if error.kind() == io::ErrorKind::NotFound => {
            regular::refuse_link(path)?;
            Ok((options().create_new(true).open(path)?, true))
        }
        Err(error) => Err(error),
    }
}

/// Opens the file for what is set aside, at its end. It is the program's own: no link, no other
/// file's second name.
///
/// # Errors
/// What stands there instead, in words, with the file's name.
pub(super) fn open_aside(path: &Path) -> io::Result<File> {
    let name = path.file_name().unwrap_or_default().to_string_lossy();
    let mut file = regular::open_own(path).map_err(|error| match error.kind() {
        io::ErrorKind::Other => io::Error::other(format!("{name}: {error}")),
        _ => error,
    })?;
    file.seek(SeekFrom::End(0))?;
    Ok(file)
}

/// The other file of the folder that this one is.
fn other_name(path: &Path, found: &Metadata) -> Option<&'static str> {
    let own = system::identity(found)?;
    let mut others = names::known().filter(|name| !path.ends_with(name));
    others.find(|name| {
        let other = fs::metadata(path.with_file_name(name));
        other.is_ok_and(|other| system::identity(&other) == Some(own))
    })
}
