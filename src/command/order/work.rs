//! `trug order --work`: what events and rounds come to in stems.

use std::io::Write;

use anyhow::Result;

use super::tried::{tried, whole};
use super::{OrderArguments, against, index};
use crate::account::{lines, object};
use crate::command::Context;
use crate::order::report::account::work;

/// Columns of text.
const COLUMNS: usize = 96;

/// Lists each event and round with its parts; nothing is solved.
pub(super) fn run(
    arguments: &OrderArguments,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    let list = context.varieties_with_evidence()?;
    let (plan, own) = tried(arguments, &list, context, errors)?;
    let index = index(&list, context);
    let against = against(&list, &index, context);
    let plan_whole = whole(arguments, &plan, against, context)?;
    if let Some((folder, mut file)) = own {
        file.save(&folder, &plan)?;
    }
    let sections = work(&plan_whole, &context.contents.pieces);
    if context.json {
        context.print(out, object(&sections))?;
    } else {
        for line in lines(&sections, COLUMNS) {
            writeln!(out, "{line}")?;
        }
    }
    Ok(true)
}
