//! Days in the vase, where stems were tested.

use super::Known;
use crate::trial::statistics::survival::Curve;

impl Known<'_> {
    /// The row's own test; where it has none, a tested figure of the record. What somebody states
    /// without a count of stems is no observation and is not said.
    pub(super) fn vase(&self) -> Option<String> {
        if let Some(curve) = &self.evidence.vase {
            return Some(told(curve));
        }
        let vase = self.record?.vase?;
        let stems = vase.stems?.get();
        let days = vase.days.get();
        Some(format!(
            "{days} days in the vase ({})",
            plural(stems as usize, "stem tested", "stems tested")
        ))
    }
}

fn told(curve: &Curve) -> String {
    let stems = plural(curve.stems, "stem", "stems");
    match curve.median {
        Some(median) => format!("{median} days in the vase (median of {stems})"),
        None => format!(
            "over {} days in the vase (over half of {stems} still fresh then)",
            curve.watched
        ),
    }
}

fn plural(count: usize, one: &str, many: &str) -> String {
    match count {
        1 => format!("1 {one}"),
        count => format!("{count} {many}"),
    }
}
