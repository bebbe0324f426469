//! Events and rounds among the needs: each a row, with the needs that it comes to folded under its name.

use super::promised::as_promised;
use super::{OrderPage, Side};
use crate::account::text::counted;
use crate::order::report::account::{needs_of, stems_and_weeks};
use crate::order::{Item, Plan, Promised, Work};
use crate::screen::kit::cursor::Cursor;
use crate::screen::kit::text::{Row, lines};
use crate::screen::theme::Role;

/// What stands before the name of one that is folded, and of one that is open.
const FOLDED: [&str; 2] = ["+ ", "- "];

impl OrderPage {
    /// The plan with the needs that its events and rounds come to, where they are known.
    pub(super) fn in_view(&self) -> Result<&Plan, &String> {
        match &self.whole {
            Some(whole) => Ok(whole),
            None => self.plan.as_ref(),
        }
    }

    /// The figures of the plan, in the order of the rows; those of an event where it is open.
    pub(super) fn items(&self) -> Vec<Item> {
        let Ok(plan) = self.in_view() else {
            return Vec::new();
        };
        let shown = |item: &Item| match item.written(plan) {
            Item::Work(at) => *item == Item::Work(at) || self.is_open(&plan.work[at]),
            _ => true,
        };
        Item::all(plan).into_iter().filter(shown).collect()
    }

    /// The figure of the row under the cursor.
    pub(super) fn shown_item(&self) -> Option<Item> {
        self.items().get(self.cursor(Side::Given)).copied()
    }

    fn is_open(&self, work: &Work) -> bool {
        self.opened.contains(work.name.as_str())
    }

    /// Shows the needs of the event or the round under the cursor, or folds them under its name.
    pub(super) fn fold(&mut self) {
        let (Some(Item::Work(at)), Side::Given, Ok(plan)) = (self.item(), self.side, &self.plan)
        else {
            return self.say("Only an event or a round is opened and folded.");
        };
        let name = plan.work[at].name.to_string();
        if !self.opened.remove(&name) {
            self.opened.insert(name);
        }
        let place = self.items().iter().position(|item| *item == Item::Work(at));
        self.at[Side::Given as usize] = Cursor::on(place.unwrap_or(0));
    }

    /// Shows a need that an event comes to.
    pub(super) fn open_fold_of(&mut self, item: Item) {
        let Ok(plan) = self.in_view() else {
            return;
        };
        if let (Item::Need(_), Item::Work(at)) = (item, item.written(plan)) {
            let name = plan.work[at].name.to_string();
            self.opened.insert(name);
        }
    }

    /// The name with the sign of whether its needs are shown.
    pub(super) fn folded_name(&self, work: &Work) -> String {
        let sign = FOLDED[usize::from(self.is_open(work))];
        format!("{sign}{}", work.name)
    }

    /// Whether the solution in view meets all that an event or a round comes to, and how surely as one.
    pub(super) fn work_met(&self, plan: &Plan, at: usize) -> (String, Role) {
        let parts = needs_of(plan, at).map(|(need, _)| self.met(need));
        let parts: Vec<(String, Role)> = parts.collect();
        let told = |role: Role| parts.iter().filter(|one| one.1 == role).count();
        match (told(Role::Quiet), told(Role::Wrong), &parts[..]) {
            (0, 0, [one]) => one.clone(),
            (0, 0, [_, ..]) => { self.promise(Promised::Work(at)) }
                .map_or(("met".to_string(), Role::Fits), as_promised),
            (0, short @ 1.., _) => (format!("{short} short"), Role::Wrong),
            _ => ("?".to_string(), Role::Quiet),
        }
    }

    /// What is known of an event or a round.
    pub(super) fn work_detail(&self, plan: &Plan, at: usize, columns: usize) -> Vec<Row> {
        let work = &plan.work[at];
        let pieces = self.ground.as_ref().map(|ground| &ground.stock().pieces);
        let mut rows = lines(&work.told(pieces), Role::Plain, columns);
        let (stems, weeks) = work_stems(plan, at);
        let parts = needs_of(plan, at).filter_map(|(_, need)| {
            let from = need.of_work.as_ref()?;
            let cut = from.cut.strftime("%a %-d %b");
            Some((format!("{} {}", need.stems, from.part), cut.to_string()))
        });
        let (parts, cut): (Vec<String>, Vec<String>) = parts.unzip();
        if let Some(first) = cut.first() {
            let each = if work.is_event() { "" } else { " a week" };
            let told = format!(
                "{stems} stems{each} in week {weeks}, spares counted: {}. First cut on {first}; o shows or folds them.",
                parts.join("; ")
            );
            rows.extend(lines(&told, Role::Plain, columns));
        }
        rows.extend(self.promise_detail(
            Promised::Work(at),
            "All of it, in all its weeks",
            columns,
        ));
        rows
    }
}

/// Stems, of a round a week, and the weeks, as they stand in a table.
pub(super) fn work_stems(plan: &Plan, at: usize) -> (String, String) {
    let (stems, weeks) = stems_and_weeks(plan, at);
    let weeks = match (weeks.first(), weeks.last()) {
        (Some(first), Some(last)) if first != last => format!("{first}-{last}"),
        (Some(first), _) => first.to_string(),
        (None, _) => String::new(),
    };
    (stems.to_string(), weeks)
}

/// The head of needs with events and rounds among them.
pub(super) fn of_plan_and_work(plan: &Plan) -> String {
    let events = plan.work.iter().filter(|work| work.is_event()).count();
    let counts = [
        (plan.needs.len(), "need"),
        (events, "event"),
        (plan.work.len() - events, "round"),
    ];
    let told = counts.into_iter().filter(|(count, _)| *count > 0);
    let told: Vec<String> = told.map(|(count, one)| counted(count, one)).collect();
    told.join(", ")
}

#[cfg(test)]
mod tests;
