//! Values by day on a page.

use kurbo::Rect;

use super::{Limit, Points};
use crate::chart::marks;
use crate::chart::scale::Scale;
use crate::chart::sheet::{FIGURES, NAMES, PageError, Sheet, Sign, wide};
use crate::geometry::Outline;
use crate::paper::{Align, Page, Paper};

/// Between names and the field, in mm.
const GAP: f64 = 2.0;
/// The least height of a day, in mm, and the most.
const DAY: (f64, f64) = (4.2, 12.0);
/// Room for one figure of the axis, in mm.
const TICK: f64 = 18.0;
/// Rows of words for limits, over the field.
const LABELS: usize = 4;

impl Points {
    /// The days on this paper, across. Where it has no room for each day, the earliest share one row.
    ///
    /// # Errors
    /// [`PageError`] where the paper is too small for its margins, or a text cannot be set.
    pub fn page(&self, paper: &Paper) -> Result<Page, PageError> {
        let mut sheet = Sheet::new(paper, &self.title, &self.notes, &self.legend_on_page())?;
        let room = sheet.room;
        let near = self.scale(1.0).map_or(0, |scale| self.near(&scale).len());
        let labels = near.min(LABELS) as f64;
        let field = Rect {
            y0: room.y0 + labels * FIGURES.line(),
            y1: room.y1 - 2.5 * FIGURES.line(),
            ..room
        };
        let more = usize::from(self.mean.is_some());
        let most = (field.height() / DAY.0) as usize;
        let rows = self.in_rows(most.saturating_sub(more).max(1));
        let names = rows.iter().map(|(name, _)| wide(name, FIGURES));
        let names = names
            .chain([wide(self.mean_words, FIGURES)])
            .fold(0.0, f64::max);
        let left = field.x0 + names + GAP;
        let Some(scale) = self.scale((field.x1 - left) / TICK) else {
            return Ok(sheet.end(&self.shows));
        };
        let each = (field.height() / (rows.len() + more) as f64).min(DAY.1);
        let plot = Plot {
            area: Rect {
                x0: left,
                y1: field.y0 + each * (rows.len() + more) as f64,
                ..field
            },
            each,
            scale,
        };
        plot.axis(&mut sheet, &self.across)?;
        plot.limits(&mut sheet, &self.near(&plot.scale))?;
        for (down, (name, values)) in rows.iter().enumerate() {
            let at = (
                plot.area.x0 - GAP,
                plot.middle(down) + FIGURES.capital() / 2.0,
            );
            sheet.say(name, FIGURES, at, Align::Right)?;
            plot.day(&mut sheet, down, values);
        }
        if let Some(mean) = self.mean {
            let y = plot.middle(rows.len());
            let at = (plot.area.x0 - GAP, y + FIGURES.capital() / 2.0);
            sheet.say(self.mean_words, NAMES, at, Align::Right)?;
            self.mean_on(&plot, y, mean, &mut sheet)?;
        }
        Ok(sheet.end(&self.shows))
    }

    /// The mean with its range. An end beyond the scale is an arrow with its figure over it.
    fn mean_on(
        &self,
        plot: &Plot,
        y: f64,
        mean: [f64; 3],
        sheet: &mut Sheet,
    ) -> Result<(), PageError> {
        let [low, _, high] = mean;
        let [from, middle, to] = mean.map(|value| plot.x(value));
        let (lower, upper) = (plot.scale.holds(low), plot.scale.holds(high));
        let ends = [(lower, from), (upper, to)].map(|(inside, x)| (x, inside));
        sheet.draw([marks::lying_whisker(y, ends, middle)]);
        let over = y - FIGURES.capital();
        if !lower {
            let told = self.told_end(low);
            sheet.say(&told, FIGURES, (from, over), Align::Left)?;
        }
        if !upper {
            let told = self.told_end(high);
            sheet.say(&told, FIGURES, (to, over), Align::Right)?;
        }
        Ok(())
    }

