//! A variety on a slip, and what is kept beside it while it is open.

use crate::screen::filling::Filling;
use crate::variety::exchange::OwnWords;
use crate::variety::{Draft, NamesKnown};

/// A variety that is filled in.
#[derive(Debug, Clone)]
pub(super) struct Slip {
    pub(super) filling: Filling<Draft>,
    /// Its row; `None` of a new one.
    pub(super) row: Option<usize>,
    /// Where a new one comes to stand.
    pub(super) at: usize,
    pub(super) known: NamesKnown,
    pub(super) own: OwnWords,
}

/// What a change of a name or a drop is told of first: who goes by the name, as a sentence.
pub(in crate::screen) type Named<'a> = &'a dyn Fn(&str) -> Option<String>;
