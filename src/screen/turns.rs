//! Undo across pages: each page keeps its own changes, and here stands in which order the pages made
//! them. What was changed last is taken back first, wherever that was, and its page is opened.

use super::choose_page::ChooseMessage;
use super::order_page::OrderMessage;
use super::row_page::RowMessage;
use super::{App, Effect, Page};

/// The pages in the order of their changes, and of those that were taken back.
#[derive(Debug, Clone, Default)]
pub(super) struct Turns {
    past: Vec<Page>,
    future: Vec<Page>,
}

/// How many changes of a page can be undone, and how many done again.
pub(super) type Depth = (usize, usize);

/// The pages that keep records.
const KEEPERS: [Page; 3] = [Page::Choose, Page::Row, Page::Order];

impl Turns {
    /// Takes in what a message did to the changes of a page.
    fn follow(&mut self, page: Page, before: Depth, after: Depth) {
        let (made, again) = (after.0 > before.0, after.1 < before.1);
        if made && again && self.future.last() == Some(&page) {
            self.future.pop();
            self.past.push(page);
        } else if made {
            self.future.clear();
            self.past.push(page);
        } else if after.0 < before.0 {
            if let Some(at) = self.past.iter().rposition(|one| *one == page) {
                self.past.remove(at);
            }
            self.future.push(page);
        }
    }
}

impl App {
    /// How deep the changes of each page are that keeps records.
    pub(super) fn depths(&self) -> [Depth; KEEPERS.len()] {
        [self.choose.depth(), self.row.depth(), self.order.depth()]
    }

    /// Takes in what was changed since the pages were so deep.
    pub(super) fn follow_turns(&mut self, before: [Depth; KEEPERS.len()]) {
        let after = self.depths();
        for (page, (before, after)) in KEEPERS.into_iter().zip(before.into_iter().zip(after)) {
            self.turns.follow(page, before, after);
        }
    }

    /// Takes the last change back on the page where it was made.
    pub(super) fn undo(&mut self) -> Option<Effect> {
        match self.turns.past.last().copied().unwrap_or(self.page) {
            Page::Choose => {
                self.turn_to(Page::Choose);
                self.update_choose(ChooseMessage::Undo)
            }
            Page::Row => {
                self.turn_to(Page::Row);
                self.update_row(RowMessage::TakeBack)
            }
            Page::Order => {
                self.turn_to(Page::Order);
                self.order.update(OrderMessage::Undo)
            }
            Page::Key | Page::Tags => {
                self.say("There is no change to undo.");
                None
            }
        }
    }

    /// Does again what was taken back last, on the page where it was made.
    pub(super) fn redo(&mut self) -> Option<Effect> {
        match self.turns.future.last().copied().unwrap_or(self.page) {
            Page::Choose => {
                self.turn_to(Page::Choose);
                self.update_choose(ChooseMessage::Redo)
            }
            Page::Row => {
                self.turn_to(Page::Row);
                self.update_row(RowMessage::Redo)
            }
            Page::Order => {
                self.turn_to(Page::Order);
                self.order.update(OrderMessage::Redo)
            }
            Page::Key | Page::Tags => {
                self.say("There is nothing to do again.");
                None
            }
        }
    }

    fn turn_to(&mut self, page: Page) {
        if self.page != page {
            self.go_to(page);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use Page::{Choose, Order};

    #[test]
    fn the_last_change_is_the_first_to_be_undone_wherever_it_was_made() {
        let mut turns = Turns::default();
        turns.follow(Choose, (0, 0), (1, 0));
        turns.follow(Order, (0, 0), (1, 0));
        turns.follow(Choose, (1, 0), (2, 0));
        assert_eq!(turns.past, [Choose, Order, Choose]);
        turns.follow(Choose, (2, 0), (1, 1));
        turns.follow(Order, (1, 0), (0, 1));
        assert_eq!(
            (&turns.past[..], &turns.future[..]),
            (&[Choose][..], &[Choose, Order][..])
        );
        turns.follow(Order, (0, 1), (1, 0));
        assert_eq!(
            (&turns.past[..], &turns.future[..]),
            (&[Choose, Order][..], &[Choose][..])
        );
        // What is new ends what could be done again.
        turns.follow(Order, (1, 0), (2, 0));
        assert_eq!((turns.past.len(), turns.future.len()), (3, 0));
    }
}
