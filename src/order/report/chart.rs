//! The season chart: stems needed against stems expected, week by week, with their range.

use jiff::civil::Date;

use crate::account::text::counted;
use crate::account::{Cell, Column, Table};
use crate::chart::{Bar, BarWords, Bars, Ink, Line, PageError, Signs};
use crate::order::{Chances, Plan, Settled, monday};
use crate::paper::{Page, Paper};

mod promised;
mod week;

pub use week::ChartWeek;

use promised::promised;
use week::frost_before;

/// The season week by week.
#[derive(Debug, Clone, PartialEq)]
pub struct Chart {
    /// Its weeks, rising.
    pub weeks: Vec<ChartWeek>,
    /// Seasons drawn for the ranges; `None` where none were.
    pub seasons: Option<u32>,
    /// From this week on the range goes down to nothing, for frost has come in some seasons.
    pub frost_before: Option<u8>,
    /// What each need is promised, a sentence over lines; empty where nothing is.
    pub promised: Vec<String>,
}

/// Columns that a bar needs to tell anything.
const LEAST_BAR: usize = 10;
/// What the signs say.
const WORDS: BarWords = BarWords {
    value: "expected",
    range: "nine seasons in ten",
    need: "stems needed",
    short: "short",
};

impl Chart {
    /// What it is called.
    pub const TITLE: &str = "Stems needed and expected by week";

    /// The chart of a settled order; `None` where there is no order.
    pub fn of(plan: &Plan, settled: &Settled, chances: Option<&Chances>) -> Option<Chart> {
        let order = settled.order.as_ref()?;
        let week = |(at, (week, expected)): (usize, (u8, f64))| {
            let own = || order.weekly.iter().filter(|one| one.week == week);
            let drawn = chances.and_then(|chances| chances.grown.get(at));
            ChartWeek {
                week,
                monday: monday(plan.season.planted, week),
                needed: own().map(|one| one.needed).sum(),
                short: own().map(crate::order::Weekly::short).sum(),
                expected,
                range: drawn.map(|(_, [low, _, high])| (*low, *high)),
            }
        };
        let weeks: Vec<ChartWeek> = order
            .grown(&settled.candidates)
            .into_iter()
            .enumerate()
            .map(week)
            .collect();
        let frosty = |monday: Date| 1.0 - plan.season.first_frost.chance_after(monday);
        Some(Chart {
            frost_before: frost_before(&weeks, frosty),
            weeks,
            seasons: chances.map(|chances| chances.seasons),
            promised: promised(plan, settled),
        })
    }

    /// The chart in plain text of at most so many columns, ASCII only.
    pub fn text(&self, columns: usize) -> Vec<String> {
        let lines = self.lines(columns, Signs::Ascii);
        lines.iter().map(Line::to_string).collect()
    }

    /// A line for each week: its figures and its bar, in at most so many columns; over them their names,
    /// under them what the signs say.
    pub fn lines(&self, columns: usize, signs: Signs) -> Vec<Line> {
        let is_short = self.is_short();
        let figures = ["needed", "expected", "range"].into_iter();
        let figures = figures.chain(is_short.then_some("short"));
        let words = ["week", "from"].map(|name| Column::words("", name));
        let named = words
            .into_iter()
            .chain(figures.map(|name| Column::figures("", name)));
        let row = |one: &ChartWeek| {
            let cells = [
                one.week.into(),
                one.monday_as("%-d %b").into(),
                Cell::Number(one.needed, 0),
                Cell::Number(one.expected, 0),
                one.range_in_words().into(),
            ];
            let short = is_short.then(|| one.short_in_words().into());
            cells.into_iter().chain(short).collect::<Vec<_>>()
        };
        let table = Table::of("", named).with(self.weeks.iter().map(row));
        self.beside(&table.lines(), columns, signs)
    }

    /// The same with fewer figures, for where there is little room, and without what the signs say.
    pub fn brief(&self, columns: usize, signs: Signs) -> Vec<Line> {
        let named = ["week", "needed", "expected"].map(|name| Column::figures("", name));
        let row = |one: &ChartWeek| {
            vec![
                one.week.into(),
                Cell::Number(one.needed, 0),
                Cell::Number(one.expected, 0),
            ]
        };
        let table = Table::of("", named).with(self.weeks.iter().map(row));
        let mut lines = self.beside(&table.lines(), columns, signs);
        lines.pop();
        lines
    }

    /// Whether anything lacks in any week.
    fn is_short(&self) -> bool {
        self.weeks.iter().any(|one| one.short > 0.0)
    }

    /// What the signs say.
    pub fn legend(&self, signs: Signs) -> Line {
        self.bars().legend(signs)
    }

    /// The chart on this paper, across.
    ///
    /// # Errors
    /// [`PageError`] where the paper is too small for its margins.
    pub fn page(&self, paper: &Paper) -> Result<Page, PageError> {
        self.bars().page(paper)
    }

    /// A table with a head and a line for each week, a bar beside each, and the legend.
    fn beside(&self, table: &[String], columns: usize, signs: Signs) -> Vec<Line> {
        let widest = table.iter().map(String::len).max().unwrap_or(0);
        let room = columns.saturating_sub(widest + 2).max(LEAST_BAR);
        let bars = self.bars();
        let head = table.iter().take(1);
        let head = head.map(|names| Line::of(names.trim_end(), Ink::Names));
        let rows = self.weeks.iter().zip(table.iter().skip(1)).enumerate();
        let rows = rows.map(|(at, (week, figures))| {
            let ink = if week.short > 0.0 {
                Ink::Short
            } else {
                Ink::Words
            };
            let figures = Line::of(format!("{figures:widest$}  "), ink);
            figures.and(bars.line(at, room, signs)).trimmed()
        });
        head.chain(rows).chain([bars.legend(signs)]).collect()
    }

