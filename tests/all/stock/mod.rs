//! The stock book: what the order makes of it, and its sums and losses for the programs outside.

mod order;
mod prices;
mod sums;
