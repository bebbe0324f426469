//! A label as text: every line as it will be printed, in its place beside drawing and code.
//!
//! Letters of a terminal have one width and those of a label do not, so places keep their order and
//! not their measure.

use kurbo::Rect;

use crate::geometry::around;
use crate::paper::{Align, Item, TextLine, Weight};
use crate::screen::kit::text::{Row, fit, width, wrap};
use crate::screen::theme::Role;
use crate::tag::Label;

/// Columns between two parts.
const GAP: usize = 2;
/// The columns of a drawing: fewer show no form, more show no more.
const DRAWN: std::ops::RangeInclusive<usize> = 16..=28;
/// The columns that stand for a code.
const CODE: usize = 11;
/// A line so much further down than its letters' own distance begins something new.
const NEW: f64 = 1.5;

/// What of a label stands where.
#[derive(Debug, Clone)]
pub(super) struct Preview {
    /// From left to right.
    parts: Vec<Part>,
    /// Columns between the frame and what is in it, where there is room.
    pad: usize,
}

/// What stands one below the other.
#[derive(Debug, Clone)]
struct Part {
    /// On the label, in mm.
    bounds: Rect,
    columns: usize,
    blocks: Vec<Block>,
}

#[derive(Debug, Clone)]
enum Block {
    Words(Vec<Row>),
    /// So many rows, of twice as many columns.
    Drawing(usize),
    Code,
}

impl Preview {
    /// Of a label in so many columns, its frame included.
    pub(super) fn of(label: &Label, columns: usize) -> Preview {
        let room = columns.saturating_sub(2);
        let mut parts = words(label, room);
        let across = |parts: &[Part]| parts.iter().map(|part| part.columns + GAP).sum::<usize>();
        if across(&parts) > room + GAP {
            parts = stacked(parts);
        }
        let taken = across(&parts);
        let pad = usize::from(taken + 2 < room + GAP);
        let left = room.saturating_sub(taken + 2 * pad);
        parts.extend(pictures(label, left));
        parts.sort_by(|a, b| a.bounds.x0.total_cmp(&b.bounds.x0));
        Preview { parts, pad }
    }

    /// Columns and rows of the drawing, where it has room.
    pub(super) fn drawing(&self) -> Option<(u16, u16)> {
        let mut blocks = self.parts.iter().flat_map(|part| &part.blocks);
        blocks.find_map(|block| match block {
            // OK because both are small.
            Block::Drawing(rows) => Some((*rows as u16 * 2, *rows as u16)),
            Block::Words(_) | Block::Code => None,
        })
    }

    /// Framed, with this drawing.
    pub(super) fn rows(&self, drawing: &[Row]) -> Vec<Row> {
        let parts: Vec<(usize, Vec<Row>)> = self
            .parts
            .iter()
            .map(|part| (part.columns, part.rows(drawing)))
            .collect();
        let height = parts.iter().map(|(_, rows)| rows.len()).max().unwrap_or(0);
        let width: usize = parts.iter().map(|(columns, _)| columns + GAP).sum();
        let width = width.saturating_sub(GAP);
        let line = "\u{2500}".repeat(width + 2 * self.pad);
        let pad = " ".repeat(self.pad);
        let frame = |text: String| Row::of(text, Role::Line);
        let mut rows = vec![frame(format!("\u{250c}{line}\u{2510}"))];
        for at in 0..height {
            let mut row = frame(format!("\u{2502}{pad}"));
            for (place, (columns, own)) in parts.iter().enumerate() {
                let blank = Row::default();
                let piece = own.get(at).unwrap_or(&blank).clone();
                let fill = columns.saturating_sub(piece.width());
                let gap = if place + 1 < parts.len() { GAP } else { 0 };
                row = row.and(piece).with(" ".repeat(fill + gap), Role::Plain);
            }
            rows.push(row.with(format!("{pad}\u{2502}"), Role::Line));
        }
        rows.push(frame(format!("\u{2514}{line}\u{2518}")));
        rows
    }
}

impl Part {
    fn rows(&self, drawing: &[Row]) -> Vec<Row> {
        let mut rows = Vec::new();
        for block in &self.blocks {
            if !rows.is_empty() {
                rows.push(Row::default());
            }
            match block {
                Block::Words(words) => rows.extend(words.iter().cloned()),
                Block::Drawing(height) => {
                    let drawn = drawing.iter().take(*height).cloned();
                    rows.extend(drawn);
                }
                Block::Code => rows.extend(code()),
            }
        }
        rows
    }
}

