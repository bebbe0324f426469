//! The plain-text side of everything the screen does: one file a subcommand.

mod bloom_days;
mod book;
mod charted;
mod choose;
mod colour;
mod colour_chart;
mod completing;
pub mod examples;
mod export;
mod field_changed;
mod found;
mod headed;
pub mod help;
mod import;
mod import_report;
mod key;
mod key_csv;
pub mod look;
mod name;
mod narrowing;
pub mod notes;
pub mod open;
mod order;
mod output;
mod palette;
mod pencil;
mod printed;
pub mod reopen;
mod row;
mod rules;
mod rules_compare;
mod rules_printed;
mod rules_show;
mod said;
mod settings;
mod shell;
pub mod shown;
mod side_by_side;
mod start;
mod stock;
mod tag;
mod variety;

use std::io::Write;
use std::path::{Path, PathBuf};

use anyhow::{Result, anyhow};
use clap::{Parser, Subcommand};
use serde_json::Value;

use self::headed::Headed;
use crate::folder::contents::{self, Contents};
use crate::folder::place::Said;
use crate::folder::{Folder, FolderError};
use crate::form::{Keyer, RuleSet};
use crate::measure::day::Calendar;
use crate::measure::{SizeUnits, same_id};
use crate::trial::{EvidenceContext, Neighbours};
use crate::variety::Varieties;

/// What was typed.
#[derive(Debug, Parser)]
#[command(name = "trug", version, about, max_term_width = 100)]
pub struct Arguments {
    /// What every command takes.
    #[command(flatten)]
    pub common: Common,
    /// What to do; the screen opens if left out.
    #[command(subcommand)]
    pub command: Option<Command>,
}

/// What every command takes.
#[derive(Debug, Clone, clap::Args)]
#[command(next_help_heading = "Options of every command")]
pub struct Common {
    /// Uses this folder of yours; without it the one that TRUG_AT names, that you stand in or that is
    /// in its usual place, or the demo.
    #[arg(long, global = true, value_name = "DIR")]
    pub at: Option<PathBuf>,
    /// Goes by this rule set: trade-inch, register-mm or one of your own (`trug rules` lists them).
    #[arg(long, global = true, value_name = "RULES")]
    pub rules: Option<String>,
    /// Shows lengths in inches or millimetres; without it as the rule set has them.
    #[arg(long, global = true, value_name = "in|mm", hide_possible_values = true)]
    pub units: Option<Units>,
    /// Answers with one JSON object, for other programs.
    #[arg(long, global = true)]
    pub json: bool,
    /// Draws with plain letters and no colour.
    #[arg(long, global = true)]
    pub plain: bool,
    /// Replaces a file that is there by the one to be written; without it none is. Files of your
    /// folder are never written over.
    #[arg(long, global = true)]
    pub replace: bool,
}

/// Units as typed.
#[derive(Debug, Clone, Copy, PartialEq, Eq, clap::ValueEnum)]
pub enum Units {
    /// Inches.
    In,
    /// Millimetres.
    Mm,
}

/// The subcommands.
#[derive(Debug, Subcommand)]
pub enum Command {
    /// Keys a bloom: from what you see of it to its form.
    Key(key::KeyArguments),
    /// Finds varieties in your list by words, colour and form, and ranks them for a use.
    Choose(choose::ChooseArguments),
    /// Adds, changes or drops a variety of your list.
    Variety(variety::VarietyArguments),
    /// Shows the trial row, or one plant of it; notes what you see and decide.
    Row(row::RowArguments),
    /// Shows the stock book: tubers lifted, divided, in store, lost, promised and sold; notes them.
    Stock(stock::StockArguments),
    /// Finds the cheapest order that meets every need, or says what is short.
    Order(Box<order::OrderArguments>),
    /// Prints tags for sale, stakes and tuber labels, of every seedling that you keep or of plants
    /// that you name.
    Tag(tag::TagArguments),
    /// Makes a folder of your own.
    Start(start::StartArguments),
    /// Shows your settings (units, frosts, what money is in, your name), or changes them.
    Settings(settings::SettingsArguments),
    /// Takes varieties from a spreadsheet into your list.
    Import(import::ImportArguments),
    /// Writes your list, or a part of it, for a spreadsheet.
    Export(export::ExportArguments),
    /// Names a colour, and finds the varieties nearest to it.
    Colour(colour::ColourArguments),
    /// Checks a name for a new variety against the naming code (ICNCP) and your list.
    Name(name::NameArguments),
    /// Shows, proves and compares the rules for forms; prints a key for the pocket.
    Rules(rules::RulesArguments),
    /// Prints completions of commands, options, ids and names for your shell.
    Completions(shell::CompletionArguments),
    /// Prints the manual page.
    Man,
}

