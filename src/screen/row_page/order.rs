//! Which subjects are shown, and in which order.

use super::sequence::Order;
use super::{Of, RowPage, Sum};
use crate::matching::{Finder, Folded, Query, Rank, folded, without_needless_slips};
use crate::screen::kit::cursor::Cursor;
use crate::trial::Subject;

impl RowPage {
    pub(super) fn next_order(&mut self) {
        let at = Order::ALL.iter().position(|order| *order == self.order);
        self.order = Order::ALL[(at.unwrap_or(0) + 1) % Order::ALL.len()];
        let chosen = self.subject();
        self.show();
        self.go_to(chosen.as_ref());
    }

    /// Finds and sorts what is shown. On a walk nothing moves: the next row is the next plant.
    pub(super) fn show(&mut self) {
        if let Some(line) = &self.line
            && matches!(line.of, Of::Walk(_))
        {
            return;
        }
        let query = Query::new(&self.words);
        let finder = Finder::of(&query);
        let rank = |sum: &Sum| {
            let name = Folded::of(&sum.evidence.subject.to_string());
            finder.rank(&name, &self.told(sum))
        };
        let ranked = self.sums.iter().enumerate();
        let ranked = ranked.filter_map(|(at, sum)| Some((rank(sum)?, at)));
        let found = without_needless_slips(ranked.collect());
        let mut ranks = vec![Rank::default(); self.sums.len()];
        found.iter().for_each(|(rank, at)| ranks[*at] = *rank);
        let mut shown: Vec<usize> = found.into_iter().map(|(_, at)| at).collect();
        shown.sort_by(|a, b| {
            self.sums[*a]
                .evidence
                .subject
                .cmp(&self.sums[*b].evidence.subject)
        });
        match self.order {
            Order::Number => {}
            Order::Next => shown.sort_by_key(|at| {
                let next = &self.sums[*at].next;
                (next.urgency, next.missing)
            }),
            Order::Place => shown.sort_by_cached_key(|at| {
                let seedling = self
                    .plot
                    .trial
                    .seedling_of(&self.sums[*at].evidence.subject);
                let row = seedling.and_then(|one| one.row.clone());
                (row.is_none(), row, seedling.and_then(|one| one.place))
            }),
            Order::Form => shown.sort_by_key(|at| {
                let taken = self.taken(&self.sums[*at]);
                let form = taken.and_then(|taken| taken.form(&self.plot.keyer.set));
                form.unwrap_or(usize::MAX)
            }),
            Order::Vase => shown.sort_by(|a, b| {
                let days = |at: usize| {
                    let curve = self.sums[at].evidence.vase.as_ref();
                    curve.map_or(-1.0, |curve| curve.median.unwrap_or(curve.watched + 0.5))
                };
                days(*b).total_cmp(&days(*a))
            }),
        }
        // What the words find best comes first; the order is that among equals.
        shown.sort_by_key(|at| ranks[*at]);
        self.shown = shown;
        self.cursor = Cursor::on(self.cursor.row(self.shown.len()));
    }

    /// What words are looked for in beside the number or the name.
    fn told(&self, sum: &Sum) -> String {
        let subject = &sum.evidence.subject;
        let mut text = String::new();
        if let Some(seedling) = self.plot.trial.seedling_of(subject) {
            text += &format!(" {}", seedling.description());
        }
        if let Some(taken) = self.taken(sum) {
            text += &format!(" {}", taken.name(&self.plot.keyer.set));
        }
        if let Some((_, decision)) = &sum.evidence.decision {
            text += &format!(" {}", decision.fate.word());
        }
        folded(&text)
    }

    /// The cursor on a subject, where it is shown.
    pub(super) fn go_to(&mut self, subject: Option<&Subject>) {
        let at = self
            .shown
            .iter()
            .position(|at| Some(&self.sums[*at].evidence.subject) == subject);
        self.cursor = at.map_or(self.cursor, Cursor::on);
    }
}
