//! The row as a whole: sown, kept, and what became of each parent's seedlings.

use super::RowPage;
use crate::screen::text::{Row, paragraph};
use crate::screen::theme::Role;

impl RowPage {
    /// The row as a whole, for the sheet.
    pub fn whole(&self, columns: usize) -> Vec<Row> {
        let mut rows = Vec::new();
        for (heading, lines) in self.plot.trial.whole().told() {
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
