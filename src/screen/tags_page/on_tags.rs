//! What tags say beside what was observed, as the Tags page has it.

use crate::tag::{Practice, Selling};
use crate::variety::NamingRules;

/// What every tag says, how names are written, and what the seller adds.
#[derive(Debug, Clone)]
pub(in crate::screen) struct OnTags {
    pub(in crate::screen) practice: Practice,
    pub(in crate::screen) naming: NamingRules,
    pub(in crate::screen) selling: Selling,
}
