//! A week's stems shared out among the needs in turn, and shared out again where more or fewer stems grow.
//!
//! A sharing is kept as a flow from varieties to needs. Where something changes it is mended: what is no
//! longer there is taken from the last in turn, and each need that lacks is filled from what is left, by others
//! that make way, or by one after it that goes without. Every need has then as much as if the week were shared
//! out from nothing, for what the first so many in turn have together is the most that they can have.

use crate::order::model::Model;

/// What a variety may give a need.
#[derive(Debug, Clone, Copy)]
struct Arc {
    /// Place among the planted varieties.
    planted: usize,
    /// The need, by its turn.
    turn: usize,
    /// Thousandths of a stem.
    most: i64,
}

/// Who can have of what in a week, however many stems there are.
#[derive(Debug, Clone)]
pub(in crate::order) struct Shape {
    /// What each need wants, in turn.
    wants: Vec<i64>,
    /// Variety by variety.
    arcs: Vec<Arc>,
    /// Where the arcs of each planted variety begin, and where the last one's end.
    begins: Vec<usize>,
    /// In turn: a need's arcs, those of the varieties first that serve the fewest others.
    serving: Vec<Vec<usize>>,
}

/// Room for a search; what is in it between two of them has no meaning.
#[derive(Debug, Clone, Default)]
pub(in crate::order) struct Ways {
    /// What was reached in the search of this number was reached in this one.
    number: u64,
    /// By need: the search that last reached it, and the arc by which a variety gives it stems that it could
    /// give elsewhere.
    need_by: Vec<(u64, usize)>,
    /// By planted variety: the search that last reached it, and the arc by which a need could have more of it.
    planted_by: Vec<(u64, usize)>,
    reached: Vec<usize>,
}

impl Ways {
    fn begin(&mut self, needs: usize, planted: usize) {
        self.number += 1;
        self.need_by.resize(needs, (0, 0));
        self.planted_by.resize(planted, (0, 0));
        self.reached.clear();
    }

    fn need_by(&self, need: usize) -> Option<usize> {
        let (number, arc) = self.need_by[need];
        (number == self.number).then_some(arc)
    }

    fn planted_by(&self, planted: usize) -> Option<usize> {
        let (number, arc) = self.planted_by[planted];
        (number == self.number).then_some(arc)
    }
}

/// The parts of a sharing: what each need lacks, what each variety has left, and what each arc carries.
type Parts<'a> = (&'a mut [i64], &'a mut [i64], &'a mut [i64]);

impl Shape {
    /// The needs have their turns as they are named, the planted varieties their places as they are here.
    pub(in crate::order) fn of(
        model: &Model,
        turns: &[usize],
        week: usize,
        planted: &[usize],
    ) -> Shape {
        let nothing = Shape {
            wants: { turns.iter() }
                .map(|need| signed(model.needs[*need].stems[week]))
                .collect(),
            arcs: Vec::new(),
            begins: vec![0],
            serving: vec![Vec::new(); turns.len()],
        };
        nothing.with(model, turns, week, planted)
    }

    /// The same with more varieties, in the last places.
    pub(in crate::order) fn with(
        &self,
        model: &Model,
        turns: &[usize],
        week: usize,
        more: &[usize],
    ) -> Shape {
        let mut shape = self.clone();
        for variety in more {
            shape.add(model, turns, week, *variety);
        }
        shape.in_order();
        shape
    }

    fn add(&mut self, model: &Model, turns: &[usize], week: usize, variety: usize) {
        let serves = &model.varieties[variety].serves;
        for (turn, need) in turns.iter().enumerate() {
            let demand = &model.needs[*need];
            if demand.runs(week) && serves.binary_search(need).is_ok() {
                self.serving[turn].push(self.arcs.len());
                self.arcs.push(Arc {
                    planted: self.begins.len() - 1,
                    turn,
                    most: demand.limit(week).map_or(i64::MAX, signed),
                });
            }
        }
        self.begins.push(self.arcs.len());
    }

    fn in_order(&mut self) {
        let Shape {
            arcs,
            begins,
            serving,
            ..
        } = self;
        let count = |arc: &usize| {
            let planted = arcs[*arc].planted;
            begins[planted + 1] - begins[planted]
        };
        for own in serving {
            own.sort_by_key(count);
        }
    }

