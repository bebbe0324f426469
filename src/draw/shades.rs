//! A drawing as few coloured pixels: each is one of the bloom's own colours, and never a mean of them.
//!
//! A mean of petal, shade and line is a colour that the bloom has nowhere, and a petal's colour would
//! be seen nowhere. So a pixel takes the fill that most of it shows; and where a line stands out from
//! what is around it, and lines are few enough, the line's.

use super::drawing::Drawing;
use super::patch::LINE;
use super::raster::Picture;
use crate::colour::Srgb;
use crate::cores::at_once;

/// Samples along each side of a pixel.
const FINE: u32 = 3;
/// The width of lines, in pixels.
const WIDE: f64 = 0.5;
/// At most this share of the pixels are lines.
const LINES: f64 = 0.2;
/// At least this much of a pixel is covered by a line that takes it.
const TAKEN: f64 = 0.28;

/// A pixel.
#[derive(Debug, Clone, Copy, PartialEq)]
pub(super) struct Shade {
    /// How much of it is covered, 0 to 1.
    pub covered: f64,
    /// Its colour.
    pub colour: Srgb,
}

/// The pixels of a drawing with so many across, row by row.
pub(super) fn shades(drawing: &Drawing, across: u32) -> Vec<Shade> {
    let share = WIDE * 2.0 / LINE / f64::from(across.max(1));
    let drawn = |share| Picture::thin(drawing, across * FINE, share);
    let (bare, lined) = at_once(|| drawn(0.0), || drawn(share));
    let samples: Vec<Samples> = (0..across * across)
        .map(|at| Samples::of(&bare, &lined, at % across, at / across))
        .collect();
    let by_lines = chosen(&samples, across as usize);
    let shade = |(one, line): (&Samples, bool)| Shade {
        covered: one.covered,
        colour: if line { one.line } else { one.fill },
    };
    samples.iter().zip(by_lines).map(shade).collect()
}

/// Which pixels are lines: those where a line covers most, beside the pixels around them.
fn chosen(samples: &[Samples], across: usize) -> Vec<bool> {
    let line = |x: usize, y: usize| samples.get(y * across + x).map_or(0.0, |one| one.lined);
    let stands_out = |at: usize| {
        let (x, y) = (at % across, at / across);
        let (left, right) = (x.saturating_sub(1), (x + 1).min(across - 1));
        let (top, foot) = (y.saturating_sub(1), (y + 1).min(across - 1));
        let around = (top..=foot).flat_map(|y| (left..=right).map(move |x| (x, y)));
        let count = (right - left + 1) * (foot - top + 1);
        line(x, y) - around.map(|(x, y)| line(x, y)).sum::<f64>() / count as f64
    };
    // At the rim the ground parts a petal from what is beside it.
    let may = |one: &Samples| one.covered > 0.95 && one.lined >= TAKEN;
    let mut best: Vec<(usize, f64)> = (0..samples.len())
        .filter(|at| samples.get(*at).is_some_and(may))
        .map(|at| (at, stands_out(at)))
        .filter(|(_, by)| *by > 0.0)
        .collect();
    best.sort_by(|one, other| other.1.total_cmp(&one.1));
    let covered = samples.iter().filter(|one| one.covered > 0.5).count();
    best.truncate((covered as f64 * LINES) as usize);
    let mut chosen = vec![false; samples.len()];
    for (at, _) in best {
        if let Some(one) = chosen.get_mut(at) {
            *one = true;
        }
    }
    chosen
}

/// What the samples of a pixel say.
struct Samples {
    covered: f64,
    /// How much of it is line, 0 to 1.
    lined: f64,
    /// The commonest fill, and the commonest line.
    fill: Srgb,
    line: Srgb,
}

impl Samples {
    fn of(bare: &Picture, lined: &Picture, x: u32, y: u32) -> Samples {
        let places = (y * FINE..(y + 1) * FINE)
            .flat_map(|y| (x * FINE..(x + 1) * FINE).map(move |x| (x, y)));
        let (mut fills, mut lines) = (Votes::default(), Votes::default());
        for at in places.map(|(x, y)| (y * bare.side + x) as usize) {
            let (Some(fill), Some(line)) = (bare.pixels.get(at), lined.pixels.get(at)) else {
                continue;
            };
            if fill[3] > 0 {
                fills.cast(*fill);
            }
            if line[3] > 0 && line != fill {
                lines.cast(*line);
            }
        }
        let all = f64::from(FINE * FINE);
        Samples {
            covered: f64::from(fills.count()) / all,
            lined: f64::from(lines.count()) / all,
            fill: fills.winner(),
            line: lines.winner(),
        }
    }
}

/// Votes for colours.
#[derive(Default)]
struct Votes(Vec<([u8; 4], u32)>);

impl Votes {
    fn cast(&mut self, colour: [u8; 4]) {
        match self.0.iter_mut().find(|vote| vote.0 == colour) {
            Some(vote) => vote.1 += 1,
            None => self.0.push((colour, 1)),
        }
    }

    fn count(&self) -> u32 {
        self.0.iter().map(|vote| vote.1).sum()
    }

    /// The first of those with the most votes.
    fn winner(&self) -> Srgb {
        let most = self.0.iter().map(|vote| vote.1).max();
        let winner = self.0.iter().find(|vote| Some(vote.1) == most);
        let [r, g, b, _] = winner.map_or([0; 4], |vote| vote.0);
        Srgb { r, g, b }
    }
}
