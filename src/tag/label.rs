//! One label: name, facts, drawing and code in their places, or why it cannot be printed.

use std::fmt;

use kurbo::{Point, Rect};

use super::bloom::Blooms;
use super::code::{Code, Fineness};
use super::cores::on_every_core;
use super::list;
use super::says::Says;
use super::stock::{Kind, LabelSheet, Stock};
use crate::draw::{Paint, View};
use crate::measure::SizeUnits;
use crate::paper::{Item, Printable, Style, TextLine};
use crate::trial::Subject;

mod facts;
mod over;
mod words;

/// Between text and what stands beside it, in mm.
const GAP: f64 = 2.0;

/// Puts what is said on labels of one kind and size.
#[derive(Debug)]
pub struct Printer<'a> {
    kind: &'a Kind,
    fineness: Fineness,
    width: f64,
    height: f64,
    coloured: bool,
    numbered: bool,
}

/// One label, drawn about its upper left corner.
#[derive(Debug, Clone, PartialEq)]
pub struct Label {
    /// Whose.
    pub subject: Subject,
    /// What is on it.
    pub items: Vec<Item>,
    /// What its code holds; nothing where it has none.
    pub coded: String,
    /// Where the number of a copy begins, and how it is set; `None` where copies are not numbered.
    tally: Option<(Point, Style)>,
}

/// A label that is not printed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Refused {
    /// Whose.
    pub subject: Subject,
    /// Why, without a full stop.
    pub why: String,
}

/// What was made for labels so far that others have too.
#[derive(Default)]
struct Made {
    blooms: Blooms,
}

/// What stands about the name, and where a number is set.
struct Over {
    items: Vec<Item>,
    tally: Option<(Point, Style)>,
}

/// The parts of a label.
struct Zones {
    title: Rect,
    /// Below or beside the title; `None`: below it, wherever it ends.
    body: Option<Rect>,
    drawing: (f64, f64),
    code: (f64, f64),
}

