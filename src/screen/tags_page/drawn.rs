//! The drawing on the tag under the cursor.

use ratatui::layout::Rect;

use super::TagsPage;
use super::preview::Preview;
use crate::draw::{Paint, View};
use crate::screen::bloom::Sitter;
use crate::screen::easel::Easel;
use crate::tag::{Label, Says};

impl TagsPage {
    /// Draws what the page shows in this area: once for each change of it.
    pub(in crate::screen) fn portray(&mut self, area: Rect, easel: &mut Easel) {
        let columns = self.parts(area).tag.width;
        self.portray_in(columns.into(), easel);
    }

    /// Draws what the sheet shows in so many columns.
    pub(in crate::screen) fn portray_in_full(&mut self, columns: usize, easel: &mut Easel) {
        self.portray_in(columns, easel);
    }

    fn portray_in(&mut self, columns: usize, easel: &mut Easel) {
        let wanted = self.chosen_tag().and_then(|(says, label)| {
            let size = Preview::of(label, columns).drawing()?;
            Some((self.sitter(says)?, size))
        });
        match wanted {
            Some((sitter, size)) => {
                self.portraits
                    .show_one(Some(sitter), View::Face, size, easel);
            }
            None => self.portraits.clear(),
        }
    }

    /// What is said of the one under the cursor, and its label where it is not refused.
    pub(super) fn chosen_tag(&self) -> Option<(&Says, &Label)> {
        let subject = self.subject()?;
        let label = self.labels.get(subject)?.as_ref().ok()?;
        Some((self.said.get(subject)?, label))
    }

    /// The bloom as it is printed: black on white, or in its colours.
    fn sitter(&self, says: &Says) -> Option<Sitter> {
        Some(Sitter {
            named: String::new(),
            bloom: says.bloom?,
            paint: match self.coloured && !says.colours.is_empty() {
                true => Paint::of(&says.colours),
                false => Paint::unknown(),
            },
            asked: None,
        })
    }
}
