//! What holds for the sources themselves: who may use whom, that nothing goes round, and where a number is from.

mod assets;
mod circles;
mod layers;
mod sources;
