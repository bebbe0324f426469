//! The plan as it is tried: with what was asked for changed, and with the needs that its events and rounds
//! come to.

use std::cell::OnceCell;
use std::io::Write;

use anyhow::Result;

use super::changed::changed;
use super::{OrderArguments, plan, plan_to_save, unanswered};
use crate::command::Context;
use crate::folder::Folder;
use crate::folder::order::OrderFile;
use crate::order::{Lasting, ListContext, Plan};
use crate::variety::Varieties;

/// The plan, and where it is to be saved.
pub(super) type ToSave = (Plan, Option<(Folder, OrderFile)>);

/// The plan as it is tried, and where it is to be saved.
pub(super) fn tried(
    arguments: &OrderArguments,
    list: &Varieties,
    context: &Context,
    errors: &mut dyn Write,
) -> Result<ToSave> {
    let (read, own) = match arguments.save {
        true => {
            let (plan, folder, file) = plan_to_save(context, errors)?;
            (plan, Some((folder, file)))
        }
        false => (plan(context)?, None),
    };
    let plan = changed(arguments, read, list, context, errors)?;
    Ok((plan, own))
}

/// The plan with the needs that its events and rounds come to, which are cut so many days before that
/// their flowers last.
pub(super) fn whole(
    arguments: &OrderArguments,
    plan: &Plan,
    against: ListContext<'_>,
    context: &Context,
) -> Result<Plan> {
    let lasting = OnceCell::new();
    let days = |id: &str| lasting.get_or_init(|| Lasting::of(against)).days(id);
    let whole = plan.whole(&context.contents.pieces, &days);
    whole.map_err(|wrong| unanswered(arguments, context, wrong))
}
