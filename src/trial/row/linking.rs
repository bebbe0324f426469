//! How entries hang together: which one goes back to which, and which of them count.

use super::standing::{Link, Standing};
use super::{AddError, Trial};
use crate::trial::entry::{Entry, What};
use crate::trial::seedling::Subject;

impl Trial {
    /// Entries whose number may be named, by number.
    pub(super) fn numbered(&self) -> &[Entry] {
        &self.entries[self.past..self.root.len()]
    }

    pub(super) fn place(&self, id: u32) -> Option<usize> {
        let numbered = self.numbered();
        let at = numbered.partition_point(|entry| entry.id < id);
        numbered.get(at).filter(|entry| entry.id == id)?;
        Some(self.past + at)
    }

    pub(super) fn stands(&self, root: usize) -> Option<usize> {
        self.standing.get(&root).copied().unwrap_or(Some(root))
    }

    pub(super) fn seedling_is_unknown(&self, subject: &Subject) -> bool {
        matches!(subject, Subject::Seedling(number) if !self.by_number.contains_key(number))
    }

    /// Where the entry goes back to: its own place, or what it changes. Only entries of its own plant
    /// can be changed: evidence of one is never undone under the head of another.
    pub(super) fn root_for(&self, entry: &Entry) -> Result<usize, AddError> {
        let Some(named) = entry.corrects else {
            return match entry.what {
                What::Withdrawn => Err(AddError::WithdrawsNothing(entry.id)),
                What::Observed(_) | What::Decided(_) => Ok(self.root.len()),
            };
        };
        let withdraws = entry.what == What::Withdrawn;
        let nothing = AddError::NothingToChange { named, withdraws };
        let at = self.place(named).ok_or(nothing)?;
        let whose = &self.entries[at].of;
        if *whose != entry.of {
            return Err(AddError::OfAnother {
                named,
                whose: whose.clone(),
                own: entry.of.clone(),
            });
        }
        Ok(self.root[at])
    }

    /// Takes the first entry that is not linked yet in; what it changes is for [`Trial::settle`].
    pub(super) fn link(&mut self, root: usize) {
        let at = self.root.len();
        self.root.push(root);
        if root != at {
            self.changes.entry(root).or_default().push(at);
            return;
        }
        let of = &self.entries[at].of;
        match self.by_subject.get_mut(of) {
            Some(roots) => roots.push(at),
            None => {
                self.by_subject.insert(of.clone(), vec![at]);
            }
        }
    }

    /// Decides anew which entries count, of those that go back to one.
    pub(super) fn settle(&mut self, root: usize) {
        let changes = self.changes.get(&root).into_iter().flatten();
        let link = |at: usize| {
            let entry = &self.entries[at];
            Link {
                at,
                names: entry
                    .corrects
                    .filter(|_| at != root)
                    .and_then(|id| self.place(id)),
                withdraws: entry.what == What::Withdrawn,
            }
        };
        let chain: Vec<Link> = std::iter::once(root)
            .chain(changes.copied())
            .map(link)
            .collect();
        let standing = Standing::of(&chain);
        for link in chain {
            self.ended.remove(&link.at);
        }
        self.ended.extend(standing.ended);
        self.standing.insert(root, standing.stands);
    }
}
