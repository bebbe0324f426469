//! The falling share as lines of characters.

use super::Steps;
use crate::chart::Signs;
use crate::chart::canvas::{Canvas, Frame};
use crate::chart::line::{Ink, Line};
use crate::chart::scale::Scale;

/// The columns left of the curve: `100% `.
const MARGIN: usize = 5;
/// The columns that a figure on the axis takes, with the gap beside it.
const TICK: usize = 5;

impl Steps {
    /// The curve as lines: a step where it falls, a shaded band from limit to limit, `+` where
    /// something had not ended, dots at a half. It stops where nothing was watched any more. No lines
    /// where there is nothing to draw or no room.
    pub fn lines(&self, frame: Frame) -> Vec<Line> {
        let (Some(until), Some(mut canvas)) = (self.until(), frame.canvas()) else {
            return Vec::new();
        };
        let columns = canvas.columns() - MARGIN;
        let axis = Axis {
            columns,
            base: canvas.rows() - 2,
            scale: self.scale(until, (columns / TICK) as f64),
        };
        let last = axis.column(until);
        axis.draw_ticks(&mut canvas, &self.across);
        self.draw_band(&mut canvas, &axis, last);
        axis.draw_half(&mut canvas);
        self.draw_wanted(&mut canvas, &axis);
        self.draw_curve(&mut canvas, &axis, last);
        self.draw_unended(&mut canvas, &axis);
        canvas.lines()
    }

    /// What the signs say, of those that are drawn.
    pub fn legend(&self, signs: Signs) -> Line {
        let mut line = Line::default();
        if self.steps.iter().any(|step| step.limits.is_some()) {
            let band = signs.pick('░', ':').to_string().repeat(2);
            let says = format!(" {}  ", self.limits_words);
            line = line.with(band, Ink::Range).with(says, Ink::Words);
        }
        if !self.unended.is_empty() {
            let says = format!(" {}", self.unended_words);
            line = line.with("+", Ink::Need).with(says + "  ", Ink::Words);
        }
        if let Some(wanted) = &self.wanted {
            let sign = signs.pick('┊', ':').to_string();
            let says = format!(" {}", wanted.label);
            line = line.with(sign, Ink::Need).with(says, Ink::Words);
        }
        line.trimmed()
    }

    fn draw_band(&self, canvas: &mut Canvas, axis: &Axis, last: usize) {
        for column in MARGIN..=last {
            let here = self.steps.iter().rev();
            let here = here.clone().find(|step| axis.column(step.at) <= column);
            let Some((low, high)) = here.and_then(|step| step.limits) else {
                continue;
            };
            for row in axis.row(high)..=axis.row(low).min(axis.base.saturating_sub(1)) {
                canvas.draw(row, column, ('░', ':'), Ink::Range);
            }
        }
    }

    fn draw_wanted(&self, canvas: &mut Canvas, axis: &Axis) {
        if let Some(wanted) = &self.wanted {
            for row in 0..axis.base {
                canvas.draw(row, axis.column(wanted.at), ('┊', ':'), Ink::Need);
            }
        }
    }

    fn draw_curve(&self, canvas: &mut Canvas, axis: &Axis, last: usize) {
        let mut row = axis.row(1.0);
        for column in MARGIN..=last {
            let here = self.steps.iter().rev();
            let here = here.clone().find(|step| axis.column(step.at) <= column);
            let next = here.map_or(row, |step| axis.row(step.share));
            let mut draw = |row, signs| canvas.draw(row, column, signs, Ink::Bar);
            if next == row && row < axis.base {
                draw(row, ('─', '-'));
            }
            for down in row..next {
                draw(
                    down,
                    if down == row {
                        ('┐', '-')
                    } else {
                        ('│', '|')
                    },
                );
            }
            if next > row {
                draw(
                    next,
                    if next == axis.base {
                        ('┴', '|')
                    } else {
                        ('└', '|')
                    },
                );
            }
            row = next.max(row);
        }
    }

    fn draw_unended(&self, canvas: &mut Canvas, axis: &Axis) {
        for at in self.unended.iter().filter(|at| at.is_finite()) {
            let (row, column) = (axis.row(self.share(*at)), axis.column(*at));
            // A step that is drawn there is not hidden: the cross stands beside it.
            let step = self.steps.iter().any(|step| axis.column(step.at) == column);
            let beside = (column + usize::from(step)).min(canvas.columns() - 1);
            canvas.draw(row, beside, ('+', '+'), Ink::Need);
        }
    }
}

/// Where places and shares are on the canvas.
struct Axis {
    columns: usize,
    base: usize,
    scale: Scale,
}

impl Axis {
    fn column(&self, at: f64) -> usize {
        MARGIN + self.scale.cell(at, self.columns)
    }

    fn row(&self, share: f64) -> usize {
        self.base - Scale::between(0.0, 1.0, 2.0).cell(share, self.base + 1)
    }

