//! How a check is made: of its gate, how it came out, and the words.

use super::{Check, Gate, State};

pub(super) fn check(gate: Gate, state: State, told: String) -> Check {
    Check { gate, state, told }
}

/// A check of how many there are.
pub(super) fn enough(
    gate: Gate,
    found: usize,
    least: usize,
    instruction: impl Fn(usize) -> String,
    met: impl Fn(usize) -> String,
) -> Check {
    if found >= least {
        return check(gate, State::Met, met(found));
    }
    let told = format!("{}: {found} of {least}", instruction(least - found));
    check(gate, State::Missing, told)
}
