//! What is known of the row under the cursor.

use super::{Answer, OrderPage, Side};
use crate::order::report::{cause_clause, in_weeks, reckoned, why, why_not};
use crate::order::{Cause, Item, Mend, Order, Plan, Promised, Weekly, weeks_with_days};
use crate::screen::kit::text::{Row, fit, lines};
use crate::screen::theme::{Role, Theme};

/// The least columns of a week in the strip of a need.
const WEEK: usize = 4;

impl OrderPage {
    /// The head of the detail.
    pub(super) fn detail_head(&self) -> String {
        let Ok(plan) = self.in_view() else {
            return String::new();
        };
        match self.side {
            _ if self.answer == Some(Answer::Mends) => match self.mends.as_deref() {
                None | Some([]) => "What would mend it".to_string(),
                Some([Mend { and: Some(_), .. }, ..]) => {
                    "Any one of these, two changes together, mends it".to_string()
                }
                Some(_) => "Any one of these mends it, all else as it is".to_string(),
            },
            _ if self.answer == Some(Answer::Surer) => self.surer_head(),
            Side::Given => { self.shown_item() }.map_or(String::new(), |item| item.name(plan)),
            Side::Bought => "why".to_string(),
        }
    }

    /// The detail in so many columns.
    pub(super) fn detail(&self, columns: usize, theme: Theme) -> Vec<Row> {
        let Ok(plan) = self.in_view() else {
            return Vec::new();
        };
        match self.side {
            _ if self.answer == Some(Answer::Mends) => (self.mend_sentences().iter())
                .flat_map(|told| lines(told, Role::Plain, columns))
                .collect(),
            _ if self.answer == Some(Answer::Surer) => self.surer_rows(columns, theme),
            Side::Given => match self.shown_item() {
                Some(Item::Need(at)) => self.need_detail(plan, at, columns),
                Some(Item::Work(at)) => self.work_detail(plan, at, columns),
                Some(item) => self.item_detail(plan, item, columns),
                None => Vec::new(),
            },
            Side::Bought => self.variety_detail(columns),
        }
    }

    fn need_detail(&self, plan: &Plan, at: usize, columns: usize) -> Vec<Row> {
        let need = &plan.needs[at];
        let days = weeks_with_days(need.weeks, plan.season.planted);
        let mut rows = lines(&need.told_in(&days), Role::Plain, columns);
        // Why it is not met stands before by how much, for there may be no room for both.
        let causes = self.causes.iter().flatten().filter(|_| self.is_fresh());
        for cause in causes.filter(|cause| cause.need == at) {
            rows.extend(lines(&self.cause_told(plan, cause), Role::Doubt, columns));
        }
        let (_, role) = self.met(at);
        let Some(order) = self.order().filter(|_| role != Role::Quiet) else {
            return rows;
        };
        let weeks: Vec<_> = order.weekly.iter().filter(|one| one.need == at).collect();
        let lead = 7;
        let given = |one: &Weekly| format!("{:.0}", one.given);
        let figures = weeks.iter().flat_map(|one| [given(one), short(one)]);
        let wide = figures.map(|figure| figure.len() + 1).max();
        let wide = wide.unwrap_or(WEEK).max(WEEK);
        for weeks in weeks.chunks(columns.saturating_sub(lead).max(wide) / wide) {
            let cells = |name: &str, cell: &dyn Fn(&Weekly) -> String| {
                let cells: String = weeks
                    .iter()
                    .map(|one| format!("{:>wide$}", cell(one)))
                    .collect();
                fit(name, lead) + &cells
            };
            rows.push(Row::of(
                cells("week", &|one| one.week.to_string()),
                Role::Quiet,
            ));
            rows.push(Row::of(cells("given", &given), Role::Plain));
            if let Some(chances) = self.chances() {
                let chance = |one: &Weekly| {
                    let own = chances.met[at].iter().find(|(week, _)| *week == one.week);
                    own.map_or(String::new(), |(_, share)| format!("{:.0}", share * 100.0))
                };
                rows.push(Row::of(cells("sure %", &chance), Role::Plain));
            }
            if weeks.iter().any(|one| one.short() > 0.0) {
                rows.push(Row::of(cells("short", &short), Role::Wrong));
            }
        }
        rows.extend(self.promise_detail(
            Promised::Need(at),
            "All its stems in all its weeks",
            columns,
        ));
        for lack in self.lacks.iter().filter(|lack| lack.need == Some(at)) {
            rows.extend(lines(
                &format!("It has {}.", lack.told),
                Role::Wrong,
                columns,
            ));
        }
        rows.extend(lines(&most_from(order, at), Role::Plain, columns));
        rows
    }

