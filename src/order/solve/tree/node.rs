//! One node: its bounds, its linear program with the rows that it calls for, and what follows.

use super::{Best, MOST_PIVOTS, Node, Open, Relaxed, SPARE_ROWS, Tree};
use crate::order::solve::master::breaks;
use crate::order::solve::progress::Stop;
use crate::order::solve::simplex::{Ended, Row};

/// The most rows added at once.
const MOST_ROWS: usize = 40;

impl Tree<'_> {
    /// The bounds of the columns in the dictionary at the root.
    pub(super) fn live_bounds(&self) -> (Vec<f64>, Vec<f64>) {
        let of = |values: &[f64]| self.live.iter().map(|at| values[*at]).collect();
        (of(&self.least), of(&self.most))
    }

    /// Those at a node. A column that was settled since, outside the node's bounds, shows as bounds
    /// that cross.
    fn bounds_at(&self, node: usize) -> Option<(Vec<f64>, Vec<f64>)> {
        let (mut least, mut most) = self.live_bounds();
        let mut at = Some(node);
        while let Some(node) = at {
            for (column, upper, bound) in &self.nodes[node].changes {
                if let Some(place) = self.place[*column as usize] {
                    if *upper {
                        most[place] = most[place].min(*bound);
                    } else {
                        least[place] = least[place].max(*bound);
                    }
                    if least[place] > most[place] {
                        return None;
                    }
                } else {
                    let value = self.least[*column as usize];
                    if (*upper && value > *bound) || (!*upper && value < *bound) {
                        return None;
                    }
                }
            }
            at = self.nodes[node].parent;
        }
        Some((least, most))
    }

    /// Solves the present linear program, adds the rows that it breaks, and solves again.
    pub(super) fn relax(&mut self, patient: bool, stop: Stop<'_>) -> Relaxed {
        let settled = self.settled_cost();
        let mut refreshed = false;
        loop {
            if self.asked(stop) {
                return Relaxed::Unsettled;
            }
            let ended = self.dictionary.solve(self.cutoff() - settled, MOST_PIVOTS);
            let closed = match ended {
                Ended::Infeasible => self.dictionary.proved_infeasible(),
                Ended::OverCutoff => self.dictionary.proved_bound() + settled > self.cutoff(),
                Ended::Optimal => {
                    let bound = self.dictionary.proved_bound() + settled;
                    if bound > self.cutoff() {
                        return Relaxed::Closed;
                    }
                    let mut point = self.point();
                    let whole = self.round(&mut point);
                    let rows = self.rows_for(&point, patient || whole);
                    if rows.is_empty() && !whole {
                        return Relaxed::Fractional(bound);
                    }
                    if rows.is_empty() && self.take(point) {
                        return Relaxed::Whole;
                    }
                    rows.iter().for_each(|row| self.add(row));
                    if !rows.is_empty() && self.dictionary.leaving().is_some() {
                        continue;
                    }
                    // By the dictionary the point breaks none of them, or is an answer that is none: its
                    // figures have drifted.
                    if refreshed {
                        return if whole {
                            Relaxed::Unsettled
                        } else {
                            Relaxed::Fractional(bound)
                        };
                    }
                    false
                }
                Ended::Unsettled => false,
            };
            if closed {
                return Relaxed::Closed;
            }
            if refreshed {
                return Relaxed::Unsettled;
            }
            refreshed = true;
            self.dictionary.refresh();
        }
    }

    /// Rounds what is all but whole; whether all that should be whole is.
    fn round(&self, point: &mut [f64]) -> bool {
        let mut whole = true;
        for (at, value) in point
            .iter_mut()
            .enumerate()
            .filter(|(at, _)| self.master.whole[*at])
        {
            match self.master.exact(at, *value) {
                Some(exact) => *value = exact,
                None => {
                    debug_assert!(self.place[at].is_some());
                    whole = false;
                }
            }
        }
        whole
    }

    /// Rows that the point breaks: those found before, else new ones.
    fn rows_for(&mut self, point: &[f64], thorough: bool) -> Vec<Row> {
        let mut known: Vec<(f64, &Row)> = (self.pool.iter().map(|row| (breaks(row, point), row)))
            .filter(|(by, _)| *by > 1e-5)
            .collect();
        known.sort_by(|a, b| b.0.total_cmp(&a.0));
        if !known.is_empty() {
            return known
                .into_iter()
                .take(MOST_ROWS)
                .map(|one| one.1.clone())
                .collect();
        }
        if !thorough {
            return Vec::new();
        }
        let mut rows = self.master.broken(point);
        rows.sort_by(|a, b| breaks(b, point).total_cmp(&breaks(a, point)));
        rows.truncate(MOST_ROWS);
        self.pool.extend(rows.iter().cloned());
        rows
    }

    /// Keeps an answer if it holds exactly. False where it does not.
    fn take(&mut self, point: Vec<f64>) -> bool {
        let choice = self.master.choice(&point);
        let Some(value) = self.master.value(&choice, &point) else {
            return false;
        };
        if self.best.as_ref().is_none_or(|best| value < best.value) {
            self.best = Some(Best {
                value,
                point,
                choice,
            });
        }
        true
    }

    /// Looks at a node, then at one of its children, and so on down.
    pub(super) fn plunge(&mut self, open: Open, most_nodes: usize, stop: Stop<'_>) {
        let Open {
            mut bound,
            mut depth,
            mut node,
        } = open;
        loop {
            let proved = self
                .open
                .peek()
                .map_or(bound, |other| other.bound.min(bound));
            self.proved = self.proved.max(proved.min(self.lost));
            if self.asked(stop) || self.looked_at >= most_nodes {
                self.open.push(Open { bound, depth, node });
                return;
            }
            self.looked_at += 1;
            if self.dictionary.rows.len() > self.root_rows + SPARE_ROWS {
                self.dictionary.drop_slack();
            }
            let Some((least, most)) = self.bounds_at(node) else {
                return;
            };
            self.dictionary.set_bounds(&least, &most);
            let patient = self.looked_at < 50 || self.looked_at.is_multiple_of(10);
            match self.relax(patient, stop) {
                Relaxed::Closed | Relaxed::Whole => return,
                Relaxed::Unsettled => {
                    self.lost = self.lost.min(bound);
                    return;
                }
                Relaxed::Fractional(found) => bound = bound.max(found),
            }
            let tightened = self.tightened(&least, &most);
            self.nodes[node].changes.extend(tightened);
            let Some((column, value, up_first)) = self.branching_column() else {
                self.lost = self.lost.min(bound);
                return;
            };
            depth += 1;
            let down = (column as u32, true, self.master.below(column, value));
            let up = (column as u32, false, self.master.above(column, value));
            let (now, later) = if up_first { (up, down) } else { (down, up) };
            let mut child = |change| {
                self.nodes.push(Node {
                    parent: Some(node),
                    changes: vec![change],
                });
                self.nodes.len() - 1
            };
            let (now, later) = (child(now), child(later));
            self.open.push(Open {
                bound,
                depth,
                node: later,
            });
            if self.looked_at.is_power_of_two() && self.looked_at > 4 {
                if let Some((least, most)) = self.bounds_at(now) {
                    self.dive(least, most, stop);
                }
                self.look_between(stop);
            }
            node = now;
        }
    }

    /// Bounds that follow because a step further would cost too much.
    fn tightened(&self, least: &[f64], most: &[f64]) -> Vec<(u32, bool, f64)> {
        if self.best.is_none() {
            return Vec::new();
        }
        let (bound, costs) = self.dictionary.proof();
        let room = self.cutoff() - self.settled_cost() - bound;
        let mut changes = Vec::new();
        for (place, column) in self.live.iter().enumerate() {
            let each = costs[place];
            if !self.master.whole[*column] || each.abs() < 1e-7 || least[place] == most[place] {
                continue;
            }
            let steps = (room / each.abs() + 1e-6).floor().max(0.0);
            if steps < most[place] - least[place] {
                let upper = each > 0.0;
                let bound = if upper {
                    self.master.below(*column, least[place] + steps)
                } else {
                    self.master.above(*column, most[place] - steps)
                };
                changes.push((*column as u32, upper, bound));
            }
        }
        changes
    }
}
