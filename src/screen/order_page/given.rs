//! The plan's half: needs, and then the means.

use super::detail::few;
use super::view::Window;
use super::{OrderPage, Side};
use crate::order::{Item, Plan};
use crate::screen::choose_page::first_shown;
use crate::screen::text::{Row, fit, width};
use crate::screen::theme::Role;

impl OrderPage {
    /// The head of this half.
    pub(super) fn given_head(&self) -> String {
        match &self.plan {
            Ok(plan) => format!("{} needs, stems a week and weeks", plan.needs.len()),
            Err(_) => "No order".to_string(),
        }
    }

    /// As many rows as fit, the cursor among them.
    pub(super) fn given_table(&self, columns: usize, height: usize) -> Vec<Row> {
        let Ok(plan) = &self.plan else {
            return Vec::new();
        };
        let items = self.items();
        let cursor = self.cursor(Side::Given);
        let first = first_shown(cursor, items.len(), height);
        let seen = items.iter().enumerate().skip(first).take(height);
        let here = self.side == Side::Given;
        let window = Window {
            first,
            height,
            all: items.len(),
            cursor: here.then_some(cursor),
        };
        seen.map(|(at, item)| {
            let row = Row::of(window.mark(at), Role::Strong).with(" ", Role::Plain);
            let row = row.and(self.given_row(*item, plan, columns));
            match here && at == cursor {
                true => row.all(Role::Chosen),
                false => row,
            }
        })
        .collect()
    }

    fn given_row(&self, item: Item, plan: &Plan, columns: usize) -> Row {
        let row = Row::default();
        match item {
            Item::Need(at) => {
                let (stems, weeks) = plan.needs[at].stems_and_weeks();
                let (met, role) = self.met(at);
                let met_room = self.met_room(plan);
                let taken = 2 + 5 + 1 + 5 + 2 + met_room;
                row.with(
                    fit(&plan.needs[at].name, columns.saturating_sub(taken)),
                    Role::Plain,
                )
                .with(format!(" {stems:>4} {weeks:>5}  "), Role::Strong)
                .with(fit(&met, met_room), role)
            }
            item => {
                let units = self
                    .ground
                    .as_ref()
                    .map(|ground| ground.stock().units)
                    .unwrap_or_default();
                let room = 17.min(columns / 2);
                row.with(fit(&item.name(plan), room), Role::Quiet).with(
                    fit(&item.value(plan, units), columns.saturating_sub(room + 2)),
                    Role::Plain,
                )
            }
        }
    }

    /// Columns for whether a need is met: as many as the longest takes.
    fn met_room(&self, plan: &Plan) -> usize {
        let told = (0..plan.needs.len()).map(|at| width(&self.met(at).0));
        told.max().unwrap_or(0)
    }

    /// Whether the solution in view meets a need.
    pub(super) fn met(&self, need: usize) -> (String, Role) {
        let same = self
            .solved
            .as_ref()
            .zip(self.plan.as_ref().ok())
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
            false => ("met".to_string(), Role::Fits),
        }
    }
}