    fn legend_on_page(&self) -> Vec<(Sign, &str)> {
        let dot: Sign = |area| vec![marks::dot(area.center().x, area.center().y)];
        let mean: Sign = |area| {
            let Rect { x0, x1, .. } = area;
            vec![marks::lying_whisker(
                area.center().y,
                [(x0, true), (x1, true)],
                area.center().x,
            )]
        };
        let limit: Sign = |area| vec![marks::limit(area.center().x, area.y0 - 1.0, area.y1)];
        let parting: Sign = |area| vec![marks::parting(area.center().x, area.y0 - 1.0, area.y1)];
        let all = [
            (dot, self.dot_words, true),
            (mean, self.mean_words, self.mean.is_some()),
            (limit, self.limit_words, self.has_limits(false)),
            (parting, self.parting_words, self.has_limits(true)),
        ];
        let drawn = all.into_iter().filter(|(_, _, drawn)| *drawn);
        drawn.map(|(sign, says, _)| (sign, says)).collect()
    }
}

/// The field of the days.
struct Plot {
    area: Rect,
    /// The height of a day.
    each: f64,
    scale: Scale,
}

impl Plot {
    fn x(&self, value: f64) -> f64 {
        self.area.x0 + self.area.width() * self.scale.share(value)
    }

    fn middle(&self, down: usize) -> f64 {
        self.area.y0 + self.each * (down as f64 + 0.5)
    }

    fn axis(&self, sheet: &mut Sheet, across: &str) -> Result<(), PageError> {
        let Rect { x0, y0, x1, y1 } = self.area;
        let figures = y1 + FIGURES.line() + 1.0;
        for tick in self.scale.ticks() {
            let x = self.x(tick);
            sheet.draw([
                Outline::line((x, y0), (x, y1), marks::GRID),
                Outline::line((x, y1), (x, y1 + 1.0), marks::AXIS),
            ]);
            sheet.say(&self.scale.told(tick), FIGURES, (x, figures), Align::Centre)?;
        }
        sheet.draw([Outline::line((x0, y1), (x1, y1), marks::AXIS)]);
        let below = ((x0 + x1) / 2.0, figures + NAMES.line());
        sheet.say(across, NAMES, below, Align::Centre)
    }

    /// Each limit with its words over it, in the lowest row where they touch no others; without words
    /// where they have no room.
    fn limits(&self, sheet: &mut Sheet, near: &[(&Limit, bool)]) -> Result<(), PageError> {
        let mut ends = [f64::NEG_INFINITY; LABELS];
        for (limit, parts) in near {
            let (x, half) = (self.x(limit.at), wide(&limit.label, FIGURES) / 2.0);
            let middle = x.min(sheet.room.x1 - half).max(sheet.room.x0 + half);
            let free = ends.iter().position(|end| *end < middle - half);
            let base = |row: usize| self.area.y0 - 1.0 - row as f64 * FIGURES.line();
            let top = free.map_or(self.area.y0, |row| base(row) + 0.5);
            let line = if *parts { marks::parting } else { marks::limit };
            sheet.draw([line(x, top.min(self.area.y0), self.area.y1)]);
            if let Some(row) = free {
                ends[row] = middle + half + GAP;
                let at = (middle, base(row));
                sheet.say(&limit.label, FIGURES, at, Align::Centre)?;
            }
        }
        Ok(())
    }

    /// A dot for each value; those that would touch stand above and below each other.
    fn day(&self, sheet: &mut Sheet, down: usize, values: &[f64]) {
        let mut sorted: Vec<f64> = values.iter().copied().filter(|v| v.is_finite()).collect();
        sorted.sort_by(f64::total_cmp);
        let near = |one: &f64, other: &f64| self.x(*other) - self.x(*one) < 2.0 * marks::DOT;
        for pile in sorted.chunk_by(near) {
            let step = (2.0 * marks::DOT).min((self.each - 2.0 * marks::DOT) / pile.len() as f64);
            let first = self.middle(down) - step * (pile.len() as f64 - 1.0) / 2.0;
            let dot =
                |(at, value): (usize, &f64)| marks::dot(self.x(*value), first + step * at as f64);
            sheet.draw(pile.iter().enumerate().map(dot));
        }
    }
}
