//! Two to four plants picked and set side by side: which of them lasts longer in the vase.

use super::RowPage;
use crate::screen::kit::side_by_side::{LEAD, field};
use crate::screen::kit::text::{Row, paragraph};
use crate::screen::theme::Role;
use crate::trial::{COMPARED, Evidence, Lasting, Subject, beside};

impl RowPage {
    /// Picks the plant under the cursor, or lets it go.
    pub(super) fn pick(&mut self) {
        let Some(subject) = self.subject() else {
            return;
        };
        match self.compared.iter().position(|one| *one == subject) {
            Some(at) => {
                self.compared.remove(at);
            }
            None if self.compared.len() == *COMPARED.end() => {
                self.say("Four are picked already: x on one of them lets it go.");
            }
            None => self.compared.push(subject),
        }
    }

    /// Whether there are two to four to compare, which are then compared; says what to do where there
    /// are not. Drawing many arrangements takes a while, so it is done once and not at each draw.
    pub fn can_compare(&mut self) -> bool {
        let can = COMPARED.contains(&self.compared.len());
        if can {
            self.lasting = Some(Lasting::of(&self.plot.trial, &self.picked()));
        } else {
            self.say("Pick two to four with x, then v says which lasts longer in the vase.");
        }
        can
    }

    fn picked(&self) -> Vec<&Evidence> {
        let all = || self.sums.iter().map(|sum| &sum.evidence);
        let of = |subject: &Subject| all().find(|one| one.subject == *subject);
        self.compared.iter().filter_map(of).collect()
    }

    /// What can be told of those picked, and their figures side by side, for the sheet.
    pub fn side_by_side(&self, columns: usize) -> Vec<Row> {
        let Some(lasting) = &self.lasting else {
            return Vec::new();
        };
        let mut rows = vec![Row::of("Which lasts longer in the vase", Role::Heading)];
        for line in lasting.sentences() {
            rows.extend(paragraph(("  ", Role::Plain), &line, Role::Plain, columns));
        }
        let picked = self.picked();
        let each = columns.saturating_sub(LEAD) / picked.len().max(1);
        let names = picked.iter().map(|one| one.subject.to_string());
        rows.push(Row::default());
        rows.extend(field(
            ("", false),
            &names.collect::<Vec<_>>(),
            each,
            Role::Heading,
        ));
        let listed = |subject: &Subject| self.form_listed(subject);
        for line in beside(&picked, listed, &self.plot.keyer, self.plot.units) {
            let shown = |value: &Option<String>| value.clone().unwrap_or_else(|| "?".to_string());
            let values: Vec<String> = line.values.iter().map(shown).collect();
            rows.extend(field((line.about, false), &values, each, Role::Plain));
        }
        rows
    }
}
