//! What the system says where a file cannot be had.

use std::io;

/// What the system said, in the grower's words for what commonly happens.
pub(in super::super) fn in_words(error: &io::Error) -> String {
    use io::ErrorKind as Kind;
    let words = match error.kind() {
        Kind::StorageFull => "the disk is full",
        Kind::QuotaExceeded => "this user's share of the disk is used up",
        Kind::FileTooLarge => "the file would be larger than is allowed here",
        Kind::PermissionDenied => "this user may not do that there",
        Kind::ReadOnlyFilesystem => "the disk is read-only",
        Kind::NotFound => "it is not there",
        Kind::IsADirectory => "it is a folder, expected a file",
        Kind::NotADirectory => "it is a file, expected a folder",
        _ => return error.to_string(),
    };
    words.to_string()
}
