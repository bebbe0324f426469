//! The falling share on a page, with how many were still watched under it.

use kurbo::{BezPath, Rect};

use super::Steps;
use crate::chart::marks;
use crate::chart::scale::Scale;
use crate::chart::sheet::{FIGURES, NAMES, PageError, Sheet, Sign, wide};
use crate::geometry::Outline;
use crate::paper::{Align, Page, Paper};

/// Between figures and the curve, in mm.
const GAP: f64 = 2.0;
/// From one row of figures under the axis to the next, in mm.
const ROW: f64 = 4.6;
/// Room for one figure of the axis, in mm.
const TICK: f64 = 14.0;

impl Steps {
    /// The curve on this paper, across.
    ///
    /// # Errors
    /// [`PageError`] where the paper is too small for its margins, or a text cannot be set.
    pub fn page(&self, paper: &Paper) -> Result<Page, PageError> {
        let mut sheet = Sheet::new(paper, &self.title, &self.notes, &self.legend_on_page())?;
        let plot = self.plot(sheet.room);
        sheet.say(
            &self.up,
            NAMES,
            (sheet.room.x0, plot.area.y0 - 3.0),
            Align::Left,
        )?;
        plot.axes(&mut sheet)?;
        sheet.draw(self.band(&plot));
        plot.grid(&mut sheet);
        self.half_marked(&plot, &mut sheet);
        if let Some(wanted) = &self.wanted {
            let (x, area) = (plot.x(wanted.at), plot.area);
            sheet.draw([marks::parting(x, area.y0, area.y1)]);
        }
        sheet.draw([marks::curve(self.curve(&plot))]);
        self.crosses(&plot, &mut sheet)?;
        self.rows_below(&plot, &mut sheet)?;
        Ok(sheet.end(&self.shows))
    }

    fn legend_on_page(&self) -> Vec<(Sign, &str)> {
        let line: Sign = |area| {
            let mut path = BezPath::new();
            path.move_to((area.x0, area.y0));
            path.line_to((area.center().x, area.y0));
            path.line_to((area.center().x, area.y1));
            path.line_to((area.x1, area.y1));
            vec![marks::curve(path)]
        };
        let band: Sign = |area| vec![Outline::of(area).filled(marks::BAND)];
        let cross: Sign = |area| vec![marks::cross(area.center().x, area.center().y)];
        let wanted: Sign = |area| vec![marks::parting(area.center().x, area.y0 - 1.0, area.y1)];
        let wanted_words = self.wanted.as_ref().map_or("", |wanted| &wanted.label);
        let all = [
            (line, self.up.as_str(), true),
            (
                band,
                self.limits_words,
                self.steps.iter().any(|step| step.limits.is_some()),
            ),
            (cross, self.unended_words, !self.unended.is_empty()),
            (wanted, wanted_words, self.wanted.is_some()),
        ];
        let drawn = all.into_iter().filter(|(_, _, drawn)| *drawn);
        drawn.map(|(sign, says, _)| (sign, says)).collect()
    }

    fn plot(&self, room: Rect) -> Plot {
        let names = [self.across.as_str(), self.things].map(|name| wide(name, FIGURES));
        let left = room.x0 + names[0].max(names[1]).max(TICK) + 3.0 * GAP;
        let area = Rect::new(
            left,
            room.y0 + NAMES.line(),
            room.x1 - TICK / 2.0,
            room.y1 - 2.5 * ROW,
        );
        let until = self.until().unwrap_or(0.0);
        let across = self.scale(until, area.width() / TICK);
        Plot { area, across }
    }

    /// The corners of the curve, from the upper left on to where nothing was watched any more.
    fn curve(&self, plot: &Plot) -> BezPath {
        let mut path = BezPath::new();
        path.move_to((plot.x(0.0), plot.y(1.0)));
        let mut share = 1.0;
        for step in &self.steps {
            path.line_to((plot.x(step.at), plot.y(share)));
            path.line_to((plot.x(step.at), plot.y(step.share)));
            share = step.share;
        }
        path.line_to((plot.x(self.until().unwrap_or(0.0)), plot.y(share)));
        path
    }

