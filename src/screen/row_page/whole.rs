//! The row as a whole: sown, kept, and what became of each parent's seedlings.

use super::RowPage;
use crate::screen::kit::text::{Row, paragraph};
use crate::screen::theme::Role;
use crate::trial::Whole;

impl RowPage {
    /// Sums the row up as it stands: once, and not at each draw.
    pub fn sum_up(&mut self) {
        self.whole = Some(self.plot.trial.whole());
    }

    /// The row as a whole when it was last summed up, for the sheet.
    pub fn whole(&self, columns: usize) -> Vec<Row> {
        let mut rows = Vec::new();
        for section in self.whole.iter().flat_map(Whole::account) {
            // What was never sown or decided on has no line.
            if section.sentences().next().is_none() {
                continue;
            }
            if !rows.is_empty() {
                rows.push(Row::default());
            }
            rows.push(Row::of(&section.head, Role::Heading));
            for line in section.sentences() {
                rows.extend(paragraph(
                    ("  ", Role::Plain),
                    &line.text,
                    Role::Plain,
                    columns,
                ));
            }
        }
        rows
    }
}
