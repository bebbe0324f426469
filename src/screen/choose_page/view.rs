//! The layout of the Choose page, and its drawing.

use ratatui::buffer::Buffer;
use ratatui::layout::Constraint::{Fill, Length};
use ratatui::layout::Rect;

use super::{ChoosePage, Entry};
use crate::screen::bloom::SMALL;
use crate::screen::kit::area::{self, GAP};
use crate::screen::kit::part::Part;
use crate::screen::kit::text::{Row, lines, wrap_within};
use crate::screen::theme::{Role, Theme};
use crate::variety::Index;

/// From this size on counts and detail have a column of their own, and the colours a strip.
const WIDE: (u16, u16) = (120, 30);
/// The most columns of counts and detail: more is the table's, whose cells are then not cut.
const MOST_RIGHT: u16 = 64;
/// From this height of its column on a bloom has room under the table.
const WITH_BLOOM: u16 = 32;
/// Rows for the sentence and what is said below it, where that takes no more.
const SAID: usize = 2;
/// In a narrower window what is picked from stands in place of the table.
const BESIDE: u16 = 60;
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

impl Parts {
    /// A pure function of the area, of how many rows are said, and of whether something is picked from.
    pub(super) fn of(area: Rect, said: usize, picking: bool) -> Parts {
        let [said, body] = area::below_said(area, said);
        let none = area::none(body);
        let parts = Parts {
            said,
            table: body,
            picker: none,
            counts: none,
            detail: none,
            strip: none,
            bloom: none,
            wide: area.width >= WIDE.0 && area.height >= WIDE.1,
        };
        match (parts.wide, picking) {
            (true, _) => parts.in_two_columns(picking),
            (false, true) if area.width < BESIDE => Parts {
                table: none,
                picker: body,
                ..parts
            },
            (false, true) => {
                // What is picked from takes the full height: its list may be long.
                let picker = (area.width / 2).min(40);
                let [table, picker] = area::columns(body, GAP, [Fill(1), Length(picker)]);
                Parts {
                    table,
                    picker,
                    ..parts
                }
            }
            (false, false) => {
                let detail = (body.height * 2 / 5).max(4);
                let [table, detail] = area::rows(body, [Fill(1), Length(detail)]);
                Parts {
                    table,
                    detail,
                    ..parts
                }
            }
        }
    }

    /// The table over the strip of colours, and the counts over the detail.
    fn in_two_columns(self, picking: bool) -> Parts {
        let body = self.table;
        let right = (body.width * 3 / 8).min(MOST_RIGHT);
        let [left, right] = area::columns(body, GAP, [Fill(1), Length(right)]);
        let (columns, rows) = SMALL;
        let with_bloom = left.height >= WITH_BLOOM;
        let strip = match with_bloom {
            true => rows + 2,
            false => left.height / 4,
        };
        let [table, strip] = area::rows(left, [Fill(1), Length(strip)]);
        let [counts, detail] = area::rows(right, [Length(right.height / 2), Fill(1)]);
        let [strip, bloom] = match with_bloom {
            true => area::columns(strip, GAP, [Fill(1), Length(columns + 2)]),
            false => [strip, self.bloom],
        };
        Parts {
            table,
            picker: if picking { counts } else { self.picker },
            counts,
            detail,
            strip,
            bloom,
            ..self
        }
    }
}

