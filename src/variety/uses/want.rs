//! What a use may want of a variety.

use std::collections::BTreeMap;

use serde::Deserialize;

/// A number of a variety that a use may want. The order is that of the arrays indexed by it.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Deserialize)]
#[serde(rename_all = "lowercase")]
pub enum Quantity {
    /// Across the face of the bloom, mm.
    Diameter,
    /// Length of a cut stem, cm.
    Stem,
    /// Days in the vase.
    Vase,
    /// Share (0 to 1) of open blooms that come through wind and rain.
    Stands,
    /// Height of the plant, cm.
    Height,
}

impl Quantity {
    /// Every quantity, in order.
    pub(in crate::variety) const ALL: [Quantity; 5] = [
        Quantity::Diameter,
        Quantity::Stem,
        Quantity::Vase,
        Quantity::Stands,
        Quantity::Height,
    ];
}

/// One want of a use.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::variety) struct Want {
    /// Over 0.
    pub(in crate::variety) weight: f64,
    pub(in crate::variety) of: Wanted,
}

/// What is wanted, each as a share from 0 to 1.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::variety) enum Wanted {
    /// By the form's id.
    Form(Likes),
    /// By the state of the centre.
    Centre(Likes),
    /// By a number.
    Number(Quantity, Curve),
}

/// A share for each word, and one for every other.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::variety) struct Likes {
    pub(in crate::variety) named: BTreeMap<String, f64>,
    pub(in crate::variety) others: f64,
}

/// Straight lines between points, level outside them. At least one point, x rising.
#[derive(Debug, Clone, PartialEq)]
pub(in crate::variety) struct Curve(pub(super) Vec<(f64, f64)>);

/// What a form leads one to expect.
#[derive(Debug, Clone, PartialEq, Default)]
pub(in crate::variety) struct Expected {
    pub(in crate::variety) centre: Option<String>,
    pub(in crate::variety) numbers: [Option<f64>; 5],
}

impl Likes {
    /// The share of `word`.
    pub(in crate::variety) fn of(&self, word: &str) -> f64 {
        self.named.get(word).copied().unwrap_or(self.others)
    }
}

impl Curve {
    /// The share at `x`.
    pub(in crate::variety) fn at(&self, x: f64) -> f64 {
        let after = self.0.partition_point(|point| point.0 < x);
        match (after.checked_sub(1).map(|at| self.0[at]), self.0.get(after)) {
            (Some((x0, y0)), Some((x1, y1))) => y0 + (y1 - y0) * (x - x0) / (x1 - x0),
            (Some((_, y)), None) | (None, Some(&(_, y))) => y,
            // OK because a curve has a point.
            (None, None) => 0.0,
        }
    }
}

impl Wanted {
    /// What is wanted, as it is spoken of: `nothing is known of its size`.
    pub(in crate::variety) fn noun(&self) -> &'static str {
        match self {
            Wanted::Form(_) => "its form",
            Wanted::Centre(_) => "its centre",
            Wanted::Number(Quantity::Diameter, _) => "its size",
            Wanted::Number(Quantity::Stem, _) => "its cut stem",
            Wanted::Number(Quantity::Vase, _) => "its life in the vase",
            Wanted::Number(Quantity::Stands, _) => "it in wind and rain",
            Wanted::Number(Quantity::Height, _) => "its height",
        }
    }
}
