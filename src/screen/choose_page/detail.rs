//! The variety under the cursor: what is known, and why it suits the use or not.

use super::ChoosePage;
use crate::form::sentences::percent;
use crate::screen::kit::text::{Row, paragraph};
use crate::screen::theme::Role;
use crate::variety::{ComparedField, Known, Side, Variety, compare};

impl ChoosePage {
    pub(super) fn chosen(&self) -> Option<&Variety> {
        Some(self.known(self.row()?))
    }

    /// The head over the detail: the name, and where it stands on the shortlist.
    pub(super) fn detail_head(&self) -> Row {
        let Some(variety) = self.chosen() else {
            return Row::of("No variety", Role::Heading);
        };
        let row = Row::of(variety.name.as_str(), Role::Heading);
        match &variety.shortlist {
            None => row,
            Some(mark) => match &mark.note {
                None => row.with("  + on the shortlist", Role::Fits),
                Some(note) => row.with(format!("  + {note}"), Role::Fits),
            },
        }
    }

    /// What is known in one paragraph, then the reasons: for a small window.
    pub(super) fn detail_short(&self, columns: usize) -> Vec<Row> {
        let Some(variety) = self.chosen() else {
            return Vec::new();
        };
        let facts: Vec<String> = self.facts(variety).iter().map(fact).collect();
        let known = match facts.is_empty() {
            true => "Nothing but its name is known.".to_string(),
            false => facts.join("; "),
        };
        let mut rows = self.reasons(variety, self.use_at, columns);
        rows.extend(paragraph(("", Role::Plain), &known, Role::Plain, columns));
        rows
    }

    /// A row for each thing known, then the reasons.
    pub(super) fn detail(&self, columns: usize) -> Vec<Row> {
        let Some(variety) = self.chosen() else {
            return Vec::new();
        };
        let mut rows = Vec::new();
        for line in self.facts(variety) {
            let lead = format!("{:<14}", line.field);
            let value = line.values[0].as_deref().unwrap_or_default();
            rows.extend(paragraph((&lead, Role::Quiet), value, Role::Plain, columns));
        }
        for offer in &variety.offers {
            rows.extend(paragraph(
                ("offer         ", Role::Quiet),
                &offered(offer),
                Role::Plain,
                columns,
            ));
        }
        rows.extend(self.reasons(variety, self.use_at, columns));
        rows
    }

    /// Everything, for the sheet: every use with its reasons.
    pub(super) fn in_full(&self, columns: usize) -> Vec<Row> {
        let Some(variety) = self.chosen() else {
            return vec![Row::of("No variety is left to show.", Role::Plain)];
        };
        let mut rows = vec![self.detail_head()];
        rows.extend(self.detail(columns));
        for at in (0..self.stock.uses.list().len()).filter(|at| Some(*at) != self.use_at) {
            rows.push(Row::default());
            rows.extend(self.reasons(variety, Some(at), columns));
        }
        rows
    }

    /// What is known, without the fitness for each use.
    fn facts(&self, variety: &Variety) -> Vec<ComparedField> {
        let uses = self.stock.uses.list();
        let lines = compare(&[variety], self.stock.grounds(), self.stock.units);
        let is_use = |line: &ComparedField| uses.iter().any(|one| one.name == line.field);
        lines
            .into_iter()
            .filter(|line| !is_use(line) && line.field != "shortlist")
            .collect()
    }

    fn reasons(&self, variety: &Variety, use_at: Option<usize>, columns: usize) -> Vec<Row> {
        let Some(one) = use_at.and_then(|at| self.stock.uses.list().get(at)) else {
            return Vec::new();
        };
        let known = Known::of(variety, &self.stock.rules, &self.stock.uses);
        let fitness = known.fitness(one).map_or("unknown".to_string(), percent);
        let mut rows = vec![Row::of(
            format!("For {}: {fitness}", one.name),
            Role::Strong,
        )];
        for reason in known.reasons(one, self.stock.units) {
            let (mark, role) = match reason.side {
                Side::For => (" + ", Role::Fits),
                Side::Middling => (" ~ ", Role::Doubt),
                Side::Against => (" - ", Role::Wrong),
                Side::Unknown => (" ? ", Role::Quiet),
            };
            rows.extend(paragraph((mark, role), &reason.text, Role::Plain, columns));
        }
        rows
    }
}

fn fact(line: &ComparedField) -> String {
    let value = line.values[0].as_deref().unwrap_or_default();
    match line.field.as_str() {
        "form" | "size" | "colours" | "notes" => value.to_string(),
        "raiser" => format!("raised by {value}"),
        field => format!("{field} {value}"),
    }
}

fn offered(offer: &crate::variety::Offer) -> String {
    let pack = match offer.pack.get() {
        1 => "a tuber".to_string(),
        tubers => format!("for {tubers}"),
    };
    let left = match offer.available {
        None => String::new(),
        Some(0) => ", sold out".to_string(),
        Some(packs) => format!(", {packs} left"),
    };
    let closes = offer
        .closes
        .map_or(String::new(), |day| format!(", until {day}"));
    format!("{}: {} {pack}{left}{closes}", offer.supplier, offer.price)
}
