//! One page of a table: title, head, printed cells and rules.

use kurbo::Rect;

use super::printed::{
    BLANK, BLANK_WIDTH, CELL, FIRST_CELL, GAP, HEADING, HINT, LEAST, PAD, Printed, ROW, SMALL,
    SUM_GAP, SUM_ROW, Strip, TITLE, cell_lines,
};
use crate::colour::Srgb;
use crate::geometry::{Outline, Stroke};
use crate::paper::page::{Align, Item, TextLine};
use crate::paper::printable::{Printable, Unprintable};

/// Dark enough for a photocopy.
const QUIET: Srgb = Srgb::grey(60);
const HAIR: Stroke = Stroke::new(Srgb::grey(90), 0.15);
/// After every fifth row of many and around the table, so that the eye keeps its row.
const STRONG: Stroke = Stroke::new(Srgb::BLACK, 0.3);
const HEAVY: Stroke = Stroke::new(Srgb::BLACK, 0.5);
const GROUP: usize = 5;
/// Fewer rows than these are told apart without: a heavy rule would look like one above a total.
const MANY: usize = 8;

/// One page on its way.
pub(super) struct TablePage<'a> {
    pub printed: &'a Printed,
    pub room: Rect,
    /// Its number and how many there are.
    pub number: usize,
    pub total: usize,
    /// Whether the page before has the columns to the left, and the next those to the right.
    pub follows: bool,
    pub goes_on: bool,
    /// Whether no more rows follow on another page.
    pub ends: bool,
}

impl TablePage<'_> {
    /// All that is printed on it, for these columns and rows under a head of this height.
    pub(super) fn items(
        &self,
        strip: &Strip,
        head: f64,
        rows: &[Vec<Printable>],
    ) -> Result<Vec<Item>, Unprintable> {
        let mut items = Vec::new();
        let top = self.title(&mut items)?;
        let mut x = self.room.x0;
        for (column, width) in strip {
            self.head(&mut items, *column, x + PAD, top + PAD, width - 2.0 * PAD)?;
            for (at, row) in rows.iter().enumerate() {
                if let Some(text) = row.get(*column) {
                    let y = top + head + at as f64 * ROW;
                    let place = CellPlace {
                        left: x + PAD,
                        top: y,
                        width: width - 2.0 * PAD,
                    };
                    let figures = self.printed.figures.get(*column) == Some(&true);
                    cell(&mut items, text, *column == 0, figures, place)?;
                }
            }
            x += width;
            if self.ends && *column == self.printed.column_of_sums() {
                let foot = top + head + rows.len() as f64 * ROW;
                self.sums(&mut items, (x - width, x - PAD), foot + SUM_GAP)?;
            }
        }
        let widths = strip.iter().map(|(_, width)| *width);
        rules(&mut items, self.room.x0, top, head, widths, rows.len());
        Ok(items)
    }

    /// Title, page and note; gives where the table begins.
    fn title(&self, items: &mut Vec<Item>) -> Result<f64, Unprintable> {
        let (left, right) = (self.room.x0, self.room.x1);
        let mut y = self.room.y0 + TITLE.line();
        let number = format!("page {} of {}", self.number, self.total);
        let number = Printable::new(&number)?;
        let beside = self.room.width() - number.width(SMALL) - 5.0;
        let style = self.printed.title.shrunk(TITLE, LEAST, beside)?;
        items.push(TextLine::new(self.printed.title.clone(), style, (left, y)).into());
        let number = TextLine::new(number, SMALL, (right, y));
        items.push(number.aligned(Align::Right).into());
        y += GAP;
        for line in self.printed.note.wrapped(SMALL, self.room.width())? {
            y += SMALL.line();
            items.push(TextLine::new(line, SMALL, (left, y)).into());
        }
        let (before, after) = (self.number.saturating_sub(1), self.number + 1);
        let turn = match (self.follows, self.goes_on) {
            (false, false) => String::new(),
            (false, true) => format!("More columns of these rows are on page {after}."),
            (true, false) => format!("The first columns of these rows are on page {before}."),
            (true, true) => {
                format!("Columns before these are on page {before}, more of them on page {after}.")
            }
        };
        if !turn.is_empty() {
            y += SMALL.line();
            let line = TextLine::new(Printable::new(&turn)?, SMALL, (left, y));
            items.push(line.inked(QUIET).into());
        }
        for (name, told) in &self.printed.blanks {
            y += BLANK;
            self.blank(items, name, told, y - GAP)?;
        }
        Ok(y + GAP)
    }

    /// A word and what is known, or a line to write it on.
    fn blank(
        &self,
        items: &mut Vec<Item>,
        name: &Printable,
        told: &Printable,
        y: f64,
    ) -> Result<(), Unprintable> {
        let left = self.room.x0;
        items.push(TextLine::new(name.clone(), HEADING, (left, y)).into());
        let from = left + name.width(HEADING) + 2.0;
        let width = BLANK_WIDTH.min(self.room.x1 - from);
        if told.as_str().is_empty() {
            items.push(Outline::line((from, y + 0.6), (from + width, y + 0.6), HAIR).into());
            return Ok(());
        }
        let style = told.shrunk(CELL, LEAST, width)?;
        items.push(TextLine::new(told.clone(), style, (from, y)).into());
        Ok(())
    }

    /// What the rows come to, the figures in their column from its `left` side to `right`: the last
    /// under a rule as wide as that, the names left of it.
    fn sums(
        &self,
        items: &mut Vec<Item>,
        (left, right): (f64, f64),
        top: f64,
    ) -> Result<(), Unprintable> {
        let sums = &self.printed.sums;
        let figures = sums.iter().map(|(_, figure)| figure.width(FIRST_CELL));
        let rule = (right - figures.fold(0.0, f64::max)).min(left + PAD);
        let beside = rule - 2.0 * PAD;
        let mut y = top;
        for (at, (name, figure)) in sums.iter().enumerate() {
            let is_total = at + 1 == sums.len();
            let style = if is_total { FIRST_CELL } else { CELL };
            let name_style = name.shrunk(style, LEAST, beside - self.room.x0)?;
            if is_total && at > 0 {
                items.push(Outline::line((rule, y + 0.4), (right, y + 0.4), STRONG).into());
            }
            y += SUM_ROW;
            let line = |text: &Printable, style, x| {
                TextLine::new(text.clone(), style, (x, y - 1.0)).aligned(Align::Right)
            };
            items.push(line(name, name_style, beside).into());
            items.push(line(figure, style, right).into());
        }
        Ok(())
    }

    fn head(
        &self,
        items: &mut Vec<Item>,
        column: usize,
        x: f64,
        top: f64,
        width: f64,
    ) -> Result<(), Unprintable> {
        let mut y = top - 0.5;
        let texts = [
            (&self.printed.headings[column], HEADING, Srgb::BLACK),
            (&self.printed.hints[column], HINT, QUIET),
        ];
        for (text, style, ink) in texts {
            for line in text.wrapped(style, width)? {
                y += style.line();
                let (at, align) = match self.printed.figures.get(column) {
                    Some(true) => (x + width, Align::Right),
                    _ => (x, Align::Left),
                };
                let line = TextLine::new(line, style, (at, y)).aligned(align);
                items.push(line.inked(ink).into());
            }
        }
        Ok(())
    }
}

