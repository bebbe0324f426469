//! `trug stock` and `trug stock PLANT`: everybody's tubers, or one plant's. What programs get:
//!
//! | of | keys |
//! |---|---|
//! | all | `plants` [`plant`, `lifting` (year), `clumps`, `divided`, `in_store`, `in_pots`, `promised`, `kept_back`, `free`, `price`, `sold`, `takings`, `lost`, `given`, `counted` (day)], `all` [the same in sum], `winters` [`plant`, `lost`, `of`, `share`, `counted` (its limits at 95 %), `expected`, `expected_limits`], `all_winters` {`share`, `low`, `high`, `hit`, `open`} |
//! | one | `id`, `liftings` [as `plants`], `winter` (as `all_winters`), `expected` {`share`, `low`, `high`}, `entries` [`entry`, `date`, `told`, `words`, `lifting`, `counts`] |
//! | `--plan` | `plan` [`plant`, `own`, `planted`, `spares`, `keep`, `sell`, `lacking`], `increase` [`plant`, `from`, `a_clump`, `keeps`, `stands`, `wanted`, `years`, `tubers` (year by year)], `notes` |

use std::io::Write;
use std::path::Path;

use anyhow::Result;

use super::super::Context;
use super::{Books, bad};
use crate::account::{Section, lines, object};
use crate::table;
use crate::trial::Subject;

/// One plant in full.
pub(super) fn one(
    subject: &Subject,
    books: &Books,
    context: &Context,
    out: &mut dyn Write,
) -> Result<bool> {
    let stock = books.stock();
    print(&stock.account_of(subject, &stock.losses()), context, out)
}

/// Everybody, of one year of lifting or each plant's last; the table as a file of cells, too.
pub(super) fn all(
    books: &Books,
    year: Option<i16>,
    csv: Option<&Path>,
    context: &Context,
    out: &mut dyn Write,
) -> Result<bool> {
    let account = books.stock().account(year);
    if let Some(path) = csv {
        if path
            .extension()
            .is_none_or(|ending| !ending.eq_ignore_ascii_case("csv"))
        {
            let shown = path.display();
            return Err(bad(format!(
                "found the file name {shown}, expected one that ends in .csv"
            )));
        }
        // OK because the first section has the table, though it may have no row.
        let table = account.iter().flat_map(Section::tables).next();
        let Some(table) = table else { return Ok(false) };
        let rows = table.file_rows();
        let bytes = table::write(rows.iter().map(Vec::as_slice));
        context.output().write(path, &bytes)?;
    }
    let mut plants = account.iter().flat_map(Section::tables).take(1);
    let is_empty = plants.all(|table| table.rows.is_empty());
    if is_empty && !context.json {
        match year {
            None => writeln!(
                out,
                "The stock book is empty: `trug stock note PLANT lifted=12 divided=43` begins it."
            )?,
            Some(year) => writeln!(out, "Nothing in the stock book was lifted in {year}.")?,
        }
        return Ok(true);
    }
    print(&account, context, out)?;
    if let (Some(path), false) = (csv, context.json) {
        writeln!(out, "\nWrote the table to {}.", path.display())?;
    }
    Ok(true)
}

fn print(account: &[Section], context: &Context, out: &mut dyn Write) -> Result<bool> {
    if context.json {
        context.print(out, object(account))?;
        return Ok(true);
    }
    for line in lines(account, usize::MAX) {
        writeln!(out, "{line}")?;
    }
    Ok(true)
}
