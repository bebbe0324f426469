//! The bloom of the plant under the cursor, by all that was seen of it.

use ratatui::layout::Rect;

use super::view::Parts;
use super::{RowPage, Sum};
use crate::screen::bloom::{SMALL, Sitter};
use crate::screen::easel::Easel;
use crate::screen::kit::area;
use crate::trial::Subject;
use crate::variety::Varieties;

impl RowPage {
    /// Draws what the page shows in this area: once for each change of it.
    pub(in crate::screen) fn portray(&mut self, area: Rect, list: &Varieties, easel: &mut Easel) {
        let said = self.said(area::of_words(area)).len();
        let room = Parts::of(area, said).bloom.height > 0;
        let sitter = self.chosen().filter(|_| room);
        let sitter = sitter.and_then(|sum| self.sitter(sum, list));
        self.portraits.show(sitter, SMALL, easel);
    }

    /// Draws what the sheet on the plant shows.
    pub(in crate::screen) fn portray_in_full(&mut self, list: &Varieties, easel: &mut Easel) {
        let sitter = self.chosen().and_then(|sum| self.sitter(sum, list));
        self.portraits.show(sitter, SMALL, easel);
    }

    /// The bloom as most looks have it, where none were taken as the list has it.
    fn sitter(&self, sum: &Sum, list: &Varieties) -> Option<Sitter> {
        let seen = &sum.evidence;
        let record = match &seen.subject {
            Subject::Variety(name) => list.find(name).map(|at| &list.list()[at]),
            Subject::Seedling(_) => None,
        };
        let credence = self.plot.release.least.credence;
        let variety = seen.as_variety(&self.plot.keyer, credence, record);
        let set = &self.plot.keyer.set;
        let leading = seen.form.leading().filter(|_| seen.form.days > 0);
        let looks = leading.map(|leading| (leading, &seen.form.standing));
        Sitter::of(&variety, looks, set, &self.plot.words)
    }
}
