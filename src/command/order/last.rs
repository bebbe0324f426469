//! The order as it was settled last, for what goes by it: the stock book keeps what it plants.

use anyhow::Result;
use jiff::civil::Date;

use super::{against, index, plan};
use crate::command::Context;
use crate::folder::settled;
use crate::order::{Aim, Candidates, Lasting, Order, Plan};

/// An order that was settled before.
pub(in crate::command) struct Last {
    /// The plan that it is of.
    pub(in crate::command) plan: Plan,
    /// The order.
    pub(in crate::command) order: Order,
    /// The day on which it was settled.
    pub(in crate::command) on: Date,
    /// Whether nothing has changed since that it was settled from.
    pub(in crate::command) is_current: bool,
}

/// The order as it was settled last: as sure as asked, else on average; `None` where none was.
///
/// # Errors
/// Where there is no plan, or it cannot be read.
pub(in crate::command) fn last(context: &Context) -> Result<Option<Last>> {
    let list = context.varieties_with_evidence()?;
    let index = index(&list, context);
    let against = against(&list, &index, context);
    let plan = plan(context)?;
    let lasting = Lasting::of(against);
    let days = |id: &str| lasting.days(id);
    let Ok(plan) = plan.whole(&context.contents.pieces, &days) else {
        return Ok(None);
    };
    let Ok(candidates) = Candidates::of(&plan, against) else {
        return Ok(None);
    };
    let of = |aim: Aim| {
        let kept = settled::settled(context.folder.as_deref(), aim)?;
        let is_current = kept.is_of(&plan, &candidates, &list);
        Some((kept.order(&candidates)?, kept.on, is_current))
    };
    let found = of(Aim::Surely).or_else(|| of(Aim::OnAverage));
    Ok(found.map(|(order, on, is_current)| Last {
        plan,
        order,
        on,
        is_current,
    }))
}
