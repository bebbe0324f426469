//! A text changed, with the way back.

use std::hash::{BuildHasher, Hash, Hasher};
use std::sync::LazyLock;

use hashbrown::DefaultHashBuilder;

use super::splice::Splices;

/// Reads a text and gives what the program would write for the value in it; `None` where it holds none.
pub type Again = fn(&str) -> Option<String>;

/// A text changed.
#[derive(Debug)]
pub(super) struct Change {
    /// As it is.
    pub(super) text: String,
    /// What leads to it.
    pub(super) splices: Splices,
    /// Of what the program would have written for the value before.
    pub(super) before: Digest,
}

/// What tells one text from another: two hashes of it.
pub(super) type Digest = (u64, u64);

/// Of a text in parts.
pub(super) fn digest<'a>(parts: impl Iterator<Item = &'a str> + Clone) -> Digest {
    static HASHERS: LazyLock<[DefaultHashBuilder; 2]> = LazyLock::new(Default::default);
    let [first, second] = HASHERS.each_ref().map(|hasher| {
        let mut state = hasher.build_hasher();
        parts.clone().for_each(|part| part.hash(&mut state));
        state.finish()
    });
    (first, second)
}

/// What ends the lines of a text.
pub(super) fn newline(text: &str) -> &'static str {
    match text.find('\n') {
        Some(at) if text[..at].ends_with('\r') => "\r\n",
        _ => "\n",
    }
}