impl<'a> Printer<'a> {
    /// For labels of this kind as large as the sheet's; drawings in the plant's colours or black on
    /// white.
    ///
    /// # Errors
    /// A sentence where drawing and code leave too little of the label for words.
    pub fn new(
        stock: &Stock,
        kind: &'a Kind,
        sheet: &LabelSheet,
        coloured: bool,
    ) -> Result<Printer<'a>, String> {
        let (width, height) = sheet.label;
        let printer = Printer {
            kind,
            fineness: Fineness {
                module: stock.module,
                comfort: stock.comfort,
                dot: sheet.dots.map(|dots| SizeUnits::In.in_mm() / dots),
            },
            width,
            height,
            coloured,
            numbered: false,
        };
        let zones = printer.zones();
        let text = zones.body.unwrap_or(zones.title);
        let stacked = kind.drawing + kind.code + if kind.drawing > 0.0 { GAP } else { 0.0 };
        let tall = match kind.title.beside {
            Some(_) => kind.drawing.max(kind.code),
            None => stacked,
        };
        match text.width() >= 15.0 && tall <= height - 2.0 * kind.margin {
            true => Ok(printer),
            false => Err(format!(
                "found a {} of {width} by {height} mm with a drawing of {} mm and a code of {} mm, \
                 expected room for 15 mm of words and for both of them",
                kind.says, kind.drawing, kind.code
            )),
        }
    }

    /// The same with room for the number of each copy, where they are numbered.
    pub fn with_numbers(self, numbered: bool) -> Printer<'a> {
        Printer { numbered, ..self }
    }

    /// The labels of many, in their order, on every core.
    pub fn labels(&self, all: &[Says]) -> Vec<Result<Label, Refused>> {
        on_every_core(all, || {
            let mut made = Made::default();
            move |says: &Says| self.drawn(says, &mut made)
        })
    }

    /// The label of one subject.
    ///
    /// # Errors
    /// [`Refused`] where it may not be sold, where a letter cannot be set, and where its name or
    /// its facts do not fit at their least sizes, those left out that may be spared. Nothing is cut.
    pub fn label(&self, says: &Says) -> Result<Label, Refused> {
        self.drawn(says, &mut Made::default())
    }

    fn drawn(&self, says: &Says, made: &mut Made) -> Result<Label, Refused> {
        let refused = |why: String| Refused {
            subject: says.subject.clone(),
            why,
        };
        if let (true, Some(why)) = (self.kind.sold, &says.unsold) {
            return Err(refused(why.clone()));
        }
        let mut zones = self.zones();
        let Over { mut items, tally } = self.over(says, &mut zones).map_err(refused)?;
        items.extend(self.words(says, &zones).map_err(refused)?);
        let mut coded = String::new();
        let Kind { drawing, code, .. } = *self.kind;
        if let (true, Some(bloom)) = (drawing > 0.0, &says.bloom) {
            let paint = match self.coloured {
                true => Paint::of(&says.colours),
                false => Paint::plain(),
            };
            let drawn = made
                .blooms
                .drawing(bloom, &paint, View::Face, drawing, zones.drawing);
            items.push(drawn.into());
        }
        if code > 0.0 {
            let text = list::plain(says, self.kind, &[]);
            let of = |text: String| {
                let code = Code::of(&text, code, self.fineness)?;
                Some((code, text))
            };
            let shorter = || list::plain(says, self.kind, &self.kind.spare);
            let found = of(text.clone()).or_else(|| of(shorter()));
            let (drawn, held) = found.ok_or_else(|| {
                refused(format!(
                    "found {} bytes of facts, expected as many as a QR code of {code} mm holds \
                     with squares of {} mm; a kind of label with a larger code has room for more",
                    text.len(),
                    self.fineness.module
                ))
            })?;
            let (x, y) = zones.code;
            items.push(drawn.drawing(code, x, y).into());
            coded = held;
        }
        Ok(Label {
            subject: says.subject.clone(),
            items,
            coded,
            tally,
        })
    }

    /// What lies within the margin.
    fn inner(&self) -> Rect {
        let pad = self.kind.margin;
        Rect::new(pad, pad, self.width - pad, self.height - pad)
    }

    fn zones(&self) -> Zones {
        let Kind {
            drawing,
            code,
            title,
            ..
        } = *self.kind;
        let inner = self.inner();
        let middle = |side: f64| inner.center().y - side / 2.0;
        let gap = |side: f64| if side > 0.0 { GAP } else { 0.0 };
        match title.beside {
            Some(beside) => {
                let code_x = inner.x1 - code;
                let drawing_x = code_x - gap(code) - drawing;
                let beside = inner.x0 + beside;
                let across = |left: f64, right: f64| Rect::new(left, inner.y0, right, inner.y1);
                Zones {
                    title: across(inner.x0, beside),
                    body: Some(across(beside + 2.0 * GAP, drawing_x - gap(drawing))),
                    drawing: (drawing_x, middle(drawing)),
                    code: (code_x, middle(code)),
                }
            }
            None => {
                let column = drawing.max(code);
                // Under the drawing; alone in the middle of the height.
                let code_y = match drawing > 0.0 {
                    true => inner.y1 - code,
                    false => middle(code),
                };
                let column_x = inner.x1 - column;
                let words = column_x - gap(column);
                let centred = |side: f64| column_x + (column - side) / 2.0;
                Zones {
                    title: Rect::new(inner.x0, inner.y0, words, inner.y1),
                    body: None,
                    drawing: (centred(drawing), inner.y0),
                    code: (centred(code), code_y),
                }
            }
        }
    }
}

impl Label {
    /// Which copy of how many one is; `None` where they are not numbered.
    pub(super) fn number(&self, number: u32, copies: u32) -> Option<Item> {
        let (at, style) = self.tally?;
        // OK to leave out: figures are in every font.
        let told = Printable::new(&format!("{number} of {copies}")).ok()?;
        Some(TextLine::new(told, style, at).into())
    }
}

impl fmt::Display for Refused {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        write!(f, "{}: {}", self.subject, self.why)
    }
}

impl std::error::Error for Refused {}

#[cfg(test)]
mod selling_tests;
#[cfg(test)]
mod tempting_tests;
#[cfg(test)]
mod tests;
