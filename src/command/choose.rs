//! `trug choose`: the list narrowed and ranked.

use std::io::Write;
use std::path::PathBuf;

use anyhow::{Result, anyhow};
use serde_json::{Map, Value, json};

use super::narrowing::NarrowArguments;
use super::variety_line::line;
use super::{BadInput, Context, book, palette, side_by_side};
use crate::variety::{Ask, By, Index, Known, Ranked, Ranking, Text};

/// How many are shown where nobody says how many.
const SHOWN: usize = 12;

/// What `trug choose` takes.
#[derive(Debug, clap::Args)]
pub struct ChooseArguments {
    #[command(flatten)]
    pub(super) narrow: NarrowArguments,
    /// Ranks by how well each fits this use, such as market-bunch, and says why.
    #[arg(long = "use", value_name = "USE")]
    use_id: Option<String>,
    /// Sorts by this; without it by fitness, by colour, or by both, as you asked for them.
    #[arg(long, value_enum, value_name = "BY")]
    sort: Option<Sort>,
    /// Shows so many; without it 12, and all of them in a book.
    #[arg(long, value_name = "COUNT")]
    pub(super) top: Option<usize>,
    /// Shows two to four varieties side by side.
    #[arg(long, value_name = "NAME", num_args = 2..=4, conflicts_with_all = ["palette", "sort"])]
    pub(super) compare: Vec<String>,
    /// Finds the varieties, each of another form, that together come nearest to these colours.
    #[arg(long, value_name = "COLOUR,COLOUR", value_delimiter = ',', num_args = 1.., conflicts_with = "colour")]
    pub(super) palette: Vec<String>,
    /// So many varieties for the palette; without it one for each colour.
    #[arg(long, value_name = "COUNT", requires = "palette")]
    pub(super) pick: Option<usize>,
    /// Writes what was found as a book to print, by colour, with a drawing of each.
    #[arg(long, value_name = "FILE.pdf|.svg", conflicts_with_all = ["compare", "palette"])]
    book: Option<PathBuf>,
    /// The paper of the book, such as a4 or letter; without it your usual one.
    #[arg(long, value_name = "PAPER", requires = "book")]
    paper: Option<String>,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
enum Sort {
    Fitness,
    Colour,
    Both,
    Price,
    Name,
}

pub(super) fn run(
    arguments: &ChooseArguments,
    context: &Context,
    out: &mut dyn Write,
) -> Result<bool> {
    let list = context.varieties_with_evidence()?;
    let grounds = context.contents.grounds(context.set());
    if !arguments.compare.is_empty() {
        return side_by_side::run(&arguments.compare, &list, grounds, context, out);
    }
    let index = Index::new(&list, grounds);
    let ask = meant(arguments, context, &index)?;
    if !arguments.palette.is_empty() {
        return palette::run(
            (&arguments.palette, arguments.pick),
            &list,
            &index,
            &ask,
            context,
            out,
        );
    }
    let reply = index.ask(&ask);
    if let Some(path) = &arguments.book {
        let found = reply.ranked.iter().map(|one| &list.list()[one.row]);
        let names: Vec<Text> = found.map(|variety| variety.name.clone()).collect();
        let (paper, shortlist) = (arguments.paper.as_deref(), arguments.narrow.shortlist);
        return book::run(path, paper, &names, shortlist, context, out);
    }
    let why = |one: &Ranked| -> Vec<String> {
        let Some(use_at) = ask.ranking.use_at else {
            return Vec::new();
        };
        let known = Known::of(&list.list()[one.row], context.set(), &context.contents.uses);
        let reasons = known.reasons(&context.contents.uses.list()[use_at], context.units);
        reasons.into_iter().map(|reason| reason.text).collect()
    };
    if context.json {
        let varieties = reply.ranked.iter().map(|one| {
            let variety = &list.list()[one.row];
            json!({
                "name": variety.name.as_str(),
                "form": variety.form_under(context.set()).map(|form| &context.set().forms[form].id),
                "size": variety.size_under(context.set()),
                "distance": one.distance,
                "fitness": one.fitness,
                "why": why(one),
            })
        });
        let mut left = Map::new();
        for facet in &reply.left {
            let values = facet
                .values
                .iter()
                .map(|(value, count)| (value.to_string(), json!(count)));
            left.insert(
                facet.facet.id().to_string(),
                Value::Object(values.collect()),
            );
        }
        let mend = reply.mend.map(
            |mend| json!({ "drop": ask.narrowings[mend.drop].to_string(), "brings": mend.brings }),
        );
        let caution = ask
            .ranking
            .use_at
            .and_then(|at| context.contents.uses.list()[at].caution.clone());
        let object = json!({ "found": reply.found, "caution": caution, "varieties": varieties.collect::<Vec<_>>(), "left": left, "mend": mend });
        writeln!(out, "{object:#}")?;
        return Ok(true);
    }
    writeln!(out, "{} of {} varieties.", reply.found, list.len())?;
    let asked_use = ask
        .ranking
        .use_at
        .map(|at| &context.contents.uses.list()[at]);
    if let Some(caution) = asked_use.and_then(|one| one.caution.as_ref()) {
        writeln!(out, "Caution: {caution}")?;
    }
    if let Some(mend) = reply.mend {
        let dropped = ask.narrowings[mend.drop].to_string();
        writeln!(out, "Drop {dropped} and {} are left.", mend.brings)?;
    } else if reply.found == 0 {
        writeln!(out, "No single narrowing is to blame: drop two of them.")?;
    }
    for one in &reply.ranked {
        writeln!(out, "\n{}", line(&list.list()[one.row], one, context))?;
        for reason in why(one) {
            writeln!(out, "    {reason}")?;
        }
    }
    if reply.found > 0 {
        writeln!(out, "\nWhat each value would leave:")?;
        for facet in &reply.left {
            let values = facet.values.iter().filter(|(_, count)| *count > 0);
            let values: Vec<String> = values
                .map(|(value, count)| format!("{value} {count}"))
                .collect();
            writeln!(out, "  {}: {}", facet.facet.id(), values.join(", "))?;
        }
    }
    Ok(true)
}

/// Arguments as typed, as one question to the list.
fn meant(arguments: &ChooseArguments, context: &Context, index: &Index) -> Result<Ask> {
    let bad = |told: String| anyhow!(BadInput(told));
    let narrowings = arguments.narrow.meant(context, index)?;
    let targets = arguments.narrow.targets(context)?;
    let uses = &context.contents.uses;
    let use_at = match &arguments.use_id {
        None => None,
        Some(id) => Some(uses.find(id).ok_or_else(|| {
            let known: Vec<&str> = uses.list().iter().map(|one| one.id.as_str()).collect();
            bad(format!(
                "--use: found {id:?}, expected one of {}",
                known.join(", ")
            ))
        })?),
    };
    let by = match arguments.sort {
        Some(Sort::Fitness) => By::Fitness,
        Some(Sort::Colour) => By::Colour,
        Some(Sort::Both) => By::Both,
        Some(Sort::Price) => By::Price,
        Some(Sort::Name) => By::Name,
        None if use_at.is_some() && !targets.is_empty() => By::Both,
        None if use_at.is_some() => By::Fitness,
        None if !targets.is_empty() => By::Colour,
        None => By::Name,
    };
    Ok(Ask {
        narrowings,
        ranking: Ranking {
            by,
            use_at,
            targets,
            words: arguments.narrow.query(),
        },
        top: arguments.top.unwrap_or(match arguments.book {
            Some(_) => usize::MAX,
            None => SHOWN,
        }),
    })
}