impl ChoosePage {
    /// Draws the page.
    pub fn draw(&self, area: Rect, buffer: &mut Buffer, theme: Theme) {
        match &self.entry {
            Entry::Slip(slip) => return slip.filling.draw(area, buffer, theme),
            Entry::Import => return self.import.draw(area, buffer, theme),
            _ => {}
        }
        let said = self.said(area::of_words(area));
        let parts = Parts::of(area, said.len(), self.is_picking());
        let columns = area::of_words;
        Part::bare(said).words().paint(parts.said, buffer, theme);
        let (wide, height) = area::size(area::below_head(parts.table)[1]);
        let table = Part::under(self.table_head(wide), self.table(wide, height, theme));
        table.paint(parts.table, buffer, theme);
        let (wide, height) = area::size(area::below_head(parts.picker)[1]);
        match self.picker(wide, height) {
            Some(picker) => picker.paint(parts.picker, buffer, theme),
            None => {
                let head = Row::of("What each would leave (f)", Role::Heading);
                let counts = Part::new(head, self.facet_rows(columns(parts.counts)));
                let counts = counts.words().more("(f)");
                counts.paint(parts.counts, buffer, theme);
            }
        }
        let detail = match parts.wide {
            true => self.detail(columns(parts.detail)),
            false => self.detail_short(columns(parts.detail)),
        };
        let detail = Part::new(self.detail_head(), detail).words();
        detail.more(MORE).paint(parts.detail, buffer, theme);
        if parts.strip.height > 0 {
            let head = Row::of("The whole list by colour (g)", Role::Heading);
            let (wide, height) = area::size(area::inset(area::below_head(parts.strip)[1]));
            let strip = Part::new(head, self.strip(wide, height, theme)).words();
            strip.more("(g)").paint(parts.strip, buffer, theme);
        }
        let bloom = Part::new(self.portraits.head("Bloom"), self.portraits.across(0));
        bloom.words().paint(parts.bloom, buffer, theme);
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

    /// What is narrowed by colour, for the sheet.
    pub fn by_colour(&self, columns: usize, theme: Theme) -> Vec<Row> {
        self.colours_in_full(columns, theme)
    }

    /// The sentence, and under it what is typed or what was just done: that is told whole.
    pub(super) fn said(&self, columns: usize) -> Vec<Row> {
        let below = self.below(columns);
        let is_at_rest = below.is_empty();
        let most = match wrap_within(&self.sentence(), columns.saturating_sub(1), SAID).len() {
            more if is_at_rest => more,
            _ => SAID.saturating_sub(below.len()).max(1),
        };
        let said = wrap_within(&self.sentence(), columns.saturating_sub(1), most);
        let said = said.iter().map(|line| Row::of(line, Role::Strong));
        let said = said.chain(below);
        match self.marks_mean(columns) {
            Some(marks) if is_at_rest => said.chain([marks]).collect(),
            _ => said.collect(),
        }
    }

    /// What the marks of the table mean and how many there are, with the keys that set them where those
    /// have room; `None` where there is no row to mark.
    fn marks_mean(&self, columns: usize) -> Option<Row> {
        // The index has counted them: a long list is not gone through for every frame.
        let marked = self.index.as_ref().map_or(0, Index::shortlisted);
        let told = |[shortlist, compare]: [&str; 2]| {
            let compared = self.compared.len();
            Row::of("+", Role::Fits)
                .with(
                    format!(" {marked} on the shortlist{shortlist}   "),
                    Role::Quiet,
                )
                .with("x", Role::Doubt)
                .with(format!(" {compared} to compare{compare}"), Role::Quiet)
        };
        let told = [[" (m)", " (x)"], ["", ""]].map(told);
        let fits = told.into_iter().find(|row| row.width() <= columns);
        fits.filter(|_| !self.list().is_empty())
    }

    fn below(&self, columns: usize) -> Vec<Row> {
        if let Entry::Line(line) = &self.entry {
            let hint = (line.of.hint(), Role::Quiet);
            return line.rows(line.of.asks(), hint, columns);
        }
        let failed = self
            .keeper
            .failure()
            .map(|why| (format!("Not saved: {why}."), Role::Wrong));
        let note = self.note.clone().or_else(|| self.mend_sentence());
        let note = note.map(|note| (note, Role::Doubt));
        let told = failed.into_iter().chain(note);
        let inner = columns.saturating_sub(1);
        told.flat_map(|(text, role)| lines(&text, role, inner))
            .collect()
    }
}
