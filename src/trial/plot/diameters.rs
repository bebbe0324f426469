//! Diameters as dots over a scale, with the limits that they are held against.

use super::{Canvas, Frame, place};

/// What a strip of diameters is drawn from. All numbers are in millimetres.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Diameters<'a> {
    /// The blooms measured, in any order.
    pub blooms: &'a [f64],
    /// The mean's lower limit, the mean, its upper limit.
    pub mean: Option<[f64; 3]>,
    /// Limits of sizes and forms.
    pub limits: &'a [Limit],
}

/// A limit with its words.
#[derive(Debug, Clone, PartialEq)]
pub struct Limit {
    /// Where it is.
    pub at: f64,
    /// What it is, as `ball from 89 mm`.
    pub label: String,
}

impl Diameters<'_> {
    /// The strip as lines: a dot for each bloom, piled up, under them the mean and its limits, a
    /// scale, and words for the limits. `shown` writes a whole
    /// number of millimetres in the units that the grower reads.
    ///
    /// Only limits within one width of the blooms' own range are drawn, and the mean's limits run
    /// off at the side beyond that: else one far limit would push all blooms together. A pile too
    /// high has its number at the top (`+` from ten). Words that find no room are left out; their
    /// line stays. No lines where there is nothing to draw or no room.
    pub fn lines(&self, frame: Frame, shown: impl Fn(f64) -> String) -> Vec<String> {
        let (Some(scale), Some(mut canvas)) = (self.scale(), frame.canvas()) else {
            return Vec::new();
        };
        let mut near: Vec<&Limit> = self
            .limits
            .iter()
            .filter(|limit| scale.holds(limit.at))
            .collect();
        near.sort_by(|one, other| one.at.total_cmp(&other.at));
        let label_rows = label_rows(&mut canvas, &scale, &near);
        let ends = canvas.height() - label_rows - 1;
        let axis = ends - 1;
        let piled = axis - usize::from(self.mean.is_some());
        canvas.write(ends, 0, &shown(scale.low));
        let last = canvas.width() - 1;
        canvas.write(ends, last, &shown(scale.high));
        for column in 0..canvas.width() {
            canvas.draw(axis, column, ("\u{2500}", "-"));
        }
        for limit in &near {
            let column = scale.column(limit.at, canvas.width());
            for row in 0..axis {
                canvas.draw(row, column, ("\u{2506}", ":"));
            }
            canvas.draw(axis, column, ("\u{2534}", "+"));
        }
        let highest = self.draw_blooms(&mut canvas, &scale, piled);
        if let Some(mean) = self.mean {
            draw_mean(&mut canvas, &scale, axis - 1, mean);
        }
        canvas.lines().split_off(highest)
    }

    /// From the least to the most that is drawn.
    fn scale(&self) -> Option<Scale> {
        let blooms = || {
            self.blooms
                .iter()
                .copied()
                .filter(|bloom| bloom.is_finite())
        };
        let (low, high) = (blooms().reduce(f64::min)?, blooms().reduce(f64::max)?);
        // Blooms all alike have no width of their own: a tenth of one, then.
        let width = (high - low).max(high.abs() / 10.0).max(f64::MIN_POSITIVE);
        let near = |value: &f64| (low - width..=high + width).contains(value);
        let limits = || self.limits.iter().map(|limit| limit.at).filter(near);
        let mean = || {
            self.mean
                .into_iter()
                .flatten()
                .map(|v| v.clamp(low - width, high + width))
        };
        let all = || blooms().chain(limits()).chain(mean());
        let (low, high) = (all().fold(low, f64::min), all().fold(high, f64::max));
        // A little air, so that no dot and no line is on the edge.
        let air = (high - low).max(width) / 20.0;
        Some(Scale {
            low: (low - air).floor(),
            high: (high + air).ceil(),
        })
    }

    /// Piles up the blooms above the row `piled`; the highest row used.
    fn draw_blooms(&self, canvas: &mut Canvas, scale: &Scale, piled: usize) -> usize {
        let mut counts = vec![0; canvas.width()];
        for bloom in self.blooms.iter().filter(|bloom| bloom.is_finite()) {
            counts[scale.column(*bloom, canvas.width())] += 1;
        }
        for (column, count) in counts.iter().enumerate() {
            for up in 0..piled.min(*count) {
                canvas.draw(piled - 1 - up, column, ("o", "o"));
            }
            if *count > piled {
                let number = if *count < 10 {
                    count.to_string()
                } else {
                    "+".to_string()
                };
                canvas.draw(0, column, (&number, &number));
            }
        }
        piled - counts.into_iter().max().unwrap_or(0).min(piled)
    }
}

/// The scale's two ends.
struct Scale {
    low: f64,
    high: f64,
}

impl Scale {
    fn holds(&self, value: f64) -> bool {
        (self.low..=self.high).contains(&value)
    }

