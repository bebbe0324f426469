//! Cells of two colours: each has the pattern of parts, and the two colours, that differ least from
//! what is drawn there.
//!
//! A cell cannot show more than two colours, so its parts are sorted into two groups. Of all ways to
//! do that the one is taken by which the parts differ least from their group's mean: least squares in
//! CIELAB, where a difference is as large as it is seen.

use super::dots::{A_CELL, Cell, Dot, Dots};
use super::symbols::{octant, quadrant, sextant};
use crate::colour::{Lab, Srgb};

/// Into what parts a cell is divided; all of them are two to a row.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Parts {
    /// Two rows.
    Quadrants,
    /// Three rows.
    Sextants,
    /// Four rows.
    Octants,
}

/// Parts in a row.
const WIDE: usize = 2;

impl Parts {
    /// The rows of dots that each row of parts takes, as shares of the four.
    fn rows(self) -> &'static [[f64; 4]] {
        const THIRD: f64 = 1.0 / 3.0;
        match self {
            Parts::Quadrants => &[[1.0, 1.0, 0.0, 0.0], [0.0, 0.0, 1.0, 1.0]],
            Parts::Sextants => &[
                [1.0, THIRD, 0.0, 0.0],
                [0.0, 1.0 - THIRD, 1.0 - THIRD, 0.0],
                [0.0, 0.0, THIRD, 1.0],
            ],
            Parts::Octants => &[
                [1.0, 0.0, 0.0, 0.0],
                [0.0, 1.0, 0.0, 0.0],
                [0.0, 0.0, 1.0, 0.0],
                [0.0, 0.0, 0.0, 1.0],
            ],
        }
    }

    /// The character that shows dots of a cell, each part that is half lit or more: bit 2y + x is the
    /// dot at (x, y).
    pub(super) fn of_dots(self, lit: u8) -> char {
        let part = |(at, (x, shares)): (usize, (usize, &[f64; 4]))| {
            let own = |(y, share): (usize, &f64)| f64::from(lit >> (WIDE * y + x) & 1) * share;
            let seen: f64 = shares.iter().enumerate().map(own).sum();
            usize::from(seen >= shares.iter().sum::<f64>() / 2.0) << at
        };
        let rows = self.rows().iter();
        let parts = rows.flat_map(|shares| (0..WIDE).map(move |x| (x, shares)));
        self.symbol(parts.enumerate().map(part).sum())
    }

    /// The character whose parts of the front colour these are: bit 0 is the part at the top left,
    /// bit 1 the one to its right, and so on down.
    fn symbol(self, pattern: usize) -> char {
        match self {
            Parts::Quadrants => quadrant(pattern),
            Parts::Sextants => sextant(pattern),
            Parts::Octants => octant(pattern),
        }
    }
}

/// The cell at this place of dots with [`A_CELL`] a cell.
pub(super) fn cell(dots: &Dots, column: u32, row: u32, parts: Parts) -> Cell {
    let seen: Vec<Option<Srgb>> = { parts.rows().iter() }
        .flat_map(|shares| (0..WIDE as u32).map(move |x| (x, shares)))
        .map(|(x, shares)| part(dots, (column * A_CELL.0 + x, row * A_CELL.1), shares))
        .collect();
    let all = (1 << seen.len()) - 1;
    let covered = pattern_of(&seen, Option::is_some);
    let colours: Vec<Lab> = seen.iter().flatten().map(|own| Lab::from(*own)).collect();
    let (pattern, front, back) = match covered {
        0 => (0, None, None),
        covered if covered == all => best_two(&colours),
        // Beside the flower the ground is seen, so that one colour is left for all of it.
        covered => (covered, Some(mean(&colours, all)), None),
    };
    Cell {
        symbol: parts.symbol(pattern),
        front: front.map(Lab::to_srgb),
        back: back.map(Lab::to_srgb),
        marked: false,
    }
}

/// A part's colour, by so much of each of four dots down from a place; `None` where less of it is
/// covered than what is shown.
fn part(dots: &Dots, (x, top): (u32, u32), shares: &[f64; 4]) -> Option<Srgb> {
    let mut whole = Dot::default();
    let mut covered = 0.0;
    for (dot, share) in (top..).map(|y| dots.get(x, y)).zip(shares) {
        covered += share * dot.covered;
        for (sum, channel) in whole.colour.iter_mut().zip(dot.colour) {
            *sum += share * dot.covered * channel;
        }
    }
    whole.colour = whole.colour.map(|sum| sum / covered.max(1e-9));
    whole.covered = covered / shares.iter().sum::<f64>();
    whole.is_shown().then(|| whole.shown())
}

