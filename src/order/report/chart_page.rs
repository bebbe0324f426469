//! The season chart as a page: bars, whiskers and strokes by week, and under them the figures.
//!
//! It needs no colour to be read: what is expected is a bar, its range a whisker, what is needed a
//! thick line, what is short a hatched piece; and all of it stands in figures below.

use kurbo::Rect;

use super::chart::{Chart, ChartWeek};
use crate::colour::Srgb;
use crate::geometry::{Outline, Stroke};
use crate::paper::{
    Align, Item, Margins, Orientation, Page, Paper, Printable, Setup, SetupError, Style,
};

use signs::words;

mod signs;

const MARGINS: Margins = Margins::even(12.0);
const TITLE: Style = Style::bold(15.0);
const FIGURES: Style = Style::regular(8.0);
/// From the foot of the title to the legend, and from there to the bars, in mm.
const GAP: f64 = 8.0;
/// Left of the bars: the names of the rows of figures, in mm.
const NAMES: f64 = 25.0;
/// The height of a row of figures, in mm.
const ROW: f64 = 4.6;
/// The most that a week is wide, in mm, and what its bar takes of it.
const WEEK: f64 = 24.0;
const BAR: f64 = 0.62;
/// Lines across, and the steps that they may be apart.
const LINES: f64 = 5.0;

const GRID: Stroke = Stroke::new(Srgb::grey(190), 0.15);

impl Chart {
    /// What the page is called.
    pub const TITLE: &str = "Stems needed and expected by week";

    /// The chart on this paper, across.
    ///
    /// # Errors
    /// [`SetupError`] where the paper is too small for its margins.
    pub fn page(&self, paper: &Paper) -> Result<Page, SetupError> {
        let setup = Setup::new(paper, Orientation::Landscape, MARGINS, (0.0, 0.0))?;
        let room = setup.room();
        let rows = self.figures();
        let title = room.y0 + TITLE.capital();
        let legend = title + GAP;
        let columns = Columns::of(self, room, legend + GAP, ROW * (rows.len() as f64 + 0.5));
        let mut items = Vec::new();
        items.extend(words(Chart::TITLE, TITLE, (room.x0, title), Align::Left));
        items.extend(signs::legend(room.x0, legend));
        items.extend(columns.grid());
        for (at, week) in self.weeks.iter().enumerate() {
            items.extend(columns.week(at, week));
        }
        items.extend(columns.figures(room.x0, &rows));
        Ok(Page {
            shows: self.described(),
            ..setup.page(&items)
        })
    }

    /// The rows of figures: a name, and one figure a week.
    fn figures(&self) -> Vec<(&'static str, Vec<String>)> {
        let row = |figure: &dyn Fn(&ChartWeek) -> String| self.weeks.iter().map(figure).collect();
        let monday = |one: &ChartWeek, form: &str| {
            let day = one.monday.map(|day| day.strftime(form).to_string());
            day.unwrap_or_default()
        };
        let mut rows: Vec<(&str, Vec<String>)> = vec![
            ("week of the year", row(&|one| one.week.to_string())),
            ("its Monday", row(&|one| monday(one, "%-d"))),
            ("", row(&|one| monday(one, "%b"))),
            ("needed", row(&|one| format!("{:.0}", one.needed))),
            ("expected", row(&|one| format!("{:.0}", one.expected))),
        ];
        if self.seasons.is_some() {
            let range = |one: &ChartWeek| one.range.unwrap_or((one.expected, one.expected));
            rows.push((
                "nine in ten: from",
                row(&|one| format!("{:.0}", range(one).0)),
            ));
            rows.push((
                "nine in ten: to",
                row(&|one| format!("{:.0}", range(one).1)),
            ));
        }
        let short = |one: &ChartWeek| match one.short > 0.0 {
            true => format!("{:.1}", one.short),
            false => String::new(),
        };
        if self.weeks.iter().any(|one| one.short > 0.0) {
            rows.push(("short", row(&short)));
        }
        rows
    }

    fn described(&self) -> String {
        let told = self.weeks.iter().map(|one| {
            format!(
                "week {}: {:.0} needed, {:.0} expected",
                one.week, one.needed, one.expected
            )
        });
        told.collect::<Vec<_>>().join("; ")
    }
}

/// The weeks side by side.
struct Columns {
    /// From the first week to the last, from no stems to the most.
    area: Rect,
    /// How wide a week is.
    week: f64,
    /// The stems of the highest line, and from one line to the next.
    most: f64,
    step: f64,
}

impl Columns {
    fn of(chart: &Chart, room: Rect, top: f64, below: f64) -> Columns {
        let left = room.x0 + NAMES;
        let count = chart.weeks.len().max(1) as f64;
        let week = ((room.x1 - left) / count).min(WEEK);
        let step = step(chart.most());
        Columns {
            area: Rect::new(left, top, left + week * count, room.y1 - below),
            week,
            most: (chart.most() / step).ceil() * step,
            step,
        }
    }

    /// How far down so many stems stand.
    fn height(&self, stems: f64) -> f64 {
        self.area.y1 - self.area.height() * stems / self.most
    }

    fn middle(&self, at: usize) -> f64 {
        self.area.x0 + self.week * (at as f64 + 0.5)
    }

