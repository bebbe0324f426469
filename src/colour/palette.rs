//! A palette: the best few candidates, each of another form, that cover several colours between them.

use std::collections::HashSet;
use std::hash::Hash;

/// What may be chosen.
#[derive(Debug, Clone, PartialEq)]
pub struct Candidate<F> {
    /// No two of the chosen share it.
    pub form: F,
    /// Its distance to each target; one that is not finite leaves the candidate out.
    pub distances: Vec<f64>,
}

/// A choice.
#[derive(Debug, Clone, PartialEq)]
pub struct Cover {
    /// Indices of the chosen candidates, rising. Fewer than asked for only where the forms run out.
    pub chosen: Vec<usize>,
    /// For each target, the index of the chosen candidate nearest to it.
    pub serves: Vec<usize>,
    /// The sum over targets of the distance to the nearest chosen.
    pub total: f64,
    /// True where no other choice is better; false where the search was cut off, and this is the
    /// best that it found.
    pub exact: bool,
}

/// Candidates looked at, again and again, before the search is cut off.
const MOST_LOOKS: usize = 20_000_000;

/// The `k` candidates of pairwise different forms with the least sum, over the targets, of the
/// distance to the nearest of them. `None` of no targets, no usable candidates or `k` = 0.
///
/// Exact as long as the search is not cut off: a candidate that another of its form beats at every
/// target is dropped without loss, and branch and bound goes over the rest. Hundreds of candidates
/// are settled so; tens of thousands with four targets may not be. A first answer is
/// grown greedily, so one cut off is never worse than greedy.
///
/// # Panics
/// If two candidates have different numbers of distances.
pub fn cover<F: Eq + Hash>(candidates: &[Candidate<F>], k: usize) -> Option<Cover> {
    cover_within(candidates, k, MOST_LOOKS)
}

fn cover_within<F: Eq + Hash>(candidates: &[Candidate<F>], k: usize, most: usize) -> Option<Cover> {
    let targets = candidates.first()?.distances.len();
    assert!(
        candidates.iter().all(|c| c.distances.len() == targets),
        "every candidate has a distance to each of {targets} targets"
    );
    let usable = |c: &Candidate<F>| c.distances.iter().all(|d| d.is_finite());
    let all: Vec<usize> = (0..candidates.len())
        .filter(|i| usable(&candidates[*i]))
        .collect();
    if targets == 0 || all.is_empty() || k == 0 {
        return None;
    }
    let forms: HashSet<&F> = all.iter().map(|i| &candidates[*i].form).collect();
    let size = k.min(forms.len());

    let mut search = Search {
        candidates,
        useful: useful(candidates, &all),
        best: (f64::INFINITY, Vec::new()),
        looks: 0,
        most,
    };
    search.best = search.greedy(size);
    search.branch(0, size, &mut Vec::new(), &vec![f64::INFINITY; targets]);

    let (total, mut chosen) = search.best;
    let exact = search.looks < most;
    fill(candidates, &all, size, &mut chosen);
    chosen.sort_unstable();
    let serves = (0..targets)
        .filter_map(|t| {
            let distance = |i: &usize| candidates[*i].distances[t];
            chosen
                .iter()
                .copied()
                .min_by(|i, j| distance(i).total_cmp(&distance(j)))
        })
        .collect();
    Some(Cover {
        chosen,
        serves,
        total,
        exact,
    })
}

struct Search<'a, F> {
    candidates: &'a [Candidate<F>],
    /// What is worth trying, the best on its own first.
    useful: Vec<usize>,
    best: (f64, Vec<usize>),
    looks: usize,
    most: usize,
}

