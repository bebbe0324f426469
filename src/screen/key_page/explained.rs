//! The words of the trade that stand in the question, in plain words.

use super::{Entry, KeyPage};
use crate::form::glossary::{Glossary, Term};
use crate::screen::kit::text::{Row, paragraph};
use crate::screen::theme::Role;

impl KeyPage {
    /// What the words mean: first those that the grower has before them, then all others.
    pub fn explained(&self, columns: usize) -> Vec<Row> {
        let glossary = Glossary::embedded();
        let (title, text) = self.read_now();
        let here = glossary.in_text(&text);
        let others: Vec<&Term> = glossary
            .list()
            .iter()
            .filter(|term| !here.contains(term))
            .collect();
        let mut rows = Vec::new();
        for (title, terms) in [(title, here), ("Other words of the trade", others)] {
            if terms.is_empty() {
                continue;
            }
            if !rows.is_empty() {
                rows.push(Row::default());
            }
            rows.push(Row::of(title, Role::Heading));
            for term in terms {
                let lead = format!("  {:<13} ", term.word);
                rows.extend(paragraph(
                    (&lead, Role::Strong),
                    &term.means,
                    Role::Plain,
                    columns,
                ));
            }
        }
        rows
    }

    /// The text that the grower has before them, and what it is called.
    fn read_now(&self) -> (&'static str, String) {
        let set = &self.keyer().set;
        if let Entry::Browse(at) = self.entry {
            let shape = set.shape_of(at.row(set.forms.len()));
            let often = set.typical_said(shape, self.units).unwrap_or_default();
            let text = [shape.means.clone(), often, set.rule_said(shape, self.units)];
            return ("Words of this form", text.join("; "));
        }
        let Some(index) = self.asked() else {
            return ("Words", String::new());
        };
        let one = self.trait_at(index);
        let states = one
            .states()
            .iter()
            .map(|state| format!("{}: {}", state.id, state.means));
        let text: Vec<String> = [one.ask.clone(), one.look.clone()]
            .into_iter()
            .chain(states)
            .collect();
        ("Words of this question", text.join("; "))
    }
}
