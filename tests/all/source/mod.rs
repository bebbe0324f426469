//! What holds for the sources themselves: who may use whom, that nothing goes round, where a number is
//! from, and that the README is true.

mod assets;
mod circles;
mod layers;
#[cfg(unix)]
mod pictures;
#[cfg(unix)]
mod readme;
mod sources;