    /// How many figures a sharing is.
    pub(in crate::order) fn size(&self) -> usize {
        self.wants.len() + self.begins.len() - 1 + self.arcs.len()
    }

    /// Whether a planted variety can serve any need in the week.
    pub(in crate::order) fn has_use_for(&self, planted: usize) -> bool {
        self.begins[planted + 1] > self.begins[planted]
    }

    /// A sharing of nothing.
    pub(in crate::order) fn begin(&self, shared: &mut [i64]) {
        shared.fill(0);
        shared[..self.wants.len()].copy_from_slice(&self.wants);
    }

    /// A sharing as this shape has it that was made by one with fewer varieties.
    pub(in crate::order) fn widened(&self, before: &Shape, shared: &[i64], into: &mut Vec<i64>) {
        let planted = before.wants.len() + before.begins.len() - 1;
        into.clear();
        into.extend_from_slice(&shared[..planted]);
        into.resize(self.wants.len() + self.begins.len() - 1, 0);
        into.extend_from_slice(&shared[planted..]);
        into.resize(self.size(), 0);
    }

    /// What each need lacks, in turn.
    pub(in crate::order) fn lacks<'a>(&self, shared: &'a [i64]) -> &'a [i64] {
        &shared[..self.wants.len()]
    }

    /// What is left of a planted variety.
    pub(in crate::order) fn left(&self, shared: &[i64], planted: usize) -> i64 {
        shared[self.wants.len() + planted]
    }

    /// So many thousandths more of a planted variety, or fewer, before it is shared out again.
    pub(in crate::order) fn change(&self, shared: &mut [i64], planted: usize, by: i64) {
        let (lacks, left, flow) = self.parts(shared);
        left[planted] = left[planted].saturating_add(by);
        if left[planted] >= 0 {
            return;
        }
        for arc in (self.begins[planted]..self.begins[planted + 1]).rev() {
            let back = flow[arc].min(-left[planted]);
            if back > 0 {
                flow[arc] -= back;
                left[planted] += back;
                lacks[self.arcs[arc].turn] += back;
            }
        }
    }

    /// Shares out what is left and gives each need in turn all that it can have.
    pub(in crate::order) fn share(&self, shared: &mut [i64], ways: &mut Ways) {
        let (lacks, left, flow) = self.parts(shared);
        for turn in 0..self.wants.len() {
            if lacks[turn] == 0 {
                continue;
            }
            for arc in &self.serving[turn] {
                let Arc { planted, most, .. } = self.arcs[*arc];
                let give = left[planted].min(most - flow[*arc]).min(lacks[turn]);
                flow[*arc] += give;
                left[planted] -= give;
                lacks[turn] -= give;
            }
            while lacks[turn] > 0 {
                let Some(end) = self.way(turn, (left, flow), ways) else {
                    break;
                };
                self.push(turn, end, (lacks, left, flow), ways);
            }
        }
    }

    /// Whether a need that lacks could have any of what a planted variety gives more, others making way.
    pub(in crate::order) fn has_way(
        &self,
        shared: &[i64],
        planted: usize,
        ways: &mut Ways,
    ) -> bool {
        let (lacks, rest) = shared.split_at(self.wants.len());
        let flow = &rest[self.begins.len() - 1..];
        ways.begin(self.wants.len(), self.begins.len() - 1);
        ways.reached.push(planted);
        ways.planted_by[planted] = (ways.number, 0);
        let mut next = 0;
        while let Some(planted) = ways.reached.get(next).copied() {
            next += 1;
            for arc in self.begins[planted]..self.begins[planted + 1] {
                let Arc { turn, most, .. } = self.arcs[arc];
                if flow[arc] >= most || ways.need_by(turn).is_some() {
                    continue;
                }
                if lacks[turn] > 0 {
                    return true;
                }
                ways.need_by[turn] = (ways.number, arc);
                for held in &self.serving[turn] {
                    let other = self.arcs[*held].planted;
                    if flow[*held] > 0 && ways.planted_by(other).is_none() {
                        ways.planted_by[other] = (ways.number, *held);
                        ways.reached.push(other);
                    }
                }
            }
        }
        false
    }

    /// The needs, by their turns, of which any may have more so that one that lacks has: those that hold what
    /// it could have of, and itself.
    pub(in crate::order) fn held(&self, shared: &[i64], turn: usize) -> Vec<usize> {
        let mut ways = Ways::default();
        let (left, flow) = shared[self.wants.len()..].split_at(self.begins.len() - 1);
        self.way(turn, (left, flow), &mut ways);
        ways.reached
    }

    fn parts<'a>(&self, shared: &'a mut [i64]) -> Parts<'a> {
        let (lacks, rest) = shared.split_at_mut(self.wants.len());
        let (left, flow) = rest.split_at_mut(self.begins.len() - 1);
        (lacks, left, flow)
    }

    /// Where a way to bring a need more begins: a variety with stems left, or else one that gives a need after
    /// it some, by that arc.
    fn way(
        &self,
        start: usize,
        (left, flow): (&[i64], &[i64]),
        ways: &mut Ways,
    ) -> Option<(usize, Option<usize>)> {
        ways.begin(self.wants.len(), self.begins.len() - 1);
        ways.reached.push(start);
        let (mut next, mut given) = (0, None);
        while let Some(turn) = ways.reached.get(next).copied() {
            next += 1;
            for arc in &self.serving[turn] {
                let Arc { planted, most, .. } = self.arcs[*arc];
                if ways.planted_by(planted).is_some() || flow[*arc] >= most {
                    continue;
                }
                ways.planted_by[planted] = (ways.number, *arc);
                if left[planted] > 0 {
                    return Some((planted, None));
                }
                let own = self.begins[planted]..self.begins[planted + 1];
                for other in own.filter(|arc| flow[*arc] > 0) {
                    let holder = self.arcs[other].turn;
                    if holder == start || ways.need_by(holder).is_some() {
                        continue;
                    }
                    if holder > start {
                        given = given.or(Some((planted, Some(other))));
                        continue;
                    }
                    ways.need_by[holder] = (ways.number, other);
                    ways.reached.push(holder);
                }
            }
        }
        given
    }

    /// Moves what can be moved along the way to the need at whose turn it was found.
    fn push(
        &self,
        start: usize,
        (planted, given): (usize, Option<usize>),
        (lacks, left, flow): Parts<'_>,
        ways: &Ways,
    ) {
        let end = given.map_or(left[planted], |arc| flow[arc]);
        let mut amount = lacks[start].min(end);
        for (gains, loses) in self.along(planted, ways) {
            amount = amount.min(self.arcs[gains].most - flow[gains]);
            amount = loses.map_or(amount, |arc| amount.min(flow[arc]));
        }
        for (gains, loses) in self.along(planted, ways) {
            flow[gains] += amount;
            if let Some(loses) = loses {
                flow[loses] -= amount;
            }
        }
        lacks[start] -= amount;
        match given {
            None => left[planted] -= amount,
            Some(arc) => {
                flow[arc] -= amount;
                lacks[self.arcs[arc].turn] += amount;
            }
        }
    }

    /// The arcs of a way that carry more, each with the one that carries less so that it can.
    fn along<'a>(
        &'a self,
        planted: usize,
        ways: &'a Ways,
    ) -> impl Iterator<Item = (usize, Option<usize>)> + 'a {
        let step = |planted: usize| {
            let gains = ways.planted_by(planted)?;
            Some((gains, ways.need_by(self.arcs[gains].turn)))
        };
        std::iter::successors(step(planted), move |(_, loses)| {
            step(self.arcs[(*loses)?].planted)
        })
    }
}

/// Needs by how sure each is to be, 0 to 1, the surest first: so they have their turns, and those that are as
/// sure as each other as the plan names them.
pub(in crate::order) fn turns(sure: &[f64]) -> Vec<usize> {
    let mut turns: Vec<usize> = (0..sure.len()).collect();
    turns.sort_by(|one, other| sure[*other].total_cmp(&sure[*one]));
    turns
}

/// Thousandths as the flow has them; what does not fit is without end.
fn signed(thousandths: u64) -> i64 {
    i64::try_from(thousandths).unwrap_or(i64::MAX)
}

#[cfg(test)]
mod tests;
