//! Stacks on a page: bars that lie, and under each of them the names of its parts.

use kurbo::Rect;

use super::{Stack, Stacks};
use crate::account::text::capitalised;
use crate::chart::marks;
use crate::chart::scale::Scale;
use crate::chart::sheet::{FIGURES, NAMES, PageError, Sheet, wide};
use crate::geometry::Outline;
use crate::paper::{Align, Page, Paper, Printable, Style};

/// Between a name and its bar, in mm.
const GAP: f64 = 3.0;
/// The names of the parts: their size in points, and the least.
const PARTS: Style = Style::regular(6.5);
const LEAST_PARTS: f64 = 3.5;
/// What the bar takes of the height of a group.
const BAR: f64 = 0.55;
/// The most that a group is high, in mm.
const MOST_HIGH: f64 = 16.0;
/// Lines down, about so many.
const LINES: f64 = 8.0;

impl Stacks {
    /// The groups on this paper, across.
    ///
    /// # Errors
    /// [`PageError`] where the paper is too small for its margins, or a text cannot be set.
    pub fn page(&self, paper: &Paper) -> Result<Page, PageError> {
        let mut sheet = Sheet::new(paper, &self.title, &self.notes, &[])?;
        let room = sheet.room;
        let stacks: Vec<&Stack> = self.drawn().collect();
        let names = stacks.iter().map(|one| wide(&one.name, NAMES));
        let counts = stacks.iter().map(|one| wide(&one.told(), FIGURES));
        let left = room.x0 + names.fold(0.0, f64::max) + GAP;
        let area = Rect {
            x0: left,
            x1: room.x1 - counts.fold(0.0, f64::max) - GAP,
            y1: room.y1 - 3.5 * FIGURES.line(),
            ..room
        };
        let each = (area.height() / stacks.len().max(1) as f64).min(MOST_HIGH);
        let plot = Plot {
            area: Rect {
                y1: area.y0 + each * stacks.len() as f64,
                ..area
            },
            each,
            scale: Scale::up_to(self.most() as f64, LINES),
        };
        plot.axis(&mut sheet, &self.across)?;
        for (down, stack) in stacks.into_iter().enumerate() {
            plot.stack(&mut sheet, down, stack)?;
        }
        if let Some(told) = self.told_without() {
            let told = Printable::new(&format!("{}.", capitalised(&told)))?;
            let style = told.shrunk(FIGURES, LEAST_PARTS, room.width())?;
            let under = (room.x0, plot.area.y1 + 3.5 * FIGURES.line());
            sheet.say(told.as_str(), style, under, Align::Left)?;
        }
        Ok(sheet.end(&self.shows))
    }
}

struct Plot {
    area: Rect,
    /// The height of a group.
    each: f64,
    scale: Scale,
}

impl Plot {
    fn x(&self, count: usize) -> f64 {
        self.area.x0 + self.area.width() * self.scale.share(count as f64)
    }

    fn axis(&self, sheet: &mut Sheet, across: &str) -> Result<(), PageError> {
        let Rect { x0, y0, x1, y1 } = self.area;
        let figures = y1 + FIGURES.line();
        for tick in self.scale.ticks() {
            let x = x0 + (x1 - x0) * self.scale.share(tick);
            sheet.say(&self.scale.told(tick), FIGURES, (x, figures), Align::Centre)?;
        }
        sheet.draw([Outline::line((x0, y0), (x0, y1), marks::AXIS)]);
        let below = ((x0 + x1) / 2.0, figures + NAMES.line());
        sheet.say(across, NAMES, below, Align::Centre)
    }

    /// Its name, its pieces, its count, and under them what its pieces are, in letters so small that
    /// all of them have room.
    fn stack(&self, sheet: &mut Sheet, down: usize, stack: &Stack) -> Result<(), PageError> {
        let top = self.area.y0 + self.each * down as f64 + 0.5;
        let foot = top + self.each * BAR;
        let base = (top + foot + FIGURES.capital()) / 2.0;
        let name = (self.area.x0 - GAP / 2.0, base);
        sheet.say(&stack.name, NAMES, name, Align::Right)?;
        let told = stack.told();
        let end = self.x(stack.count());
        let says = end..end + GAP + wide(&told, FIGURES);
        // No line runs through words: it stops at the bar's foot, and is none where its count stands.
        for tick in self.scale.ticks() {
            let x = self.area.x0 + self.area.width() * self.scale.share(tick);
            if x == end || !says.contains(&x) {
                sheet.draw([Outline::line((x, top), (x, foot), marks::GRID)]);
            }
        }
        let mut sum = 0;
        for piece in stack.present() {
            let from = self.x(sum);
            sum += piece.count;
            let area = Rect::new(from, top, self.x(sum), foot);
            sheet.draw([marks::swatch(area, piece.colour)]);
        }
        let behind = (self.x(sum) + GAP / 2.0, base);
        sheet.say(&told, FIGURES, behind, Align::Left)?;
        let parts = stack
            .present()
            .map(|piece| format!("{} {}", piece.name, piece.count));
        let parts = Printable::new(&parts.collect::<Vec<_>>().join(", "))?;
        let room = sheet.room.x1 - self.area.x0 - 1.0;
        let style = parts.shrunk(PARTS, LEAST_PARTS, room)?;
        let under = (self.area.x0 + 1.0, foot + PARTS.capital() + 1.0);
        sheet.say(parts.as_str(), style, under, Align::Left)
    }
}
