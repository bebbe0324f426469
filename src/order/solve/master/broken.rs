//! The rows that a point breaks: what the sharing out of stems asks of plants, found week by week, and
//! what it takes for a variety or a form to count.

use std::collections::BTreeMap;

use super::{Master, breaks, in_stems, scaled};
use crate::order::solve::simplex::Row;
use crate::order::solve::transport::{Cut, Week};

impl Master<'_> {
    /// Rows that hold of every answer and that the point breaks.
    pub(in crate::order::solve) fn broken(&self, point: &[f64]) -> Vec<Row> {
        let mut rows: Vec<Row> = Vec::new();
        let plants: Vec<f64> = (0..self.model.varieties.len())
            .map(|at| self.planted(at, point))
            .collect();
        for (at, planted) in plants.iter().enumerate() {
            if *planted < -1e-6 {
                rows.push(self.demand(&[(at, 1.0)], &[], 0.0));
            }
        }
        self.broken_reserves(point, &plants, &mut rows);
        self.broken_forms(point, &mut rows);
        for week in 0..self.model.weeks {
            let (split, members) = self.week(week, point, &plants);
            let mut cuts = split.share().cuts;
            cuts.sort();
            cuts.dedup();
            for Cut { needs, through } in cuts {
                // Varieties that have none planted at this point count as through: they break it most.
                let mut all: Vec<usize> = through.iter().map(|at| members[*at]).collect();
                let none = (0..plants.len()).filter(|at| !members.contains(at));
                all.extend(none.filter(|at| {
                    let mut serving = self.model.varieties[*at].serving(self.model, week);
                    serving.any(|need| needs.contains(&need))
                }));
                all.sort_unstable();
                rows.push(self.cut(week, &needs, &all));
            }
        }
        rows.retain(|row| breaks(row, point) > 1e-6);
        rows
    }

    /// A form counts once however many of its varieties do: whichever forms are counted in full,
    /// the varieties of the others must make up the number.
    fn broken_forms(&self, point: &[f64], rows: &mut Vec<Row>) {
        for (need, week, lacks) in &self.of_forms {
            let mut by_form: BTreeMap<usize, Vec<usize>> = BTreeMap::new();
            let counts = self.model.varieties.iter().zip(&self.counts[*need][*week]);
            for (variety, counts) in counts {
                by_form.entry(variety.form).or_default().extend(counts);
            }
            let in_full =
                |columns: &&Vec<usize>| columns.iter().map(|at| point[*at]).sum::<f64>() > 1.0;
            let full = by_form.values().filter(in_full).count();
            let others = by_form
                .values()
                .filter(|columns| !in_full(columns))
                .flatten();
            let cells = others.chain(lacks).map(|column| (*column, 1.0)).collect();
            let asked = self.model.needs[*need].forms as f64 - full as f64;
            rows.push(scaled(cells, asked, f64::INFINITY));
        }
    }

    /// A counted variety keeps stems for each need that counts it, and has plants for the most.
    fn broken_reserves(&self, point: &[f64], plants: &[f64], rows: &mut Vec<Row>) {
        for (at, candidate) in self.model.varieties.iter().enumerate() {
            let mut worst: Option<(f64, Row)> = None;
            for week in (0..self.model.weeks).filter(|week| candidate.yields[*week] > 0) {
                let mut all = Vec::new();
                let mut counts = false;
                for need in &candidate.serves {
                    let Some(column) = self.counts[*need][week][at] else {
                        continue;
                    };
                    counts |= point[column] > 1e-6;
                    let kept = self.model.needs[*need].reserved(week);
                    all.push((column, -in_stems(kept)));
                    let plants_for = kept.div_ceil(candidate.yields[week]) as f64;
                    if plants[at] < plants_for * point[column] - 1e-6 {
                        rows.push(self.packs_for(at, column, plants_for));
                    }
                }
                if !counts {
                    continue;
                }
                let row = self.demand(&[(at, in_stems(candidate.yields[week]))], &all, 0.0);
                let by = breaks(&row, point);
                if by > 1e-6 && worst.as_ref().is_none_or(|worst| by > worst.0) {
                    worst = Some((by, row));
                }
            }
            rows.extend(worst.map(|worst| worst.1));
        }
    }

    /// A column that needs so many plants where it is 1 needs their packs: no pack is worth more
    /// plants than are asked for.
    fn packs_for(&self, variety: usize, column: usize, plants: f64) -> Row {
        let (columns, on_hand) = &self.plants[variety];
        let enough = plants - on_hand.min(plants);
        let bought = columns.iter().filter(|cell| cell.1 > 0.0);
        let cells = bought
            .map(|(column, tubers)| (*column, tubers.min(enough)))
            .chain([(column, -enough)]);
        scaled(cells.collect(), 0.0, f64::INFINITY)
    }

    /// A week at a point, in ten millionths of a stem, and the varieties that have any.
    fn week(&self, week: usize, point: &[f64], plants: &[f64]) -> (Week, Vec<usize>) {
        const FINE: f64 = 1e7;
        let fine = |stems: f64| (stems * FINE).round() as i64;
        let model = self.model;
        let members: Vec<usize> = (0..plants.len())
            .filter(|at| plants[*at] > 1e-9 && model.varieties[*at].yields[week] > 0)
            .collect();
        let short = |need: usize| self.lacking(need, week, point);
        let mut split = Week {
            supply: members
                .iter()
                .map(|at| fine(in_stems(model.varieties[*at].yields[week]) * plants[*at]))
                .collect(),
            demand: model
                .needs
                .iter()
                .enumerate()
                .map(|(at, need)| fine(in_stems(need.stems[week]) - short(at)))
                .collect(),
            arcs: vec![Vec::new(); model.needs.len()],
        };
        for (place, at) in members.iter().enumerate() {
            for need in model.varieties[*at].serving(model, week) {
                let counts = self.counts[need][week][*at];
                let kept = counts.map_or(0.0, |column| point[column].max(0.0));
                let kept = fine(kept * in_stems(model.needs[need].reserved(week)));
                split.supply[place] -= kept;
                split.demand[need] -= kept;
                let limit = model.needs[need].limit(week);
                let limit = limit.map_or(i64::MAX, |limit| fine(in_stems(limit)) - kept);
                split.arcs[need].push((place, limit));
            }
        }
        split
            .supply
            .iter_mut()
            .for_each(|supply| *supply = (*supply).max(0));
        split
            .demand
            .iter_mut()
            .for_each(|demand| *demand = (*demand).max(0));
        (split, members)
    }

    pub(in crate::order::solve) fn serving(&self, need: usize, week: usize) -> Vec<usize> {
        let able = self.model.varieties.iter().enumerate();
        able.filter(|(_, one)| one.yields[week] > 0 && one.serves.contains(&need))
            .map(|(at, _)| at)
            .collect()
    }

    /// What some needs want in a week, of the varieties in `through` all that is not kept for
    /// other needs, of the others what the limits let through.
    pub(in crate::order::solve) fn cut(
        &self,
        week: usize,
        needs: &[usize],
        through: &[usize],
    ) -> Row {
        let model = self.model;
        let mut wanted: f64 = needs
            .iter()
            .map(|need| in_stems(model.needs[*need].stems[week]))
            .sum();
        let mut plants = Vec::new();
        let mut more: Vec<(usize, f64)> = needs
            .iter()
            .filter_map(|need| Some((self.short[*need][week]?, 1.0)))
            .collect();
        for (at, candidate) in model.varieties.iter().enumerate() {
            let serving: Vec<usize> = candidate.serving(model, week).collect();
            let inside = |need: &&usize| needs.contains(need);
            if through.binary_search(&at).is_ok() {
                plants.push((at, in_stems(candidate.yields[week])));
                for need in serving.iter().filter(|need| !needs.contains(need)) {
                    let kept = in_stems(model.needs[*need].reserved(week));
                    more.extend(self.counts[*need][week][at].map(|column| (column, -kept)));
                }
            } else {
                let limits = serving
                    .iter()
                    .filter(inside)
                    .filter_map(|need| model.needs[*need].limit(week));
                wanted -= limits.map(in_stems).sum::<f64>();
            }
        }
        self.demand(&plants, &more, wanted)
    }
}
