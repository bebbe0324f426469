//! A distance that is measured only when it is needed.

/// A distance, 0 and more, as far as it is known: it lies between two figures, which are one once it is measured.
#[derive(Debug, Clone, Copy)]
pub(super) struct Reading {
    least: f64,
    most: f64,
}

impl Reading {
    /// A measured distance.
    pub(super) fn of(distance: f64) -> Reading {
        Reading::between(distance, distance)
    }

    /// One that is not below the one and not above the other.
    pub(super) fn between(least: f64, most: f64) -> Reading {
        Reading { least, most }
    }

    /// The distance, where it was measured.
    pub(super) fn distance(&self) -> Option<f64> {
        (self.least == self.most).then_some(self.least)
    }

    /// Whether it is at most so far; `None` where it has to be measured.
    pub(super) fn is_within(&self, most: f64) -> Option<bool> {
        match (self.most <= most, self.least <= most) {
            (true, _) => Some(true),
            (_, false) => Some(false),
            (false, true) => None,
        }
    }

    /// What it is never below.
    pub(super) fn least(&self) -> f64 {
        self.least
    }

    /// What it is never above.
    pub(super) fn most(&self) -> f64 {
        self.most
    }
}
