//! The layout of the Choose page, and its drawing.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use super::{ChoosePage, Entry};
use crate::screen::bloom::SMALL;
use crate::screen::text::{Row, paint, paint_part, wrap};
use crate::screen::theme::{Role, Theme};

/// From this size on counts and detail have a column of their own, and the colours a strip.
const WIDE: (u16, u16) = (120, 30);
/// From this height of its column on a bloom has room under the table.
const WITH_BLOOM: u16 = 32;
/// Rows for the sentence and what is said below it.
const SAID: u16 = 3;
/// How the hidden rest is seen.
const MORE: &str = "(w)";

/// Where each part of the page is; a part of no height is not drawn.
#[derive(Debug, Clone, Copy)]
pub(super) struct Parts {
    said: Rect,
    table: Rect,
    picker: Rect,
    counts: Rect,
    detail: Rect,
    strip: Rect,
    /// A head, the bloom, and what it is.
    pub(super) bloom: Rect,
    wide: bool,
}

/// A pure function of the area and of whether something is picked from.
pub(super) fn parts(area: Rect, picking: bool) -> Parts {
    let wide = area.width >= WIDE.0 && area.height >= WIDE.1;
    let none = Rect { height: 0, ..area };
    let said = Rect {
        height: SAID,
        ..area
    };
    let body = Rect {
        y: area.y + SAID,
        height: area.height.saturating_sub(SAID),
        ..area
    };
    if wide {
        let right = area.width * 2 / 5;
        let left = Rect {
            width: area.width - right - 2,
            ..body
        };
        let right = Rect {
            x: area.x + left.width + 2,
            width: right,
            ..body
        };
        let (wide_bloom, high_bloom) = SMALL;
        let (strip, beside) = match left.height {
            WITH_BLOOM.. => (high_bloom + 2, wide_bloom + 4),
            _ => (left.height / 4, 0),
        };
        let table = Rect {
            height: left.height - strip,
            ..left
        };
        let counts = Rect {
            height: right.height / 2,
            ..right
        };
        let detail = Rect {
            y: counts.y + counts.height,
            height: right.height - counts.height,
            ..right
        };
        let strip = Rect {
            y: table.y + table.height,
            height: strip,
            width: left.width - beside,
            ..left
        };
        let bloom = match beside {
            0 => none,
            _ => Rect {
                x: strip.x + strip.width + 2,
                width: beside - 2,
                ..strip
            },
        };
        let picker = if picking { counts } else { none };
        return Parts {
            said,
            table,
            picker,
            counts,
            detail,
            strip,
            bloom,
            wide,
        };
    }
    let detail = (body.height * 2 / 5).max(4);
    let table = Rect {
        height: body.height - detail,
        ..body
    };
    let detail = Rect {
        y: table.y + table.height,
        height: detail,
        ..body
    };
    if picking {
        // What is picked from takes the full height: its list may be long.
        let width = (area.width / 2).min(40);
        let left = Rect {
            width: area.width - width - 2,
            ..body
        };
        let picker = Rect {
            x: left.x + left.width + 2,
            width,
            ..body
        };
        return Parts {
            said,
            table: left,
            picker,
            counts: none,
            detail: none,
            strip: none,
            bloom: none,
            wide,
        };
    }
    Parts {
        said,
        table,
        picker: none,
        counts: none,
        detail,
        strip: none,
        bloom: none,
        wide,
    }
}

impl ChoosePage {
    /// Draws the page.
    pub fn draw(&self, area: Rect, buffer: &mut Buffer, theme: Theme) {
        let parts = parts(area, self.is_picking());
        let columns = |part: Rect| usize::from(part.width);
        let height = |part: Rect| usize::from(part.height);
        paint(
            &self.said(columns(parts.said)),
            parts.said,
            buffer,
            theme,
            "",
        );
        let mut rows = vec![self.table_head(columns(parts.table))];
        rows.extend(self.table(
            columns(parts.table),
            height(parts.table).saturating_sub(1),
            theme,
        ));
        paint(&rows, parts.table, buffer, theme, "");
        let mut part = |at: Rect, head: Row, rows: Vec<Row>, more: &str| {
            paint_part((head, &rows), at, buffer, theme, more);
        };
        if let Some(mut rows) = self.picker(columns(parts.picker), height(parts.picker)) {
            let head = rows.remove(0);
            part(parts.picker, head, rows, "");
        } else {
            let head = Row::of("What each would leave (f)", Role::Heading);
            part(
                parts.counts,
                head,
                self.facet_rows(columns(parts.counts)),
                "(f)",
            );
        }
        let rows = match parts.wide {
            true => self.detail(columns(parts.detail)),
            false => self.detail_short(columns(parts.detail)),
        };
        part(parts.detail, self.detail_head(), rows, MORE);
        let head = Row::of("The whole list by colour (g)", Role::Heading);
        if parts.strip.height > 0 {
            part(parts.strip, head, self.strip(columns(parts.strip)), "(g)");
        }
        let head = self.portraits.head("Bloom");
        part(parts.bloom, head, self.portraits.across(0), "");
    }

    pub(super) fn is_picking(&self) -> bool {
        matches!(self.entry, Entry::Values { .. } | Entry::Uses { .. })
    }

    /// Everything of the variety under the cursor, for the sheet.
    pub fn why(&self, columns: usize) -> Vec<Row> {
        self.portraits
            .beside_text(columns, |columns| self.in_full(columns))
    }

    /// Varieties side by side, for the sheet.
    pub fn compared(&self, columns: usize) -> Vec<Row> {
        self.side_by_side(columns)
    }

    /// The colours of the whole list, for the sheet.
    pub fn colours_of_all(&self, columns: usize) -> Vec<Row> {
        self.colours_in_full(columns)
    }

    /// The sentence, and under it what is typed or what was just done.
    fn said(&self, columns: usize) -> Vec<Row> {
        let below = self.below();
        let room = usize::from(SAID) - below.len().min(2);
        let mut said = wrap(&self.sentence(), columns.saturating_sub(1));
        if said.len() > room {
            said.truncate(room);
            if let Some(last) = said.last_mut() {
                *last = crate::screen::text::cut(&format!("{last} \u{2026}"), columns);
            }
        }
        let mut rows: Vec<Row> = said
            .iter()
            .map(|line| Row::of(line, Role::Strong))
            .collect();
        rows.extend(below);
        rows
    }

    fn below(&self) -> Vec<Row> {
        if let Entry::Line { of, text, problem } = &self.entry {
            let line = Row::of(format!("{}: ", of.asks()), Role::Key)
                .with(format!("[{text}_]"), Role::Strong);
            let below = match problem {
                Some(problem) => Row::of(problem, Role::Wrong),
                None => Row::of(of.hint(), Role::Quiet),
            };
            return vec![line, below];
        }
        let failed = self
            .keeper
            .failure()
            .map(|why| (format!("Not saved: {why}."), Role::Wrong));
        let note = self.note.clone().or_else(|| self.mend_told());
        let note = note.map(|note| (note, Role::Doubt));
        let told = failed.into_iter().chain(note);
        told.map(|(text, role)| Row::of(text, role)).collect()
    }
}
