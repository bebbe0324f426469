//! An order as it stands in the seasons of a search: every week of them kept shared out, so that an order that
//! differs by little is tried by what differs.
//!
//! A week in which all needs are met is not looked at for more stems, nor one for fewer that had as many left.
//! Any other is mended from what is kept ([`Shape`]). What is told is what sharing out from nothing would tell.

use std::rc::Rc;

use super::sample::Sample;
use crate::order::model::Choice;
use crate::order::risk::{Grown, Shape, Ways};

/// An order and what comes of it.
pub(super) struct Standing<'a> {
    sample: &'a Sample<'a>,
    choice: Choice,
    /// The varieties that are planted, and those that were.
    planted: Vec<usize>,
    /// What they give.
    grown: Vec<Rc<Grown>>,
    /// By week.
    shapes: Vec<Shape>,
    /// By week, season after season: a sharing of its shape.
    kept: Vec<Vec<i64>>,
    lacks: Lacks,
}

/// What needs lack, each season's weeks taken together.
#[derive(Debug, Clone, PartialEq)]
pub(super) struct Lacks {
    /// By season, then turn: thousandths of a stem.
    all: Vec<i64>,
    /// By turn: the seasons in which it lacks nothing.
    pub(super) met: Vec<usize>,
}

/// A variety of which more or fewer are planted.
struct Change {
    /// Its place among the planted.
    at: usize,
    /// The variety, where it has not been among them.
    new: Option<usize>,
    /// What it gives more, by season, then week.
    more: Vec<i64>,
    grown: Rc<Grown>,
}

