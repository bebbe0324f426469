//! Undo across pages: what was changed last is taken back first, wherever that was, and its page is
//! opened, which names what was taken back.

use super::choose_page::ChooseMessage;
use super::order_page::OrderMessage;
use super::row_page::RowMessage;
use super::stock_page::StockMessage;
use super::turns::{Depth, KEEPERS};
use super::{App, Effect, Page};

impl App {
    /// How deep the changes of each page are that keeps records.
    pub(super) fn depths(&self) -> [Depth; KEEPERS.len()] {
        [
            self.choose.depth(),
            self.row.depth(),
            self.order.depth(),
            self.stock.depth(),
        ]
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
            Page::Stock => {
                self.turn_to(Page::Stock);
                self.update_stock(StockMessage::TakeBack)
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
            Page::Stock => {
                self.turn_to(Page::Stock);
                self.update_stock(StockMessage::Redo)
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