    fn column(&self, value: f64, columns: usize) -> usize {
        place(value, self.low, self.high, columns)
    }
}

/// Writes the limits' words from the last row upwards, where they do not touch each other, and
/// says how many rows they take: at most as leave one row of blooms.
fn label_rows(canvas: &mut Canvas, scale: &Scale, limits: &[&Limit]) -> usize {
    let most = canvas.height() - 4;
    let last = canvas.height() - 1;
    let mut used = 0;
    for limit in limits {
        let column = scale.column(limit.at, canvas.width());
        let row = (0..most).find(|up| canvas.write(last - up, column, &limit.label));
        used = used.max(row.map_or(0, |up| up + 1));
    }
    used
}

fn draw_mean(canvas: &mut Canvas, scale: &Scale, row: usize, [low, mean, high]: [f64; 3]) {
    let (from, to) = (
        scale.column(low, canvas.width()),
        scale.column(high, canvas.width()),
    );
    for column in from..=to {
        canvas.draw(row, column, ("\u{2500}", "-"));
    }
    let off = |inside, mark, ascii| if inside { (mark, ascii) } else { ("~", "~") };
    canvas.draw(row, from, off(scale.holds(low), "\u{251c}", "|"));
    canvas.draw(row, to, off(scale.holds(high), "\u{2524}", "|"));
    canvas.draw(row, scale.column(mean, canvas.width()), ("\u{253c}", "*"));
}

#[cfg(test)]
mod tests {
    use super::*;

    fn plot(
        blooms: &[f64],
        mean: Option<[f64; 3]>,
        limits: &[(f64, &str)],
        (width, height): (usize, usize),
        ascii: bool,
    ) -> String {
        let limit = |(at, label): &(f64, &str)| Limit {
            at: *at,
            label: label.to_string(),
        };
        let limits: Vec<Limit> = limits.iter().map(limit).collect();
        let strip = Diameters {
            blooms,
            mean,
            limits: &limits,
        };
        let frame = Frame {
            width,
            height,
            ascii,
        };
        let lines = strip.lines(frame, |mm| format!("{mm} mm"));
        assert!(lines.len() <= height);
        assert!(lines.iter().all(|line| line.chars().count() <= width));
        lines.join("\n")
    }

    const BLOOMS: [f64; 7] = [84., 86., 87., 87., 88., 90., 91.];
    const BALL: [(f64, &str); 2] = [(89.0, "ball from 89 mm"), (51.0, "pompon to 51 mm")];

    #[test]
    fn a_strip_in_38_by_8() {
        let mean = Some([85.3, 87.57, 89.9]);
        insta::assert_snapshot!(plot(&BLOOMS, mean, &BALL, (38, 8), false), @r"
                        o        ┆
            o       o   o    o   ┆   o   o
                 ├─────────┼────────┤
        ─────────────────────────┴────────────
        83 mm                            92 mm
                          ball from 89 mm
        ");
        insta::assert_snapshot!(plot(&BLOOMS, mean, &BALL, (38, 8), true), @r"
                        o        :
            o       o   o    o   :   o   o
                 |---------*--------|
        -------------------------+------------
        83 mm                            92 mm
                          ball from 89 mm
        ");
    }

    #[test]
    fn a_wide_interval_runs_off_and_a_high_pile_is_counted() {
        let blooms = [[98.; 5], [99.; 5]].concat();
        insta::assert_snapshot!(plot(&blooms, Some([40., 98.5, 157.]), &[], (30, 5), false), @r"
                      55
                      oo
        ~──────────────┼─────────────~
        ──────────────────────────────
        87 mm                   110 mm
        ");
    }

    #[test]
    fn limits_close_together_are_labelled_one_above_the_other() {
        let limits = [
            (87.0, "small to 87 mm"),
            (89.0, "ball from 89 mm"),
            (96.0, "large from 96 mm"),
        ];
        insta::assert_snapshot!(plot(&BLOOMS, None, &limits, (38, 8), false), @r"
                   o    ┆                 ┆
           o    o  o o  ┆  o o            ┆
        ───────────┴────┴─────────────────┴───
        83 mm                            97 mm
                 ball from 89 mm
            small to 87 mm    large from 96 mm
        ");
    }

    #[test]
    fn one_bloom_has_a_dot() {
        insta::assert_snapshot!(plot(&[90.0], None, &BALL, (38, 8), false), @r"
                    ┆            o
        ────────────┴─────────────────────────
        88 mm                            91 mm
             ball from 89 mm
        ");
    }

    #[test]
    fn no_room_and_nothing_to_draw_are_no_lines() {
        assert_eq!(plot(&BLOOMS, None, &BALL, (19, 8), false), "");
        assert_eq!(plot(&BLOOMS, None, &BALL, (38, 4), false), "");
        assert_eq!(plot(&[], None, &BALL, (38, 8), false), "");
        assert_eq!(plot(&[f64::NAN], None, &BALL, (38, 8), false), "");
    }
}
