//! How far rows are from some colours. A colour that many rows have is measured once for all; of the
//! others, where only near rows are asked for, those far away are not measured at all.

use std::borrow::Cow;

use super::Shades;
use super::reading::Reading;
use crate::colour::{Judged, Target, weigh};
use crate::cores::all_in_spans;
use crate::variety::bits::ROWS_A_THREAD;
use crate::variety::index::Index;

/// Distances of a list's colours from some targets, and of its rows where these are asked for again
/// and again.
#[derive(Debug, Clone, Default)]
pub(in crate::variety) struct Measured {
    pub(in crate::variety) targets: Vec<Target>,
    /// By place in the palette, then target.
    of_colours: Vec<Reading>,
    /// By row, where they were worked out for all.
    of_rows: Vec<Reading>,
    /// Every row that is not farther than so is measured.
    reach: f64,
}

/// How far rows are from the nearest of some colours.
pub struct Distances<'a> {
    shades: &'a Shades,
    measured: Cow<'a, Measured>,
}

impl Distances<'_> {
    /// The row's distance (CIEDE2000, by what it mostly shows) from the nearest target; infinite
    /// where it has no colour or there is no target.
    pub fn of(&self, row: usize) -> f64 {
        let reading = self.measured.of_rows.get(row);
        let known = reading.and_then(Reading::distance);
        known.unwrap_or_else(|| self.measured.distance(self.shades, row))
    }

    /// The same by those of the row's colours that are judged.
    pub fn judged(&self, row: usize, by: Judged) -> f64 {
        if by == Judged::Mostly {
            return self.of(row);
        }
        let (shades, measured) = (self.shades, &self.measured);
        by.distance(shades.placed(row), measured.targets.len(), |colour, at| {
            measured.colour_from(shades, colour, at)
        })
    }

    /// Whether the row is at most so far.
    pub(in crate::variety) fn within(&self, row: usize, most: f64) -> bool {
        let reading = self.measured.of_rows.get(row);
        reading.is_none_or(|reading| reading.least() <= most) && self.of(row) <= most
    }
}

impl Measured {
    /// How far the colours of the palette are from these targets: measured where some are asked for
    /// that are farther than any bound, and where many rows have the colour.
    fn of(shades: &Shades, targets: &[Target], reach: f64) -> Measured {
        let mut measured = Measured {
            targets: targets.to_vec(),
            reach: f64::NEG_INFINITY,
            ..Measured::default()
        };
        let each = targets.len();
        measured.of_colours = all_in_spans(shades.palette.len(), ROWS_A_THREAD, |places| {
            let palette = &shades.palette[places.clone()];
            let mut readings = vec![Reading::bound(0.0); palette.len() * each];
            for (at, target) in targets.iter().enumerate() {
                let own = readings.iter_mut().skip(at).step_by(each).zip(palette);
                if reach.is_infinite() {
                    own.for_each(|(one, shade)| *one = Reading::of(target.distance(shade.lab)));
                    continue;
                }
                let bounds = target.lower_bounds(&shades.planes, places.clone());
                for ((one, shade), bound) in own.zip(bounds) {
                    *one = match shade.is_shared() {
                        true => Reading::of(target.distance(shade.lab)),
                        false => Reading::bound(bound),
                    };
                }
            }
            readings
        });
        measured
    }

    /// The readings of a colour, a target each.
    fn colour(&self, colour: u32) -> &[Reading] {
        let each = self.targets.len();
        &self.of_colours[colour as usize * each..][..each]
    }

    /// What no row's distance is below.
    fn bound_rows(&mut self, shades: &Shades) {
        let least = |colour: u32| {
            let readings = self.colour(colour).iter().map(|one| one.least());
            readings.fold(f64::INFINITY, f64::min)
        };
        let nearest: Vec<f64> = (0..shades.palette.len() as u32).map(least).collect();
        self.of_rows = all_in_spans(shades.starts.len() - 1, ROWS_A_THREAD, |rows| {
            let bound = |row| weigh(shades.placed(row), |colour: u32| nearest[colour as usize]);
            rows.map(|row| Reading::bound(bound(row))).collect()
        });
    }

    /// Measures the rows that may be at most so far, of those that were not measured before.
    fn measure_rows(&mut self, shades: &Shades, reach: f64) {
        if reach <= self.reach {
            return;
        }
        let open = |row: &usize| {
            let reading = self.of_rows[*row];
            reading.distance().is_none() && reading.least() <= reach
        };
        let measured = all_in_spans(self.of_rows.len(), ROWS_A_THREAD, |rows| {
            let mut bounds = Vec::new();
            let mut measure = |row| (row, self.measure(shades, row, &mut bounds));
            rows.filter(open).map(&mut measure).collect()
        });
        for (row, distance) in measured {
            self.of_rows[row] = Reading::of(distance);
        }
        self.reach = reach;
    }

    /// The row's distance. The target that may be nearest is measured next, until none that is left may
    /// be nearer than one that was measured. `bounds` is room to work in.
    fn measure(&self, shades: &Shades, row: usize, bounds: &mut Vec<f64>) -> f64 {
        let colours = shades.placed(row);
        let bound = |at: usize| weigh(colours, |colour: u32| self.colour(colour)[at].least());
        bounds.clear();
        bounds.extend((0..self.targets.len()).map(bound));
        let mut distance = f64::INFINITY;
        loop {
            let (mut nearest, mut least) = (0, f64::INFINITY);
            for (at, bound) in bounds.iter().enumerate() {
                if *bound < least {
                    (nearest, least) = (at, *bound);
                }
            }
            if least >= distance {
                return distance;
            }
            bounds[nearest] = f64::INFINITY;
            distance = distance.min(self.distance_from(shades, row, nearest));
        }
    }

