//! Two to four varieties side by side.

use super::ChoosePage;
use crate::screen::kit::side_by_side::{LEAD, field};
use crate::screen::kit::text::Row;
use crate::screen::theme::Role;
use crate::variety::compare;

impl ChoosePage {
    /// What is compared, field by field; where the values differ the field is marked.
    pub(super) fn side_by_side(&self, columns: usize) -> Vec<Row> {
        let picked = self.to_compare();
        let varieties: Vec<_> = picked.iter().map(|row| self.known(*row)).collect();
        let each = columns.saturating_sub(LEAD) / varieties.len().max(1);
        let mut rows = vec![Row::of("* differs, ? unknown", Role::Quiet)];
        let names: Vec<String> = varieties.iter().map(|one| one.name.to_string()).collect();
        rows.extend(field(("", false), &names, each, Role::Heading));
        let (grounds, units) = (self.stock.grounds(), self.stock.units);
        for line in compare(&varieties, grounds, self.middles(), units) {
            let shown = |value: &Option<String>| value.clone().unwrap_or_else(|| "?".to_string());
            let values: Vec<String> = line.values.iter().map(shown).collect();
            let role = if line.differs {
                Role::Strong
            } else {
                Role::Plain
            };
            rows.extend(field((&line.field, line.differs), &values, each, role));
        }
        rows
    }
}
