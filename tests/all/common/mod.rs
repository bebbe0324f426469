//! What several tests build on: invented lists and orders, folders to run `trug` in, rules read one by one.

#[cfg(unix)]
pub(crate) mod grower;
#[cfg(unix)]
pub(crate) mod lane;
pub(crate) mod order_lane;
pub(crate) mod orders;
pub(crate) mod plans;
pub(crate) mod policy;
pub(crate) mod printed;
pub(crate) mod rules_as_written;
pub(crate) mod shell;
pub(crate) mod shipped;
pub(crate) mod small_orders;
pub(crate) mod varieties;
