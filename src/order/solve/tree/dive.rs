//! Ways to a good answer: a dive, which rounds one column after another, and a search between the
//! root's point and the best answer.

use super::{Relaxed, Tree};
use crate::order::solve::progress::{Progress, Stop};

/// The most times that a rounding is taken back.
const MOST_BACK: usize = 8;
/// The most steps of one dive.
const MOST_STEPS: usize = 2_000;
/// What is so near to the whole number that it is rounded to follows without another program.
const FOLLOWS: f64 = 0.1;
/// Nodes of one search between.
const NODES_BETWEEN: usize = 400;

impl Tree<'_> {
    /// Dives between the bounds: rounds one column and solves again, until all are whole. Packs go
    /// up, spare tubers down: either way there are more plants, and needs are met. The dictionary is
    /// left with other bounds.
    pub(super) fn dive(&mut self, mut least: Vec<f64>, mut most: Vec<f64>, stop: Stop<'_>) {
        let mut back = 0;
        let mut before: Option<(Vec<f64>, Vec<f64>)> = None;
        // Each step narrows a column.
        for _ in 0..MOST_STEPS {
            self.dictionary.set_bounds(&least, &most);
            match self.relax(false, stop) {
                Relaxed::Whole | Relaxed::Unsettled => return,
                Relaxed::Closed => {
                    // The other way round; a second failure is the end of the dive.
                    let Some(bounds) = before.take().filter(|_| back < MOST_BACK) else {
                        return;
                    };
                    back += 1;
                    (least, most) = bounds;
                }
                Relaxed::Fractional(_) => {
                    let Some((place, value)) = self.nearest() else {
                        return;
                    };
                    let (mut other_least, mut other_most) = (least.clone(), most.clone());
                    let column = self.live[place];
                    let below = self.master.below(column, value);
                    let above = self.master.above(column, value);
                    if self.is_spare(place) {
                        most[place] = below;
                        other_least[place] = above;
                    } else {
                        least[place] = above;
                        other_most[place] = below;
                    }
                    before = Some((other_least, other_most));
                    self.follow(&mut least, &mut most);
                }
            }
        }
    }

    /// What is nearly whole follows at once.
    fn follow(&self, least: &mut [f64], most: &mut [f64]) {
        for place in 0..self.live.len() {
            let value = self.dictionary.value(place);
            let column = self.live[place];
            if !self.master.whole[column] {
                continue;
            }
            if self.is_spare(place) {
                let below = self.master.below(column, value);
                if value - below < FOLLOWS {
                    most[place] = most[place].min(below.max(least[place]));
                }
            } else {
                let above = self.master.above(column, value);
                if above - value < FOLLOWS {
                    least[place] = least[place].max(above.min(most[place]));
                }
            }
        }
    }

    fn is_spare(&self, place: usize) -> bool {
        self.master.last.contains(&self.live[place])
    }

    /// The fractional column nearest to the whole number that it is rounded to; suppliers before
    /// packs, packs before spare tubers.
    fn nearest(&self) -> Option<(usize, f64)> {
        let fractional = (0..self.live.len()).filter_map(|place| {
            let column = self.live[place];
            let value = self.dictionary.value(place);
            if !self.master.whole[column] || self.master.exact(column, value).is_some() {
                return None;
            }
            let (rank, away) = if self.master.first.contains(&column) {
                (0, self.master.above(column, value) - value)
            } else if self.is_spare(place) {
                (2, value - self.master.below(column, value))
            } else {
                (1, self.master.above(column, value) - value)
            };
            Some((rank, away, place, value))
        });
        let nearest =
            fractional.min_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)).then(a.2.cmp(&b.2)));
        nearest.map(|(_, _, place, value)| (place, value))
    }

    /// Searches the box between the root's point and the best answer: what both leave out stays out
    /// (after Danna, Rothberg and Le Pape, Exploring relaxation induced neighborhoods to improve MIP
    /// solutions, Math. Programming 102:71-90, 2005; from memory).
    pub(super) fn look_between(&mut self, stop: Stop<'_>) {
        let Some(best) = self.best.clone() else {
            return;
        };
        if self.between || self.stopped {
            return;
        }
        let mut least = self.least.clone();
        let mut most = self.most.clone();
        for (column, whole) in self.master.whole.iter().enumerate() {
            let (root, found) = (self.root_point[column], best.point[column]);
            if *whole {
                let (below, above) = (
                    self.master.below(column, root),
                    self.master.above(column, root),
                );
                least[column] = least[column].max(below.min(found));
                most[column] = most[column].min(above.max(found));
            }
        }
        let mut part = Tree::new(self.master, least, most, self.step);
        part.between = true;
        part.best = Some(best.clone());
        part.pool.clone_from(&self.pool);
        // What is proved of the part is not proved of the whole.
        let (proved, nodes) = (self.proved + self.master.constant, self.looked_at());
        part.run(NODES_BETWEEN, &mut |progress| {
            stop(Progress {
                bound: proved,
                nodes: nodes + progress.nodes,
                ..progress
            })
        });
        self.elsewhere += part.looked_at();
        self.stopped |= part.stopped;
        self.best = part.best;
    }
}