/// Where what is printed of a cell may stand, in mm.
struct CellPlace {
    left: f64,
    top: f64,
    width: f64,
}

/// A printed cell, in the middle of its row's height; figures end at its right side.
fn cell(
    items: &mut Vec<Item>,
    text: &Printable,
    first: bool,
    figures: bool,
    place: CellPlace,
) -> Result<(), Unprintable> {
    let (style, lines) = cell_lines(text, first, place.width)?;
    let between = style.line() * (lines.len().max(1) - 1) as f64;
    let mut y = place.top + (ROW - between + style.capital()) / 2.0;
    let (x, align) = match figures {
        true => (place.left + place.width, Align::Right),
        false => (place.left, Align::Left),
    };
    for line in lines {
        items.push(TextLine::new(line, style, (x, y)).aligned(align).into());
        y += style.line();
    }
    Ok(())
}

/// The rules: around the table, under the head, between rows and columns.
fn rules(
    items: &mut Vec<Item>,
    left: f64,
    top: f64,
    head: f64,
    widths: impl Iterator<Item = f64>,
    rows: usize,
) {
    let edges: Vec<f64> = widths
        .scan(left, |x, width| {
            *x += width;
            Some(*x)
        })
        .collect();
    let Some(right) = edges.last().copied() else {
        return;
    };
    let bottom = top + head + rows as f64 * ROW;
    let mut across = |y, stroke| {
        items.push(Outline::line((left, y), (right, y), stroke).into());
    };
    for row in 1..rows {
        let group = rows >= MANY && row % GROUP == 0 && row + 1 < rows;
        let stroke = if group { STRONG } else { HAIR };
        across(top + head + row as f64 * ROW, stroke);
    }
    across(top + head, HEAVY);
    for x in &edges[..edges.len() - 1] {
        items.push(Outline::line((*x, top), (*x, bottom), HAIR).into());
    }
    let frame = Outline::of(Rect::new(left, top, right, bottom));
    items.push(frame.stroked(STRONG).into());
}
