//! What a plan is read against.

use crate::order::ListContext;
use crate::screen::choose_page::Stock;
use crate::variety::{Index, Varieties, Variety};

/// What the plan is read against: the list with what the trial row saw of it, and its columns.
#[derive(Debug, Clone)]
pub(super) struct Ground {
    pub(super) stock: Stock,
    pub(super) index: Index,
}

impl Ground {
    pub(super) fn against(&self) -> ListContext<'_> {
        ListContext {
            list: &self.stock.list,
            index: &self.index,
            grounds: self.stock.grounds(),
            sure: self.stock.sure,
        }
    }

    /// Whether it was made of this list: what the trial row saw does not change what is compared.
    pub(super) fn based_on(&self, list: &Varieties) -> bool {
        let own = self.stock.list.list();
        let same = |(one, other): (&Variety, &Variety)| {
            one.on_hand == other.on_hand && one.shortlist.is_some() == other.shortlist.is_some()
        };
        own.len() == list.len() && own.iter().zip(list.list()).all(same)
    }

    pub(super) fn list(&self) -> &Varieties {
        &self.stock.list
    }

    pub(super) fn stock(&self) -> &Stock {
        &self.stock
    }
}
