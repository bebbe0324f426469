//! Values by day as lines of characters.

use super::{Limit, Points};
use crate::account::text::{Side, pad, width};
use crate::chart::Signs;
use crate::chart::canvas::{Canvas, Frame};
use crate::chart::line::{Ink, Line};
use crate::chart::scale::Scale;

/// The columns that a figure on the axis takes, with the gap beside it.
const TICK: usize = 7;
/// Names of days take no more of the width than this share of it.
const NAMES: usize = 3;

impl Points {
    /// The days as lines: a dot for each value, a number where several stand in one place (`+` from
    /// ten), the mean and its range, an axis, and words for the limits. Where there are more days than
    /// rows the earliest share one. Words that find no room are left out; their line stays. No lines
    /// where there is nothing to draw or no room.
    pub fn lines(&self, frame: Frame) -> Vec<Line> {
        // Axis, its figures, a row for the words of limits, and the mean.
        let taken = 3 + usize::from(self.mean.is_some());
        let rows = self.in_rows(frame.rows.saturating_sub(taken));
        let names = rows.iter().map(|(name, _)| width(name));
        let names = names.chain(self.mean.map(|_| width(self.mean_words)));
        let names = names.chain([width(&self.across)]);
        let names = names.max().unwrap_or(0).min(frame.columns / NAMES) + 1;
        let columns = frame.columns.saturating_sub(names);
        let scale = self.scale((columns / TICK).max(1) as f64);
        let field = Frame {
            columns,
            rows: frame.rows.min(rows.len() + taken + 2),
            ..frame
        };
        let (Some(scale), Some(mut canvas)) = (scale, field.canvas()) else {
            return Vec::new();
        };
        let near = self.near(&scale);
        let axis = rows.len() + usize::from(self.mean.is_some());
        draw_axis(&mut canvas, &scale, axis, &near);
        for (row, (_, values)) in rows.iter().enumerate() {
            draw_values(&mut canvas, &scale, row, values);
        }
        if let Some(mean) = self.mean {
            self.draw_mean(&mut canvas, &scale, axis - 1, mean);
        }
        write_limits(&mut canvas, &scale, axis + 2, &near);
        let mean = self.mean.map(|_| self.mean_words);
        let named = rows.iter().map(|(name, _)| name.as_str()).chain(mean);
        // What is measured stands before the figures of its axis.
        let named = named.chain(["", self.across.as_str()]);
        let named = named.chain(std::iter::repeat(""));
        let line = |(name, line): (&str, Line)| {
            let name: String = name.chars().take(names - 1).collect();
            let line = Line::of(pad(&name, names, Side::Left), Ink::Words).and(line);
            line.trimmed()
        };
        let mut lines: Vec<Line> = named.zip(canvas.lines()).map(line).collect();
        while lines.last().is_some_and(|line| line.width() == 0) {
            lines.pop();
        }
        lines
    }

    /// What the signs say.
    pub fn legend(&self, signs: Signs) -> Line {
        let mut line = Line::of("o", Ink::Bar).with(format!(" {}", self.dot_words), Ink::Words);
        let kinds = [(false, self.limit_words), (true, self.parting_words)];
        for (part, words) in kinds.into_iter().filter(|(part, _)| self.has_limits(*part)) {
            line = line
                .with("  ", Ink::Words)
                .with(upright(signs, part).to_string(), Ink::Need)
                .with(format!(" {words}"), Ink::Words);
        }
        line
    }

