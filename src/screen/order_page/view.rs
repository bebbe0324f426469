//! The layout of the Order page, and its drawing.

use ratatui::buffer::Buffer;
use ratatui::layout::Constraint::{Fill, Length};
use ratatui::layout::Rect;

use super::beginning::BEGINS;
use super::slip::Slip;
use super::task::Question;
use super::{OrderPage, Side};
use crate::account::text::counted;
use crate::order::Status;
use crate::order::report::Chart;
use crate::screen::kit::area::{self, GAP};
use crate::screen::kit::chart;
use crate::screen::kit::part::Part;
use crate::screen::kit::text::{Row, cut, lines};
use crate::screen::theme::{Role, Theme};
use crate::variety::Money;

/// From this width and height on the season has a column of its own.
const WIDE: (u16, u16) = (120, 30);
/// Rows of the detail, its head among them; and in a wide window.
const DETAIL: u16 = 7;
const WIDE_DETAIL: u16 = 10;
/// What stands before a solution that is not of the plan as it is.
pub(super) const OLDER: &str = "Older numbers: ";
/// How the hidden rest is seen.
const MORE: &str = "(w)";

impl OrderPage {
    /// Draws the page.
    pub fn draw(&self, area: Rect, buffer: &mut Buffer, theme: Theme) {
        if let Some(slip) = &self.slip {
            return match slip {
                Slip::Need(slip, _) => slip.draw(area, buffer, theme),
                Slip::Work(slip, _) => slip.draw(area, buffer, theme),
                Slip::Bed(slip, _) => slip.draw(area, buffer, theme),
                Slip::Terms(slip, _) => slip.draw(area, buffer, theme),
                Slip::Season(slip) => slip.draw(area, buffer, theme),
            };
        }
        let rows = self.said(area::of_words(area));
        let [said, below] = area::below_said(area, rows.len());
        Part::bare(rows).words().paint(said, buffer, theme);
        let columns = area::of_words(below);
        if self.begins() {
            let rows = lines(BEGINS, Role::Strong, columns);
            return Part::bare(rows).words().paint(below, buffer, theme);
        }
        if let Err(why) = &self.plan {
            let why = format!("There is no order to settle: {why}");
            let rows = lines(&why, Role::Wrong, columns);
            return Part::bare(rows).words().paint(below, buffer, theme);
        }
        let wide = area.width >= WIDE.0 && area.height >= WIDE.1;
        let detail = if wide { WIDE_DETAIL } else { DETAIL };
        let detail = Length(detail.min(below.height / 2));
        let [middle, foot] = area::rows(below, [Fill(1), detail]);
        if wide {
            let [given, bought, season] = area::shares(middle, GAP);
            self.half(Side::Given, given, buffer, theme);
            self.half(Side::Bought, bought, buffer, theme);
            self.season_column(season, buffer, theme);
        } else {
            let [given, bought] = area::shares(middle, GAP);
            self.half(Side::Given, given, buffer, theme);
            self.half(Side::Bought, bought, buffer, theme);
        }
        let rows = self.detail(area::of_words(foot).saturating_sub(1), theme);
        let detail = Part::new(Row::of(self.detail_head(), Role::Heading), rows).words();
        detail.more(MORE).paint(foot, buffer, theme);
    }

    fn half(&self, side: Side, area: Rect, buffer: &mut Buffer, theme: Theme) {
        let (columns, height) = area::size(area::below_head(area)[1]);
        let (head, rows) = match side {
            Side::Given => (self.given_head(), self.given_table(columns, height)),
            Side::Bought => (self.bought_head(), self.bought_table(columns, height)),
        };
        let role = match self.side == side {
            true => Role::Heading,
            false => Role::Quiet,
        };
        Part::new(Row::of(head, role), rows).paint(area, buffer, theme);
    }

    /// The weeks with their bars, and below them what the signs say where that has room.
    fn season_column(&self, area: Rect, buffer: &mut Buffer, theme: Theme) {
        let (columns, height) = area::size(area::below_head(area)[1]);
        let plan = self.solved.as_ref();
        let chart = plan
            .zip(self.settled.as_ref())
            .and_then(|(plan, settled)| Chart::of(plan, settled, None));
        let mut rows = Vec::new();
        if let Some(chart) = chart {
            rows = chart::rows(&chart.brief(columns, theme.signs()));
            if rows.len() + 2 <= height {
                let legend = chart::row(&chart.legend(theme.signs()));
                rows.extend([Row::default(), legend]);
            }
        }
        let head = Row::of("The season, stems by week (g)", Role::Quiet);
        Part::new(head, rows).more("(g)").paint(area, buffer, theme);
    }

