//! `trug row`: the trial row, what was seen of it, and what it adds up to.

mod add;
mod change;
mod chart;
mod compare;
mod enter;
mod sheet;
mod show;

use std::io::Write;
use std::path::PathBuf;

use anyhow::{Result, anyhow};
use jiff::civil::Date;

use super::bloom_days::bloom_days;
use super::{BadInput, Context};
use crate::folder::order::plan;
use crate::folder::row::{ReadRow, row};
use crate::form::Keyer;
use crate::trial::account::Plant;
use crate::trial::{Advice, EntryContext, Evidence, EvidenceContext, Fit, Neighbours, Subject};
use crate::variety::{FormNote, Varieties, Variety};

/// What `trug row` takes.
#[derive(Debug, clap::Args)]
#[command(args_conflicts_with_subcommands = true)]
pub struct RowArguments {
    /// A seedling's number or the name of a variety on trial; without it the whole row.
    #[arg(value_name = "PLANT")]
    id: Vec<String>,
    /// Shows the plant's days in the vase (by the method of Kaplan and Meier, limits by Greenwood's
    /// error on the log-log scale) and its diameters by day; or writes them as PDF or SVG, each on a
    /// page.
    #[arg(long, value_name = "FILE.pdf|.svg", num_args = 0..=1, requires = "id")]
    chart: Option<Option<PathBuf>>,
    /// The paper of the charts, such as a4 or letter; without it your usual one.
    #[arg(long, value_name = "PAPER", requires = "chart")]
    paper: Option<String>,
    /// What to do with the row.
    #[command(subcommand)]
    what: Option<RowCommand>,
}

/// What can be done to the row.
#[derive(Debug, clap::Subcommand)]
enum RowCommand {
    /// Adds a seedling, or several of one cross.
    Add(add::AddArguments),
    /// Changes a seedling: its number, its parents, where it stands.
    Set(change::SetArguments),
    /// Drops seedlings of which nothing was noted.
    Drop(change::DropArguments),
    /// Notes what you saw: traits, diameters, days in the vase, damage by weather, colour ...
    Note(enter::NoteArguments),
    /// Notes what you decide: keep, hold or cull.
    Decide(enter::DecideArguments),
    /// Tells which of two to four plants lasts longer in the vase, and how sure that is.
    Compare(compare::CompareArguments),
    /// Makes a blank table to fill in by pencil.
    Sheet(sheet::SheetArguments),
    /// Takes a filled-in table back as CSV: all of it, or nothing.
    Import(sheet::ImportArguments),
}

pub(super) fn run(
    arguments: &RowArguments,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    match &arguments.what {
        Some(RowCommand::Add(arguments)) => add::run(arguments, context, out, errors),
        Some(RowCommand::Set(arguments)) => change::set(arguments, context, out, errors),
        Some(RowCommand::Drop(arguments)) => change::drop(arguments, context, out, errors),
        Some(RowCommand::Note(arguments)) => enter::note(arguments, context, out, errors),
        Some(RowCommand::Decide(arguments)) => enter::decide(arguments, context, out, errors),
        Some(RowCommand::Compare(arguments)) => compare::run(arguments, context, out, errors),
        Some(RowCommand::Sheet(arguments)) => sheet::blank(arguments, context, out),
        Some(RowCommand::Import(arguments)) => sheet::import(arguments, context, out, errors),
        None => {
            let workings = Workings::new(context)?;
            let id = arguments.id.join(" ");
            let done = match (&arguments.id[..], &arguments.chart) {
                ([], _) => show::all(&workings, context, out)?,
                // What is drawn as text is in the account for programs already.
                (_, None) => show::one(&id, &workings, context, out)?,
                (_, Some(None)) if context.json => show::one(&id, &workings, context, out)?,
                (_, Some(path)) => {
                    let (path, paper) = (path.as_deref(), arguments.paper.as_deref());
                    chart::run(&id, path, paper, &workings, context, out)?
                }
            };
            tell(&workings.row, errors)?;
            Ok(done)
        }
    }
}

/// The row, and what its evidence is worked out under.
struct Workings {
    row: ReadRow,
    list: Varieties,
    keyer: Keyer,
    neighbours: Neighbours,
}

/// What a subject's entries add up to, what the gate makes of it, and the form that the list has.
struct Standing {
    evidence: Evidence,
    advice: Advice,
    listed: Option<FormNote>,
}

impl Standing {
    fn plant(&self) -> Plant<'_> {
        Plant {
            evidence: &self.evidence,
            advice: &self.advice,
            listed: self.listed.as_ref(),
        }
    }
}

impl Workings {
    fn new(context: &Context) -> Result<Workings> {
        let list = context.varieties()?;
        let keyer = context.keyer();
        Ok(Workings {
            row: row(context.folder.as_deref())?,
            neighbours: Neighbours::of(&list, &keyer.set, &context.contents.words),
            list,
            keyer,
        })
    }

    fn standing(&self, subject: &Subject, context: &Context) -> Standing {
        let under = EvidenceContext {
            keyer: &self.keyer,
            words: &context.contents.words,
            neighbours: &self.neighbours,
        };
        let evidence = self.row.trial.evidence(subject, &under);
        let release = &context.contents.release;
        let advice = release.advise(&evidence, &under, context.units);
        let record = self.record(subject);
        Standing {
            evidence,
            advice,
            listed: record.and_then(|one| one.form_note_under(&self.keyer.set)),
        }
    }

    /// Whom an id means: a plant of the row, a variety by the name that the list has for it.
    fn subject(&self, id: &str) -> Result<Subject> {
        let subject: Subject = id.parse().map_err(bad)?;
        let subject = subject.as_listed(&self.list);
        if self.row.trial.subjects().contains(&subject) {
            return Ok(subject);
        }
        Err(bad(format!(
            "found {subject}, expected a plant of the trial row: `trug row` lists them"
        )))
    }

    /// The list's record of it.
    fn record(&self, subject: &Subject) -> Option<&Variety> {
        match subject {
            Subject::Variety(name) => self.list.find(name).map(|at| &self.list.list()[at]),
            Subject::Seedling(_) => None,
        }
    }

    /// How well it fits each use.
    fn fits(&self, evidence: &Evidence, context: &Context) -> Vec<Fit> {
        let contents = &context.contents;
        let share = contents.tags.practice.observed;
        let record = self.record(&evidence.subject);
        let by = (&self.keyer, &contents.uses);
        evidence.fits(by, &contents.release, share, record, context.units)
    }
}

/// What an entry of a day is checked against; that the day was told, until somebody says that it was
/// not.
fn grounds<'a>(context: &'a Context, list: &'a Varieties, today: Date) -> EntryContext<'a> {
    EntryContext {
        rules: context.set(),
        list,
        words: &context.contents.words,
        units: context.units,
        today,
        day_is_told: true,
        // An order that cannot be read keeps nobody from noting: its days are then not known.
        bloom_days: plan(context.folder.as_deref())
            .ok()
            .flatten()
            .map(|plan| bloom_days(&plan.season)),
    }
}

/// What could not be read of the row, or does not fit together.
fn tell(row: &ReadRow, errors: &mut dyn Write) -> Result<()> {
    for problem in &row.problems {
        writeln!(errors, "trug: {problem}")?;
    }
    Ok(())
}

fn bad(error: impl std::fmt::Display) -> anyhow::Error {
    anyhow!(BadInput(error.to_string()))
}