    /// The distance of a row that was not measured.
    fn distance(&self, shades: &Shades, row: usize) -> f64 {
        let distances = (0..self.targets.len()).map(|at| self.distance_from(shades, row, at));
        distances.fold(f64::INFINITY, f64::min)
    }

    /// The row's distance from one of the targets.
    fn distance_from(&self, shades: &Shades, row: usize, at: usize) -> f64 {
        weigh(shades.placed(row), |colour| {
            self.colour_from(shades, colour, at)
        })
    }

    /// The distance of a colour of the palette from one of the targets.
    fn colour_from(&self, shades: &Shades, colour: u32, at: usize) -> f64 {
        let measured = self.colour(colour)[at].distance();
        let shade = &shades.palette[colour as usize];
        measured.unwrap_or_else(|| self.targets[at].distance(shade.lab))
    }
}

impl Index {
    /// Distances of all rows from some colours.
    pub fn distances(&self, targets: &[Target]) -> Distances<'_> {
        Distances {
            shades: &self.shades,
            measured: Cow::Owned(Measured::of(&self.shades, targets, f64::INFINITY)),
        }
    }

    /// Distances of all rows from the colours turned to.
    pub(in crate::variety) fn measured<'a>(&'a self, measured: &'a Measured) -> Distances<'a> {
        Distances {
            shades: &self.shades,
            measured: Cow::Borrowed(measured),
        }
    }

    /// Measures a row again whose colours were [put](Index::put) in the index.
    pub(in crate::variety) fn measure_again(&self, measured: &mut Measured, row: usize) {
        let each = measured.targets.len();
        if let Some(known) = measured.of_colours.len().checked_div(each) {
            for shade in &self.shades.palette[known..] {
                let bounds = measured.targets.iter();
                let bounds = bounds.map(|one| Reading::bound(one.lower_bound(shade.lab)));
                measured.of_colours.extend(bounds);
            }
        }
        if row < measured.of_rows.len() {
            measured.of_rows[row] = Reading::of(measured.distance(&self.shades, row));
        }
    }

    /// Begins to measure against these colours, or goes on where it was these before, so that every
    /// row is measured that is at most so far from the nearest of them.
    pub(in crate::variety) fn turn_to(
        &self,
        measured: &mut Measured,
        targets: &[Target],
        reach: f64,
    ) {
        if targets.is_empty() {
            *measured = Measured::default();
        } else if measured.targets != targets {
            *measured = Measured::of(&self.shades, targets, reach);
            measured.bound_rows(&self.shades);
        }
        measured.measure_rows(&self.shades, reach);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::colour::{Part, Vocabulary, distance_to_target};
    use crate::form::RuleSet;
    use crate::variety::{IndexContext, Uses, Varieties};
    use proptest::prelude::*;

    fn index(rows: &[Vec<(u32, usize)>]) -> Index {
        let colour = |(colour, part): &(u32, usize)| {
            let part = Part::ALL[*part].word();
            format!("(colour: \"#{colour:06x}\", part: {part}, pattern: self)")
        };
        let row = |(at, colours): (usize, &Vec<(u32, usize)>)| {
            let colours: Vec<String> = colours.iter().map(colour).collect();
            format!("(name: \"Row {at}\", colours: [{}])", colours.join(", "))
        };
        let rows: Vec<String> = rows.iter().enumerate().map(row).collect();
        let text = format!("[{}]", rows.join(",\n"));
        let list = Varieties::read("varieties.ron", &text).expect("a list");
        let context = IndexContext {
            rules: &RuleSet::embedded()[0],
            uses: &Uses::embedded(),
            words: &Vocabulary::embedded(),
            stems_a_plant: 8.0,
            season: None,
        };
        Index::new(&list, context)
    }

    proptest! {
        #![proptest_config(ProptestConfig::with_cases(40))]

        /// However far was measured, and however often farther, every row is as far as it is.
        #[test]
        fn what_was_not_measured_is_as_far_as_if_it_had_been(
            rows in prop::collection::vec(prop::collection::vec((0_u32..1 << 24, 0..4_usize), 0..4), 1..20),
            steps in prop::collection::vec(0.0..60.0, 1..4),
        ) {
            let index = index(&rows);
            let words = Vocabulary::embedded();
            let targets = words.members("pinks").expect("a family");
            let mut measured = Measured::default();
            for reach in steps.into_iter().chain([f64::INFINITY]) {
                index.turn_to(&mut measured, &targets, reach);
                let distances = index.measured(&measured);
                for row in 0..rows.len() {
                    let colours: Vec<_> = index.colours(row).collect();
                    let each = targets.iter().map(|target| distance_to_target(&colours, target));
                    let nearest = each.fold(f64::INFINITY, f64::min);
                    prop_assert_eq!(distances.of(row), nearest);
                    for most in [reach, reach / 2.0, reach + 5.0, nearest] {
                        prop_assert_eq!(distances.within(row, most), nearest <= most);
                    }
                }
            }
        }
    }
}