impl<F: Eq + Hash> Search<'_, F> {
    /// Takes what helps most, again and again.
    fn greedy(&self, size: usize) -> (f64, Vec<usize>) {
        let mut chosen: Vec<usize> = Vec::new();
        let mut nearest = vec![f64::INFINITY; self.candidates[self.useful[0]].distances.len()];
        while chosen.len() < size {
            let next = self
                .useful
                .iter()
                .filter(|i| self.is_free(**i, &chosen))
                .map(|i| (self.with(*i, &nearest).iter().sum::<f64>(), *i))
                .min_by(|x, y| x.0.total_cmp(&y.0));
            let Some((_, next)) = next else { break };
            nearest = self.with(next, &nearest);
            chosen.push(next);
        }
        (nearest.iter().sum(), chosen)
    }

    fn branch(&mut self, from: usize, left: usize, chosen: &mut Vec<usize>, nearest: &[f64]) {
        let total: f64 = nearest.iter().sum();
        if total < self.best.0 {
            self.best = (total, chosen.clone());
        }
        if left == 0 {
            return;
        }
        for at in from..self.useful.len() {
            self.looks += self.useful.len() - at;
            if self.looks >= self.most || self.bound(at, left, nearest) >= self.best.0 {
                return;
            }
            let next = self.useful[at];
            if !self.is_free(next, chosen) {
                continue;
            }
            let with = self.with(next, nearest);
            chosen.push(next);
            self.branch(at + 1, left - 1, chosen, &with);
            chosen.pop();
        }
    }

    /// No choice of `left` more from `at` on comes below this. Two bounds, the greater counts: every
    /// target gets the nearest of all that remain; and what `left` candidates save together is at
    /// most what the best `left` save singly.
    fn bound(&self, at: usize, left: usize, nearest: &[f64]) -> f64 {
        let mut ideal = nearest.to_vec();
        let mut savings: Vec<f64> = Vec::with_capacity(self.useful.len() - at);
        for i in &self.useful[at..] {
            let mut saving = 0.0;
            for (t, distance) in self.candidates[*i].distances.iter().enumerate() {
                ideal[t] = ideal[t].min(*distance);
                saving += (nearest[t] - distance).max(0.0);
            }
            savings.push(saving);
        }
        let ideal: f64 = ideal.iter().sum();
        let total: f64 = nearest.iter().sum();
        if !total.is_finite() {
            return ideal;
        }
        savings.sort_unstable_by(|x, y| y.total_cmp(x));
        ideal.max(total - savings.iter().take(left).sum::<f64>())
    }

    fn with(&self, candidate: usize, nearest: &[f64]) -> Vec<f64> {
        let distances = &self.candidates[candidate].distances;
        nearest
            .iter()
            .zip(distances)
            .map(|(n, d)| n.min(*d))
            .collect()
    }

    fn is_free(&self, candidate: usize, chosen: &[usize]) -> bool {
        let form = &self.candidates[candidate].form;
        chosen.iter().all(|i| self.candidates[*i].form != *form)
    }
}

/// Without those that another of the same form equals or beats at every target; of equals, the
/// first stays. At most one of a form is chosen, so nothing is lost.
fn useful<F: Eq>(candidates: &[Candidate<F>], all: &[usize]) -> Vec<usize> {
    let sum = |i: usize| candidates[i].distances.iter().sum::<f64>();
    let mut sorted: Vec<(f64, usize)> = all.iter().map(|i| (sum(*i), *i)).collect();
    sorted.sort_by(|x, y| x.0.total_cmp(&y.0).then(x.1.cmp(&y.1)));
    let beats = |i: usize, j: usize| {
        let (i, j) = (&candidates[i], &candidates[j]);
        i.form == j.form && i.distances.iter().zip(&j.distances).all(|(x, y)| x <= y)
    };
    let mut kept: Vec<usize> = Vec::new();
    for (_, i) in sorted {
        // OK because what beats another has no greater sum, so it was met before.
        if !kept.iter().any(|j| beats(*j, i)) {
            kept.push(i);
        }
    }
    kept
}

