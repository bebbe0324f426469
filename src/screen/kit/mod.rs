//! What every page is made of: areas, text, parts with their heads, tables, a cursor over a list
//! and a line to type in. A page is then its state, its messages and what is its own.

pub(super) mod area;
pub(super) mod chart;
pub(super) mod columns;
pub(super) mod cursor;
pub(super) mod digits;
pub(super) mod line;
pub(super) mod part;
pub(super) mod side_by_side;
pub(super) mod strip;
pub(super) mod table;
pub mod text;
