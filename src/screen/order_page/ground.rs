//! What a plan is read against.

use std::cell::OnceCell;

use crate::order::{Lasting, ListContext, Plan};
use crate::problem::Wrong;
use crate::screen::choose_page::Stock;
use crate::variety::{Index, Varieties, Variety};

/// What the plan is read against: the list with what the trial row saw of it, and its columns.
#[derive(Debug, Clone)]
pub(super) struct Ground {
    pub(super) stock: Stock,
    pub(super) index: Index,
    /// How long flowers last, by use: looked up where there are events or rounds.
    pub(super) lasting: OnceCell<Lasting>,
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

    /// A plan with the needs that its events and rounds come to.
    ///
    /// # Errors
    /// What of them cannot be.
    pub(super) fn whole(&self, plan: &Plan) -> Result<Plan, Vec<Wrong>> {
        let lasting = || self.lasting.get_or_init(|| Lasting::of(self.against()));
        plan.whole(&self.stock.pieces, &|id| lasting().days(id))
    }

    /// Whether it was made of this list: what the trial row saw does not change what is compared.
    pub(super) fn based_on(&self, list: &Varieties) -> bool {
        let own = self.stock.list.list();
        let same = |(one, other): (&Variety, &Variety)| {
            let of_book = one.store.is_some_and(|store| store.counted.is_some());
            (of_book || one.on_hand == other.on_hand)
                && one.shortlist.is_some() == other.shortlist.is_some()
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
