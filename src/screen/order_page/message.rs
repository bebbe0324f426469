//! What can happen on the Order page.

use super::{Kind, Side};

/// A message of the Order page.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum OrderMessage {
    /// To the other half, or to one.
    Side(Side),
    /// Begin to change what is under the cursor.
    Change,
    /// The same with a digit typed.
    Digit(char),
    /// Change it by a step.
    Step(i32),
    /// Begin an order where there is none.
    Begin,
    /// Add what the cursor is at, or a need.
    Add,
    /// Add one of this kind.
    AddKind(Kind),
    /// Open the slip of what is under the cursor.
    Slip,
    /// Copy it.
    Copy,
    /// Fix the tubers of any variety.
    Fix,
    /// Take the need away, or let the quantity be chosen again.
    Remove,
    /// Show the needs of the event or the round, or fold them under its name.
    Fold,
    /// Buy only what is on the shortlist, or anything.
    Shortlist,
    /// Ask what would mend it.
    Mend,
    /// Ask what doing without the variety would cost.
    Without,
    /// Settle for a usual season, or again as sure as asked.
    Aim,
    /// Ask what surer costs: of every need, or of the one under the cursor alone.
    Surer {
        /// Whether of the one alone.
        alone: bool,
    },
    /// Solve again.
    Solve,
    /// Stop solving.
    Stop,
    /// A search has looked at so many nodes.
    Looked(usize),
    /// Undo the last change of the plan.
    Undo,
    /// Redo it.
    Redo,
    /// Give the line.
    Give,
    /// Drop the line.
    Drop,
}
