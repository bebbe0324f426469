//! What of the row goes by a variety's name: its entries, and the seedlings that came of it.

use super::{Parent, Subject, Trial};
use crate::variety::folded;

impl Trial {
    /// What goes by this name, case and accents apart, as clauses: `3 entries of the trial row`,
    /// The subject that a variety is in the row, by its name there; `None` where nothing stands of it.
    pub fn variety_on_trial(&self, name: &str) -> Option<Subject> {
        let wanted = folded(name);
        let is_it = |subject: &Subject| match subject {
            Subject::Variety(name) => folded(name) == wanted,
            Subject::Seedling(_) => false,
        };
        self.subjects().into_iter().find(is_it)
    }

    /// `the parents of 26-001 and 26-004`. Another name does not reach them: entries are never
    /// written again.
    pub fn naming(&self, name: &str) -> Vec<String> {
        let wanted = folded(name);
        let is_it = |subject: &Subject| match subject {
            Subject::Variety(name) => folded(name) == wanted,
            Subject::Seedling(_) => false,
        };
        let mut told = Vec::new();
        match self
            .entries()
            .iter()
            .filter(|entry| is_it(&entry.of))
            .count()
        {
            0 => {}
            1 => told.push("one entry of the trial row".to_string()),
            entries => told.push(format!("{entries} entries of the trial row")),
        }
        told.extend(self.parents_naming(is_it));
        told
    }

    /// `the parents of 26-001 and 26-004`, of the seedlings with such a parent.
    pub(super) fn parents_naming(&self, is_it: impl Fn(&Subject) -> bool) -> Option<String> {
        let named = |parent: &Parent| parent.named().is_some_and(&is_it);
        let of = self.seedlings().iter();
        let of = of.filter(|one| named(&one.seed_parent) || named(&one.pollen_parent));
        let of: Vec<String> = of.map(|one| one.number.to_string()).collect();
        match &of[..] {
            [] => None,
            [one] => Some(format!("a parent of {one}")),
            [one, other] => Some(format!("the parents of {one} and {other}")),
            [one, .., last] => Some(format!(
                "the parents of {} seedlings from {one} to {last}",
                of.len()
            )),
        }
    }
}