impl<'a> Standing<'a> {
    /// Shares everything out from nothing.
    pub(super) fn of(sample: &'a Sample<'a>, choice: Choice) -> Standing<'a> {
        let model = sample.model;
        let nothing = Choice {
            plants: vec![0; model.varieties.len()],
            ..Choice::default()
        };
        let shape = |week| Shape::of(model, &sample.turns, week, &[]);
        let shapes: Vec<Shape> = (0..model.weeks).map(shape).collect();
        let empty = |shape: &Shape| {
            let mut one = vec![0; shape.size()];
            shape.begin(&mut one);
            one.repeat(sample.count())
        };
        let mut standing = Standing {
            sample,
            choice: nothing,
            planted: Vec::new(),
            grown: Vec::new(),
            kept: shapes.iter().map(empty).collect(),
            shapes,
            lacks: Lacks {
                all: vec![0; sample.count() * sample.asked.len()],
                met: vec![0; sample.asked.len()],
            },
        };
        standing.become_as(choice);
        standing
    }

    pub(super) fn choice(&self) -> &Choice {
        &self.choice
    }

    pub(super) fn lacks(&self) -> &Lacks {
        &self.lacks
    }

    pub(super) fn is_sure(&self) -> bool {
        self.sample.is_enough(&self.lacks.met)
    }

    /// What each need lacks in a week of a season, by its turn.
    pub(super) fn in_week(&self, season: usize, week: usize) -> &[i64] {
        self.shapes[week].lacks(self.shared(season, week))
    }

    /// The needs, by turn, of which any may have more so that one that lacks in a week of a season has.
    pub(super) fn held(&self, season: usize, week: usize, turn: usize) -> Vec<usize> {
        self.shapes[week].held(self.shared(season, week), turn)
    }

    /// What is lacking if so many of each variety are planted.
    pub(super) fn tried(&self, plants: &[u64]) -> Lacks {
        let asked = vec![0; self.sample.asked.len()];
        self.tried_for(plants, &asked)
            .unwrap_or_else(|| self.lacks.clone())
    }

    /// Whether it is as sure as asked if so many of each variety are planted.
    pub(super) fn would_be_sure(&self, plants: &[u64]) -> bool {
        self.tried_for(plants, &self.sample.asked).is_some()
    }

    /// What is lacking if so many of each variety are planted; `None` where a need is met in fewer seasons
    /// than so many.
    fn tried_for(&self, plants: &[u64], asked: &[usize]) -> Option<Lacks> {
        let changes = self.changes(plants);
        let wider = self.wider(&changes);
        let shapes = wider.as_deref().unwrap_or(&self.shapes);
        let (weeks, turns) = (shapes.len(), asked.len());
        let uses = uses(shapes, &changes);
        let more = changes
            .iter()
            .any(|change| change.more.iter().any(|by| *by > 0));
        let mut lacks = self.lacks.clone();
        // Seasons in which each need is met, or may come to be.
        let unmet = |met: &usize| if more { self.sample.count() - met } else { 0 };
        let mut hoped: Vec<usize> = lacks.met.iter().map(unmet).collect();
        let (mut ways, mut scratch) = (Ways::default(), Vec::new());
        for season in 0..self.sample.count() {
            let own = season * turns..(season + 1) * turns;
            for week in 0..weeks {
                let shared = self.shared(season, week);
                let place = season * weeks + week;
                let shape = &shapes[week];
                if !matters(shape, shared, place, &changes, &uses[week]) {
                    continue;
                }
                shape.widened(&self.shapes[week], shared, &mut scratch);
                if let [one] = &uses[week][..]
                    && changes[*one].more[place] > 0
                    && !shape.has_way(&scratch, changes[*one].at, &mut ways)
                {
                    continue;
                }
                for change in &changes {
                    shape.change(&mut scratch, change.at, change.more[place]);
                }
                shape.share(&mut scratch, &mut ways);
                let both = shape.lacks(&scratch).iter().zip(shape.lacks(shared));
                let all = lacks.all[own.clone()].iter_mut();
                all.zip(both)
                    .for_each(|(all, (now, before))| *all += now - before);
            }
            self.sample.add_up(&mut lacks.all[own.clone()]);
            for turn in 0..turns {
                let before = self.lacks.all[own.start + turn] == 0;
                let now = lacks.all[own.start + turn] == 0;
                lacks.met[turn] = lacks.met[turn] + usize::from(now) - usize::from(before);
                hoped[turn] -= usize::from(more && !before);
                if lacks.met[turn] + hoped[turn] < asked[turn] {
                    return None;
                }
            }
        }
        Some(lacks)
    }

    /// Has the order be another.
    pub(super) fn become_as(&mut self, choice: Choice) {
        let changes = self.changes(&choice.plants);
        if let Some(shapes) = self.wider(&changes) {
            self.widen(shapes, &changes);
        }
        let uses = uses(&self.shapes, &changes);
        let (weeks, turns) = (self.shapes.len(), self.sample.asked.len());
        let mut ways = Ways::default();
        for (week, uses) in uses.iter().enumerate() {
            let shape = &self.shapes[week];
            let kept = self.kept[week].chunks_mut(shape.size()).enumerate();
            for (season, shared) in kept.filter(|_| !uses.is_empty()) {
                let place = season * weeks + week;
                let matters = matters(shape, shared, place, &changes, uses);
                let of = |change: &Change| change.more[place];
                let mut way = || match &uses[..] {
                    [one] if of(&changes[*one]) > 0 => {
                        shape.has_way(shared, changes[*one].at, &mut ways)
                    }
                    _ => true,
                };
                let shares = matters && way();
                for change in uses.iter().map(|at| &changes[*at]) {
                    shape.change(shared, change.at, of(change));
                }
                if shares {
                    shape.share(shared, &mut ways);
                }
            }
        }
        for change in changes {
            self.grown[change.at] = change.grown;
        }
        self.choice = choice;
        self.lacks.all.fill(0);
        for (shape, kept) in self.shapes.iter().zip(&self.kept) {
            let all = self.lacks.all.chunks_mut(turns);
            for (all, shared) in all.zip(kept.chunks(shape.size())) {
                let lacks = shape.lacks(shared);
                all.iter_mut()
                    .zip(lacks)
                    .for_each(|(all, lacks)| *all += lacks);
            }
        }
        let seasons = self.lacks.all.chunks_mut(turns);
        seasons.for_each(|season| self.sample.add_up(season));
        let met = |turn: usize| {
            let own = self.lacks.all.iter().skip(turn).step_by(turns);
            own.filter(|lacks| **lacks == 0).count()
        };
        self.lacks.met = (0..turns).map(met).collect();
    }

    fn shared(&self, season: usize, week: usize) -> &[i64] {
        let size = self.shapes[week].size();
        &self.kept[week][season * size..(season + 1) * size]
    }

    /// What differs if so many of each variety are planted; what is new has a place after all others.
    fn changes(&self, plants: &[u64]) -> Vec<Change> {
        let mut places = self.planted.len();
        let both = plants.iter().zip(&self.choice.plants).enumerate();
        let differs = both.filter(|(_, (now, before))| now != before);
        let change = |(variety, (now, _)): (usize, (&u64, &u64))| {
            let grown = self.sample.grown(variety, *now);
            let place = self.planted.iter().position(|one| *one == variety);
            let more = match place {
                Some(at) => {
                    let both = grown.iter().zip(self.grown[at].iter());
                    both.map(|(now, before)| now - before).collect()
                }
                None => grown.to_vec(),
            };
            let at = place.unwrap_or_else(|| {
                places += 1;
                places - 1
            });
            let new = place.is_none().then_some(variety);
            Change {
                at,
                new,
                more,
                grown,
            }
        };
        differs.map(change).collect()
    }

    /// The shapes with the varieties that are new; `None` where none is.
    fn wider(&self, changes: &[Change]) -> Option<Vec<Shape>> {
        let new: Vec<usize> = changes.iter().filter_map(|change| change.new).collect();
        let (model, turns) = (self.sample.model, &self.sample.turns);
        let shapes = self.shapes.iter().enumerate();
        let wider = shapes.map(|(week, shape)| shape.with(model, turns, week, &new));
        (!new.is_empty()).then(|| wider.collect())
    }

    /// Has room for the varieties that are new.
    fn widen(&mut self, shapes: Vec<Shape>, changes: &[Change]) {
        let mut one = Vec::new();
        for (week, shape) in shapes.iter().enumerate() {
            let mut wide = Vec::with_capacity(self.sample.count() * shape.size());
            for shared in self.kept[week].chunks(self.shapes[week].size()) {
                shape.widened(&self.shapes[week], shared, &mut one);
                wide.extend_from_slice(&one);
            }
            self.kept[week] = wide;
        }
        self.shapes = shapes;
        self.planted
            .extend(changes.iter().filter_map(|change| change.new));
        self.grown.resize(self.planted.len(), Rc::default());
    }
}

impl Lacks {
    /// By season: what a turn lacks in all weeks together.
    pub(super) fn of(&self, turn: usize) -> impl Iterator<Item = i64> + '_ {
        let turns = self.met.len();
        self.all.iter().skip(turn).step_by(turns.max(1)).copied()
    }
}

/// Whether changes of varieties that a week has use for may make it other than it is.
fn matters(
    shape: &Shape,
    shared: &[i64],
    place: usize,
    changes: &[Change],
    uses: &[usize],
) -> bool {
    let short = shape.lacks(shared).iter().any(|lacks| *lacks > 0);
    let mut uses = uses.iter().map(|at| &changes[*at]);
    uses.any(|change| match change.more[place] {
        more if more > 0 => short,
        // What is new is never less.
        fewer => fewer < 0 && shape.left(shared, change.at) < -fewer,
    })
}

/// By week: the changes that it has use for.
fn uses(shapes: &[Shape], changes: &[Change]) -> Vec<Vec<usize>> {
    let of = |shape: &Shape| {
        let all = 0..changes.len();
        all.filter(|at| shape.has_use_for(changes[*at].at))
            .collect()
    };
    shapes.iter().map(of).collect()
}
