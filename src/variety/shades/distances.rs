//! How far rows are from some colours. Where only near rows are asked for it is known of most without
//! measuring on which side of that they are, and of those ahead of others that they are; the rest is measured.

use std::borrow::Cow;

use super::Shades;
use super::reading::Reading;
use crate::colour::{Between, Judged, Target, main_of, weigh};
use crate::cores::all_in_spans;
use crate::variety::bits::ROWS_A_THREAD;
use crate::variety::index::Index;

/// Distances of a list's colours from some targets, and of its rows where these are asked for again
/// and again.
#[derive(Debug, Clone, Default)]
pub(in crate::variety) struct Measured {
    pub(in crate::variety) targets: Vec<Target>,
    /// By target: between what the distances of the palette's colours lie, in its order. Empty where all of
    /// them were measured.
    between: Vec<Between>,
    /// By place in the palette, then target, where all were measured.
    of_colours: Vec<f64>,
    /// By row, where they are asked for again and again.
    of_rows: Vec<Reading>,
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
        let known = reading.and_then(|reading| reading.is_within(most));
        known.unwrap_or_else(|| self.of(row) <= most)
    }

    /// What the row's distance is never below, and never above: itself where it would have to be measured
    /// to say so.
    pub(in crate::variety) fn between(&self, row: usize) -> (f64, f64) {
        match self.measured.of_rows.get(row) {
            Some(reading) => (reading.least(), reading.most()),
            None => {
                let distance = self.of(row);
                (distance, distance)
            }
        }
    }
}

impl Measured {
    /// All colours of the palette measured.
    fn all(shades: &Shades, targets: &[Target]) -> Measured {
        let of_colours = all_in_spans(shades.palette.len(), ROWS_A_THREAD, |places| {
            let palette = shades.palette[places].iter();
            let of = |lab| targets.iter().map(move |target| target.distance(lab));
            palette.flat_map(|shade| of(shade.lab)).collect()
        });
        Measured {
            targets: targets.to_vec(),
            of_colours,
            ..Measured::default()
        }
    }

    /// Between what all of them lie, and all rows.
    fn roughly(shades: &Shades, targets: &[Target]) -> Measured {
        let all = 0..shades.palette.len();
        let between = |target: &Target| target.between(&shades.planes, all.clone());
        let mut measured = Measured {
            targets: targets.to_vec(),
            between: all_in_spans(targets.len(), 1, |span| {
                targets[span].iter().map(between).collect()
            }),
            ..Measured::default()
        };
        let nearest = measured.nearest(all.len());
        measured.of_rows = all_in_spans(shades.starts.len() - 1, ROWS_A_THREAD, |rows| {
            rows.map(|row| reading(shades, row, &nearest)).collect()
        });
        measured
    }

    /// Between what the distances of so many colours from the nearest target lie.
    fn nearest(&self, colours: usize) -> Between {
        let mut nearest = Between {
            least: vec![f32::INFINITY; colours],
            most: vec![f32::INFINITY; colours],
        };
        for one in &self.between {
            nearer(&mut nearest.least, &one.least);
            nearer(&mut nearest.most, &one.most);
        }
        nearest
    }

    /// Measures the rows of which it is not known whether they are at most so far.
    fn measure_rows(&mut self, shades: &Shades, reach: f64) {
        let open = |row: &usize| self.of_rows[*row].is_within(reach).is_none();
        let measured = all_in_spans(self.of_rows.len(), ROWS_A_THREAD, |rows| {
            let measure = |row| (row, self.distance(shades, row));
            rows.filter(open).map(measure).collect()
        });
        for (row, distance) in measured {
            self.of_rows[row] = Reading::of(distance);
        }
    }

    /// The row's distance. Targets that cannot be nearer than one that was measured are passed over.
    fn distance(&self, shades: &Shades, row: usize) -> f64 {
        let colours = shades.placed(row);
        let least = |at: usize| weigh(colours, |colour| self.least(colour, at));
        let first = (0..self.targets.len()).map(|at| (least(at), at));
        let Some((_, first)) = first.reduce(|one, other| if other.0 < one.0 { other } else { one })
        else {
            return f64::INFINITY;
        };
        let others = (0..self.targets.len()).filter(|at| *at != first);
        let distance = self.distance_from(shades, row, first);
        others.fold(distance, |distance, at| match least(at) < distance {
            true => distance.min(self.distance_from(shades, row, at)),
            false => distance,
        })
    }

    /// The row's distance from one of the targets.
    fn distance_from(&self, shades: &Shades, row: usize, at: usize) -> f64 {
        weigh(shades.placed(row), |colour| {
            self.colour_from(shades, colour, at)
        })
    }

    /// The distance of a colour of the palette from one of the targets.
    fn colour_from(&self, shades: &Shades, colour: u32, at: usize) -> f64 {
        let place = colour as usize * self.targets.len() + at;
        let measured = self.of_colours.get(place).copied();
        measured.unwrap_or_else(|| self.targets[at].distance(shades.palette[colour as usize].lab))
    }

    /// What that is never below.
    fn least(&self, colour: u32, at: usize) -> f64 {
        match self.between.get(at) {
            Some(between) => between.least[colour as usize].into(),
            None => self.of_colours[colour as usize * self.targets.len() + at],
        }
    }
}

/// Between what a row's distance lies, where those of the colours lie between these. Its main colours alone
/// are never nearer than the row is.
fn reading(shades: &Shades, row: usize, nearest: &Between) -> Reading {
    let colours = shades.placed(row);
    Reading::between(
        weigh(colours, |colour: u32| nearest.least[colour as usize].into()),
        main_of(colours, |colour: u32| nearest.most[colour as usize].into()),
    )
}

/// Takes what is nearer, place by place.
fn nearer(nearest: &mut [f32], others: &[f32]) {
    let pairs = nearest.iter_mut().zip(others);
    pairs.for_each(|(nearest, other)| *nearest = nearest.min(*other));
}

impl Index {
    /// Distances of all rows from some colours.
    pub fn distances(&self, targets: &[Target]) -> Distances<'_> {
        Distances {
            shades: &self.shades,
            measured: Cow::Owned(Measured::all(&self.shades, targets)),
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
        let all = self.shades.palette.len();
        for (target, between) in measured.targets.iter().zip(&mut measured.between) {
            let known = between.least.len();
            between.extend(target.between(&self.shades.planes, known..all));
        }
        if row < measured.of_rows.len() {
            measured.of_rows[row] = Reading::of(measured.distance(&self.shades, row));
        }
    }

    /// Begins to measure against these colours, or goes on where it was these before, so that of every
    /// row it is known whether it is at most so far from the nearest of them.
    pub(in crate::variety) fn turn_to(
        &self,
        measured: &mut Measured,
        targets: &[Target],
        reach: f64,
    ) {
        if targets.is_empty() {
            *measured = Measured::default();
        } else if measured.targets != targets {
            *measured = Measured::roughly(&self.shades, targets);
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
