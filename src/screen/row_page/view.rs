//! The layout of the Row page, and its drawing.

use ratatui::buffer::Buffer;
use ratatui::layout::Constraint::{Fill, Length};
use ratatui::layout::Rect;

use super::quick::QUICK;
use super::{Of, RowPage, adding};
use crate::screen::bloom::SMALL;
use crate::screen::kit::area::{self, GAP};
use crate::screen::kit::line::Line;
use crate::screen::kit::part::{Part, standing};
use crate::screen::kit::text::{Row, wrap};
use crate::screen::theme::{Role, Theme};
use crate::trial::{Fate, Subject};

/// From this width and height on the plant has a column of its own.
const WIDE: (u16, u16) = (120, 30);
/// From this height of its column on a bloom has room under the table.
const WITH_BLOOM: u16 = 32;
/// Columns between face and side.
const BETWEEN: usize = 4;
/// Rows for the sentence and what is said or typed below it, where that takes no more.
const SAID: u16 = 3;
/// How the hidden rest is seen.
const MORE: &str = "(Enter)";

impl RowPage {
    /// Draws the page.
    pub fn draw(&self, area: Rect, buffer: &mut Buffer, theme: Theme) {
        if let Some(slip) = &self.slip {
            return slip.filling.draw(area, buffer, theme);
        }
        let columns = |part: Rect| usize::from(part.width);
        let said = self.said(columns(area));
        let parts = Parts::of(area, said.len());
        Part::bare(said).paint(parts.said, buffer, theme);
        let (wide, height) = area::size(area::below_head(parts.table)[1]);
        let table = Part::under(self.table_head(wide), self.table(wide, height));
        table.paint(parts.table, buffer, theme);
        let detail = Part::new(self.detail_head(), self.detail(columns(parts.detail)));
        detail.more(MORE).paint(parts.detail, buffer, theme);
        let head = self.portraits.head("Its bloom");
        let bloom = Part::new(head, self.portraits.across(BETWEEN));
        bloom.paint(parts.bloom, buffer, theme);
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
        let below = match &self.note {
            Some(note) => (note.as_str(), Role::Fits),
            None => (hint, Role::Quiet),
        };
        let typed = line.rows(&asks, below, columns);
        // What was just done or is wrong comes before how the row stands, and is told whole: nothing is
        // saved that is not seen.
        standing(sentence.take(1).collect(), typed, SAID.into())
    }

    /// What the line is for, and what may be typed.
    fn asked(&self, line: &Line<Of>) -> (String, &'static str) {
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
                self.asks_whose(line.text()),
                "A seedling's number such as 26-014, or a variety of your list.",
            ),
        }
    }

    /// Whose bloom it is, by what is typed so far.
    fn asks_whose(&self, text: &str) -> String {
        match text.trim().parse::<Subject>() {
            Ok(Subject::Seedling(number)) if self.plot.trial.seedling(number).is_none() => {
                format!("Bloom of {number}, not in the row")
            }
            Ok(subject) => format!("Bloom of {subject}"),
            Err(_) => "Whose bloom is this".to_string(),
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
            self.order.in_words(),
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
    said: Rect,
    table: Rect,
    detail: Rect,
    /// A rule, face and side, and what they are.
    pub(super) bloom: Rect,
}

impl Parts {
    /// A pure function of the area and of how many rows are said, which take at most half of it.
    pub(super) fn of(area: Rect, said: usize) -> Parts {
        let most = (area.height / 2).max(SAID);
        let said = u16::try_from(said).unwrap_or(most).clamp(SAID, most);
        let [said, body] = area::rows(area, [Length(said), Fill(1)]);
        if area.width < WIDE.0 || area.height < WIDE.1 {
            let detail = (body.height / 2).max(4);
            let [table, detail] = area::rows(body, [Fill(1), Length(detail)]);
            let bloom = area::none(body);
            return Parts {
                said,
                table,
                detail,
                bloom,
            };
        }
        let right = Length(area.width * 2 / 5);
        let [left, detail] = area::columns(body, GAP, [Fill(1), right]);
        let bloom = match left.height {
            WITH_BLOOM.. => SMALL.1 + 2,
            _ => 0,
        };
        let [table, bloom] = area::rows(left, [Fill(1), Length(bloom)]);
        Parts {
            said,
            table,
            detail,
            bloom,
        }
    }
}
