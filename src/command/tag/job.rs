//! What was typed, as meant: the kind of tag, the sheet, where on it.

use anyhow::{Result, anyhow};

use super::arguments::TagArguments;
use crate::command::{BadInput, Context, printed};
use crate::measure::SizeUnits;
use crate::tag::{self, Kind, LabelSheet, Placing};

/// What was typed, as meant.
pub(super) struct Job<'a> {
    pub(super) kind: &'a Kind,
    pub(super) sheet: &'a LabelSheet,
    pub(super) placing: Placing,
    pub(super) numbered: bool,
    pub(super) coloured: bool,
    /// The units of lengths.
    pub(super) units: SizeUnits,
}

impl<'a> Job<'a> {
    /// # Errors
    /// [`BadInput`] where there is no such kind, sheet, label to begin at, or offset.
    pub(super) fn meant(arguments: &TagArguments, context: &'a Context) -> Result<Job<'a>> {
        let stock = &context.contents.tags;
        let bad = |told: String| anyhow!(BadInput(told));
        let id = &arguments.kind;
        let kind = stock.kind(id).ok_or_else(|| {
            let known: Vec<&str> = stock.kinds.iter().map(|one| one.id.as_str()).collect();
            bad(format!(
                "found the kind {id:?}, expected one of {}",
                known.join(", ")
            ))
        })?;
        let id = &kind.id;
        let sheet = match &arguments.sheet {
            None => stock.sheet_for(id, printed::usual(context.units)),
            Some(sheet) => stock.sheet(sheet).filter(|sheet| sheet.kind == *id),
        };
        let sheet = sheet.ok_or_else(|| {
            let own = stock.sheets.iter().filter(|sheet| sheet.kind == *id);
            let known: Vec<&str> = own.map(|one| one.id.as_str()).collect();
            let found = arguments.sheet.as_deref().unwrap_or_default();
            bad(format!(
                "found the sheet {found:?} for the kind {id:?}, expected one of {}",
                known.join(", ")
            ))
        })?;
        Ok(Job {
            kind,
            sheet,
            placing: Placing {
                offset: tag::read_offset(&arguments.offset).map_err(bad)?,
                from: sheet.begun_at(arguments.from).map_err(bad)?,
            },
            numbered: arguments.numbered,
            coloured: arguments.coloured,
            units: context.units,
        })
    }
}
