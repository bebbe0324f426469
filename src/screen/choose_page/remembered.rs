//! The grower's own words for what tables say, as the page has them.

use crate::variety::exchange::OwnWords;

/// The grower's own words, as far as they could be read.
#[derive(Debug, Clone)]
pub(super) struct Remembered {
    /// Why they could not be read, as a sentence.
    pub(super) words: Result<OwnWords, String>,
    /// What was learnt is not on the disk yet.
    pub(super) unsaved: bool,
}

impl Default for Remembered {
    fn default() -> Remembered {
        Remembered {
            words: Ok(OwnWords::default()),
            unsaved: false,
        }
    }
}