impl Command {
    /// Whether what it answers in words is of the grower's records, or else of the demo's.
    fn reads_folder(&self) -> bool {
        match self {
            Command::Key(arguments) => arguments.by_list,
            Command::Choose(_)
            | Command::Row(_)
            | Command::Stock(_)
            | Command::Order(_)
            | Command::Settings(_)
            | Command::Tag(_)
            | Command::Colour(_)
            | Command::Name(_) => true,
            Command::Start(_)
            | Command::Import(_)
            | Command::Variety(_)
            | Command::Export(_)
            | Command::Rules(_)
            | Command::Completions(_)
            | Command::Man => false,
        }
    }
}

/// What stands first in an answer of the demo.
const DEMO: &str =
    "From the demo, for no folder of your own was found: `trug start DIR` makes one.\n\n";

/// Input that cannot be used: reported in one sentence, exit status 2.
#[derive(Debug)]
pub struct BadInput(pub String);

impl std::fmt::Display for BadInput {
    fn fmt(&self, f: &mut std::fmt::Formatter<'_>) -> std::fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for BadInput {}

/// What a command works with: as meant, no longer as typed.
#[derive(Debug)]
pub struct Context {
    /// Where the grower's folder is; `None` for the demo.
    pub folder: Option<PathBuf>,
    /// What the folder holds, the list apart.
    pub contents: Contents,
    /// Which of them is used.
    pub used: usize,
    /// Units for lengths.
    pub units: SizeUnits,
    /// Whether to answer in JSON.
    pub json: bool,
    /// Whether to draw with ASCII alone.
    pub plain: bool,
    /// Whether a file that is there may be replaced by one that is written for others.
    pub replace: bool,
}

impl Context {
    /// From what was typed; what is wrong with the folder's rule sets is written to `errors`.
    ///
    /// # Errors
    /// [`BadInput`] where a rule set is named that is not there.
    pub fn new(common: &Common, errors: &mut dyn Write) -> Result<Context> {
        let folder = Said::of(common.at.as_deref())
            .find()
            .map_err(|error| match error {
                FolderError::NoFolder(_) => anyhow!(BadInput(error.to_string())),
                error => anyhow!(error),
            })?;
        let contents = Contents::load(folder.as_deref())?;
        for problem in &contents.problems {
            writeln!(errors, "trug: {problem}")?;
        }
        let used = match common.rules.as_ref().or(contents.settings.rules.as_ref()) {
            None => 0,
            Some(id) => find_set(&contents.sets, id)?,
        };
        let units = match common.units {
            Some(Units::In) => SizeUnits::In,
            Some(Units::Mm) => SizeUnits::Mm,
            None => contents.settings.units.unwrap_or(contents.sets[used].units),
        };
        Ok(Context {
            folder,
            contents,
            used,
            units,
            json: common.json,
            plain: common.plain,
            replace: common.replace,
        })
    }

    /// Answers another program with one object, in which `demo` says whether it is of the demo.
    fn print(&self, out: &mut dyn Write, mut object: Value) -> Result<()> {
        object["demo"] = self.folder.is_none().into();
        Ok(shown::write_object(out, &object)?)
    }

    /// What a day is read by that was typed as one that is over.
    fn calendar(&self) -> Calendar {
        Calendar::noting(today(), self.contents.settings.days)
    }

    /// The rule set that is used.
    pub fn set(&self) -> &RuleSet {
        &self.contents.sets[self.used]
    }

    /// The grower's list, or the demo's.
    ///
    /// # Errors
    /// Where the list cannot be read, with the place of what is wrong.
    pub fn varieties(&self) -> Result<Varieties> {
        Ok(contents::varieties(self.folder.as_deref())?)
    }

    /// The grower's own folder, to write in.
    ///
    /// # Errors
    /// [`BadInput`] where there is none: the demo is not written to.
    fn own_folder(&self) -> Result<&Path> {
        self.folder.as_deref().ok_or_else(|| {
            anyhow!(BadInput(
                "found no folder of your own, expected one: `trug start DIR` lays it out, and the demo is never written to".to_string()
            ))
        })
    }

    /// The list with the trial row's evidence of its varieties and the stock book's counts taken in: to
    /// choose by, never to be saved.
    ///
    /// # Errors
    /// Where the list or the row's seedlings cannot be read.
    fn varieties_with_evidence(&self) -> Result<Varieties> {
        let list = self.varieties()?;
        let folder = self.folder.as_deref();
        let trial = crate::folder::row::row(folder)?.trial;
        let stock = crate::folder::stock::stock(folder, &trial)?.stock;
        let list = stock.informed(&list, self.contents.planted);
        let (keyer, neighbours) = (self.keyer(), Neighbours::default());
        let under = EvidenceContext {
            keyer: &keyer,
            words: &self.contents.words,
            neighbours: &neighbours,
        };
        Ok(trial.informed(&list, &under, self.contents.release.least.credence))
    }

    /// A keyer for the rule set that is used, all forms alike before the first answer: what is said
    /// of a bloom or a plant rests on its looks alone, and is the same in every command and on the
    /// screen, whatever the list holds.
    pub fn keyer(&self) -> Keyer {
        Keyer::even(self.set().clone())
    }

    /// The same for every rule set, the one that is used first.
    fn keyers(&self) -> Vec<Keyer> {
        let sets = self.contents.sets.iter().cloned();
        let mut keyers: Vec<Keyer> = sets.map(Keyer::even).collect();
        keyers.rotate_left(self.used);
        keyers
    }

    /// A keyer for the rule set that is used, its forms as common as in the grower's list: only where
    /// that is asked for.
    ///
    /// # Errors
    /// Where the list cannot be read.
    pub fn keyer_by_list(&self) -> Result<Keyer> {
        let (set, list) = (self.set(), self.varieties()?);
        Ok(Keyer::from_counts(set.clone(), &list.form_counts(set)))
    }
}

/// Opens a folder to write in. Another program that has it is waited for some seconds, and `errors` is
/// told which.
///
/// # Errors
/// Where there is no such folder.
fn open_to_write(dir: &Path, errors: &mut dyn Write) -> Result<Folder> {
    let mut tell = |waiting: &str| {
        // OK to ignore: where standard error is closed there is nobody to tell.
        let _ = writeln!(errors, "trug: {waiting}");
    };
    Ok(Folder::open_patiently(dir, &now(), &mut tell)?)
}

/// The time as other programs are to show it: since when this one has the folder.
fn now() -> String {
    jiff::ZonedDateTime::now()
        .strftime("%H:%M on %-d %B")
        .to_string()
}

/// The time in UTC, as files carry it.
fn now_utc() -> jiff::civil::DateTime {
    jiff::ZonedDateTime::now()
        .with_time_zone(jiff::tz::TimeZone::UTC)
        .datetime()
}

/// The day as the clock of this machine has it.
fn today() -> jiff::civil::Date {
    jiff::ZonedDateTime::now().date()
}

/// The year whose season is planned: before the tubers are planted this one, then the next.
fn season_ahead() -> i16 {
    crate::order::season_ahead(today())
}

/// The index of a rule set.
///
/// # Errors
/// [`BadInput`] that names the sets there are.
pub(crate) fn find_set(sets: &[RuleSet], id: &str) -> Result<usize> {
    let known = || {
        sets.iter()
            .map(|set| set.id.as_str())
            .collect::<Vec<_>>()
            .join(", ")
    };
    let found = sets.iter().position(|set| same_id(id, &set.id));
    found.ok_or_else(|| {
        anyhow!(BadInput(format!(
            "found the rule set {id:?}, expected one of {}",
            known()
        )))
    })
}

/// Does what was asked; answers `false` where a part of it could not be done and was reported.
///
/// # Errors
/// [`BadInput`], or what kept the command from doing its work.
pub fn run(
    command: &Command,
    context: &Context,
    out: &mut dyn Write,
    errors: &mut dyn Write,
) -> Result<bool> {
    let from_demo = context.folder.is_none() && !context.json && command.reads_folder();
    let mut out = Headed::new(out, if from_demo { DEMO } else { "" });
    let out: &mut dyn Write = &mut out;
    match command {
        Command::Key(arguments) => key::run(arguments, context, out, errors),
        Command::Choose(arguments) => choose::run(arguments, context, out),
        Command::Colour(arguments) => colour::run(arguments, context, out),
        Command::Order(arguments) => order::run(arguments, context, out, errors),
        Command::Variety(arguments) => variety::run(arguments, context, out, errors),
        Command::Row(arguments) => row::run(arguments, context, out, errors),
        Command::Stock(arguments) => stock::run(arguments, context, out, errors),
        Command::Name(arguments) => name::run(arguments, context, out),
        Command::Tag(arguments) => tag::run(arguments, context, out, errors),
        Command::Start(arguments) => start::run(arguments, context.json, out),
        Command::Settings(arguments) => settings::run(arguments, context, out, errors),
        Command::Rules(arguments) => rules::run(arguments, context, out),
        Command::Import(arguments) => import::run(arguments, context, out, errors),
        Command::Export(arguments) => export::run(arguments, context, out),
        Command::Completions(_) | Command::Man => about_itself(command, out).unwrap_or(Ok(true)),
    }
}

/// What needs no folder, so that a broken one is not in its way; `None` of every other command.
pub fn about_itself(command: &Command, out: &mut dyn Write) -> Option<Result<bool>> {
    match command {
        Command::Completions(arguments) => Some(shell::completions(arguments, out)),
        Command::Man => Some(shell::manual(out)),
        _ => None,
    }
}
