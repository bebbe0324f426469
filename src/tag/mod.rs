//! What is printed to go with a plant, and from the same drawings: tags, the chart of forms, the
//! field key on one folded page, the look-book of a shortlist.
//!
//! [`ClaimSources::of`] says what the evidence holds of a subject ([`Says`]); `label` puts that on one
//! label, or says why it cannot; `sheet` puts labels on pages. What a tag looks like is data,
//! `assets/tags.ron` ([`Stock`]). [`Sale`] is what the stock book has for a buyer. Everything is placed by `paper`, which alone makes PDF and SVG.

mod about;
mod bloom;
mod book;
mod chart;
mod code;
mod copies;
mod cores;
mod flow;
mod folded;
mod label;
mod list;
mod per_plant;
mod pictured;
mod poster;
mod question;
mod sale;
mod says;
mod scale;
mod selling;
mod sheet;
mod stock;
mod worked;

pub use about::About;
pub use book::book;
pub use chart::chart;
pub use copies::{Copies, Placing, Run, labels_in};
pub use folded::folded;
pub use label::{Label, Printer, Refused};
pub use list::{table, text};
pub use per_plant::PerPlant;
pub use poster::PosterError;
pub use sale::{Offer, Sale, SaleOrder};
pub use says::{ClaimSources, Fact, Says};
pub use selling::Selling;
pub use sheet::{pages, read_offset, test_page};
pub use stock::{Body, Kind, LabelSheet, Practice, Small, Stock, Title};
