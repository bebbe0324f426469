//! What of the plants was asked for: what each may say, at its price, and how many of it.

use std::io::Write;

use anyhow::{Result, anyhow};

use super::arguments::TagArguments;
use super::for_sale::{ForSale, for_sale, split};
use crate::command::said::{NONE_FREE, named, named_or_kept, with_grounds};
use crate::command::{BadInput, Context};
use crate::tag::{ClaimSources, Copies, PerPlant, Refused, Says, Selling};

/// Plants, and how many tags of each.
pub(super) struct Asked {
    pub(super) says: Vec<Says>,
    pub(super) copies: PerPlant<u32>,
    /// Plants that were named of which there are none to sell.
    pub(super) none: Vec<Refused>,
    /// What is said where there is nobody to make a tag for.
    pub(super) nobody: &'static str,
}

/// What is said where no seedling is kept.
const NONE_KEPT: &str = "No seedling is kept yet, so there is nothing to tag: name some, or decide with \
                         `trug row decide ID keep`.";

/// What was asked for by name, number or nothing at all.
///
/// # Errors
/// [`BadInput`] where a plant is not known, or a price or a number of copies is none.
pub(super) fn asked(
    arguments: &TagArguments,
    context: &Context,
    errors: &mut dyn Write,
) -> Result<Asked> {
    with_grounds(context, |grounds| {
        let mut selling = grounds.selling.clone();
        let mut copies = Copies::default().of;
        let (by_stock, typed) = split(&arguments.copies);
        let ForSale { subjects, none } = match by_stock {
            true => {
                let figures = (&mut copies, &mut selling);
                for_sale(arguments, &grounds, figures, context, errors)?
            }
            false => ForSale {
                subjects: named_or_kept(&arguments.ids, &grounds)?,
                ..ForSale::default()
            },
        };
        take(
            &mut selling.price,
            &arguments.price,
            &grounds,
            Selling::read_price,
        )?;
        take(&mut copies, &typed, &grounds, Copies::read)?;
        let grounds = ClaimSources {
            selling: &selling,
            ..grounds
        };
        Ok(Asked {
            says: grounds.of_all(&subjects),
            copies,
            none,
            nobody: if by_stock { NONE_FREE } else { NONE_KEPT },
        })
    })
}

/// Takes in what was typed of all plants or of one.
fn take<T>(
    figures: &mut PerPlant<T>,
    typed: &[String],
    grounds: &ClaimSources<'_>,
    read: impl Fn(&str) -> Result<T, String>,
) -> Result<()> {
    let plant = |id: &str| named(id, grounds);
    let value = |text: &str| read(text).map_err(|told| anyhow!(BadInput(told)));
    typed
        .iter()
        .try_for_each(|one| figures.take(one, plant, value))
}
