//! The bloom of the variety under the cursor, in its colours.

use ratatui::layout::Rect;

use super::ChoosePage;
use super::view::Parts;
use crate::draw::View;
use crate::screen::bloom::{SMALL, Sitter};
use crate::screen::easel::Easel;
use crate::screen::kit::area;
use crate::variety::Variety;

impl ChoosePage {
    /// Draws what the page shows in this area: once for each change of it.
    pub(in crate::screen) fn portray(&mut self, area: Rect, easel: &mut Easel) {
        let said = self.said(area::of_words(area)).len();
        let room = Parts::of(area, said, self.is_picking()).bloom.height > 0;
        let sitter = self.chosen().filter(|_| room);
        let sitter = sitter.and_then(|variety| self.sitter(variety));
        self.portraits.show_one(sitter, View::Face, SMALL, easel);
    }

    /// Draws what the sheet on the variety shows.
    pub(in crate::screen) fn portray_in_full(&mut self, easel: &mut Easel) {
        let sitter = self.chosen().and_then(|variety| self.sitter(variety));
        self.portraits.show(sitter, SMALL, easel);
    }

    fn sitter(&self, variety: &Variety) -> Option<Sitter> {
        Sitter::of(variety, None, &self.stock.rules, &self.stock.words)
    }
}
