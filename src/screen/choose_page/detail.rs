//! The variety under the cursor: what is known, and why it suits the use or not.

use super::ChoosePage;
use crate::account::{Cell, Pair, Section};
use crate::form::sentences::percent;
use crate::screen::kit::text::{Row, paragraph};
use crate::screen::theme::Role;
use crate::variety::{Index, Known, Middles, Side, Variety, account};

impl ChoosePage {
    /// The variety under the cursor; `None` where none is left.
    pub(in crate::screen) fn chosen(&self) -> Option<&Variety> {
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
        let account = self.account(variety);
        let facts: Vec<String> = facts(&account).map(fact).collect();
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
        let account = self.account(variety);
        let fields = facts(&account).map(|pair| (pair.name, pair.cell.shown()));
        let offers = account
            .sentences()
            .map(|offer| ("offer", offer.text.clone()));
        for (name, value) in fields.chain(offers) {
            let lead = format!("{name:<14}");
            rows.extend(paragraph(
                (&lead, Role::Quiet),
                &value,
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

    fn account(&self, variety: &Variety) -> Section {
        let (grounds, units) = (self.stock.grounds(), self.stock.units);
        account(variety, grounds, self.middles(), units)
    }

    /// What is unknown of a variety counts as the middle of the list.
    pub(super) fn middles(&self) -> &Middles {
        static NONE: Middles = Middles::NONE;
        self.index.as_ref().map_or(&NONE, Index::middles)
    }

    fn reasons(&self, variety: &Variety, use_at: Option<usize>, columns: usize) -> Vec<Row> {
        let uses = self.stock.uses.list();
        let Some((at, one)) = use_at.and_then(|at| Some((at, uses.get(at)?))) else {
            return Vec::new();
        };
        let middles = self.middles().of(at);
        let known = Known::of(variety, &self.stock.rules, &self.stock.uses);
        let fitness = known
            .fitness_among(one, middles)
            .map_or("unknown".to_string(), percent);
        let mut rows = vec![Row::of(
            format!("For {}: {fitness}", one.name),
            Role::Strong,
        )];
        for reason in known.reasons(one, middles, self.stock.units) {
            let (mark, role) = match reason.side {
                Side::For => ("+ ", Role::Fits),
                Side::Middling => ("~ ", Role::Doubt),
                Side::Against => ("- ", Role::Wrong),
                Side::Unknown => ("? ", Role::Quiet),
            };
            rows.extend(paragraph((mark, role), &reason.text, Role::Plain, columns));
        }
        rows
    }
}

/// What is known of it, and is for people. The shortlist stands in the head.
fn facts(account: &Section) -> impl Iterator<Item = &Pair> {
    let known = |pair: &&Pair| pair.cell != Cell::Nothing && pair.id != "shortlist";
    let for_people = account.pairs().filter(|pair| !pair.name.is_empty());
    for_people.filter(known)
}

fn fact(pair: &Pair) -> String {
    let value = pair.cell.shown();
    match pair.id {
        "form" | "size" | "colours" | "notes" => value,
        "raiser" => format!("raised by {value}"),
        _ => format!("{} {value}", pair.name),
    }
}
