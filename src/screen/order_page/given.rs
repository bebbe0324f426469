//! The plan's half: needs, and then the means.

use super::detail::few;
use super::folds::{of_plan_and_work, work_stems};
use super::promised::as_promised;
use super::{OrderPage, Side};
use crate::order::{Chances, Item, Plan, PlanGround, Promised};
use crate::record::{Field, Fields};
use crate::screen::kit::part::mark;
use crate::screen::kit::table::{Column, Columns};
use crate::screen::kit::text::{Row, width};
use crate::screen::theme::Role;

/// The columns of the cursor, or of that there is more.
const MARKS: usize = 2;
/// The columns of a figure's name.
const FIGURE: usize = 17;

impl OrderPage {
    /// The head of this half.
    pub(super) fn given_head(&self) -> String {
        match &self.plan {
            Ok(plan) if !plan.work.is_empty() => of_plan_and_work(plan),
            Ok(plan) => format!("{} needs, stems a week and weeks", plan.needs.len()),
            Err(_) => "No order".to_string(),
        }
    }

    /// As many rows as fit, the cursor among them.
    pub(super) fn given_table(&self, columns: usize, height: usize) -> Vec<Row> {
        let Ok(plan) = self.in_view() else {
            return Vec::new();
        };
        let items = self.items();
        let cursor = self.cursor_at_work(Side::Given);
        let seen = self.at[Side::Given as usize].seen(items.len(), height);
        let row = |at: usize| {
            let mark = mark(at, cursor, &seen, items.len());
            let row = Row::of(mark, Role::Strong).fit(MARKS);
            let row = row.and(self.given_row(items[at], plan, columns.saturating_sub(MARKS)));
            row.in_list(cursor == Some(at))
        };
        seen.clone().map(row).collect()
    }

    fn given_row(&self, item: Item, plan: &Plan, columns: usize) -> Row {
        match item {
            Item::Need(at) => {
                let need = &plan.needs[at];
                let part = need.of_work.as_ref().map(|from| format!("  {}", from.part));
                let name = part.unwrap_or_else(|| need.name.to_string());
                self.asked_row((name, need.stems_and_weeks(), self.met(at)), plan, columns)
            }
            Item::Work(at) => {
                let name = self.folded_name(&plan.work[at]);
                let met = self.work_met(plan, at);
                self.asked_row((name, work_stems(plan, at), met), plan, columns)
            }
            item => {
                let units = self
                    .ground
                    .as_ref()
                    .map(|ground| ground.stock().units)
                    .unwrap_or_default();
                let name = Row::of(item.name(plan), Role::Quiet);
                let name = name.fit(FIGURE.min(columns / 2));
                let value = Row::of(item.value(plan, units), Role::Plain);
                name.and(value).fit(columns)
            }
        }
    }

    /// What is asked for: its name, its stems with its weeks, and whether they are met.
    fn asked_row(
        &self,
        (name, (stems, weeks), (met, role)): (String, (String, String), (String, Role)),
        plan: &Plan,
        columns: usize,
    ) -> Row {
        let met_room = self.met_room(plan) + 2;
        let table = vec![
            Column::words("need", 4, columns),
            Column::numbers("stems", 4),
            Column::numbers("weeks", 6),
            Column::words("met", met_room, met_room),
        ];
        let cells = [
            Row::of(name, Role::Plain),
            Row::of(stems, Role::Strong),
            Row::of(weeks, Role::Strong),
            Row::of(format!("  {met}"), role),
        ];
        Columns::of(table, 0, columns).row(Row::default(), cells)
    }

    /// Columns for whether a need is met: as many as the longest takes.
    fn met_room(&self, plan: &Plan) -> usize {
        let needs = (0..plan.needs.len()).map(|at| self.met(at));
        let work = (0..plan.work.len()).map(|at| self.work_met(plan, at));
        let told = needs.chain(work).map(|(told, _)| width(&told));
        told.max().unwrap_or(0)
    }

    /// Whether the solution in view meets a need.
    pub(super) fn met(&self, need: usize) -> (String, Role) {
        let same = self
            .solved
            .as_ref()
            .zip(self.whole.as_ref())
            .is_some_and(|(solved, plan)| solved.needs.get(need) == plan.needs.get(need));
        let Some(order) = self.order().filter(|_| same) else {
            return ("?".to_string(), Role::Quiet);
        };
        let short: f64 = order
            .short()
            .filter(|one| one.need == need)
            .map(|one| one.short())
            .sum();
        let lacks = || self.lacks.iter().any(|lack| lack.need == Some(need));
        match short > 0.0 {
            true => (format!("short {}", few(short)), Role::Wrong),
            false if lacks() => ("too few".to_string(), Role::Wrong),
            false => self.promised(need),
        }
    }

    /// What the solution in view promises a need that it meets in a usual season.
    fn promised(&self, need: usize) -> (String, Role) {
        match self.promise(Promised::Need(need)) {
            None => ("met".to_string(), Role::Fits),
            Some(promise) => as_promised(promise),
        }
    }
}

impl OrderPage {
    /// The chances by which the solution in view was judged.
    pub(super) fn chances(&self) -> Option<&Chances> {
        self.settled.as_ref()?.chances.as_ref()
    }
}

/// The names of the fields in which two records differ, in one phrase.
pub(super) fn shown_names<'a, R: Fields<Ground<'a> = PlanGround<'a>>>(
    before: &R,
    after: &R,
    ground: PlanGround<'a>,
) -> String {
    let before = before.fields(ground);
    let differs = |field: &Field| {
        let own = before.iter().find(|own| own.key == field.key);
        own.is_none_or(|own| own.text != field.text)
    };
    let fields = after.fields(ground).into_iter().filter(differs);
    let names: Vec<&str> = fields.map(|field| field.name).collect();
    names.join(", ")
}
