//! The share of stems still fresh, day by day.

use super::{Canvas, Frame, place};

/// What a vase test's curve is drawn from.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct VaseTest<'a> {
    /// The days on which stems ended, in order, each with the share (0 to 1) fresh after it.
    pub steps: &'a [(f64, f64)],
    /// The days on which stems were still fresh when their test ended.
    pub fresh: &'a [f64],
}

/// The columns left of the curve: `100% `.
const MARGIN: usize = 5;

impl VaseTest<'_> {
    /// The curve as lines: a step where stems end, `+` where one was still fresh at the end of its
    /// test, dots at a half. It stops on the last day that any stem was watched. No lines where
    /// there is nothing to draw or no room.
    pub fn lines(&self, frame: Frame) -> Vec<String> {
        let days = self
            .steps
            .iter()
            .map(|(day, _)| *day)
            .chain(self.fresh.iter().copied());
        let watched = days.filter(|day| day.is_finite()).reduce(f64::max);
        let (Some(watched), Some(mut canvas)) = (watched, frame.canvas()) else {
            return Vec::new();
        };
        let until = watched.ceil().max(1.0);
        let axis = Axis {
            columns: canvas.width() - MARGIN,
            base: canvas.height() - 2,
            until,
        };
        axis.draw(&mut canvas);
        self.draw_curve(&mut canvas, &axis, axis.column(watched));
        for day in self.fresh.iter().filter(|day| day.is_finite()) {
            let row = axis.row(self.share_after(*day));
            let column = axis.column(*day);
            // A step drawn there is not hidden: the mark goes beside it.
            let step = self
                .steps
                .iter()
                .any(|(day, _)| axis.column(*day) == column);
            canvas.draw(
                row,
                (column + usize::from(step)).min(canvas.width() - 1),
                ("+", "+"),
            );
        }
        canvas.lines()
    }

    fn draw_curve(&self, canvas: &mut Canvas, axis: &Axis, last: usize) {
        let mut row = axis.row(1.0);
        for column in MARGIN..=last {
            let here = self
                .steps
                .iter()
                .rev()
                .find(|(day, _)| axis.column(*day) <= column);
            let next = here.map_or(row, |(_, share)| axis.row(*share));
            if next == row && row < axis.base {
                canvas.draw(row, column, ("\u{2500}", "-"));
            }
            for down in row..next {
                if down == row {
                    canvas.draw(down, column, ("\u{2510}", "-"));
                } else {
                    canvas.draw(down, column, ("\u{2502}", "|"));
                }
            }
            if next > row {
                let foot = if next == axis.base {
                    "\u{2534}"
                } else {
                    "\u{2514}"
                };
                canvas.draw(next, column, (foot, "|"));
            }
            row = next;
        }
    }

    fn share_after(&self, day: f64) -> f64 {
        let step = self.steps.iter().rev().find(|(ended, _)| *ended <= day);
        step.map_or(1.0, |(_, share)| *share)
    }
}

/// Where days and shares are on the canvas.
struct Axis {
    columns: usize,
    base: usize,
    until: f64,
}

impl Axis {
    fn column(&self, day: f64) -> usize {
        MARGIN + place(day, 0.0, self.until, self.columns)
    }

    fn row(&self, share: f64) -> usize {
        self.base - place(share, 0.0, 1.0, self.base + 1)
    }

    fn draw(&self, canvas: &mut Canvas) {
        for (share, label) in [(1.0, "100%"), (0.5, "50%"), (0.0, "0%")] {
            // Set to the right, with a space before the curve.
            canvas.write(self.row(share), MARGIN - 1 - label.len().div_ceil(2), label);
        }
        let half = self.row(0.5);
        for column in (MARGIN..MARGIN + self.columns).step_by(2) {
            canvas.draw(half, column, ("\u{b7}", "."));
        }
        for column in MARGIN..MARGIN + self.columns {
            canvas.draw(self.base, column, ("\u{2500}", "-"));
        }
        let unit = "days";
        canvas.write(self.base + 1, canvas.width() - 1, unit);
        let mut day = 0.0;
        while day <= self.until {
            let column = self.column(day);
            let mark = if day == 0.0 { "\u{2514}" } else { "\u{2534}" };
            canvas.draw(self.base, column, (mark, "+"));
            canvas.write(self.base + 1, column, &format!("{day}"));
            day += self.tick();
        }
    }

    /// Days between ticks: the least round number that leaves five columns for each.
    fn tick(&self) -> f64 {
        let most = (self.columns / 5) as f64;
        let mut round = (0..).flat_map(|power| [1.0, 2.0, 5.0].map(|n| n * 10f64.powi(power)));
        round
            .find(|tick| self.until / tick <= most)
            .unwrap_or(self.until)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plot(
        steps: &[(f64, f64)],
        fresh: &[f64],
        width: usize,
        height: usize,
        ascii: bool,
    ) -> String {
        let frame = Frame {
            width,
            height,
            ascii,
        };
        let lines = VaseTest { steps, fresh }.lines(frame);
        assert!(lines.iter().all(|line| line.chars().count() <= width));
        lines.join("\n")
    }

    #[test]
    fn a_curve_in_38_by_8() {
        let steps = [(5.0, 0.9), (6.0, 0.6), (7.0, 0.45), (8.0, 0.15)];
        insta::assert_snapshot!(plot(&steps, &[6.0, 9.0], 38, 8, false), @r"
        100% ──────────────────┐
                               └──┐
                                  └+──┐
         50% · · · · · · · · · · · · ·└──┐ · ·
                                         │
                                         └───+
          0% └──────┴──────┴──────┴──────┴────
             0      2      4      6       days
        ");
        insta::assert_snapshot!(plot(&steps, &[6.0, 9.0], 38, 8, true), @r"
        100% -------------------
                               |---
                                  |+---
         50% . . . . . . . . . . . . .|--- . .
                                         |
                                         |---+
          0% +------+------+------+------+----
             0      2      4      6       days
        ");
    }

    #[test]
    fn a_curve_that_ends_and_one_that_never_falls() {
        insta::assert_snapshot!(plot(&[(4.0, 0.5), (12.5, 0.0)], &[], 38, 8, false), @r"
        100% ──────────┐
                       │
                       │
         50% · · · · · └────────────────────┐·
                                            │
                                            │
          0% └───────────┴────────────┴─────┴─
             0           5           10   days
        ");
        insta::assert_snapshot!(plot(&[], &[3.0, 7.0], 38, 6, false), @r"
        100% ──────────────+─────────────────+

         50% · · · · · · · · · · · · · · · · ·

          0% └────────┴────────┴────────┴─────
             0        2        4        6 days
        ");
    }

    #[test]
    fn no_room_and_nothing_to_draw_are_no_lines() {
        assert_eq!(plot(&[(4.0, 0.5)], &[], 19, 8, false), "");
        assert_eq!(plot(&[(4.0, 0.5)], &[], 38, 4, false), "");
        assert_eq!(plot(&[], &[], 38, 8, false), "");
        assert_eq!(plot(&[], &[f64::NAN], 38, 8, false), "");
    }
}