fn pattern_of<T>(parts: &[T], is_in: impl Fn(&T) -> bool) -> usize {
    let parts = parts.iter().enumerate().filter(|(_, part)| is_in(part));
    parts.map(|(at, _)| 1 << at).sum()
}

/// The pattern and the two colours that differ least from these; one colour where they are all the
/// same.
fn best_two(colours: &[Lab]) -> (usize, Option<Lab>, Option<Lab>) {
    let all = (1 << colours.len()) - 1;
    // Where the squares of all parts are the same for every way, the least sum of squared differences
    // is where the squared sums of the groups, each a part of it, are largest. The last part is never
    // in front: the other half of the ways are the same two groups.
    let gain =
        |pattern: usize| sum_of_squares(colours, pattern) + sum_of_squares(colours, all & !pattern);
    let ways = 1..=all / 2;
    let best = ways.map(|pattern| (gain(pattern), pattern));
    let best = best.max_by(|one, other| one.0.total_cmp(&other.0));
    // A hair more than nothing: sums of the same numbers in another order.
    const SAME: f64 = 1e-6;
    match best {
        Some((gained, pattern)) if gained > sum_of_squares(colours, all) + SAME => (
            pattern,
            Some(mean(colours, pattern)),
            Some(mean(colours, all & !pattern)),
        ),
        _ => (all, Some(mean(colours, all)), None),
    }
}

/// The square of a group's sum, by the number that are in it.
fn sum_of_squares(colours: &[Lab], pattern: usize) -> f64 {
    let Lab { l, a, b } = sum(colours, pattern);
    (l * l + a * a + b * b) / f64::from(pattern.count_ones().max(1))
}

fn sum(colours: &[Lab], pattern: usize) -> Lab {
    let group = colours
        .iter()
        .enumerate()
        .filter(|(at, _)| pattern >> at & 1 == 1);
    group.fold(Lab::new(0.0, 0.0, 0.0), |sum, (_, own)| {
        Lab::new(sum.l + own.l, sum.a + own.a, sum.b + own.b)
    })
}

/// The mean of those that a pattern has, at most as many as there are.
fn mean(colours: &[Lab], pattern: usize) -> Lab {
    let all = (1_usize << colours.len()) - 1;
    let count = f64::from((pattern & all).count_ones().max(1));
    let Lab { l, a, b } = sum(colours, pattern);
    Lab::new(l / count, a / count, b / count)
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn off(colours: &[Lab], pattern: usize, (front, back): (Lab, Lab)) -> f64 {
        let away = |(at, own): (usize, &Lab)| {
            let shown = if pattern >> at & 1 == 1 { front } else { back };
            (own.l - shown.l).powi(2) + (own.a - shown.a).powi(2) + (own.b - shown.b).powi(2)
        };
        colours.iter().enumerate().map(away).sum()
    }

    fn colours(count: usize) -> impl Strategy<Value = Vec<Lab>> {
        let one = (0.0..100.0, -80.0..80.0, -80.0..80.0).prop_map(|(l, a, b)| Lab::new(l, a, b));
        prop::collection::vec(one, count)
    }

    proptest! {
        #[test]
        fn no_pattern_with_no_two_of_the_colours_is_nearer(all in prop_oneof![colours(4), colours(6), colours(8)]) {
            let (pattern, front, back) = best_two(&all);
            let front = front.expect("a colour");
            let own = off(&all, pattern, (front, back.unwrap_or(front)));
            for other in 0..1 << all.len() {
                for one in &all {
                    for two in &all {
                        prop_assert!(own <= off(&all, other, (*one, *two)) + 1e-6);
                    }
                }
            }
        }
    }

    #[test]
    fn a_cell_of_one_colour_is_full_of_it() {
        let pink = Lab::new(70.0, 40.0, 5.0);
        let (pattern, front, back) = best_two(&[pink; 8]);
        assert_eq!((pattern, back), (255, None));
        let front = front.expect("a colour");
        assert!((front.l - pink.l).abs() < 1e-9 && (front.a - pink.a).abs() < 1e-9);
        let dark = Lab::new(20.0, 0.0, 0.0);
        let (pattern, front, back) = best_two(&[dark, pink, pink, pink]);
        assert_eq!((pattern, front, back), (1, Some(dark), Some(pink)));
    }
}
