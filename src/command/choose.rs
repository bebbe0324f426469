//! `trug choose`: the list narrowed and ranked.

use std::io::Write;
use std::path::PathBuf;

use anyhow::{Result, anyhow};

use super::found::Found;
use super::narrowing::NarrowArguments;
use super::{BadInput, Context, book, colour_chart, palette, side_by_side};
use crate::variety::{Ask, By, Index, Ranking, Text};

/// How many are shown where nobody says how many.
const SHOWN: usize = 12;

/// What `trug choose` takes.
#[derive(Debug, clap::Args)]
#[command(group = clap::ArgGroup::new("printed").args(["book", "chart"]).multiple(true))]
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
    /// Shows how many of what was found have which colour; or writes that as a chart in PDF or SVG.
    #[arg(long, value_name = "FILE.pdf|.svg", num_args = 0..=1, conflicts_with_all = ["compare", "palette", "book", "top"])]
    chart: Option<Option<PathBuf>>,
    /// The paper of the book or the chart, such as a4 or letter; without it your usual one.
    #[arg(long, value_name = "PAPER", requires = "printed")]
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
    if let Some(path) = &arguments.chart {
        let rows = reply.ranked.iter().map(|one| one.row);
        let stacks = index.some_by_colour(rows, &context.contents.words);
        let (path, paper) = (path.as_deref(), arguments.paper.as_deref());
        return colour_chart::run(&stacks, path, paper, context, out);
    }
    let found = Found {
        list: &list,
        index: &index,
        ask: &ask,
        reply: &reply,
        context,
    };
    if context.json {
        context.print(out, found.object())?;
    } else {
        for line in found.lines() {
            writeln!(out, "{line}")?;
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
        top: arguments
            .top
            .unwrap_or(match (&arguments.book, &arguments.chart) {
                (None, None) => SHOWN,
                _ => usize::MAX,
            }),
    })
}
