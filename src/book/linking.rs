//! How entries hang together: which one goes back to which, and which of them count.

use super::standing::{Link, Standing};
use super::{AddError, Book, Entry};

impl<E: Entry> Book<E> {
    /// Entries whose number may be named, by number.
    pub(super) fn numbered(&self) -> &[E] {
        &self.entries[self.past..self.root.len()]
    }

    pub(super) fn place(&self, id: u32) -> Option<usize> {
        let numbered = self.numbered();
        let at = numbered.partition_point(|entry| entry.id() < id);
        numbered.get(at).filter(|entry| entry.id() == id)?;
        Some(self.past + at)
    }

    pub(super) fn stands(&self, root: usize) -> Option<usize> {
        self.standing.get(&root).copied().unwrap_or(Some(root))
    }

    /// Where the entry goes back to: its own place, or what it changes. Only entries of its own plant
    /// can be changed: what is known of one is never undone under the head of another.
    pub(super) fn root_for(&self, entry: &E) -> Result<usize, AddError<E::Of>> {
        let withdraws = entry.withdraws();
        let Some(named) = entry.corrects() else {
            return match withdraws {
                true => Err(AddError::WithdrawsNothing(entry.id())),
                false => Ok(self.root.len()),
            };
        };
        let nothing = AddError::NothingToChange { named, withdraws };
        let at = self.place(named).ok_or(nothing)?;
        let whose = self.entries[at].of();
        if whose != entry.of() {
            return Err(AddError::OfAnother {
                named,
                whose: whose.clone(),
                own: entry.of().clone(),
                listed_by: E::LISTED_BY,
            });
        }
        Ok(self.root[at])
    }

    /// Takes the first entry that is not linked yet in; what it changes is for [`Book::settle`].
    pub(super) fn link(&mut self, root: usize) {
        let at = self.root.len();
        self.root.push(root);
        if root != at {
            self.changes.entry(root).or_default().push(at);
            return;
        }
        let of = self.entries[at].of();
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
                    .corrects()
                    .filter(|_| at != root)
                    .and_then(|id| self.place(id)),
                withdraws: entry.withdraws(),
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
