//! What a plant gives by what is known of the season so far.

use jiff::civil::Date;

use crate::order::candidates::Candidates;
use crate::order::plan::Plan;
use crate::order::season::thousandths;
use crate::variety::Varieties;

/// Usable thousandths of a stem by week, from one plant of a candidate that gives such a share of its plan,
/// with the first frost on a day. What a late frost of spring set back is in the counts.
pub(super) fn yields(
    plan: &Plan,
    candidates: &Candidates,
    list: &Varieties,
    at: usize,
    frost: Date,
    share: f64,
) -> Vec<u64> {
    let variety = &list.list()[candidates.rows[at]];
    let (first, weeks) = (candidates.first_cuts[at], &candidates.weeks);
    let given = { &plan.season }.given(variety, first, weeks, 0, frost);
    let given = given.iter().map(|stems| thousandths(stems * share));
    given.collect()
}
