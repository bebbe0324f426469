//! `trug variety life`: what was bought, planted, cut, lifted and sold of a plant. What programs get: `id`,
//! `years` [`year`, `bought`, `planted`, `cut` (stems), `clumps`, `divided`, `lost`, `given`, `sold`, `takings`,
//! `here`], `days` [`day`, `book` (row or stock), `told`].

use std::io::Write;

use anyhow::{Result, anyhow};

use super::super::order::season_year;
use super::super::{BadInput, Context};
use crate::account::{lines, object};
use crate::folder::row::row;
use crate::folder::settled;
use crate::folder::stock::stock;
use crate::life::{LifeSources, Ordered};
use crate::trial::Subject;

/// What `trug variety life` takes.
#[derive(Debug, clap::Args)]
pub(super) struct LifeArguments {
    /// The name of a variety of your list, or a seedling's number.
    #[arg(value_name = "PLANT", required = true)]
    id: Vec<String>,
}

pub(super) fn life(
    arguments: &LifeArguments,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    let bad = |told: String| anyhow!(BadInput(told));
    let list = context.varieties()?;
    let folder = context.folder.as_deref();
    let trial = row(folder)?.trial;
    let read = stock(folder, &trial)?;
    for problem in &read.problems {
        writeln!(errors, "trug: {problem}")?;
    }
    let id = arguments.id.join(" ");
    let subject: Subject = id.parse().map_err(|error| bad(format!("{error}")))?;
    let subject = subject.as_listed(&list);
    let listed = match &subject {
        Subject::Variety(name) => list.find(name),
        Subject::Seedling(_) => None,
    };
    let is_known = listed.is_some()
        || read.stock.subjects().contains(&subject)
        || trial.subjects().contains(&subject);
    if !is_known {
        return Err(bad(format!(
            "found {id:?}, expected a seedling of the row or {}",
            list.expected(&id)
        )));
    }
    let year = season_year(context)?;
    let ordered = year
        .zip(listed)
        .and_then(|(year, at)| Ordered::of(&settled::all(folder), year, &list.list()[at]));
    let sources = LifeSources {
        trial: &trial,
        stock: &read.stock,
        traits: &context.set().traits,
    };
    let account = sources.life(&subject, ordered).account();
    if context.json {
        let mut told = object(&account);
        told["id"] = subject.to_string().into();
        context.print(out, told)?;
        return Ok(true);
    }
    for line in lines(&account, usize::MAX) {
        writeln!(out, "{line}")?;
    }
    Ok(true)
}