    /// How it stands, what is going on, and what was just done or is being typed, which is told whole.
    fn said(&self, columns: usize) -> Vec<Row> {
        let inner = columns.saturating_sub(1);
        let how = vec![Row::of(self.standing(inner), Role::Strong)];
        if let Some(line) = &self.line {
            let (asks, hint) = self.asked(&line.of);
            return [how, line.rows(&asks, (&hint, Role::Quiet), columns)].concat();
        }
        let mut below = Vec::new();
        if let Some((doing, role)) = self.doing() {
            below.extend(lines(&doing, role, inner));
        }
        if let Some(why) = self.keeper.failure() {
            below.extend(lines(&format!("Not saved: {why}."), Role::Wrong, inner));
        } else if let Some(note) = &self.note {
            below.extend(lines(note, Role::Doubt, inner));
        }
        if below.is_empty() {
            below.extend(lines(&self.planted_in_words(), Role::Quiet, inner));
        }
        [how, below].concat()
    }

    /// What the order in view takes of the beds and of the post; without one, what can be asked.
    fn planted_in_words(&self) -> String {
        let (Some(plan), Some(order)) = (&self.solved, self.order()) else {
            return "m looks for what would mend it, s solves again.".to_string();
        };
        let postage = order.bills.iter().map(|bill| bill.postage.in_hundredths());
        format!(
            "{} of {} places planted; {} varieties; {}, postage {}.",
            order.plants,
            plan.places(),
            order.planted.len(),
            counted(order.bills.len(), "supplier"),
            Money::hundredths(postage.sum())
        )
    }

    /// How the solution in view stands, in one line.
    fn standing(&self, columns: usize) -> String {
        let (Some(settled), Some(plan)) = (&self.settled, &self.solved) else {
            return "No order is worked out yet.".to_string();
        };
        let Some(order) = &settled.order else {
            return match (&settled.status, self.lacks.first()) {
                (_, Some(lack)) => cut(&format!("No order: {}.", lack.told), columns),
                (Status::Short { .. }, None) => "No order meets every need.".to_string(),
                _ => "No order was found in the time: s solves again.".to_string(),
            };
        };
        let older = if self.is_fresh() { "" } else { OLDER };
        let of = (plan.money).map_or(String::new(), |money| format!(" of {money}"));
        let how = match settled.status {
            _ if settled.falls_short() && settled.status.meets_all() => {
                "NOT every need can be met; all else is".to_string()
            }
            Status::Optimal if settled.promises.is_empty() => {
                "met in a usual season, the least cost (proved)".to_string()
            }
            Status::Optimal => "every need as sure as asked, the least cost (proved)".to_string(),
            Status::Found { .. } => "every need as sure as asked, the least found".to_string(),
            Status::Unsure { takes, .. } => {
                let more = takes.map_or_else(
                    || "no order is".to_string(),
                    |takes| format!("that takes {}, {} plants", takes.cost, takes.places),
                );
                format!("NOT every need as sure as asked: {more}")
            }
            Status::Within { bound, .. } => {
                let [cost, bound] = [order.cost, bound].map(|one| one.in_hundredths() as f64);
                let over = (cost / bound - 1.0) * 100.0;
                format!("met in a usual season, at most {over:.1} % over the least")
            }
            Status::Short { needed, proved } => match (needed, proved) {
                (Some(needed), true) => format!("NOT every need met: that takes {needed}"),
                (Some(needed), false) => {
                    format!("NOT every need met: {needed} is the least found that does")
                }
                (None, true) => "NOT every need can be met".to_string(),
                (None, false) => "NOT every need met, no way found".to_string(),
            },
            Status::Unknown => "stopped before anything was known".to_string(),
        };
        let currency = self.currency.as_ref();
        let currency = currency.map_or(String::new(), |word| format!(" {word}"));
        cut(
            &format!("{older}{}{of}{currency}, {how}.", order.cost),
            columns,
        )
    }

    /// What is going on, where anything is.
    fn doing(&self) -> Option<(String, Role)> {
        let stale = self.settled.is_some() && !self.is_fresh();
        let last = if stale {
            " The order in view is of the older numbers."
        } else {
            ""
        };
        let question = self.running.map(|running| running.question);
        let what = match question {
            _ if self.due => "Solving",
            Some(None) => "Solving",
            Some(Some(Question::Causes)) => "Working out why needs are not met",
            Some(Some(Question::Mends)) => "Looking for what would mend it",
            Some(Some(Question::Surer { .. })) => "Working out what surer costs",
            Some(Some(Question::Without { .. })) => "Working out what doing without it costs",
            None => match &self.candidates {
                Err(told) if !told.is_empty() => {
                    return Some((format!("The order cannot be solved: {told}."), Role::Wrong));
                }
                _ => {
                    let told = format!("Not solved again: s solves.{last}");
                    return stale.then_some((told, Role::Doubt));
                }
            },
        };
        let far = match self.looked_at() {
            0 => String::new(),
            nodes => format!(", {nodes} steps"),
        };
        Some((format!("{what}{far} (Esc stops).{last}"), Role::Doubt))
    }
}
