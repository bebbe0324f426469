//! The layout of the Row page, and its drawing.

use ratatui::buffer::Buffer;
use ratatui::layout::Constraint::{Fill, Length};
use ratatui::layout::Rect;

use super::quick::QUICK;
use super::{Of, RowPage, adding, cutting};
use crate::screen::bloom::SMALL;
use crate::screen::kit::area::{self, GAP};
use crate::screen::kit::digits::digits;
use crate::screen::kit::line::Line;
use crate::screen::kit::part::{Part, standing};
use crate::screen::kit::text::{Row, lines, wrap};
use crate::screen::theme::{Role, Theme};
use crate::trial::{Fate, Subject};

/// From this width on advice and evidence stand side by side.
const SIDE_BY_SIDE: u16 = 100;
/// From this width on the plant's bloom has room beside them, and the rows that it needs.
const WITH_BLOOM: (u16, u16) = (140, SMALL.1 + 2);
/// Columns between face and side.
const BETWEEN: u16 = 4;
/// How the hidden rest is seen.
const MORE: &str = "(Enter)";

impl RowPage {
    /// Draws the page.
    pub fn draw(&self, area: Rect, buffer: &mut Buffer, theme: Theme) {
        if let Some(slip) = &self.slip {
            return slip.filling.draw(area, buffer, theme);
        }
        let columns = area::of_words;
        let said = self.said(columns(area));
        let parts = Parts::of(area, said.len());
        Part::bare(said).words().paint(parts.said, buffer, theme);
        let (wide, height) = area::size(area::below_head(parts.table)[1]);
        let table = Part::under(self.table_head(wide), self.table(wide, height));
        table.paint(parts.table, buffer, theme);
        let mut detail = self.to_do(columns(parts.detail));
        match parts.evidence.height {
            0 => detail.extend(self.evidence(columns(parts.detail))),
            _ => {
                let head = Row::of("What its entries add up to", Role::Heading);
                let (wide, height) = area::size(area::inset(area::below_head(parts.evidence)[1]));
                let mut rows = self.evidence(wide);
                if parts.bloom.height == 0 {
                    let left = height.saturating_sub(rows.len());
                    rows.extend(self.charts_within(wide, left, theme));
                }
                let evidence = Part::new(head, rows).words().more(MORE);
                evidence.paint(parts.evidence, buffer, theme);
            }
        }
        let detail = Part::new(self.detail_head(), detail).words();
        detail.more(MORE).paint(parts.detail, buffer, theme);
        let head = self.portraits.head("Its bloom");
        let (wide, height) = area::size(area::below_head(parts.bloom)[1]);
        let mut bloom = self.portraits.across(BETWEEN.into());
        let left = height.saturating_sub(bloom.len());
        bloom.extend(self.charts_within(wide, left, theme));
        Part::new(head, bloom).paint(parts.bloom, buffer, theme);
    }

    /// Everything of the plant under the cursor, for the sheet.
    pub fn why(&self, columns: usize, theme: Theme) -> Vec<Row> {
        self.portraits
            .beside_text(columns, |columns| self.in_full(columns, theme))
    }

    /// How the row stands, and below it what is typed or was just done, else what each digit notes. As
    /// many rows as at rest, so that the table stays where it is, unless more is to be said.
    pub(super) fn said(&self, columns: usize) -> Vec<Row> {
        let inner = columns.saturating_sub(1);
        let sentence = wrap(&self.sentence(), inner);
        let sentence = sentence.iter().map(|line| Row::of(line, Role::Strong));
        let sentence: Vec<Row> = sentence.take(2).collect();
        let digits = digits(QUICK.iter().map(|one| (one.digit, one.name)), inner);
        let rest = sentence.len() + digits.len();
        let Some(line) = &self.line else {
            let failed = self
                .failure()
                .map(|why| (format!("Not saved: {why}."), Role::Wrong));
            let note = self.note.clone().map(|note| (note, Role::Doubt));
            let told = failed
                .or(note)
                .map(|(text, role)| lines(&text, role, inner));
            let mut said = sentence;
            said.extend(told.into_iter().flatten());
            // No row is blank over the table: the digits have what is left.
            let left = rest.saturating_sub(said.len());
            said.extend(digits.into_iter().take(left));
            return said;
        };
        let (asks, hint) = self.asked(line);
        let below = match &self.note {
            Some(note) => (note.as_str(), Role::Fits),
            None => (hint, Role::Quiet),
        };
        let mut typed = line.rows(&asks, below, columns);
        // What was just done or is wrong comes before how the row stands, and is told whole: nothing is
        // saved that is not seen.
        let height = rest.max(typed.len());
        let how = match sentence.len() {
            0 | 1 => sentence,
            // Not half of it.
            _ => {
                let all = self.sentence();
                let first = all.split(';').next().unwrap_or_default();
                vec![Row::of(format!("{first}."), Role::Strong)]
            }
        };
        typed = standing(how, typed, height);
        let left = height.saturating_sub(typed.len());
        let more = self
            .note
            .iter()
            .flat_map(|_| lines(hint, Role::Quiet, inner));
        typed.extend(more.take(left));
        typed.resize(height, Row::default());
        typed
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
            Of::Cut => ("Cut of".to_string(), cutting::HINT),
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

/// Where the table, the plant and its bloom are; a part of no height is not drawn.
#[derive(Debug, Clone, Copy)]
pub(super) struct Parts {
    said: Rect,
    table: Rect,
    /// What to do with the plant, and below it what is known of it where that has no part of its own.
    detail: Rect,
    evidence: Rect,
    /// A rule, face and side, and what they are.
    pub(super) bloom: Rect,
}

impl Parts {
    /// A pure function of the area and of how many rows are said, which take at most half of it. The
    /// table has the full width: what is to be done next is a sentence.
    pub(super) fn of(area: Rect, said: usize) -> Parts {
        let [said, body] = area::below_said(area, said);
        let none = area::none(body);
        if area.width < SIDE_BY_SIDE {
            let detail = (body.height / 2).max(4);
            let [table, detail] = area::rows(body, [Fill(1), Length(detail)]);
            return Parts {
                said,
                table,
                detail,
                evidence: none,
                bloom: none,
            };
        }
        let [table, below] = area::rows(body, [Fill(1), Length(body.height * 2 / 5)]);
        let has_bloom = area.width >= WITH_BLOOM.0 && below.height >= WITH_BLOOM.1;
        let (below, bloom) = match has_bloom {
            true => {
                let bloom = Length(SMALL.0 * 2 + BETWEEN);
                let [below, bloom] = area::columns(below, GAP, [Fill(1), bloom]);
                (below, bloom)
            }
            false => (below, none),
        };
        let [detail, evidence] = area::shares(below, GAP);
        Parts {
            said,
            table,
            detail,
            evidence,
            bloom,
        }
    }
}
