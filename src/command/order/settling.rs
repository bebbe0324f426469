//! The order settled, or taken as it was settled before where nothing has changed.

use std::cell::Cell;
use std::io::Write;

use anyhow::Result;

use super::{OrderArguments, after};
use crate::command::{Context, now, today};
use crate::folder::{Folder, settled};
use crate::measure::day;
use crate::order::{Aim, Candidates, Kept, Order, Plan, Settled};
use crate::variety::Varieties;

/// How long a search may take where that was not said, in seconds.
pub(super) const SECONDS: u64 = 60;

impl OrderArguments {
    /// What the order is settled for.
    pub(super) fn aim(&self) -> Aim {
        match self.on_average {
            true => Aim::OnAverage,
            false => Aim::Surely,
        }
    }

    /// How long a search may take, in seconds.
    pub(super) fn patience(&self) -> u64 {
        self.seconds.unwrap_or(SECONDS)
    }
}

/// Settles the plan, or takes what was settled of it before. What is settled of the plan in the grower's own
/// folder is kept there.
pub(super) fn settled(
    aim: Aim,
    arguments: &OrderArguments,
    (plan, candidates, list): (&Plan, Candidates, &Varieties),
    context: &Context,
    errors: &mut dyn Write,
) -> Result<Settled> {
    let folder = context.folder.as_deref();
    if let Some(kept) = settled::settled(folder, aim) {
        // Who says how long is to be searched has it searched on where that was cut short.
        let searches_on = kept.stopped && arguments.seconds.is_some();
        let is_of = kept.is_of(plan, &candidates, list);
        if is_of && !searches_on {
            return Ok(kept.settled(candidates));
        }
        if !is_of && folder.is_some() && arguments.is_as_saved() {
            let on = day::in_words(kept.on);
            writeln!(
                errors,
                "trug: what the order of {on} was settled from has changed: it is settled again"
            )?;
        }
    }
    let mut out_of_time = after(arguments.patience());
    let stopped = Cell::new(false);
    let stop = &mut |progress| {
        stopped.set(stopped.get() || out_of_time(progress));
        stopped.get()
    };
    let settled = aim.settle(plan, candidates.clone(), list, stop);
    if let Some(dir) = folder.filter(|_| arguments.is_as_saved()) {
        let kept = Kept::of(
            aim,
            (plan, &candidates, list),
            &settled,
            stopped.get(),
            today(),
        );
        // OK where the folder cannot be written: it is settled again then.
        if let Ok(folder) = Folder::open(dir, &now()) {
            settled::keep(&folder, &kept);
        }
    }
    Ok(settled)
}

/// The order that is planted: as it was settled last, whatever was learned since, else settled now.
pub(super) fn planted(
    arguments: &OrderArguments,
    (plan, candidates, list): (&Plan, Candidates, &Varieties),
    context: &Context,
    errors: &mut dyn Write,
) -> Result<(Candidates, Option<Order>)> {
    let aim = arguments.aim();
    let before = settled::settled(context.folder.as_deref(), aim);
    let kept = before.and_then(|kept| kept.order(&candidates));
    Ok(match kept {
        Some(order) => (candidates, Some(order)),
        None => {
            let settled = settled(aim, arguments, (plan, candidates, list), context, errors)?;
            (settled.candidates, settled.order)
        }
    })
}
