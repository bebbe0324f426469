//! A distance that is measured only when it is needed.

/// A distance, 0 and more; or, as long as it was not measured, what it is never below.
#[derive(Debug, Clone, Copy)]
pub(super) struct Reading(
    /// A bound has a minus before it: lists have many of these, and each is one number.
    f64,
);

impl Reading {
    /// A measured distance.
    pub(super) fn of(distance: f64) -> Reading {
        Reading(distance.abs())
    }

    /// What a distance is never below.
    pub(super) fn bound(least: f64) -> Reading {
        Reading(-least.abs())
    }

    /// The distance, where it was measured.
    pub(super) fn distance(&self) -> Option<f64> {
        self.0.is_sign_positive().then_some(self.0)
    }

    /// What the distance is never below: itself, where it was measured.
    pub(super) fn least(&self) -> f64 {
        self.0.abs()
    }
}
