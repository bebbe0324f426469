//! The layout of the Tags page, and its drawing.

use ratatui::buffer::Buffer;
use ratatui::layout::Constraint::{Fill, Length};
use ratatui::layout::Rect;

use super::TagsPage;
use super::preview::Preview;
use crate::account::text::counted;
use crate::screen::kit::area::{self, GAP};
use crate::screen::kit::part::{Part, standing};
use crate::screen::kit::text::{Row, lines, paragraph};
use crate::screen::theme::{Role, Theme};

/// Rows for what would be printed, the kinds, the sheet; or for what is typed.
const SAID: usize = 3;
/// The width of the table, and from what window on it has more.
const TABLE: u16 = 26;
const WIDE: (u16, u16) = (110, 56);
const WIDER: (u16, u16) = (150, 68);
/// How the hidden rest is seen.
const MORE: &str = "(Enter)";

/// Where the table, the refusals and the tag are; a part of no height is not drawn.
#[derive(Debug, Clone, Copy)]
pub(super) struct Parts {
    said: Rect,
    table: Rect,
    refused: Rect,
    pub(super) tag: Rect,
}

impl Parts {
    /// A pure function of the area, of the rows that are said, and of those that the refusals take.
    fn of(area: Rect, said: usize, refused: usize) -> Parts {
        let [said, body] = area::below_said(area, said);
        let wide = area.width >= WIDE.0;
        let left = table_width(area);
        let [left, tag] = area::columns(body, GAP, [Length(left), Fill(1)]);
        let refusals = match (wide, refused) {
            // A head over them. OK because the least of the two is a height.
            (true, 1..) => (refused + 1).min(usize::from(body.height) / 3) as u16,
            _ => 0,
        };
        let [table, refused] = area::rows(left, [Fill(1), Length(refusals)]);
        Parts {
            said,
            table,
            refused,
            tag,
        }
    }
}

/// How wide the table is.
fn table_width(area: Rect) -> u16 {
    let wider = [WIDER, WIDE].into_iter().find(|one| area.width >= one.0);
    wider.map_or(TABLE, |one| one.1)
}

impl TagsPage {
    pub(super) fn parts(&self, area: Rect) -> Parts {
        let said = self.said(area::of_words(area)).len();
        Parts::of(area, said, self.refusals(table_width(area).into()).len())
    }

    /// Draws the page.
    pub(in crate::screen) fn draw(&self, area: Rect, buffer: &mut Buffer, theme: Theme) {
        let parts = self.parts(area);
        let columns = |part: Rect| usize::from(part.width);
        let said = Part::bare(self.said(area::of_words(parts.said)));
        said.words().paint(parts.said, buffer, theme);
        let (wide, height) = area::size(area::below_head(parts.table)[1]);
        let table = Part::under(self.table_head(wide), self.table(wide, height));
        table.paint(parts.table, buffer, theme);
        let tag = Part::new(self.tag_head(), self.tag(columns(parts.tag)));
        tag.more(MORE).paint(parts.tag, buffer, theme);
        let head = Row::of("Refused", Role::Heading);
        let refused = Part::new(head, self.refusals(columns(parts.refused)));
        refused.more("(r)").paint(parts.refused, buffer, theme);
    }

    /// The whole tag under the cursor, for the sheet.
    pub(in crate::screen) fn why(&self, columns: usize) -> Vec<Row> {
        let mut rows = vec![self.tag_head()];
        rows.extend(self.tag(columns));
        if let Some(sheet) = self.sheet() {
            rows.push(Row::default());
            rows.push(Row::of(
                format!("On {}.", sheet.described(self.units)),
                Role::Quiet,
            ));
        }
        rows
    }

    /// Everything that is refused and why, and what wants asking about before it is sold, for the
    /// sheet.
    pub(in crate::screen) fn all_refused(&self, columns: usize) -> Vec<Row> {
        let mut rows = self.refusals(columns);
        if rows.is_empty() {
            rows.push(Row::of("Nothing that was picked is refused.", Role::Plain));
        }
        let warned = self.warned();
        if !warned.is_empty() {
            rows.push(Row::default());
            rows.push(Row::of("To ask about before you sell", Role::Heading));
        }
        rows.extend(warned.into_iter().flat_map(|(subject, why)| {
            let lead = format!("? {subject}: ");
            paragraph((&lead, Role::Doubt), why, Role::Plain, columns)
        }));
        rows
    }

    /// Where files go, for the head of the screen.
    pub(in crate::screen) fn kept(&self) -> String {
        format!("files go to {}", self.supply.folder)
    }