    fn bars(&self) -> Bars {
        let bar = |one: &ChartWeek| Bar {
            value: one.expected,
            range: one.range,
            need: one.needed,
            short: one.short,
        };
        let weeks = counted(self.weeks.len(), "week");
        let mut notes = vec![format!("{weeks}, all needs and all varieties together.")];
        notes.extend(
            self.seasons.map(|seasons| {
                format!("The range: in 9 of 10 of {seasons} seasons drawn at random.")
            }),
        );
        notes.extend(self.frost_before.map(|week| {
            format!("In some seasons frost ends the cutting before week {week}: from there the range goes to 0.")
        }));
        notes.extend(self.promised.iter().cloned());
        Bars {
            title: Chart::TITLE.to_string(),
            notes,
            up: "stems a week".to_string(),
            bars: self.weeks.iter().map(bar).collect(),
            figures: self.figures(),
            words: WORDS,
            shows: self.in_words(),
        }
    }

    /// The rows of figures under the bars: a name, and one figure a week.
    fn figures(&self) -> Vec<(String, Vec<String>)> {
        let row = |name: &str, figure: &dyn Fn(&ChartWeek) -> String| {
            (name.to_string(), self.weeks.iter().map(figure).collect())
        };
        let mut rows = vec![
            row("week of the year", &|one| one.week.to_string()),
            row("its Monday", &|one| {
                one.monday_as("%-d").unwrap_or_default()
            }),
            row("", &|one| one.monday_as("%b").unwrap_or_default()),
            row("needed", &|one| format!("{:.0}", one.needed)),
            row("expected", &|one| format!("{:.0}", one.expected)),
        ];
        if self.seasons.is_some() {
            let range = |one: &ChartWeek| one.range.unwrap_or((one.expected, one.expected));
            rows.push(row("nine in ten: from", &|one| {
                format!("{:.0}", range(one).0)
            }));
            rows.push(row("nine in ten: to", &|one| {
                format!("{:.0}", range(one).1)
            }));
        }
        if self.is_short() {
            rows.push(row("short", &|one| {
                one.short_in_words().unwrap_or_default()
            }));
        }
        rows
    }

    fn in_words(&self) -> String {
        let told = self.weeks.iter().map(|one| {
            let ChartWeek {
                week,
                needed,
                expected,
                ..
            } = one;
            let range = one.range_in_words();
            let range = range.map(|range| format!(", {range} in nine seasons of ten"));
            let short = one.short_in_words().map(|short| format!(", {short} short"));
            let more = [range, short].into_iter().flatten().collect::<String>();
            format!("week {week}: {needed:.0} needed, {expected:.0} expected{more}")
        });
        told.collect::<Vec<_>>().join("; ")
    }
}

#[cfg(test)]
mod tests {
    use jiff::ToSpan;
    use jiff::civil::date;
    use kurbo::Rect;

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
            frost_before: None,
            promised: Vec::new(),
        }
    }

    #[test]
    fn every_week_has_its_line_and_what_lacks_is_marked_without_colour() {
        let chart = chart(4);
        for signs in [Signs::Eighths, Signs::Halves, Signs::Ascii] {
            let lines = chart.lines(96, signs);
            assert_eq!(lines.len(), 1 + 4 + 1);
            assert!(lines.iter().all(|line| line.width() <= 96));
            let texts: Vec<String> = lines.iter().map(Line::to_string).collect();
            for (at, text) in texts[1..5].iter().enumerate() {
                assert!(text.starts_with(&(22 + at).to_string()), "{text}");
                assert_eq!(text.contains('!'), at == 1, "{text}");
            }
            assert!(texts[5].contains("stems needed"), "{}", texts[5]);
            let ruled = { lines.iter() }.flat_map(Line::pieces);
            let ruled = ruled.filter(|(_, ink)| *ink == Ink::Rule);
            for (text, _) in ruled {
                assert!(
                    !text.contains(char::is_alphanumeric),
                    "{text:?} may be faint"
                );
            }
        }
        assert!(chart.text(96).iter().all(|line| line.is_ascii()));
    }

    #[test]
    fn the_notes_say_why_the_range_of_late_weeks_goes_down_to_nothing() {
        let mut chart = chart(12);
        for week in &mut chart.weeks[9..] {
            week.range = Some((0.0, 60.0));
        }
        assert_eq!(frost_before(&chart.weeks, |_| 0.2), Some(31));
        // Where frost is not so likely by then it is not the reason.
        assert_eq!(frost_before(&chart.weeks, |_| 0.01), None);
        chart.frost_before = Some(31);
        let notes = chart.bars().notes.join(" ");
        assert!(
            notes.contains("frost ends the cutting before week 31"),
            "{notes}"
        );
        assert!(
            notes.contains("in 9 of 10 of 200 seasons drawn at random"),
            "{notes}"
        );
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
                    for told in figures.iter().chain([&name]) {
                        assert!(
                            told.is_empty() || texts.contains(&told.as_str()),
                            "{told:?}"
                        );
                    }
                }
                for says in [
                    Chart::TITLE,
                    "stems needed",
                    "nine seasons in ten",
                    "stems a week",
                    "1000",
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
}
