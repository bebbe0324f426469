//! How far rows are from some colours: each colour of the palette is measured once, however many rows
//! have it, and so is each row where all are asked for again and again.

use std::borrow::Cow;
use std::ops::Range;
use std::panic::resume_unwind;
use std::thread;

use super::{Shade, Shades};
use crate::colour::{Part, Target, weigh};
use crate::variety::index::Index;

/// Fewer colours are measured sooner than a second thread starts.
const WORTH_SPLITTING: usize = 2_000;

/// Distances of a list's colours from some targets: each colour is measured once, however many rows
/// have it.
#[derive(Debug, Clone, Default)]
pub(in crate::variety) struct Measured {
    pub(in crate::variety) targets: Vec<Target>,
    /// By target, then place in the palette.
    tables: Vec<Vec<f64>>,
    /// By row, where they were worked out for all.
    by_row: Vec<f64>,
}

/// How far rows are from the nearest of some colours.
pub struct Distances<'a> {
    shades: &'a Shades,
    measured: Cow<'a, Measured>,
}

impl Distances<'_> {
    /// The row's distance (CIEDE2000, weighted by part) from the nearest target; infinite where it
    /// has no colour or there is no target.
    pub fn of(&self, row: usize) -> f64 {
        match self.measured.by_row.get(row) {
            Some(distance) => *distance,
            None => nearest(self.shades.placed(row), &self.measured.tables),
        }
    }
}

/// The least of the distances from each target, of colours by their place in the palette.
fn nearest(colours: &[(u32, Part)], tables: &[Vec<f64>]) -> f64 {
    let distances = tables
        .iter()
        .map(|table| weigh(colours, |colour: u32| table[colour as usize]));
    distances.fold(f64::INFINITY, f64::min)
}

impl Shades {
    /// How far each colour of the palette from this place on is from the target.
    fn measure(&self, target: &Target, from: usize) -> Vec<f64> {
        let measure = |shades: &[Shade]| -> Vec<f64> {
            shades.iter().map(|one| target.distance(one.lab)).collect()
        };
        let palette = &self.palette[from..];
        if palette.len() < WORTH_SPLITTING {
            return measure(palette);
        }
        let (first, second) = palette.split_at(palette.len() / 2);
        thread::scope(|scope| {
            let first = scope.spawn(|| measure(first));
            let second = measure(second);
            let mut all = first.join().unwrap_or_else(|panic| resume_unwind(panic));
            all.extend(second);
            all
        })
    }

    /// The palette measured against these colours.
    fn measured(&self, targets: &[Target]) -> Measured {
        let tables = targets.iter().map(|target| self.measure(target, 0));
        Measured {
            tables: tables.collect(),
            targets: targets.to_vec(),
            by_row: Vec::new(),
        }
    }

    /// The distance of every row.
    fn by_row(&self, tables: &[Vec<f64>]) -> Vec<f64> {
        let rows = self.starts.len() - 1;
        let of = |rows: Range<usize>| -> Vec<f64> {
            rows.map(|row| nearest(self.placed(row), tables)).collect()
        };
        if rows < WORTH_SPLITTING {
            return of(0..rows);
        }
        thread::scope(|scope| {
            let first = scope.spawn(|| of(0..rows / 2));
            let second = of(rows / 2..rows);
            let mut all = first.join().unwrap_or_else(|panic| resume_unwind(panic));
            all.extend(second);
            all
        })
    }
}

impl Index {
    /// Distances of all rows from some colours.
    pub fn distances(&self, targets: &[Target]) -> Distances<'_> {
        Distances {
            shades: &self.shades,
            measured: Cow::Owned(self.shades.measured(targets)),
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
        for (table, target) in measured.tables.iter_mut().zip(&measured.targets) {
            table.extend(self.shades.measure(target, table.len()));
        }
        if let Some(distance) = measured.by_row.get_mut(row) {
            *distance = nearest(self.shades.placed(row), &measured.tables);
        }
    }

    /// Begins to measure against these colours, or goes on where it was these before.
    pub(in crate::variety) fn turn_to(&self, measured: &mut Measured, targets: &[Target]) {
        if measured.targets != targets {
            *measured = self.shades.measured(targets);
            measured.by_row = self.shades.by_row(&measured.tables);
        }
    }
}
