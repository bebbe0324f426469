//! The season as it goes: what was cut so far against what was planned, and what that says of the rest.
//!
//! [`going`] holds the counts of the row against the plan, day for day. [`SoFar`] is what they say of the
//! yields: the head of `posterior` has the method. [`chances_left`] draws the rest of the season by
//! it, and [`free_to_sell`] shares out what is then expected. [`SeasonSoFar`] is all of it.

mod all;
mod chances;
mod free;
mod going;
mod posterior;
mod prior;
mod yields;

pub use all::SeasonSoFar;
pub use chances::{Left, chances_left};
pub use free::{Free, free_to_sell};
pub use going::{Counted, Cut, Going, WeekGone, going};
pub use posterior::{Own, SoFar};
pub use prior::{Log, Prior};
