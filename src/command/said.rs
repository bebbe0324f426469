//! What can be said of plants, for whatever is printed of them.

use anyhow::{Result, anyhow};

use super::{BadInput, Context};
use crate::folder::row::row;
use crate::tag::ClaimSources;
use crate::trial::{EvidenceContext, Neighbours, Subject};

/// What is said where the stock book has nothing for a buyer.
pub(super) const NONE_FREE: &str =
    "The stock book has nothing that is free to sell: `trug stock` has what is there and why.";

/// What `work` makes of what the list and the row hold of plants.
///
/// # Errors
/// Those of `work`, and where the list or the row cannot be read.
pub(super) fn with_grounds<Made>(
    context: &Context,
    work: impl FnOnce(ClaimSources<'_>) -> Result<Made>,
) -> Result<Made> {
    let list = context.varieties()?;
    let read = row(context.folder.as_deref())?;
    let contents = &context.contents;
    let keyer = context.keyer();
    let neighbours = Neighbours::of(&list, &keyer.set, &contents.words);
    work(ClaimSources {
        list: &list,
        trial: &read.trial,
        under: EvidenceContext {
            keyer: &keyer,
            words: &contents.words,
            neighbours: &neighbours,
        },
        release: &contents.release,
        uses: &contents.uses,
        practice: &contents.tags.practice,
        naming: &contents.naming,
        selling: &contents.settings.selling(),
        units: context.units,
    })
}

/// The plants with these ids, each once; every kept seedling where there are none.
///
/// # Errors
/// [`BadInput`] where one is neither of the list nor of the row.
pub(super) fn named_or_kept(ids: &[String], grounds: &ClaimSources<'_>) -> Result<Vec<Subject>> {
    if ids.is_empty() {
        return Ok(grounds.kept());
    }
    let mut found = Vec::new();
    for id in ids {
        let subject = named(id, grounds)?;
        if !found.contains(&subject) {
            found.push(subject);
        }
    }
    Ok(found)
}

/// The plant with this number or name.
///
/// # Errors
/// [`BadInput`] where neither the list nor the row has it.
pub(super) fn named(id: &str, grounds: &ClaimSources<'_>) -> Result<Subject> {
    let subject: Subject = id
        .parse()
        .map_err(|error| anyhow!(BadInput(format!("{error}"))))?;
    grounds.find(&subject).ok_or_else(|| {
        anyhow!(BadInput(format!(
            "found {id:?}, expected a seedling of the row or {}",
            grounds.list.expected(id)
        )))
    })
}