/// Drawing and code in so many columns: one part where the code stands below the drawing.
fn pictures(label: &Label, columns: usize) -> Vec<Part> {
    let mut left = columns;
    let mut part = |bounds: Rect, wide: usize, block: Block| {
        left = left.checked_sub(wide)?.saturating_sub(GAP);
        Some(Part {
            bounds,
            columns: wide,
            blocks: vec![block],
        })
    };
    let drawing = label.items.iter().find_map(|item| match item {
        Item::Drawing(drawing) => drawing.bounds(),
        _ => None,
    });
    let code = label.items.iter().find_map(|item| match item {
        Item::Squares(code) => code.bounds(),
        _ => None,
    });
    let below = match (drawing, code) {
        (Some(drawing), Some(code)) => {
            code.x0 < drawing.x1 && drawing.x0 < code.x1 && code.y0 >= drawing.y0
        }
        _ => false,
    };
    let reserved = match code {
        Some(_) if !below => CODE + GAP,
        _ => 0,
    };
    let rows = columns.saturating_sub(reserved).min(*DRAWN.end()) / 2;
    let drawing = drawing.filter(|_| rows * 2 >= *DRAWN.start());
    let mut parts: Vec<Part> = Vec::new();
    parts.extend(drawing.and_then(|bounds| part(bounds, rows * 2, Block::Drawing(rows))));
    match (code, parts.last_mut()) {
        (Some(_), Some(drawn)) if below => drawn.blocks.push(Block::Code),
        (Some(bounds), _) => parts.extend(part(bounds, CODE, Block::Code)),
        (None, _) => {}
    }
    parts
}

/// What stands for a code: its squares would be too fine.
fn code() -> Vec<Row> {
    let inner = CODE - 2;
    let line = "\u{2500}".repeat(inner);
    let side = || Row::of("\u{2502}", Role::Line);
    vec![
        Row::of(format!("\u{250c}{line}\u{2510}"), Role::Line),
        (side().with(fit(" QR code", inner), Role::Quiet)).and(side()),
        Row::of(format!("\u{2514}{line}\u{2518}"), Role::Line),
    ]
}

/// The lines of a label, those that begin at the same place in one part.
fn words(label: &Label, room: usize) -> Vec<Part> {
    let texts = label.items.iter().filter_map(|item| match item {
        Item::Text(line) => Some(line),
        _ => None,
    });
    let (lines, ends): (Vec<&TextLine>, Vec<&TextLine>) =
        texts.partition(|line| line.align == Align::Left);
    let mut groups: Vec<Vec<&TextLine>> = Vec::new();
    for line in lines {
        let same = |group: &&mut Vec<&TextLine>| {
            let first = group.first();
            first.is_some_and(|first| (first.at().x - line.at().x).abs() < 1.0)
        };
        match groups.iter_mut().find(same) {
            Some(group) => group.push(line),
            None => groups.push(vec![line]),
        }
    }
    let part = |mut group: Vec<&TextLine>| {
        group.sort_by(|a, b| a.at().y.total_cmp(&b.at().y));
        let bounds = around(group.iter().map(|line| line.bounds()))?;
        let rows = set(&group, &ends, room);
        Some(Part {
            bounds,
            columns: rows.iter().map(Row::width).max().unwrap_or(0),
            blocks: vec![Block::Words(rows)],
        })
    };
    groups.into_iter().filter_map(part).collect()
}

/// What would stand side by side, one below the other.
fn stacked(parts: Vec<Part>) -> Vec<Part> {
    let below = |mut all: Part, part: Part| {
        all.columns = all.columns.max(part.columns);
        all.blocks.extend(part.blocks);
        all
    };
    parts.into_iter().reduce(below).into_iter().collect()
}

/// Lines one below the other; a line that is longer than there is room goes on below. What ends beside a
/// line stands behind it.
fn set(lines: &[&TextLine], ends: &[&TextLine], room: usize) -> Vec<Row> {
    let regular = lines
        .iter()
        .filter(|line| line.style.weight == Weight::Regular);
    let usual = regular.map(|line| line.style.points).fold(0.0, f64::max);
    let mut rows: Vec<Row> = Vec::new();
    let mut last: Option<&TextLine> = None;
    for line in lines {
        let below = last.map(|last| line.at().y - last.at().y);
        if below.is_some_and(|below| below > line.style.line() * NEW) {
            rows.push(Row::default());
        }
        let role = match line.style.weight {
            Weight::Bold => Role::Strong,
            Weight::Regular if line.style.points < usual => Role::Quiet,
            Weight::Regular => Role::Plain,
        };
        let beside = ends
            .iter()
            .find(|end| (end.at().y - line.at().y).abs() < 0.1);
        match beside {
            Some(end) if width(line.text.as_str()) + width(end.text.as_str()) + GAP <= room => {
                let row = Row::of(format!("{}  ", line.text), role);
                rows.push(row.with(end.text.to_string(), Role::Strong));
            }
            beside => {
                let texts = [Some(*line), beside.copied()].into_iter().flatten();
                let texts = texts.flat_map(|line| wrap(line.text.as_str(), room));
                rows.extend(texts.map(|text| Row::of(text, role)));
            }
        }
        last = Some(line);
    }
    rows
}
