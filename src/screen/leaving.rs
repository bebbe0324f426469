//! Leaving the screen: not at once where something would be lost by it.

use super::effect::Effect;
use super::own::OwnSlip;
use super::{App, Page};

impl App {
    /// Leaves; at the first asking not with a change that is not saved, or a slip that is not.
    pub(super) fn quit(&mut self) -> Option<Effect> {
        let losing = (!self.warned).then(|| self.page_that_loses()).flatten();
        let Some(page) = losing else {
            return Some(Effect::Quit);
        };
        self.warned = true;
        self.sheet = None;
        self.go_to(page);
        match page {
            Page::Choose if self.choose.is_unsaved() => self.choose.warn(),
            Page::Order if self.order.is_unsaved() => self.order.warn(),
            _ => {}
        }
        None
    }

    /// The page on which something would be lost if the program ended now; a slip says so itself.
    fn page_that_loses(&mut self) -> Option<Page> {
        let own = self.slip.as_mut().is_some_and(OwnSlip::warn);
        let losing = [
            (self.page, own),
            (Page::Choose, self.choose.warn_of_slip()),
            (Page::Row, self.row.warn_of_slip()),
            (Page::Order, self.order.warn_of_slip()),
            (Page::Choose, self.choose.is_unsaved()),
            (Page::Order, self.order.is_unsaved()),
        ];
        let first = losing.into_iter().find(|(_, loses)| *loses);
        first.map(|(page, _)| page)
    }
}
