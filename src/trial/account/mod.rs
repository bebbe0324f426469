//! Accounts of the row: a plant in full, the row as a table, the row as a whole. Each is said once,
//! and drawn by the command and on the screen alike.
//!
//! What the grower decided is told as done, `kept`; what the gate advises as what might be, `keep`,
//! and with a question mark where it stands in the place of a decision. Programs get `keep`.

mod data;
mod plant;
mod table;

pub(super) use data::would_stay;
pub use data::{share, vase};
pub use plant::Fits;
pub use table::row_table;

use super::evidence::Evidence;
use super::gate::Advice;
use super::taken::Taken;
use crate::form::Keyer;
use crate::measure::SizeUnits;
use crate::variety::FormNote;

/// A plant as it stands: what its entries add up to, and what the gate makes of that.
#[derive(Debug, Clone, Copy)]
pub struct Plant<'a> {
    /// What its entries add up to.
    pub evidence: &'a Evidence,
    /// What the gate advises.
    pub advice: &'a Advice,
    /// The form that the grower's list has for it.
    pub listed: Option<&'a FormNote>,
}

/// What a plant's account is told by.
#[derive(Debug, Clone, Copy)]
pub struct Wording<'a> {
    /// The rules that its blooms are keyed under.
    pub keyer: &'a Keyer,
    /// The least share of a form that is settled.
    pub credence: f64,
    /// The units of lengths.
    pub units: SizeUnits,
}

impl<'a> Plant<'a> {
    /// The form that it is taken to have.
    pub fn taken(&self, by: &Wording<'_>) -> Option<Taken<'a>> {
        self.evidence.taken(by.keyer, self.listed, by.credence)
    }

    /// What was decided, as done; `open` where nothing was.
    pub fn decided(&self) -> &'static str {
        let decision = self.evidence.decision.as_ref();
        decision.map_or("open", |(_, decision)| decision.fate.done())
    }
}
