//! Where not every need can be met: what would mend it, each worked out by solving again.
//!
//! A mend is an edit of the plan in the words that a grower types. What is tried is the edited plan
//! and nothing else, so that what is advised does what it said when it is made. First single changes are tried;
//! where none does, two together, of which the cheapest are told.

mod change;
mod lacking;
mod means;
mod wishes;

pub use change::{By, Edit, Mend};

use super::candidates::{Candidates, ListContext};
use super::plan::Plan;
use super::settle::{Settled, Status};
use super::solve::Stop;
use super::tried::Patience;
use change::edited;
use lacking::Lacking;
use means::{more_bed, more_bed_and_money, more_money};
use wishes::{Narrowed, Trial, earlier, narrowed, wider};

/// Nodes that one question may take. Single changes take some thirty questions, two together some hundred,
/// most of which are answered at the first bound.
const NODES: usize = 1_000;
/// Nodes that all may take together.
const ALL_NODES: usize = 40_000;
/// Steps by which colours are wider, and weeks by which planting is earlier, beside another change.
const WIDER: u32 = 8;
const EARLIER: u32 = 2;
/// The most mends of two changes that are told.
const MOST_PAIRS: usize = 4;

/// Every single change that mends it, or, where none does, the cheapest found of two together. Each is a search of
/// its own; `stop` ends the one at hand, and none is begun after it.
pub fn mends(
    plan: &Plan,
    against: ListContext<'_>,
    settled: &Settled,
    stop: Stop<'_>,
) -> Vec<Mend> {
    let mut patience = Patience::of(stop, NODES, ALL_NODES);
    let lacking = Lacking::of(settled);
    // What money lacks is known of the whole plan only where nothing was set aside.
    let known = match settled.aside().is_empty() {
        true => settled.status,
        false => Status::Unknown,
    };
    let single = singles(plan, against, known, &lacking, &mut patience);
    match single.is_empty() {
        true => pairs(plan, against, &lacking, &mut patience),
        false => single,
    }
}

/// Every single change that mends a plan of which the order at hand lacks so much.
fn singles(
    plan: &Plan,
    against: ListContext<'_>,
    known: Status,
    lacking: &Lacking,
    patience: &mut Patience<'_>,
) -> Vec<Mend> {
    let mut mends = Vec::new();
    let Ok(candidates) = Candidates::of(plan, against) else {
        return mends;
    };
    if !patience.is_over() {
        mends.extend(more_bed(plan, against, patience));
    }
    if !patience.is_over() {
        mends.extend(more_money(&candidates.model, known, patience));
    }
    let narrower = [false, true].map(|short_too| narrowed(plan, lacking, short_too));
    let mut trial = Trial {
        plan,
        against,
        patience,
    };
    mends.extend(trial.wider_colours());
    mends.extend(trial.planted_earlier());
    mends.extend(trial.less_fit(lacking));
    let [aside, both] = narrower;
    let same = aside.edits == both.edits;
    let narrower = trial.fewer_weeks(aside);
    let done = narrower.is_some() || same;
    mends.extend(narrower);
    if !done {
        mends.extend(trial.fewer_weeks(both));
    }
    mends.extend(trial.fewer_stems(lacking));
    mends
}

/// The cheapest found of two changes together: one made, and then every single one sought that does the rest.
fn pairs(
    plan: &Plan,
    against: ListContext<'_>,
    lacking: &Lacking,
    patience: &mut Patience<'_>,
) -> Vec<Mend> {
    let mut mends: Vec<Mend> = Vec::new();
    mends.extend(more_bed_and_money(plan, against, patience));
    for Narrowed { by, edits } in firsts(plan, lacking) {
        let made = edited(plan, &edits).ok();
        let Some(made) = made.filter(|made| made.problems().is_empty()) else {
            continue;
        };
        for second in singles(&made, against, Status::Unknown, lacking, patience) {
            // The same kind twice is one change.
            if std::mem::discriminant(&second.by) != std::mem::discriminant(&by) {
                mends.push(Mend {
                    by,
                    and: Some(second.by),
                    edits: [edits.clone(), second.edits].concat(),
                    cost: second.cost,
                });
            }
        }
    }
    mends.sort_by_key(|mend| mend.cost.in_hundredths());
    let mut told: Vec<Mend> = Vec::new();
    for mend in mends {
        let same = told.iter().any(|other| is_of_the_same(other, &mend));
        if !same && told.len() < MOST_PAIRS {
            told.push(mend);
        }
    }
    told
}

/// What is made first of two changes: that which alone may be half of what is lacking.
fn firsts(plan: &Plan, lacking: &Lacking) -> Vec<Narrowed> {
    let aside = narrowed(plan, lacking, false);
    let both = narrowed(plan, lacking, true);
    let colours = Narrowed {
        by: By::Colour {
            wider: WIDER,
            least: false,
        },
        edits: wider(plan, WIDER),
    };
    let edits = earlier(plan, EARLIER);
    let frost = edited(plan, &edits).map_or(1.0, |made| made.season.frost_after_planting());
    let sooner = Narrowed {
        by: By::Earlier {
            weeks: EARLIER,
            frost,
            least: false,
        },
        edits,
    };
    let mut firsts = vec![aside.clone()];
    if both.edits != aside.edits {
        firsts.push(both);
    }
    firsts.extend([colours, sooner]);
    firsts.retain(|first| !first.edits.is_empty());
    firsts
}

/// Whether two mends change the same two things.
fn is_of_the_same(one: &Mend, other: &Mend) -> bool {
    let kinds = |mend: &Mend| {
        let own = |by: &By| std::mem::discriminant(by);
        [Some(own(&mend.by)), mend.and.as_ref().map(own)]
    };
    let ([a, b], [c, d]) = (kinds(one), kinds(other));
    (a, b) == (c, d) || (a, b) == (d, c)
}
