//! Texts as growers write them, and the same after a change.

mod drawn;
mod garden;
mod hand;
mod lists;
mod plans;
