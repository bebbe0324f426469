//! Only regular files are read, whole and no larger than they may be: a pipe, a terminal or a device
//! that never ends is refused at once.

use std::fs::{self, File, Metadata, OpenOptions};
use std::io::{self, Read};
use std::path::Path;

use super::system;

/// The bytes of the file at `path`, or at the end of a link, if they are at most `most`.
///
/// # Errors
/// What stands there instead, in words that [`system::in_words`] passes on.
pub(super) fn read(path: &Path, most: u64) -> io::Result<(Vec<u8>, Metadata)> {
    let (file, found) = open(path)?;
    // More than one byte too many is not looked at, and the length that is told may be false.
    let mut bytes = Vec::with_capacity(usize::try_from(found.len().min(most)).unwrap_or(0));
    file.take(most + 1).read_to_end(&mut bytes)?;
    match bytes.len() as u64 > most {
        true => Err(too_large(most)),
        false => Ok((bytes, found)),
    }
}

/// Opens the file at `path`, or at the end of a link, to read.
///
/// # Errors
/// As [`read`].
pub(super) fn open(path: &Path) -> io::Result<(File, Metadata)> {
    // Looked at before it is opened, for opening alone makes some devices act.
    check(&fs::metadata(path)?)?;
    let file = system::at_once(OpenOptions::new().read(true)).open(path)?;
    let found = file.metadata()?;
    check(&found)?;
    Ok((file, found))
}

/// Refuses what is no regular file.
pub(super) fn check(found: &Metadata) -> io::Result<()> {
    match (found.is_file(), found.is_dir()) {
        (true, _) => Ok(()),
        (_, true) => Err(io::ErrorKind::IsADirectory.into()),
        _ => Err(other(found)),
    }
}

/// Refuses a link where a file is to be made: it leads nowhere, and what it leads to would be made
/// there.
pub(super) fn refuse_link(path: &Path) -> io::Result<()> {
    match path.is_symlink() {
        true => Err(io::Error::other(
            "it is a link that leads nowhere, expected a file or nothing",
        )),
        false => Ok(()),
    }
}

/// Opens a file of the program's own to read and write, and makes it where there is none: never by a
/// link, and only one that is no other file's second name.
///
/// # Errors
/// What stands there instead, in words, as a clause: `it is a link, expected a file`.
pub(super) fn open_own(path: &Path) -> io::Result<File> {
    match open_own_there(path) {
        Err(error) if error.kind() == io::ErrorKind::NotFound => {
            match own().create_new(true).open(path) {
                // Another program made it in between.
                Err(error) if error.kind() == io::ErrorKind::AlreadyExists => open_own_there(path),
                made => made,
            }
        }
        found => found,
    }
}

/// The same of a file that is there; none is made.
///
/// # Errors
/// As [`open_own`].
pub(super) fn open_own_there(path: &Path) -> io::Result<File> {
    check(&fs::symlink_metadata(path)?)?;
    let file = own().open(path)?;
    let found = file.metadata()?;
    check(&found)?;
    match system::names(&found) {
        0 | 1 => Ok(file),
        names => Err(io::Error::other(format!(
            "it is one file with {names} names, expected one of its own"
        ))),
    }
}

fn own() -> OpenOptions {
    let mut options = OpenOptions::new();
    options.read(true).write(true);
    system::not_through_a_link(&mut options);
    options
}

fn other(found: &Metadata) -> io::Error {
    io::Error::other(format!("it is {}, expected a file", system::kind(found)))
}

fn too_large(most: u64) -> io::Error {
    let told = match most >> 20 {
        0 => format!("{most} bytes"),
        mib => format!("{mib} MiB"),
    };
    io::Error::other(format!(
        "it is larger than the {told} that such a file may have"
    ))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_file_is_read_up_to_the_size_it_may_have() {
        let dir = tempfile::tempdir().expect("a folder");
        let path = dir.path().join("list");
        fs::write(&path, "12345").expect("writes");
        assert_eq!(read(&path, 5).expect("reads").0, b"12345");
        let refused = read(&path, 4).expect_err("was read").to_string();
        assert_eq!(
            refused,
            "it is larger than the 4 bytes that such a file may have"
        );
    }

    #[test]
    #[cfg(unix)]
    fn what_never_ends_or_waits_is_refused_at_once() {
        let refused = read(Path::new("/dev/zero"), 10).expect_err("was read");
        assert_eq!(refused.to_string(), "it is a device, expected a file");
        let dir = tempfile::tempdir().expect("a folder");
        let socket = dir.path().join("socket");
        let _listener = std::os::unix::net::UnixListener::bind(&socket).expect("listens");
        let refused = read(&socket, 10).expect_err("was read");
        assert_eq!(refused.to_string(), "it is a socket, expected a file");
        let refused = read(dir.path(), 10).expect_err("was read");
        assert_eq!(
            system::in_words(&refused),
            "it is a folder, expected a file"
        );
    }
}
