//! `trug rules compare`: which blooms, and which of the grower's varieties and seedlings, change
//! form.

use std::io::Write;

use anyhow::{Result, anyhow};
use serde_json::json;

use super::{BadInput, Context, find_set};
use crate::folder::row::row;
use crate::form::compare::Pair;
use crate::form::sentences::percent;
use crate::form::space::{Block, Scale};
use crate::form::words::block_words;
use crate::form::{Keyer, Likely, RuleSet, Traits};
use crate::trial::{EvidenceContext, Neighbours, Renamed, Trial};
use crate::variety::{Rekeyed, Varieties, rekeyed};

/// The most regions of one change that plain text lists.
const MOST_REGIONS: usize = 3;

pub(super) fn run(
    first: &str,
    second: &str,
    context: &Context,
    out: &mut dyn Write,
) -> Result<bool> {
    let first = &context.contents.sets[find_set(&context.contents.sets, first)?];
    let second = &context.contents.sets[find_set(&context.contents.sets, second)?];
    let comparison = first
        .compare(second)
        .map_err(|told| anyhow!(BadInput(told)))?;
    let words = |block: &Block| region_words(&first.traits, &comparison.scales, block, context);
    let list = context.varieties()?;
    let moved = rekeyed(&list, first, second, &comparison);
    let trial = row(context.folder.as_deref())?.trial;
    let renamed = renamed(&trial, first, second, context);
    let same_id = |pair: &Pair| first.forms[pair.from].id == second.forms[pair.to].id;
    if context.json {
        let pairs = comparison
            .pairs
            .iter()
            .filter(|pair| !same_id(pair))
            .map(|pair| {
                json!({
                    "from": first.forms[pair.from].id, "to": second.forms[pair.to].id,
                    "share": pair.share, "same_blooms": pair.same_blooms,
                    "regions": pair.regions.iter().map(words).collect::<Vec<_>>(),
                })
            });
        let moved = moved.iter().map(|one| {
            let to: Vec<&str> = one.to.iter().map(|to| second.forms[*to].id.as_str()).collect();
            json!({ "name": list.list()[one.row].name.as_str(), "from": first.forms[one.from].id, "to": to, "by_bloom": one.by_bloom })
        });
        let renamed = renamed.iter().map(|one| {
            json!({
                "plant": one.subject.to_string(),
                "from": first.forms[one.from.form].id, "from_share": one.from.share,
                "to": second.forms[one.to.form].id, "to_share": one.to.share,
            })
        });
        let object = json!({
            "first": first.id, "second": second.id,
            "changes": pairs.collect::<Vec<_>>(), "varieties": moved.collect::<Vec<_>>(),
            "row": renamed.collect::<Vec<_>>(),
        });
        context.print(out, object)?;
        return Ok(true);
    }
    writeln!(out, "From {} to {}.", first.id, second.id)?;
    writeln!(
        out,
        "Shares are of a form's blooms as they are weighed before any answer: assumed."
    )?;
    for group in comparison.pairs.chunk_by(|a, b| a.from == b.from) {
        let from = &first.forms[group[0].from].name;
        match group {
            [pair] if same_id(pair) => writeln!(out, "\n{from}: as before")?,
            [pair] => {
                let only = if pair.same_blooms {
                    "the same blooms under another name"
                } else {
                    "every bloom"
                };
                writeln!(
                    out,
                    "\n{from}: all become {} ({only})",
                    second.forms[pair.to].name
                )?;
            }
            pairs => {
                writeln!(out, "\n{from}:")?;
                for pair in pairs {
                    let kept = if same_id(pair) { " (as before)" } else { "" };
                    writeln!(
                        out,
                        "  {:>9}  {}{kept}",
                        percent(pair.share),
                        second.forms[pair.to].name
                    )?;
                    if !same_id(pair) {
                        write_regions(pair, &words, out)?;
                    }
                }
            }
        }
    }
    write_moved(&moved, &list, first, second, out)?;
    write_renamed(&renamed, first, second, out)?;
    Ok(true)
}

/// The plants of the row whose likeliest form has another name.
fn renamed(trial: &Trial, first: &RuleSet, second: &RuleSet, context: &Context) -> Vec<Renamed> {
    let (first, second) = (Keyer::even(first.clone()), Keyer::even(second.clone()));
    let neighbours = Neighbours::default();
    let under = |keyer| EvidenceContext {
        keyer,
        words: &context.contents.words,
        neighbours: &neighbours,
    };
    trial.renamed(&under(&first), &under(&second))
}

/// The varieties that change, those that are sure first; those that may only as a count.
fn write_moved(
    moved: &[Rekeyed],
    list: &Varieties,
    first: &RuleSet,
    second: &RuleSet,
    out: &mut dyn Write,
) -> Result<()> {
    let (sure, perhaps): (Vec<_>, Vec<_>) = moved.iter().partition(|one| one.to.len() == 1);
    writeln!(
        out,
        "\nOf {} varieties {} change the name of their form:",
        list.len(),
        sure.len()
    )?;
    for one in sure {
        let (from, to) = (&first.forms[one.from].name, &second.forms[one.to[0]].name);
        let how = if one.by_bloom {
            "by its recorded bloom"
        } else {
            "all of its form do"
        };
        writeln!(
            out,
            "  {}: {from} becomes {to} ({how})",
            list.list()[one.row].name.as_str()
        )?;
    }
    writeln!(
        out,
        "{} more may: record their blooms to tell.",
        perhaps.len()
    )?;
    Ok(())
}

fn write_renamed(
    renamed: &[Renamed],
    first: &RuleSet,
    second: &RuleSet,
    out: &mut dyn Write,
) -> Result<()> {
    if renamed.is_empty() {
        writeln!(out, "\nNo plant of the row has another likeliest form.")?;
        return Ok(());
    }
    writeln!(out, "\nOf the row these have another likeliest form:")?;
    for one in renamed {
        let told = |set: &RuleSet, likely: &Likely| {
            format!("{} {}", set.forms[likely.form].name, percent(likely.share))
        };
        writeln!(
            out,
            "  {}: {} becomes {}",
            one.subject,
            told(first, &one.from),
            told(second, &one.to)
        )?;
    }
    Ok(())
}

fn write_regions(
    pair: &Pair,
    words: &impl Fn(&Block) -> String,
    out: &mut dyn Write,
) -> Result<()> {
    for region in pair.regions.iter().take(MOST_REGIONS) {
        writeln!(out, "             {}", words(region))?;
    }
    if pair.regions.len() > MOST_REGIONS {
        writeln!(
            out,
            "             and {} smaller regions",
            pair.regions.len() - MOST_REGIONS
        )?;
    }
    Ok(())
}

fn region_words(traits: &Traits, scales: &[Scale], block: &Block, context: &Context) -> String {
    let words = block_words(traits, scales, block, context.units);
    if words.is_empty() {
        "every bloom".to_string()
    } else {
        words
    }
}
