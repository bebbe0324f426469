//! Bars on a page, upright and side by side, and under them the figures.

use kurbo::Rect;

use super::{Bar, Bars};
use crate::chart::marks;
use crate::chart::scale::Scale;
use crate::chart::sheet::{FIGURES, NAMES, PageError, Sheet, Sign, wide};
use crate::geometry::Outline;
use crate::paper::{Align, Page, Paper, Style};

/// The height of a row of figures, in mm.
const ROW: f64 = 4.6;
/// The most that a bar and the gap beside it are wide, in mm, and what the bar takes of that.
const MOST_WIDE: f64 = 40.0;
const BAR: f64 = 0.62;
/// Between the names at the left and the bars, in mm.
const GAP: f64 = 3.0;
/// Lines across, about so many.
const LINES: f64 = 5.0;

impl Bars {
    /// The bars on this paper, across.
    ///
    /// # Errors
    /// [`PageError`] where the paper is too small for its margins, or a text cannot be set.
    pub fn page(&self, paper: &Paper) -> Result<Page, PageError> {
        let mut sheet = Sheet::new(paper, &self.title, &self.notes, &self.legend_on_page())?;
        let columns = self.columns(sheet.room);
        let top = (sheet.room.x0, columns.area.y0 - GAP);
        sheet.say(&self.up, NAMES, top, Align::Left)?;
        columns.grid(&mut sheet)?;
        for (at, bar) in self.bars.iter().enumerate() {
            sheet.draw(columns.bar(at, bar));
        }
        columns.figures(&mut sheet, &self.figures)?;
        Ok(sheet.end(&self.shows))
    }

    fn legend_on_page(&self) -> Vec<(Sign, &'static str)> {
        let need: Sign = |area| vec![marks::need(area.x0, area.x1, area.center().y)];
        let bar: Sign = |area| vec![marks::bar(area)];
        let range: Sign = |area| vec![marks::whisker(area.center().x, area.y1, area.y0)];
        let short: Sign = |area| marks::short(area).to_vec();
        let words = self.words;
        let all = [
            (need, words.need, self.bars.iter().any(|bar| bar.need > 0.0)),
            (bar, words.value, true),
            (range, words.range, self.has_ranges()),
            (
                short,
                words.short,
                self.bars.iter().any(|bar| bar.short > 0.0),
            ),
        ];
        let drawn = all.into_iter().filter(|(_, _, drawn)| *drawn);
        drawn.map(|(sign, says, _)| (sign, says)).collect()
    }

    fn columns(&self, room: Rect) -> Columns {
        let names = self.figures.iter().map(|(name, _)| wide(name, FIGURES));
        let left = room.x0 + names.fold(wide(&self.up, NAMES), f64::max) + GAP;
        let count = self.bars.len().max(1) as f64;
        let each = ((room.x1 - left) / count).min(MOST_WIDE);
        let below = ROW * (self.figures.len() as f64 + 0.5);
        let scale = Scale::up_to(self.most(), LINES);
        let top = room.y0 + NAMES.line();
        let area = Rect::new(left, top, left + each * count, room.y1 - below);
        Columns { area, each, scale }
    }
}

/// The bars side by side.
struct Columns {
    /// From the first bar to the last, from nothing to the end of the scale.
    area: Rect,
    /// How wide a bar is with its gap.
    each: f64,
    scale: Scale,
}

impl Columns {
    /// How far down a value stands.
    fn height(&self, value: f64) -> f64 {
        self.area.y1 - self.area.height() * self.scale.share(value)
    }

    fn middle(&self, at: usize) -> f64 {
        self.area.x0 + self.each * (at as f64 + 0.5)
    }

    /// Lines across with the values that they stand for.
    fn grid(&self, sheet: &mut Sheet) -> Result<(), PageError> {
        let Rect { x0, x1, .. } = self.area;
        for tick in self.scale.ticks() {
            let y = self.height(tick);
            sheet.draw([Outline::line((x0, y), (x1, y), marks::GRID)]);
            let at = (x0 - GAP / 2.0, y + FIGURES.capital() / 2.0);
            sheet.say(&self.scale.told(tick), FIGURES, at, Align::Right)?;
        }
        Ok(())
    }

    fn bar(&self, at: usize, bar: &Bar) -> Vec<Outline> {
        let (middle, half) = (self.middle(at), self.each * BAR / 2.0);
        let piece = |from: f64, to: f64| {
            let (top, foot) = (self.height(to), self.height(from));
            Rect::new(middle - half, top, middle + half, foot)
        };
        let mut outlines = vec![marks::bar(piece(0.0, bar.value))];
        if bar.short > 0.0 {
            outlines.extend(marks::short(piece(bar.need - bar.short, bar.need)));
        }
        if let Some((low, high)) = bar.range {
            let ends = [low, high].map(|end| self.height(end));
            outlines.push(marks::whisker(middle, ends[0], ends[1]));
        }
        if bar.need > 0.0 {
            let (y, half) = (self.height(bar.need), self.each * 0.45);
            outlines.push(marks::need(middle - half, middle + half, y));
        }
        outlines
    }

    /// The rows of figures under the bars, all of one size.
    fn figures(&self, sheet: &mut Sheet, rows: &[(String, Vec<String>)]) -> Result<(), PageError> {
        let texts = rows.iter().flat_map(|(_, figures)| figures);
        let widest = texts.map(|text| wide(text, FIGURES)).fold(0.0, f64::max);
        let share = (self.each - 1.0) / widest;
        let style = Style::regular(FIGURES.points * share.min(1.0));
        let left = sheet.room.x0;
        for (down, (name, figures)) in rows.iter().enumerate() {
            let y = self.area.y1 + ROW * (down as f64 + 1.0);
            sheet.say(name, FIGURES, (left, y), Align::Left)?;
            for (at, figure) in figures.iter().enumerate() {
                sheet.say(figure, style, (self.middle(at), y), Align::Centre)?;
            }
        }
        Ok(())
    }
}
