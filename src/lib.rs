//! The library behind the `trug` binary: a pure middle and a thin edge.
//!
//! `DEVELOPERS.md` has the map; `tests/all/source/layers.rs` holds the arrows between the modules.

pub mod account;
pub mod book;
pub mod chart;
pub mod colour;
pub mod command;
pub mod cores;
pub mod draw;
pub mod folder;
pub mod form;
pub mod geometry;
pub mod history;
pub mod life;
pub mod matching;
pub mod measure;
pub mod order;
pub mod paper;
pub mod problem;
pub mod record;
pub mod screen;
pub mod settings;
pub mod stock;
pub mod table;
pub mod tag;
pub mod trial;
pub mod variety;