    /// Lines across with the stems that they stand for.
    fn grid(&self) -> Vec<Item> {
        let Rect { x0, x1, .. } = self.area;
        let lines = (self.most / self.step).round() as usize;
        let mut items = Vec::new();
        for line in 0..=lines {
            let stems = self.step * line as f64;
            let y = self.height(stems);
            items.push(Outline::line((x0, y), (x1, y), GRID).into());
            let told = match line == lines {
                true => format!("{stems:.0} stems"),
                false => format!("{stems:.0}"),
            };
            let at = (x0 - 2.0, y + FIGURES.capital() / 2.0);
            items.extend(words(&told, FIGURES, at, Align::Right));
        }
        items
    }

    fn week(&self, at: usize, one: &ChartWeek) -> Vec<Item> {
        let (middle, half) = (self.middle(at), self.week * BAR / 2.0);
        let bar = |from: f64, to: f64| {
            Rect::new(
                middle - half,
                self.height(to),
                middle + half,
                self.height(from),
            )
        };
        let mut outlines = vec![signs::expected(bar(0.0, one.expected))];
        if one.short > 0.0 {
            outlines.extend(signs::short(bar(one.needed - one.short, one.needed)));
        }
        if let Some((low, high)) = one.range {
            outlines.push(signs::whisker(middle, self.height(low), self.height(high)));
        }
        if one.needed > 0.0 {
            let (y, half) = (self.height(one.needed), self.week * 0.45);
            outlines.push(signs::needed(middle - half, middle + half, y));
        }
        outlines.into_iter().map(Item::from).collect()
    }

    /// The rows of figures under the weeks, all of one size.
    fn figures(&self, left: f64, rows: &[(&str, Vec<String>)]) -> Vec<Item> {
        let texts = rows.iter().flat_map(|(_, figures)| figures);
        let widths = texts.filter_map(|text| Some(Printable::new(text).ok()?.width(FIGURES)));
        let share = (self.week - 1.0) / widths.fold(0.0, f64::max);
        let style = Style::regular(FIGURES.points * share.min(1.0));
        let mut items = Vec::new();
        for (down, (name, figures)) in rows.iter().enumerate() {
            let y = self.area.y1 + ROW * (down as f64 + 1.0);
            items.extend(words(name, FIGURES, (left, y), Align::Left));
            for (at, figure) in figures.iter().enumerate() {
                items.extend(words(figure, style, (self.middle(at), y), Align::Centre));
            }
        }
        items
    }
}

/// A round step with about so many lines: 1, 2 or 5 and noughts.
fn step(most: f64) -> f64 {
    let raw = (most / LINES).max(1.0);
    let tens = 10_f64.powf(raw.log10().floor());
    let round = [1.0, 2.0, 5.0, 10.0]
        .into_iter()
        .find(|one| one * tens >= raw);
    round.unwrap_or(10.0) * tens
}

#[cfg(test)]
mod tests {
    use jiff::ToSpan;
    use jiff::civil::date;

    use super::*;

    /// So many weeks from week 22 on, every third of them short.
    fn chart(weeks: u8) -> Chart {
        let week = |at: u8| ChartWeek {
            week: 22 + at,
            monday: date(2027, 5, 31).checked_add(i64::from(at).weeks()).ok(),
            needed: 180.0,
            short: if at % 3 == 1 { 12.5 } else { 0.0 },
            expected: 60.0 + 10.0 * f64::from(at),
            range: Some((20.0, 900.0 + f64::from(at))),
        };
        Chart {
            weeks: (0..weeks).map(week).collect(),
            seasons: Some(200),
        }
    }

    #[test]
    fn every_figure_of_every_week_is_on_the_page_whatever_the_paper() {
        for paper in ["a4", "a5", "letter"] {
            for weeks in [1, 12, 30] {
                let chart = chart(weeks);
                let paper = Paper::named(paper).expect("a paper");
                let page = chart.page(&paper).expect("a page");
                assert_eq!(page.strays().count(), 0, "{weeks} weeks on {}", paper.id);
                let texts: Vec<&str> = page.lines().map(|line| line.text.as_str()).collect();
                for (name, figures) in chart.figures() {
                    for told in figures.iter().map(String::as_str).chain([name]) {
                        assert!(told.is_empty() || texts.contains(&told), "{told:?}");
                    }
                }
                for says in [
                    Chart::TITLE,
                    "stems needed",
                    "nine seasons in ten",
                    "1000 stems",
                ] {
                    assert!(texts.contains(&says), "{says:?}");
                }
                assert_eq!(page.shows.matches(" needed, ").count(), usize::from(weeks));
            }
        }
    }

    #[test]
    fn figures_of_neighbouring_weeks_never_touch() {
        let page = chart(30)
            .page(&Paper::named("a5").expect("A5"))
            .expect("a page");
        let lines: Vec<Rect> = page.lines().map(|line| line.bounds()).collect();
        for (at, one) in lines.iter().enumerate() {
            for other in &lines[at + 1..] {
                let apart = one.x1 <= other.x0 || other.x1 <= one.x0;
                let below = (one.y1 - other.y0).min(other.y1 - one.y0) < 0.3 * one.height();
                assert!(apart || below, "{one:?} {other:?}");
            }
        }
    }

    #[test]
    fn steps_are_round_and_lines_few() {
        for (most, expected) in [(1.0, 1.0), (23.0, 5.0), (358.0, 100.0), (1000.0, 200.0)] {
            assert_eq!(step(most), expected, "{most}");
        }
    }
}
