//! What tests and benches share.

pub(crate) mod varieties;