    /// Where its range ends beyond the scale there is an arrow with the figure, and no end.
    fn draw_mean(&self, canvas: &mut Canvas, scale: &Scale, row: usize, mean: [f64; 3]) {
        let columns = canvas.columns();
        let [low, _, high] = mean;
        let [from, middle, to] = mean.map(|value| scale.cell(value, columns));
        for column in from..=to {
            canvas.draw(row, column, ('─', '-'), Ink::Range);
        }
        let off = |inside, signs, arrow| if inside { signs } else { arrow };
        let (lower, upper) = (scale.holds(low), scale.holds(high));
        canvas.draw(row, from, off(lower, ('├', '|'), ('◄', '<')), Ink::Range);
        canvas.draw(row, to, off(upper, ('┤', '|'), ('►', '>')), Ink::Range);
        canvas.draw(row, middle, ('┼', '*'), Ink::Range);
        let (low, high) = (self.told_end(low), self.told_end(high));
        let after = to.saturating_sub(high.len());
        let figures = [(lower, from + 1, low), (upper, after, high)];
        for (_, start, told) in figures.into_iter().filter(|(inside, ..)| !inside) {
            // The mean itself is not written over.
            let all = start..start + told.len();
            if !all.contains(&middle) {
                for (column, sign) in all.zip(told.chars()) {
                    canvas.draw(row, column, (sign, sign), Ink::Words);
                }
            }
        }
    }
}

/// The sign of a limit; of one that parts two names.
fn upright(signs: Signs, parts: bool) -> char {
    match (signs, parts) {
        (Signs::Ascii, true) => '!',
        (Signs::Eighths | Signs::Halves, true) => '║',
        (Signs::Eighths, false) => '┆',
        (Signs::Halves | Signs::Ascii, false) => ':',
    }
}

fn draw_axis(canvas: &mut Canvas, scale: &Scale, axis: usize, near: &[(&Limit, bool)]) {
    let columns = canvas.columns();
    for column in 0..columns {
        canvas.draw(axis, column, ('─', '-'), Ink::Rule);
    }
    for tick in scale.ticks() {
        let column = scale.cell(tick, columns);
        canvas.draw(axis, column, ('┴', '+'), Ink::Rule);
        canvas.write(axis + 1, column, &scale.told(tick));
    }
    for (limit, parts) in near {
        let sign = upright(canvas.signs, *parts);
        let column = scale.cell(limit.at, columns);
        for row in 0..axis {
            canvas.draw(row, column, (sign, sign), Ink::Need);
        }
    }
}

fn draw_values(canvas: &mut Canvas, scale: &Scale, row: usize, values: &[f64]) {
    let mut counts = vec![0; canvas.columns()];
    for value in values.iter().filter(|value| value.is_finite()) {
        counts[scale.cell(*value, canvas.columns())] += 1;
    }
    for (column, count) in counts.into_iter().enumerate() {
        let sign = match count {
            0 => continue,
            1 => 'o',
            2..10 => char::from_digit(count, 10).unwrap_or('+'),
            _ => '+',
        };
        canvas.draw(row, column, (sign, sign), Ink::Bar);
    }
}

