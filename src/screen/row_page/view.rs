//! The layout of the Row page, and its drawing.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use super::quick::QUICK;
use super::{Line, Of, RowPage, adding};
use crate::screen::bloom::SMALL;
use crate::screen::text::{Row, paint, paint_part, wrap};
use crate::screen::theme::{Role, Theme};
use crate::trial::Fate;

/// From this width and height on the plant has a column of its own.
const WIDE: (u16, u16) = (120, 30);
/// From this height of its column on a bloom has room under the table.
const WITH_BLOOM: u16 = 32;
/// Columns between face and side.
const BETWEEN: usize = 4;
/// Rows for the sentence and what is said or typed below it.
const SAID: u16 = 3;
/// How the hidden rest is seen.
const MORE: &str = "(Enter)";

impl RowPage {
    /// Draws the page.
    pub fn draw(&self, area: Rect, buffer: &mut Buffer, theme: Theme) {
        let said = Rect {
            height: SAID,
            ..area
        };
        let Parts {
            table,
            detail,
            bloom,
        } = parts(area);
        let columns = |part: Rect| usize::from(part.width);
        paint(&self.said(columns(said)), said, buffer, theme, "");
        let mut rows = vec![self.table_head(columns(table))];
        rows.extend(self.table(columns(table), usize::from(table.height).saturating_sub(1)));
        paint(&rows, table, buffer, theme, "");
        let mut part = |at: Rect, head: Row, rows: Vec<Row>, more: &str| {
            paint_part((head, &rows), at, buffer, theme, more);
        };
        let rows = self.detail(columns(detail));
        part(detail, self.detail_head(), rows, MORE);
        if bloom.height > 0 {
            let head = self.portraits.head("Its bloom");
            part(bloom, head, self.portraits.across(BETWEEN), "");
        }
    }

    /// Everything of the plant under the cursor, for the sheet.
    pub fn why(&self, columns: usize) -> Vec<Row> {
        self.portraits
            .beside_text(columns, |columns| self.in_full(columns))
    }

    fn said(&self, columns: usize) -> Vec<Row> {
        let sentence = wrap(&self.sentence(), columns.saturating_sub(1));
        let sentence = sentence.iter().map(|line| Row::of(line, Role::Strong));
        let Some(line) = &self.line else {
            let failed = self
                .failure()
                .map(|why| (format!("Not saved: {why}."), Role::Wrong));
            let note = self.note.clone().map(|note| (note, Role::Doubt));
            let told = failed.or(note).unwrap_or_else(|| (digits(), Role::Quiet));
            return sentence.take(2).chain([Row::of(told.0, told.1)]).collect();
        };
        let (asks, hint) = self.asked(line);
        let typed =
            Row::of(format!("{asks}: "), Role::Key).with(format!("[{}_]", line.text), Role::Strong);
        let (below, role) = match (&line.problem, &self.note) {
            (Some(problem), _) => (problem.as_str(), Role::Wrong),
            (None, Some(note)) => (note.as_str(), Role::Fits),
            (None, None) => (hint, Role::Quiet),
        };
        let below = wrap(below, columns.saturating_sub(1));
        // What was just done or is wrong comes before how the row stands.
        let room = usize::from(SAID).saturating_sub(1 + below.len());
        let below = below.iter().map(|line| Row::of(line, role));
        sentence
            .take(room.min(1))
            .chain([typed])
            .chain(below)
            .collect()
    }

    /// What the line is for, and what may be typed.
    fn asked(&self, line: &Line) -> (String, &'static str) {
        let subject = self.subject().map(|subject| subject.to_string());
        let subject = subject.unwrap_or_default();
        match &line.of {
            Of::Walk(kind) => {
                let quick = &QUICK[*kind];
                (
                    format!("{subject} {}", quick.name),
                    (quick.hint)(self.plot.units),
                )
            }
            Of::Decide => (
                subject,
                "keep, hold or cull, and why. You decide; the gate only advises.",
            ),
            Of::Add => ("New seedling".to_string(), adding::HINT),
            Of::Day => (
                "Day and who looks".to_string(),
                "Such as 2026-08-20 Ann; it holds for all you note from now on.",
            ),
            Of::Find(_) => (
                "Words".to_string(),
                "Of a number, parent, row, form or decision.",
            ),
            Of::Bloom(_) => (
                "Whose bloom is this".to_string(),
                "A seedling's number such as 26-014, or a variety of your list.",
            ),
        }
    }

    /// How many there are, and how they stand.
    fn sentence(&self) -> String {
        let decided = |fate: Fate| {
            let is = |at: &&usize| {
                let decision = self.sums[**at].evidence.decision.as_ref();
                decision.is_some_and(|(_, decision)| decision.fate == fate)
            };
            self.shown.iter().filter(is).count()
        };
        let (kept, culled) = (decided(Fate::Keep), decided(Fate::Cull));
        let words = match self.words.trim() {
            "" => String::new(),
            words => format!(" with {words:?}"),
        };
        format!(
            "{} {}{words}: {kept} kept, {culled} culled, {} open; {}; notes of {}.",
            self.shown.len(),
            if self.shown.len() == 1 {
                "plant"
            } else {
                "plants"
            },
            self.shown.len() - kept - culled,
            self.order.told(),
            self.day_as_words()
        )
    }
}

/// What each digit begins to note.
fn digits() -> String {
    let told = QUICK
        .iter()
        .map(|one| format!("{} {}", one.digit, one.name));
    format!("Note: {}", told.collect::<Vec<_>>().join("  "))
}

/// Where the table, the plant and its bloom are; a part of no height is not drawn.
#[derive(Debug, Clone, Copy)]
pub(super) struct Parts {
    table: Rect,
    detail: Rect,
    /// A rule, face and side, and what they are.
    pub(super) bloom: Rect,
}

/// A pure function of the area.
pub(super) fn parts(area: Rect) -> Parts {
    let body = Rect {
        y: area.y + SAID,
        height: area.height.saturating_sub(SAID),
        ..area
    };
    let of_rows = |part: Rect, from: u16, height: u16| Rect {
        y: part.y + from,
        height,
        ..part
    };
    if area.width >= WIDE.0 && area.height >= WIDE.1 {
        let right = area.width * 2 / 5;
        let left = Rect {
            width: area.width - right - 2,
            ..body
        };
        let bloom = match left.height {
            WITH_BLOOM.. => SMALL.1 + 2,
            _ => 0,
        };
        let table = left.height - bloom;
        return Parts {
            table: of_rows(left, 0, table),
            detail: Rect {
                x: area.x + left.width + 2,
                width: right,
                ..body
            },
            bloom: of_rows(left, table, bloom),
        };
    }
    let detail = (body.height / 2).max(4);
    let table = body.height - detail;
    Parts {
        table: of_rows(body, 0, table),
        detail: of_rows(body, table, detail),
        bloom: of_rows(body, 0, 0),
    }
}