    fn draw_ticks(&self, canvas: &mut Canvas, across: &str) {
        for (share, told) in [(1.0, "100%"), (0.5, "50%"), (0.0, "0%")] {
            // Set to the right, with a space before the curve.
            canvas.write(self.row(share), MARGIN - 1 - told.len().div_ceil(2), told);
        }
        for column in MARGIN..MARGIN + self.columns {
            canvas.draw(self.base, column, ('─', '-'), Ink::Rule);
        }
        canvas.write(self.base + 1, canvas.columns() - 1, across);
        for tick in self.scale.ticks() {
            let column = self.column(tick);
            let sign = if tick == 0.0 { '└' } else { '┴' };
            canvas.draw(self.base, column, (sign, '+'), Ink::Rule);
            canvas.write(self.base + 1, column, &self.scale.told(tick));
        }
    }

    fn draw_half(&self, canvas: &mut Canvas) {
        let half = self.row(0.5);
        for column in (MARGIN..MARGIN + self.columns).step_by(2) {
            if canvas.is_blank(half, column) {
                canvas.draw(half, column, ('·', '.'), Ink::Rule);
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::chart::Step;

    fn curve(steps: &[(f64, f64)], unended: &[f64]) -> Steps {
        let step = |(at, share): &(f64, f64)| Step {
            at: *at,
            share: *share,
            limits: None,
        };
        Steps {
            title: String::new(),
            notes: Vec::new(),
            across: "days".to_string(),
            up: String::new(),
            steps: steps.iter().map(step).collect(),
            watched: unended.to_vec(),
            unended: unended.to_vec(),
            half: None,
            things: "",
            unended_words: "still fresh",
            limits_words: "95 %",
            wanted: None,
            shows: String::new(),
        }
    }

    fn shown(curve: &Steps, columns: usize, rows: usize, signs: Signs) -> String {
        let frame = Frame {
            columns,
            rows,
            signs,
        };
        let lines = curve.lines(frame);
        assert!(lines.iter().all(|line| line.width() <= columns));
        let lines: Vec<String> = lines.iter().map(Line::to_string).collect();
        lines.join("\n")
    }

    #[test]
    fn a_curve_in_38_by_8() {
        let curve = curve(
            &[(5.0, 0.9), (6.0, 0.6), (7.0, 0.45), (8.0, 0.15)],
            &[6.0, 9.0],
        );
        insta::assert_snapshot!(shown(&curve, 38, 8, Signs::Eighths), @r"
        100% ────────────────┐
                             └──┐
                                └+─┐
         50% · · · · · · · · · · · └───┐ · · ·
                                       │
                                       └──+
          0% └─────┴──────┴─────┴──────┴─────┴
             0     2      4     6      8  days
        ");
        insta::assert_snapshot!(shown(&curve, 38, 8, Signs::Ascii), @r"
        100% -----------------
                             |---
                                |+--
         50% . . . . . . . . . . . |---- . . .
                                       |
                                       |--+
          0% +-----+------+-----+------+-----+
             0     2      4     6      8  days
        ");
    }

    #[test]
    fn limits_are_a_band_about_the_curve() {
        let mut curve = curve(&[(4.0, 0.6), (8.0, 0.3)], &[10.0]);
        curve.steps[0].limits = Some((0.3, 0.85));
        curve.steps[1].limits = Some((0.1, 0.6));
        insta::assert_snapshot!(shown(&curve, 30, 9, Signs::Eighths), @r"
        100% ─────────┐
                      │░░░░░░░
                      │░░░░░░░
         50% · · · · ·└───────┐░░░░░ ·
                      ░░░░░░░░│░░░░░
                      ░░░░░░░░└────+
                              ░░░░░░
          0% └──────────┴──────────┴──
             0          5         days
        ");
        insta::assert_snapshot!(curve.legend(Signs::Ascii), @":: 95 %  + still fresh");
    }

    #[test]
    fn a_curve_that_ends_and_one_that_never_falls() {
        insta::assert_snapshot!(shown(&curve(&[(4.0, 0.5), (12.5, 0.0)], &[]), 38, 8, Signs::Eighths), @r"
        100% ─────────┐
                      │
                      │
         50% · · · · ·└───────────────────┐· ·
                                          │
                                          │
          0% └──────────┴───────────┴─────┴───
             0          5          10     days
        ");
        insta::assert_snapshot!(shown(&curve(&[], &[3.0, 7.0]), 38, 6, Signs::Eighths), @r"
        100% ────────────+───────────────+

         50% · · · · · · · · · · · · · · · · ·

          0% └───────┴───────┴───────┴───────┴
             0       2       4       6    days
        ");
    }

    #[test]
    fn no_room_and_nothing_to_draw_are_no_lines() {
        let falls = curve(&[(4.0, 0.5)], &[]);
        assert_eq!(shown(&falls, 19, 8, Signs::Eighths), "");
        assert_eq!(shown(&falls, 38, 4, Signs::Eighths), "");
        assert_eq!(shown(&curve(&[], &[]), 38, 8, Signs::Eighths), "");
        assert_eq!(shown(&curve(&[], &[f64::NAN]), 38, 8, Signs::Eighths), "");
    }
}
