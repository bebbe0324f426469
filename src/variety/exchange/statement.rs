//! Statements in one cell: `Oar Bulbs: diameter 90mm to 110mm; height 900mm`, the name left out where
//! nobody noted it.

use super::cell;
use crate::measure::brief;
use crate::variety::stated::{Dimension, StatedValue, Statement};

/// Statements as [`written`] writes them.
pub(super) fn read(cell: &str) -> Result<Vec<Statement>, String> {
    cell::items(cell).iter().map(|item| one(item)).collect()
}

/// One cell for all; empty where there are none.
pub(super) fn written(all: &[Statement]) -> String {
    cell::joined(all.iter().map(|one| {
        let told = format!("{} {}", one.value.what().word(), one.value.written());
        match &one.by {
            Some(by) => format!("{by}: {told}"),
            None => told,
        }
    }))
}

/// A name may have a colon in it, and so may a size word: the last place that reads is meant.
fn one(item: &str) -> Result<Statement, String> {
    let named = item.rmatch_indices(": ").find_map(|(at, colon)| {
        let value = told(&item[at + colon.len()..])?;
        let by = cell::text(item[..at].trim());
        Some(value.and_then(|value| {
            Ok(Statement {
                value,
                by: Some(by?),
            })
        }))
    });
    let unnamed = || Some(told(item)?.map(|value| Statement { value, by: None }));
    named.or_else(unnamed).unwrap_or_else(|| {
        Err(format!(
            "found {:?}, expected a name and what it states, such as Oar Bulbs: diameter 90mm to 110mm",
            brief(item)
        ))
    })
}

/// `diameter 90mm to 110mm`; `None` where it does not begin with what is stated.
fn told(text: &str) -> Option<Result<StatedValue, String>> {
    let (what, value) = text.split_once(' ')?;
    let what = Dimension::ALL.into_iter().find(|one| one.word() == what)?;
    Some(what.value(value.trim()))
}