/// Where fewer cover as well as `size`, the rest is whatever lies nearest to any target.
fn fill<F: Eq>(candidates: &[Candidate<F>], all: &[usize], size: usize, chosen: &mut Vec<usize>) {
    let least = |i: usize| {
        candidates[i]
            .distances
            .iter()
            .copied()
            .fold(f64::INFINITY, f64::min)
    };
    while chosen.len() < size {
        let free = |i: &&usize| {
            chosen
                .iter()
                .all(|j| candidates[*j].form != candidates[**i].form)
        };
        let next = all
            .iter()
            .filter(free)
            .min_by(|i, j| least(**i).total_cmp(&least(**j)));
        let Some(next) = next.copied() else { break };
        chosen.push(next);
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn candidates(rows: &[(u8, &[f64])]) -> Vec<Candidate<u8>> {
        let row = |(form, distances): &(u8, &[f64])| Candidate {
            form: *form,
            distances: distances.to_vec(),
        };
        rows.iter().map(row).collect()
    }

    #[test]
    fn greedy_would_take_the_middle_and_the_best_pair_does_not() {
        let list = candidates(&[(1, &[4.0, 4.0]), (2, &[0.0, 9.0]), (3, &[9.0, 0.0])]);
        let found = cover(&list, 2).expect("three candidates");
        assert_eq!((found.chosen, found.serves), (vec![1, 2], vec![1, 2]));
        assert_eq!((found.total, found.exact), (0.0, true));
    }

    #[test]
    fn two_of_one_form_are_never_chosen_and_the_rest_is_filled() {
        let list = candidates(&[(1, &[0.0, 9.0]), (1, &[9.0, 0.0]), (2, &[50.0, 60.0])]);
        let found = cover(&list, 3).expect("three candidates");
        assert_eq!((found.chosen, found.total), (vec![0, 2], 9.0));
    }

    #[test]
    fn what_has_no_colour_is_left_out() {
        let list = candidates(&[(1, &[f64::INFINITY]), (2, &[f64::NAN]), (3, &[7.0])]);
        assert_eq!(cover(&list, 2).map(|c| c.chosen), Some(vec![2]));
        assert_eq!(cover(&list[..2], 2), None);
        assert_eq!(cover(&list, 0), None);
    }

    #[test]
    fn a_search_cut_off_says_so_and_is_no_worse_than_greedy() {
        let list = candidates(&[(1, &[4.0, 4.0]), (2, &[0.0, 9.0]), (3, &[9.0, 0.0])]);
        let found = cover_within(&list, 2, 0).expect("three candidates");
        assert!(!found.exact);
        assert!(found.total <= 4.0);
    }

    fn brute(list: &[Candidate<u8>], k: usize) -> f64 {
        let mut best = f64::INFINITY;
        for set in 1_u32..1 << list.len() {
            let chosen: Vec<_> = (0..list.len())
                .filter(|i| set >> i & 1 == 1)
                .map(|i| &list[i])
                .collect();
            let forms: HashSet<_> = chosen.iter().map(|c| c.form).collect();
            if chosen.len() <= k && forms.len() == chosen.len() {
                let nearest = |t: usize| {
                    chosen
                        .iter()
                        .map(|c| c.distances[t])
                        .fold(f64::INFINITY, f64::min)
                };
                best = best.min((0..list[0].distances.len()).map(nearest).sum());
            }
        }
        best
    }

    proptest! {
        #[test]
        fn no_choice_is_better(
            rows in prop::collection::vec((0_u8..5, prop::collection::vec(0_u8..30, 4)), 1..11),
            targets in 1..5_usize,
            k in 1..5_usize,
        ) {
            let list: Vec<_> = rows
                .into_iter()
                .map(|(form, row)| Candidate {
                    form,
                    distances: row[..targets].iter().map(|d| f64::from(*d)).collect(),
                })
                .collect();
            let found = cover(&list, k).expect("candidates");
            prop_assert!(found.exact);
            prop_assert_eq!(found.total, brute(&list, k));
            let forms: HashSet<_> = list.iter().map(|c| c.form).collect();
            prop_assert_eq!(found.chosen.len(), k.min(forms.len()));
            let chosen_forms: HashSet<_> = found.chosen.iter().map(|i| list[*i].form).collect();
            prop_assert_eq!(chosen_forms.len(), found.chosen.len());
            let served: f64 = found.serves.iter().enumerate().map(|(t, i)| list[*i].distances[t]).sum();
            prop_assert_eq!(served, found.total);
        }
    }
}
