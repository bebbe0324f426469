//! What the solution in view promises.

use super::OrderPage;
use crate::order::report::promise_in_words;
use crate::order::{Promise, Promised};
use crate::screen::kit::text::{Row, lines};
use crate::screen::theme::Role;

impl OrderPage {
    /// What is promised of a need, or of an event as one.
    pub(super) fn promise(&self, of: Promised) -> Option<&Promise> {
        self.settled.as_ref()?.promise(of)
    }

    /// What is promised, in how many seasons; nothing where nothing is.
    pub(super) fn promise_detail(&self, of: Promised, what: &str, columns: usize) -> Vec<Row> {
        let Some(promise) = self.promise(of) else {
            return Vec::new();
        };
        let told = format!(
            "{what}: in {} of 100 seasons, {:.0} are asked ({}).",
            promise.in_hundred(),
            promise.sure * 100.0,
            promise_in_words(promise)
        );
        let role = match promise.is_met() {
            true => Role::Plain,
            false => Role::Doubt,
        };
        lines(&told, role, columns)
    }
}

/// What is promised of what is met in a usual season.
pub(super) fn as_promised(promise: &Promise) -> (String, Role) {
    match promise.is_met() {
        true => (format!("met {}", promise.told()), Role::Fits),
        false => (promise.told(), Role::Doubt),
    }
}
