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
        let told = self.whole.as_ref().map(Whole::told).unwrap_or_default();
        for (heading, lines) in told {
            if !rows.is_empty() {
                rows.push(Row::default());
            }
            rows.push(Row::of(heading, Role::Heading));
            for line in lines {
                rows.extend(paragraph(("  ", Role::Plain), &line, Role::Plain, columns));
            }
        }
        rows
    }
}