    fn refusals(&self, columns: usize) -> Vec<Row> {
        let told = |one: &&crate::tag::Refused| {
            let lead = format!("! {}: ", one.subject);
            paragraph((&lead, Role::Wrong), &one.why, Role::Plain, columns)
        };
        self.refused().iter().flat_map(told).collect()
    }

    fn tag_head(&self) -> Row {
        let Some(subject) = self.subject() else {
            return Row::of("No tag", Role::Heading);
        };
        let size = { self.sheet() }.map_or(String::new(), |sheet| sheet.label_size(self.units));
        let kind = self.kind().map_or("tag", |kind| &kind.says);
        let copies = match self.copies_of(subject) {
            1 => String::new(),
            copies => format!(", {copies} copies"),
        };
        let told = format!("  {kind}, {size}{copies}");
        Row::of(subject.to_string(), Role::Heading).with(told, Role::Plain)
    }

    /// The tag under the cursor as it will print, or why it will not.
    fn tag(&self, columns: usize) -> Vec<Row> {
        let label = self.subject().and_then(|one| self.labels.get(one));
        let mut rows = self.stock_told(columns);
        rows.extend(match label {
            None => Vec::new(),
            Some(Ok(label)) => Preview::of(label, columns).rows(&self.portraits.face.cells()),
            Some(Err(refused)) => {
                let lead = ("! ", Role::Wrong);
                let told = format!("Not printed: {}.", refused.why);
                paragraph(lead, &told, Role::Plain, columns)
            }
        });
        rows
    }

    fn said(&self, columns: usize) -> Vec<Row> {
        let first = Row::of(self.sentence(), Role::Strong);
        if let Some(line) = &self.line {
            let (asks, hint) = self.asked(&line.of);
            let typed = line.rows(asks, (&hint, Role::Quiet), columns);
            let height = SAID.max(typed.len());
            return standing(vec![first], typed, height);
        }
        let last = match &self.note {
            Some(note) => lines(note, Role::Doubt, columns.saturating_sub(1)),
            None => lines(&self.settings(), Role::Quiet, columns.saturating_sub(1)),
        };
        [vec![first, self.kinds()], last].concat()
    }

    /// What would be printed.
    fn sentence(&self) -> String {
        let kind = self.kind().map_or("tag", |kind| &kind.says);
        let targets = self.targets().len();
        let count = self.count();
        let printed = counted(count, kind);
        let which = match (self.picked.is_empty(), self.by_hand) {
            (true, _) if targets == 0 => "Nothing to tag".to_string(),
            (_, false) if self.by_book => {
                format!("{} for sale by the stock book", counted(targets, "plant"))
            }
            (true, false) => "No seedling is kept yet; under the cursor".to_string(),
            (true, true) => "Nothing picked; under the cursor".to_string(),
            (false, false) if targets == 1 => "The kept seedling".to_string(),
            (false, false) => format!("All {targets} kept seedlings"),
            (false, true) => format!("{targets} picked"),
        };
        let pages = match self.sheet() {
            Some(sheet) if count > 0 => {
                let pages = sheet.pages_of(count, self.placing.from);
                format!(" on {}", counted(pages, "page"))
            }
            _ => String::new(),
        };
        format!("{which}: {printed}{pages}{}.", self.left_out())
    }

    /// The kinds with their digits, the one that is chosen in brackets.
    fn kinds(&self) -> Row {
        let kinds = self.supply.stock.kinds.iter().enumerate();
        kinds.fold(Row::of("Kind:", Role::Quiet), |row, (at, kind)| {
            let row = row.with(format!(" {} ", at + 1), Role::Key);
            match at == self.kind {
                true => row.with(format!("[{}]", kind.says), Role::Heading),
                false => row.with(format!(" {} ", kind.says), Role::Plain),
            }
        })
    }

    /// The sheet, the colour, and what is other than usual, with their keys.
    fn settings(&self) -> String {
        let sheet = self
            .sheet()
            .map_or(String::new(), |sheet| sheet.described(self.units));
        let colour = if self.coloured {
            "in colour"
        } else {
            "in black"
        };
        let mut told = format!("On {sheet} (s), {colour} (c)");
        if let (x, y) = self.placing.offset
            && (x, y) != (0.0, 0.0)
        {
            told += &format!(", moved {x},{y} mm (o)");
        }
        if self.placing.from > 1 {
            told += &format!(", from label {} (f)", self.placing.from);
        }
        if self.by_book {
            told += ", by the stock book (b)";
        }
        if self.copies.numbered {
            told += ", numbered (#)";
        }
        told
    }
}