    /// A rectangle for every stretch that has limits.
    fn band(&self, plot: &Plot) -> Vec<Outline> {
        let until = self.until().unwrap_or(0.0);
        let ends = self.steps.iter().skip(1).map(|step| step.at);
        let ends = ends.chain([until]);
        let stretch = |(step, end): (&super::Step, f64)| {
            let (low, high) = step.limits?;
            let area = Rect::new(plot.x(step.at), plot.y(high), plot.x(end), plot.y(low));
            Some(marks::band(Outline::of(area).path))
        };
        self.steps.iter().zip(ends).filter_map(stretch).collect()
    }

    /// A cross for what had not ended, with how many where that is more than one.
    fn crosses(&self, plot: &Plot, sheet: &mut Sheet) -> Result<(), PageError> {
        let mut ends: Vec<f64> = self.unended.clone();
        ends.retain(|at| at.is_finite());
        ends.sort_by(f64::total_cmp);
        for same in ends.chunk_by(|one, other| one == other) {
            let (x, y) = (plot.x(same[0]), plot.y(self.share(same[0])));
            sheet.draw([marks::cross(x, y)]);
            if same.len() > 1 {
                let told = same.len().to_string();
                // Never over the frame.
                let base = (y - 1.0).max(plot.area.y0 + FIGURES.capital() + 1.0);
                sheet.say(&told, FIGURES, (x + 1.0, base), Align::Left)?;
            }
        }
        Ok(())
    }

    /// Where it is a half: a line down to the axis.
    fn half_marked(&self, plot: &Plot, sheet: &mut Sheet) {
        if let Some(at) = self.half {
            let x = plot.x(at);
            sheet.draw([Outline::line(
                (x, plot.y(0.5)),
                (x, plot.area.y1),
                marks::AXIS,
            )]);
        }
    }

    /// The figures of the axis, and how many were still watched at each of them.
    fn rows_below(&self, plot: &Plot, sheet: &mut Sheet) -> Result<(), PageError> {
        let rows = [1.0, 2.0].map(|down| plot.area.y1 + down * ROW);
        let left = sheet.room.x0;
        sheet.say(&self.across, NAMES, (left, rows[0]), Align::Left)?;
        sheet.say(self.things, FIGURES, (left, rows[1]), Align::Left)?;
        for tick in plot.across.ticks() {
            let at = |row| (plot.x(tick), row);
            sheet.say(&plot.across.told(tick), FIGURES, at(rows[0]), Align::Centre)?;
            let watched = self.watched_to(tick).to_string();
            sheet.say(&watched, FIGURES, at(rows[1]), Align::Centre)?;
        }
        Ok(())
    }
}

/// The field of the curve.
struct Plot {
    area: Rect,
    across: Scale,
}

impl Plot {
    fn x(&self, at: f64) -> f64 {
        self.area.x0 + self.area.width() * self.across.share(at)
    }

    fn y(&self, share: f64) -> f64 {
        self.area.y1 - self.area.height() * share
    }

    /// Both axes, with the shares.
    fn axes(&self, sheet: &mut Sheet) -> Result<(), PageError> {
        let Rect { x0, y0, x1, y1 } = self.area;
        for percent in [0, 25, 50, 75, 100] {
            let y = self.y(f64::from(percent) / 100.0);
            let at = (x0 - GAP, y + FIGURES.capital() / 2.0);
            sheet.say(&format!("{percent} %"), FIGURES, at, Align::Right)?;
        }
        sheet.draw([
            Outline::line((x0, y0), (x0, y1), marks::AXIS),
            Outline::line((x0, y1), (x1, y1), marks::AXIS),
        ]);
        for tick in self.across.ticks() {
            let x = self.x(tick);
            sheet.draw([Outline::line((x, y1), (x, y1 + 1.0), marks::AXIS)]);
        }
        Ok(())
    }

    /// Lines across, that of a half stronger; over the band, so that they are seen in it.
    fn grid(&self, sheet: &mut Sheet) {
        for share in [0.25, 0.5, 0.75, 1.0] {
            let y = self.y(share);
            let stroke = if share == 0.5 {
                marks::AXIS
            } else {
                marks::GRID
            };
            sheet.draw([Outline::line((self.area.x0, y), (self.area.x1, y), stroke)]);
        }
    }
}
