//! What a unit of a column has cost, learned by trying.

/// A column is tried until so many trials of each half are known.
const RELIABLE: u32 = 4;

/// What a unit of a column down and up has cost, and how often that was seen.
pub(super) struct Gains {
    sums: [Vec<f64>; 2],
    counts: [Vec<u32>; 2],
}

impl Gains {
    pub(super) fn new(columns: usize) -> Gains {
        Gains {
            sums: [vec![0.0; columns], vec![0.0; columns]],
            counts: [vec![0; columns], vec![0; columns]],
        }
    }

    pub(super) fn learn(&mut self, column: usize, side: usize, gain: f64) {
        self.sums[side][column] += gain;
        self.counts[side][column] += 1;
    }

    pub(super) fn expected(&self, column: usize, side: usize) -> f64 {
        match self.counts[side][column] {
            0 => {
                let known: u32 = self.counts[side].iter().sum();
                self.sums[side].iter().sum::<f64>() / f64::from(known.max(1))
            }
            count => self.sums[side][column] / f64::from(count),
        }
    }

    pub(super) fn reliable(&self, column: usize) -> bool {
        self.counts.iter().all(|counts| counts[column] >= RELIABLE)
    }
}
