//! What each value would leave, and the lists that are picked from.

use jiff::civil::Date;

use super::sentence::name;
use super::{ChoosePage, Entry};
use crate::measure::day::{later, monday};
use crate::screen::kit::part::{Part, about};
use crate::screen::kit::text::{Row, fit, width, wrap_within};
use crate::screen::theme::Role;
use crate::variety::{Facet, Uses};

/// Rows that one facet may take in the overview.
const MOST_ROWS: usize = 3;

impl ChoosePage {
    /// Every facet with what its values would leave, for a wide window.
    pub(super) fn facet_rows(&self, columns: usize) -> Vec<Row> {
        let mut rows = Vec::new();
        for facet in Facet::ALL {
            let counts = self.counts(facet);
            let mut told: Vec<(String, usize)> = self
                .values(facet)
                .iter()
                .zip(counts)
                .filter(|(_, count)| **count > 0)
                .map(|(value, count)| {
                    (
                        format!("{} ({count})", self.value_name(facet, value)),
                        *count,
                    )
                })
                .collect();
            // Where not all fit, those that would leave most are told.
            if told.len() > 12 {
                told.sort_by_key(|(_, count)| std::cmp::Reverse(*count));
            }
            let told: Vec<String> = told.into_iter().map(|(text, _)| text).collect();
            let lead = match self.picked(facet).is_empty() {
                true => (format!("{:<17}", name(facet)), Role::Quiet),
                false => (
                    format!("{:<17}", format!("{} (picked)", short(facet))),
                    Role::Fits,
                ),
            };
            let text = told.join(", ");
            let wrapped = wrap_within(&text, columns.saturating_sub(17), MOST_ROWS);
            for (at, line) in wrapped.iter().enumerate() {
                rows.push(match at {
                    0 => Row::of(&lead.0, lead.1).with(line, Role::Plain),
                    _ => Row::of(" ".repeat(17), Role::Plain).with(line, Role::Plain),
                });
            }
        }
        rows
    }

    pub(super) fn counts(&self, facet: Facet) -> &[usize] {
        self.shown
            .left
            .get(facet as usize)
            .map_or(&[], Vec::as_slice)
    }

    /// The list that is picked from; `None` where none is open.
    pub(super) fn picker(&self, columns: usize, height: usize) -> Option<Part> {
        let (head, counts, rows, at) = match self.entry {
            Entry::Values { facet, at } => {
                let place = Facet::ALL.iter().position(|one| *one == facet).unwrap_or(0) + 1;
                let head = format!("< {} >  {place} of {}", name(facet), Facet::ALL.len());
                let at = at.row(self.values(facet).len());
                let rows = self.value_rows(facet, at, columns);
                (head, "would be left", rows, at)
            }
            Entry::Uses { at } => {
                let at = at.row(self.stock.uses.list().len() + 1);
                let head = "Rank for which use?".to_string();
                (head, "how many it suits", self.use_rows(at, columns), at)
            }
            Entry::Nothing | Entry::Line(_) | Entry::Slip(_) | Entry::Import => return None,
        };
        let mut shown = vec![Row::of(counts, Role::Quiet).fit_right(columns)];
        shown.extend(about(rows, at, height.saturating_sub(1)));
        Some(Part::new(Row::of(head, Role::Heading), shown))
    }

    fn value_rows(&self, facet: Facet, at: usize, columns: usize) -> Vec<Row> {
        let picked = self.picked(facet);
        let values = self
            .values(facet)
            .iter()
            .zip(self.counts(facet))
            .enumerate();
        let row = |(place, (value, count)): (usize, (&String, &usize))| {
            let mut text = self.value_name(facet, value);
            let rules = &self.stock.rules;
            let means = match facet {
                Facet::Size if rules.size_words.iter().any(|(word, _)| word == value) => {
                    Some(rules.size_cell(None, value, self.stock.units))
                }
                Facet::InBloom => self.days_of(value),
                _ => facet.means(value, self.stock.units),
            };
            if let Some(means) = means.filter(|means| *means != text) {
                text = format!("{text}: {means}");
            }
            pick_row(
                &text,
                Some(*count),
                place == at,
                picked.contains(value),
                columns,
            )
        };
        values.map(row).collect()
    }

    /// The days of a week of the year that is planned.
    fn days_of(&self, week: &str) -> Option<String> {
        let year = self.stock.season.as_ref()?.year;
        let monday = monday(year, week.parse().ok()?)?;
        let shown = |day: Date| day.strftime("%-d %b").to_string();
        Some(format!("{} to {}", shown(monday), shown(later(monday, 6))))
    }

    fn use_rows(&self, at: usize, columns: usize) -> Vec<Row> {
        let uses: &Uses = &self.stock.uses;
        let fits = self.counts(Facet::Use);
        let mut rows = vec![pick_row(
            "no use",
            None,
            at == 0,
            self.use_at.is_none(),
            columns,
        )];
        for (place, one) in uses.list().iter().enumerate() {
            let picked = self.use_at == Some(place);
            rows.push(pick_row(
                &one.name,
                fits.get(place).copied(),
                at == place + 1,
                picked,
                columns,
            ));
        }
        rows
    }
}

fn pick_row(text: &str, count: Option<usize>, here: bool, picked: bool, columns: usize) -> Row {
    let count = count.map_or(String::new(), |count| count.to_string());
    let room = columns.saturating_sub(5 + width(&count));
    let role = match count.as_str() {
        "0" => Role::Quiet,
        _ => Role::Plain,
    };
    Row::of(if here { "> " } else { "  " }, Role::Key)
        .with(if picked { "+ " } else { "  " }, Role::Fits)
        .with(fit(text, room) + " ", role)
        .with(count, role)
        .in_list(here)
}

fn short(facet: Facet) -> &'static str {
    match facet {
        Facet::Shortlist => "list",
        facet => name(facet),
    }
}
