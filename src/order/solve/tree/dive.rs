//! Ways to a good answer: a dive, which rounds one column after another, and a search between the
//! root's point and the best answer.

use super::{Progress, Relaxed, Tree, WHOLE};
use crate::order::solve::Stop;

/// The most times that a rounding up is taken back.
const MOST_BACK: usize = 8;
/// Nodes of one search between.
const NODES_BETWEEN: usize = 400;

impl Tree<'_> {
    /// Dives between the bounds. The dictionary is left with other bounds.
    pub(super) fn dive(&mut self, mut least: Vec<f64>, mut most: Vec<f64>, stop: Stop<'_>) {
        let mut back = 0;
        let mut before: Option<(Vec<f64>, usize, f64)> = None;
        loop {
            self.dictionary.set_bounds(&least, &most);
            match self.relax(false, stop) {
                Relaxed::Whole | Relaxed::Unsettled => return,
                Relaxed::Closed => {
                    let Some((bounds, place, bound)) = before.take() else {
                        return;
                    };
                    back += 1;
                    if back > MOST_BACK {
                        return;
                    }
                    least = bounds;
                    most[place] = bound;
                }
                Relaxed::Fractional(_) => {
                    let Some((place, value)) = self.nearest_up() else {
                        return;
                    };
                    before = Some((least.clone(), place, value.floor()));
                    least[place] = value.ceil();
                    // What is nearly whole follows at once.
                    for (place, column) in self.live.iter().enumerate() {
                        let value = self.dictionary.value(place);
                        let packs =
                            self.master.whole[*column] && !self.master.last.contains(column);
                        if packs && value.ceil() - value < 0.1 {
                            least[place] = least[place].max(value.ceil().min(most[place]));
                        }
                    }
                }
            }
        }
    }

    /// The fractional column nearest to the next whole number; suppliers before packs, packs before
    /// spare tubers.
    fn nearest_up(&self) -> Option<(usize, f64)> {
        let rank = |column: &usize| {
            if self.master.first.contains(column) {
                0
            } else {
                1 + u8::from(self.master.last.contains(column))
            }
        };
        let fractional = (self.live.iter().enumerate())
            .filter(|(_, column)| self.master.whole[**column])
            .map(|(place, column)| (place, self.dictionary.value(place), column))
            .filter(|(_, value, _)| (value - value.round()).abs() > WHOLE);
        let away = |value: f64| value.ceil() - value;
        let order = |one: &(usize, f64, &usize)| (rank(one.2), away(one.1), one.0);
        let nearest = fractional
            .map(|one| order(&one))
            .min_by(|a, b| a.0.cmp(&b.0).then(a.1.total_cmp(&b.1)).then(a.2.cmp(&b.2)));
        nearest.map(|(_, _, place)| (place, self.dictionary.value(place)))
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
                least[column] = least[column].max(root.floor().min(found));
                most[column] = most[column].min(root.ceil().max(found));
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
