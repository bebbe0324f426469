//! The bloom under the answers so far, as the leading form has it.

use ratatui::layout::Rect;

use super::layout::BETWEEN;
use super::{Entry, KeyPage, browsing, forms};
use crate::draw::{Bloom, Paint, View, view_for};
use crate::screen::bloom::Sitter;
use crate::screen::easel::Easel;
use crate::screen::kit::text::Row;

impl KeyPage {
    /// Draws what the page shows in this area: once for each change of it.
    pub(in crate::screen) fn portray(&mut self, area: Rect, easel: &mut Easel) {
        if let Entry::Browse(at) = self.entry {
            let at = at.row(self.keyer().set.forms.len());
            let size = browsing::Parts::of(area).drawing;
            let sitter = Some(self.sitter(at, None));
            return self.portraits.show(sitter, size, easel);
        }
        let parts = self.parts(area);
        self.picture_answers(&parts, easel.theme());
        let leading = forms::ranked(self).first().map(|likely| likely.form);
        let (Some(size), Some(form)) = (parts.drawing_size(), leading) else {
            return self.portraits.clear();
        };
        let asked = self.asked().map(|index| self.trait_at(index).id.clone());
        let view = asked.as_deref().map_or(View::Face, view_for);
        let sitter = Some(self.sitter(form, asked));
        match parts.wide {
            true => self.portraits.show(sitter, size, easel),
            false => self.portraits.show_one(sitter, view, size, easel),
        }
    }

    /// A typical bloom of a form as the answers would have it. Its colours were not asked.
    fn sitter(&self, form: usize, asked: Option<String>) -> Sitter {
        Sitter {
            named: self.keyer().set.forms[form].name.clone(),
            bloom: Bloom::of_form(&self.keyer().set, form, &self.answers),
            paint: Paint::unknown(),
            asked,
        }
    }

    /// The drawings as rows; in a wide window under a head.
    pub(super) fn drawn(&self, wide: bool) -> Vec<Row> {
        let mut rows = Vec::new();
        if wide {
            rows.push(self.portraits.head("As it would look"));
        }
        rows.extend(self.portraits.across(BETWEEN.into()));
        rows
    }
}