/// Writes the limits' words from this row downwards, where they do not touch each other.
fn write_limits(canvas: &mut Canvas, scale: &Scale, from: usize, near: &[(&Limit, bool)]) {
    for (limit, _) in near {
        let column = scale.cell(limit.at, canvas.columns());
        // Where none has room its line stands without words.
        let _ = (from..canvas.rows()).any(|row| canvas.write(row, column, &limit.label));
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn points(days: &[(&str, &[f64])], mean: Option<[f64; 3]>, limits: &[(f64, &str)]) -> Points {
        let limit = |(at, label): &(f64, &str)| Limit {
            at: *at,
            label: label.to_string(),
        };
        let day = |(name, values): &(&str, &[f64])| (name.to_string(), values.to_vec());
        Points {
            title: String::new(),
            notes: Vec::new(),
            across: "mm".to_string(),
            days: days.iter().map(day).collect(),
            mean,
            places: 0,
            mean_words: "mean",
            dot_words: "a bloom",
            limits: limits.iter().map(limit).collect(),
            limit_words: "a limit",
            partings: Vec::new(),
            parting_words: "a parting",
            shows: String::new(),
        }
    }

    fn shown(points: &Points, columns: usize, rows: usize, signs: Signs) -> String {
        let frame = Frame {
            columns,
            rows,
            signs,
        };
        let lines = points.lines(frame);
        assert!(lines.len() <= rows);
        assert!(lines.iter().all(|line| line.width() <= columns));
        let lines: Vec<String> = lines.iter().map(Line::to_string).collect();
        lines.join("\n")
    }

    const DAYS: [(&str, &[f64]); 3] = [
        ("4 Aug", &[84., 86., 87.]),
        ("20 Aug", &[87., 87., 90.]),
        ("5 Sep", &[88., 91.]),
    ];
    const BALL: [(f64, &str); 2] = [(89.0, "ball from 89 mm"), (51.0, "pompon to 51 mm")];

    #[test]
    fn days_stand_one_below_the_other_over_the_mean_and_the_limits() {
        let points = points(&DAYS, Some([85.3, 87.57, 89.9]), &BALL);
        insta::assert_snapshot!(shown(&points, 46, 9, Signs::Eighths), @r"
        4 Aug    o         o    o        ┆
        20 Aug                  2        ┆    o
        5 Sep                       o    ┆         o
        mean           ├──────────┼───────────┤
               ──┴─────────┴────────┴─────────┴───────
        mm      84        86       88        90
                                  ball from 89 mm
        ");
        insta::assert_snapshot!(shown(&points, 46, 9, Signs::Ascii), @r"
        4 Aug    o         o    o        :
        20 Aug                  2        :    o
        5 Sep                       o    :         o
        mean           |----------*-----------|
               --+---------+--------+---------+-------
        mm      84        86       88        90
                                  ball from 89 mm
        ");
    }

    #[test]
    fn more_days_than_rows_share_one_and_a_wide_range_runs_off() {
        let points = points(&DAYS, Some([20.0, 87.0, 190.0]), &[]);
        insta::assert_snapshot!(shown(&points, 40, 6, Signs::Eighths), @r"
        2 days before          o o3  o
        5 Sep                      o  o
        mean          ◄20─────────┼─────────190►
                      ──────┴────────┴────────┴─
        mm                 80       90       100
        ");
    }

    #[test]
    fn a_range_wider_than_the_blooms_has_both_its_ends_on_the_chart() {
        let blooms = [("10 Sep", &[3.15, 3.39][..])];
        let points = points(&blooms, Some([2.06, 3.27, 5.18]), &[]);
        let told = shown(&points, 60, 6, Signs::Ascii);
        let mean = told.lines().nth(1).expect("the mean");
        assert!(mean.matches('|').count() == 2, "{told}");
        assert!(!mean.contains(['<', '>']), "{told}");
        // A range so wide that no bloom could be told from another goes on, and says where to.
        let wide = Points {
            mean: Some([0.5, 3.27, 21.0]),
            ..points
        };
        let told = shown(&wide, 60, 6, Signs::Ascii);
        let mean = told.lines().nth(1).expect("the mean");
        assert!(mean.contains("<1-") || mean.contains("<0-"), "{told}");
        assert!(mean.ends_with("21>") && !mean.contains('|'), "{told}");
    }

    #[test]
    fn limits_close_together_are_labelled_one_above_the_other() {
        let limits = [
            (87.0, "small to 87 mm"),
            (89.0, "ball from 89 mm"),
            (96.0, "large from 96 mm"),
        ];
        insta::assert_snapshot!(shown(&points(&DAYS, None, &limits), 46, 9, Signs::Eighths), @r"
        4 Aug    o    o  o     ┆                   ┆
        20 Aug           2     ┆  o                ┆
        5 Sep            ┆  o  ┆     o             ┆
               ─────┴─────────────┴─────────────┴─────
        mm         85            90            95
                  small to 87 mm      large from 96 mm
                        ball from 89 mm
        ");
    }

    #[test]
    fn no_room_and_nothing_to_draw_are_no_lines() {
        assert_eq!(
            shown(&points(&DAYS, None, &BALL), 19, 8, Signs::Eighths),
            ""
        );
        assert_eq!(shown(&points(&[], None, &BALL), 38, 8, Signs::Eighths), "");
        let none = points(&[("4 Aug", &[f64::NAN])], None, &BALL);
        assert_eq!(shown(&none, 38, 8, Signs::Eighths), "");
    }
}
