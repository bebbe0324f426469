//! What holds for the sources themselves: who may use whom, and where a number is from.

mod assets;
mod layers;
