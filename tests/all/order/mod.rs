//! Orders: the demo's, drawn ones, and the search against every order there is.

mod aside;
mod demo;
mod meaning;
mod padding;
mod places;
mod season;
mod short;
mod so_far;
mod solver;
mod sure;
mod sure_tiny;
mod why;
