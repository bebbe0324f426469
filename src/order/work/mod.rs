//! Work told as flowers: an event or a round is so many pieces of so many stems, on its days and in its
//! colours. What stems that takes in which weeks is worked out elsewhere ([`Plan::whole`](super::Plan::whole)).

mod bare;
mod from;
mod kinds;
mod piece;
mod told;
mod weekday;
mod words;
mod written;
mod wrong;

pub use from::FromWork;
pub use kinds::{Count, When, Work};
pub use piece::{Part, Piece, Pieces};
pub(super) use weekday::words as weekdays;
pub(super) use wrong::CUT_BEFORE;

#[cfg(test)]
mod tests;
