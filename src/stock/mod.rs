//! The stock book: tubers from lifting to sale, and what is left.
//!
//! Pure: entries in, sums and sentences out. The book is a list of [`Entry`]s that only grows
//! ([`crate::book`] says which count after corrections and withdrawals); [`Stock`] adds them up.
//!
//! **What the sums mean.** Entries are taken by date, those of one day in the order in which they were
//! made; what one entry tells, in the order of this list. All is of one plant and one year of lifting.
//!
//! - *lifted*: so many clumps; no tubers yet.
//! - *divided*: so many tubers with an eye came into being. They lie where they were divided.
//! - *cuttings*: so many rooted cuttings came into being, in pots.
//! - *stored*: so many tubers are in store at this place from now on: first those divided there, then
//!   those divided at no place, and what is more than these came from elsewhere (bought, or not
//!   counted before). So tubers divided and then stored count once.
//! - *lost*, *given*, *sold*: so many are gone; tubers go before pots.
//! - *potted*: so many tubers are in pots from now on, at the same place.
//! - *planted*: so many are gone into a bed; pots go before tubers.
//! - *promised*: so many are somebody's and still here, until as many are sold or given to the same
//!   name.
//! - *sound*: so many tubers are left at this place, or in all places where none is named; what is
//!   missing was lost.
//! - *keep*: so many are kept back for the grower's own beds, the last word counts. *price*: what each of
//!   those sold in the same entry brought; in an entry without a sale, what is asked from now on.
//!
//! What is told without a place comes from what lies at no place first, then from the places in the
//! order of their names. *In store* are tubers, divided or stored; *here* are these and what is in pots;
//! *free to sell* is what is here less what is promised and kept back, and none where that is less than
//! none. No number falls below 0: an entry that would make one do so is refused; where a file has one, it
//! is told with its line and takes what there is.
//!
//! **Losses in store** ([`losses`]) are counted of liftings that have come through the winter: of the tubers
//! that were lost, or were still there or left the store in the new year, those lost. What was sold or
//! given before the new year says nothing of the winter, and a lifting of which nothing was counted or
//! taken in the new year does not yet.

pub mod account;
mod check;
mod entry;
mod hoard;
mod increase;
mod lifting;
pub mod losses;
pub mod read;
pub mod sheet;
mod sums;
mod told;

pub use check::StockContext;
pub use entry::{Entry, Event, What, lifting_of};
pub use hoard::{Hoard, Pile};
pub use increase::{Divisions, Increase, Sell};
pub use lifting::{Fault, Lifting, Promise};
pub use losses::{Losses, StoreLoss};
pub use sums::{ForSale, KnownStore, Stock};
