//! What holds for the sources themselves: who may use whom, where a number is from, and that the
//! README is true.

mod assets;
mod layers;
#[cfg(unix)]
mod readme;
