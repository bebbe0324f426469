//! A share that falls in steps, with its limits, of things of which some were not watched to their end.

mod cells;
mod page;

use super::points::Limit;
use super::scale::Scale;

/// The share of all that is left, from 1 downwards.
#[derive(Debug, Clone, PartialEq)]
pub struct Steps {
    /// What it shows.
    pub title: String,
    /// What it is from, and how it was worked out.
    pub notes: Vec<String>,
    /// What runs across, with its unit.
    pub across: String,
    /// What the share is of.
    pub up: String,
    /// Where it falls, rising.
    pub steps: Vec<Step>,
    /// How far each thing was watched, of those that ended and of those that did not.
    pub watched: Vec<f64>,
    /// Those of them that had not ended then.
    pub unended: Vec<f64>,
    /// Where it first is a half or less.
    pub half: Option<f64>,
    /// What was watched, for the row of how many there still are.
    pub things: &'static str,
    /// What a cross says.
    pub unended_words: &'static str,
    /// What the band says.
    pub limits_words: &'static str,
    /// How far half of them should at least come.
    pub wanted: Option<Limit>,
    /// All of it in words, for who cannot see it.
    pub shows: String,
}

/// A fall.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Step {
    /// Where it is.
    pub at: f64,
    /// The share after it, 0 to 1.
    pub share: f64,
    /// The limits of that share; `None` where there are none.
    pub limits: Option<(f64, f64)>,
}

impl Steps {
    /// How far anything was watched; `None` where nothing was.
    fn until(&self) -> Option<f64> {
        let steps = self.steps.iter().map(|step| step.at);
        let all = steps.chain(self.watched.iter().copied());
        let all = all.chain(self.unended.iter().copied());
        all.filter(|at| at.is_finite()).reduce(f64::max)
    }

    /// The scale across: in whole steps to one past the last that was watched, or past what is wanted.
    fn scale(&self, until: f64, steps: f64) -> Scale {
        let wanted = self.wanted.as_ref().map_or(0.0, |wanted| wanted.at);
        Scale::past(until.max(wanted), steps)
    }

    /// The share at a place, steps at it taken.
    fn share(&self, at: f64) -> f64 {
        let step = self.steps.iter().rev().find(|step| step.at <= at);
        step.map_or(1.0, |step| step.share)
    }

    /// How many were still watched up to a place.
    fn watched_to(&self, at: f64) -> usize {
        self.watched.iter().filter(|end| **end >= at).count()
    }
}
