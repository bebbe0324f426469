//! A slip drawn: its fields by groups, the line within the field under the cursor, and what may stand
//! there.

use ratatui::buffer::Buffer;
use ratatui::layout::Constraint::{Fill, Length};
use ratatui::layout::Rect;

use super::Filling;
use crate::record::{Field, Fields};
use crate::screen::kit::area::{self, GAP};
use crate::screen::kit::part::{Part, about};
use crate::screen::kit::text::{Row, lines, width, wrap};
use crate::screen::theme::{Role, Theme};

/// From here on what may stand in a field is told beside the fields, not below.
const WIDE: u16 = 110;
/// Rows that the fields keep of a small window, the head among them: what may stand there is told whole.
const FIELDS: u16 = 7;
/// Columns of the names at most.
const NAMES: usize = 20;

/// The name of a field; of several alike with its number from the second on.
fn label(field: &Field) -> String {
    match field.key.place {
        0 => field.name.to_string(),
        place => format!("{} {}", field.name, place + 1),
    }
}

impl<R: Fields> Filling<R> {
    /// Draws the slip in place of the parts of a page.
    pub(in crate::screen) fn draw(&self, area: Rect, buffer: &mut Buffer, theme: Theme) {
        let beside = area.width >= WIDE;
        let (fields, told, aside) = match beside {
            true => {
                let [fields, told] = area::columns(area, GAP, [Fill(3), Fill(2)]);
                (fields, told, self.told(area::of_words(told)))
            }
            false => {
                let aside = self.told(area::of_words(area));
                let most = usize::from(area.height.saturating_sub(FIELDS));
                let height = u16::try_from(aside.len() + 1).unwrap_or(u16::MAX);
                let height = height.min(u16::try_from(most).unwrap_or(height));
                let [fields, told] = area::rows(area, [Fill(1), Length(height)]);
                (fields, told, aside)
            }
        };
        let (columns, height) = area::size(area::below_head(fields)[1]);
        let head = Row::of(&self.title, Role::Heading);
        let (rows, cursor) = self.rows(columns);
        Part::new(head, about(rows, cursor, height)).paint(fields, buffer, theme);
        let name = self.here().map_or(String::new(), label);
        let head = Row::of(name, Role::Strong);
        Part::new(head, aside).words().paint(told, buffer, theme);
    }

    /// The fields under the heads of their groups, and the row that the cursor is on.
    fn rows(&self, columns: usize) -> (Vec<Row>, usize) {
        let names = self.fields.iter().map(|field| width(&label(field))).max();
        let names = names.unwrap_or(0).min(NAMES).min(columns / 3);
        let here = self.at.row(self.fields.len());
        let (mut rows, mut cursor, mut group) = (Vec::new(), 0, "");
        for (at, field) in self.fields.iter().enumerate() {
            if field.group != group {
                group = field.group;
                rows.push(Row::of(format!("  {group}"), Role::Strong));
            }
            if at == here {
                cursor = rows.len();
            }
            rows.push(self.row(field, at == here, names, columns));
        }
        (rows, cursor)
    }

    fn row(&self, field: &Field, here: bool, names: usize, columns: usize) -> Row {
        let wrong = self.wrong.iter().find(|one| one.key == field.key);
        let mark = match (here, wrong.is_some()) {
            (true, _) => "> ",
            (false, true) => "! ",
            (false, false) => "  ",
        };
        let name = Row::of(label(field), if here { Role::Key } else { Role::Plain });
        let row = Row::of(mark, Role::Key)
            .and(name.fit(names))
            .with("  ", Role::Plain);
        let room = columns.saturating_sub(row.width());
        match (here, wrong) {
            (true, _) => row.and(self.line.typed(room)),
            (false, Some(wrong)) => row.and(Row::of(&wrong.typed, Role::Wrong).cut(room)),
            (false, None) => row.and(Row::of(&field.text, Role::Strong).cut(room)),
        }
    }

    /// What is wrong, what may stand in the field, and what is offered for it.
    fn told(&self, columns: usize) -> Vec<Row> {
        let columns = columns.saturating_sub(1);
        let Some(field) = self.here() else {
            return Vec::new();
        };
        let mut rows = Vec::new();
        if let Some(note) = &self.note {
            rows.extend(lines(note, Role::Doubt, columns));
        }
        if let Some(problem) = self.line.problem() {
            rows.extend(lines(problem, Role::Wrong, columns));
        }
        rows.extend(self.offer_rows(columns));
        for (_, known) in self.beside.iter().filter(|(key, _)| *key == field.key) {
            rows.extend(lines(known, Role::Fits, columns));
        }
        let means = format!("{} {}", field.means, field.takes);
        rows.extend(lines(means.trim(), Role::Plain, columns));
        rows.extend(lines(field.figure.words(), Role::Quiet, columns));
        rows
    }

    /// The values that are offered, as many as have room in two rows.
    fn offer_rows(&self, columns: usize) -> Vec<Row> {
        if self.offered.is_empty() {
            return Vec::new();
        }
        let lead = "Tab: ";
        let values = self.offered.join(" \u{b7} ");
        // With room for what says that there are more.
        let wrapped = wrap(&values, columns.saturating_sub(lead.len() + 2));
        let row = |(at, text): (usize, &String)| {
            let lead = if at == 0 { lead } else { "     " };
            let more = at == 1 && wrapped.len() > 2;
            let text = if more {
                format!("{text} \u{2026}")
            } else {
                text.clone()
            };
            Row::of(lead, Role::Key).with(text, Role::Plain)
        };
        wrapped.iter().take(2).enumerate().map(row).collect()
    }
}
