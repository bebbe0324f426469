//! Seedlings on a slip.

use crate::screen::filling::Filling;
use crate::trial::{Number, Sowing};

/// Seedlings that are filled in.
#[derive(Debug, Clone)]
pub(super) struct Slip {
    pub(super) filling: Filling<Sowing>,
    /// The one that is changed; `None` of new ones.
    pub(super) changed: Option<Number>,
}
