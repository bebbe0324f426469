//! `trug choose --compare`: two to four varieties side by side.

use std::io::Write;

use anyhow::{Result, anyhow};
use serde_json::json;

use super::{BadInput, Context};
use crate::variety::{Index, IndexContext, Varieties, compare};

pub(super) fn run(
    names: &[String],
    list: &Varieties,
    grounds: IndexContext<'_>,
    context: &Context,
    out: &mut dyn Write,
) -> Result<bool> {
    let mut chosen = Vec::new();
    for name in names {
        let row = list.find(name).ok_or_else(|| {
            anyhow!(BadInput(format!(
                "--compare: found {name:?}, expected {}",
                list.expected(name)
            )))
        })?;
        chosen.push(&list.list()[row]);
    }
    let index = Index::new(list, grounds);
    let lines = compare(&chosen, grounds, index.middles(), context.units);
    let names: Vec<&str> = chosen.iter().map(|one| one.name.as_str()).collect();
    if context.json {
        let lines = lines.iter().map(
            |line| json!({ "field": line.field, "values": line.values, "differs": line.differs }),
        );
        context.print(
            out,
            json!({ "varieties": names, "lines": lines.collect::<Vec<_>>() }),
        )?;
        return Ok(true);
    }
    writeln!(out, "Lines that differ are marked with *.")?;
    writeln!(out, "\n  {}", names.join(" / "))?;
    for line in lines {
        let mark = if line.differs { "*" } else { " " };
        writeln!(out, "{mark} {}", line.field)?;
        for (name, value) in names.iter().zip(&line.values) {
            writeln!(out, "    {name}: {}", value.as_deref().unwrap_or("unknown"))?;
        }
    }
    Ok(true)
}