    /// A cause of the need in view, without its name.
    fn cause_told(&self, plan: &Plan, cause: &Cause) -> String {
        let settled = self.settled.as_ref();
        let told = settled.map_or(String::new(), |settled| cause_clause(plan, settled, cause));
        let weeks = in_weeks(&cause.weeks);
        let mut letters = weeks.chars();
        let first = letters.next().map(|first| first.to_ascii_uppercase());
        let weeks: String = first.into_iter().chain(letters).collect();
        format!("{weeks}: {told}.")
    }

    fn item_detail(&self, plan: &Plan, item: Item, columns: usize) -> Vec<Row> {
        let mut rows = lines(item.hint(), Role::Quiet, columns);
        let figures = reckoned(plan);
        let named = match item {
            Item::Planted => "planted",
            Item::FirstCut => "weeks to the first cut",
            Item::Stems => "stems a week",
            Item::Ramp => "rise to full flower",
            Item::PlantsLost => "plants lost",
            Item::StemsLost => "stems lost",
            Item::Storage => "kept in store",
            Item::Started => "started",
            Item::LastFrost => "last frost",
            Item::FirstFrost => "first frost",
            _ => "",
        };
        if let Some(figure) = figures.iter().find(|one| one.name == named) {
            rows.extend(lines(
                &format!("{}: {} ({})", figure.name, figure.value, figure.source),
                Role::Plain,
                columns,
            ));
        }
        // What the order lacks apart from its needs is told at the figures.
        for lack in self.lacks.iter().filter(|lack| lack.need.is_none()) {
            rows.extend(lines(
                &format!("Lacking: {}.", lack.told),
                Role::Wrong,
                columns,
            ));
        }
        if let Item::Supplier(at) = item {
            rows.extend(lines(&plan.suppliers[at].told(), Role::Plain, columns));
        }
        if let (Item::Bed(_), Some(order)) = (item, self.order()) {
            rows.extend(lines(
                &format!(
                    "All beds: {} places, {} planted.",
                    plan.places(),
                    order.plants
                ),
                Role::Plain,
                columns,
            ));
        }
        rows
    }

    fn variety_detail(&self, columns: usize) -> Vec<Row> {
        let (Ok(plan), Some(settled), Some(bought)) = (&self.plan, &self.settled, self.bought())
        else {
            return Vec::new();
        };
        // The solution in view may be of a plan with other needs.
        let of = self.solved.as_ref().unwrap_or(plan);
        let reasons = match self.planted() {
            Some(planted) => why(of, settled, planted),
            None => {
                let name = self
                    .ground
                    .as_ref()
                    .map(|ground| ground.list().list()[bought.row].name.to_string());
                why_not(of, settled, bought.row, &name.unwrap_or_default())
            }
        };
        let mut rows: Vec<Row> = reasons
            .iter()
            .flat_map(|line| lines(line.trim(), Role::Plain, columns))
            .collect();
        if let Some(reply) = self.replies.iter().find(|reply| reply.row == bought.row) {
            let told = match reply.more {
                Some(more) if more.in_hundredths() == 0 => {
                    "Doing without it costs no more.".to_string()
                }
                Some(more) => format!("Doing without it costs {more} more, as far as was found."),
                None => "No way to meet every need without it was found.".to_string(),
            };
            rows.insert(1.min(rows.len()), Row::of(told, Role::Strong));
        }
        rows
    }
}

/// Stems short in a week; nothing where none is.
fn short(one: &Weekly) -> String {
    match one.short() {
        0.0 => String::new(),
        stems => few(stems),
    }
}

/// Stems that are short, to a tenth where they are less than one.
pub(super) fn few(stems: f64) -> String {
    match stems < 0.95 {
        true => format!("{stems:.1}"),
        false => format!("{stems:.0}"),
    }
}

fn most_from(order: &Order, need: usize) -> String {
    let mut gives: Vec<(f64, &str)> = (order.planted.iter())
        .flat_map(|one| {
            one.gives
                .iter()
                .map(move |gives| (gives, one.variety.as_str()))
        })
        .filter(|(gives, _)| gives.need == need)
        .map(|(gives, variety)| (gives.stems, variety))
        .collect();
    gives.sort_by(|one, other| other.0.total_cmp(&one.0));
    let told: Vec<String> = gives
        .iter()
        .map(|(stems, variety)| match *stems < 0.5 {
            true => format!("{variety} <1"),
            false => format!("{variety} {stems:.0}"),
        })
        .collect();
    match told.is_empty() {
        true => "From no variety.".to_string(),
        false => format!("Stems from {}.", told.join(", ")),
    }
}
