//! What is asked of `trug order`.

use std::path::PathBuf;
use std::time::{Duration, Instant};

use anyhow::anyhow;
use clap::builder::RangedU64ValueParser;

use crate::command::BadInput;
use crate::order::solve::Progress;

/// What `trug order` takes.
#[derive(Debug, clap::Args)]
pub struct OrderArguments {
    /// Tries another figure: money=450, 'sea wall=20m', 'quay stall bunches=60 30-42 within=8'.
    #[arg(long, value_name = "FIGURE=VALUE")]
    pub(super) set: Vec<String>,
    /// Tries one more need: 'wedding: 40 37-37 colours=plum,wine within=8' (40 stems in week 37).
    #[arg(long, value_name = "NEED")]
    pub(super) add: Vec<String>,
    /// Tries it without a need.
    #[arg(long, value_name = "NEED")]
    pub(super) drop: Vec<String>,
    /// Tries one more event: 'Berry wedding: 2027-09-12 12 table bowl, 8 buttonhole colours=plum,blush'.
    #[arg(long, value_name = "EVENT")]
    pub(super) add_event: Vec<String>,
    /// Tries it without an event.
    #[arg(long, value_name = "EVENT")]
    pub(super) drop_event: Vec<String>,
    /// Tries one more round: 'shop: fridays 10 market bunch 2027-08-13 to 2027-10-01 colours=warm'.
    #[arg(long, value_name = "ROUND")]
    pub(super) add_round: Vec<String>,
    /// Tries it without a round.
    #[arg(long, value_name = "ROUND")]
    pub(super) drop_round: Vec<String>,
    /// Tries one more bed: 'byre length=24m width=1.2m spacing=40cm rows=3'.
    #[arg(long, value_name = "BED")]
    pub(super) add_bed: Vec<String>,
    /// Tries it without a bed.
    #[arg(long, value_name = "BED")]
    pub(super) drop_bed: Vec<String>,
    /// Tries it with a supplier's terms: 'Oar Bulbs postage=7.50 free=250 least=20 closes=2027-02-28'.
    #[arg(long, value_name = "TERMS")]
    pub(super) add_supplier: Vec<String>,
    /// Tries it without a supplier's terms; the offers stay.
    #[arg(long, value_name = "SUPPLIER")]
    pub(super) drop_supplier: Vec<String>,
    /// Tries it with so many tubers of a variety, no more and no fewer; with nothing after the = it
    /// is free again.
    #[arg(long, value_name = "VARIETY=TUBERS")]
    pub(super) fix: Vec<String>,
    /// Tries it with only what is on your shortlist.
    #[arg(long)]
    pub(super) shortlist: bool,
    /// Saves what you tried with the options above; without it nothing is saved.
    #[arg(long)]
    pub(super) save: bool,
    /// Shows only what to order from whom, with packs, cost and postage; or writes it as PDF, each
    /// supplier on a page of its own.
    #[arg(long, value_name = "FILE.pdf", num_args = 0..=1)]
    pub(super) sheet: Option<Option<PathBuf>>,
    /// Shows the stems that are needed and expected each week; or writes the chart as PDF or SVG.
    #[arg(long, value_name = "FILE.pdf|.svg", num_args = 0..=1)]
    pub(super) chart: Option<Option<PathBuf>>,
    /// Settles for a usual season, in which every figure is as planned, and not so that each need is as
    /// sure as it asks for: it costs less and is proved, and a need may go short in other seasons.
    #[arg(long)]
    pub(super) on_average: bool,
    /// Shows what it costs to be surer: that every need is met in 50, 80, 90, 95 and 99 seasons of 100, or
    /// the one, or the event, that you name.
    #[arg(long, value_name = "NEED", num_args = 0..=1)]
    pub(super) surer: Option<Option<String>>,
    /// Shows what grows where in each bed; or draws it to scale as PDF or SVG, every plant a mark.
    #[arg(long, value_name = "FILE.pdf|.svg", num_args = 0..=1)]
    pub(super) beds: Option<Option<PathBuf>>,
    /// Shows what each event and round comes to in stems, by part and week; nothing is solved for it.
    #[arg(long, conflicts_with_all = ["sheet", "chart", "beds", "risk", "why", "calendar", "csv", "season", "begin", "model"])]
    pub(super) work: bool,
    /// Shows how likely each need is met in each week, by seasons drawn at random.
    #[arg(long)]
    pub(super) risk: bool,
    /// Shows which needs and weeks a variety serves, and what doing without it would cost.
    #[arg(long, value_name = "VARIETY")]
    pub(super) why: Vec<String>,
    /// Shows what you should have to work with on a day, such as '12 Sep' or week 37: stems of each
    /// variety, how many of them the needs take, and how many are free.
    #[arg(long, value_name = "DAY")]
    pub(super) have: Option<String>,
    /// Writes the dates for your calendar: order by, pot up, plant, pinch, first cut, lift.
    #[arg(long, value_name = "FILE.ics")]
    pub(super) calendar: Option<PathBuf>,
    /// Writes what to order from whom as a table.
    #[arg(long, value_name = "FILE.csv")]
    pub(super) csv: Option<PathBuf>,
    /// The paper of a PDF, such as a4 or letter; without it your usual one.
    #[arg(long, value_name = "PAPER")]
    pub(super) paper: Option<String>,
    /// Compares a year's harvest with the plan, by the cuts that you noted; while it is the plan's
    /// own year also says how likely the promises that are left are now, and what is free to sell.
    #[arg(long, value_name = "YEAR", value_parser = clap::value_parser!(i16).range(1900..=2200))]
    pub(super) season: Option<i16>,
    /// Goes by what was counted up to this day; without it up to the last count.
    #[arg(long, value_name = "DAY", requires = "season")]
    pub(super) date: Option<String>,
    /// Saves the year's counts, so that the next plan goes by them.
    #[arg(long, requires = "season")]
    pub(super) take_counts: bool,
    /// Makes a first order.ron in a folder that has none, for you to fill in.
    #[arg(long)]
    pub(super) begin: bool,
    /// Stops the search after so many seconds, and says how far the best order found may be from the
    /// cheapest.
    #[arg(long, value_name = "SECONDS", value_parser = RangedU64ValueParser::<u64>::new().range(..=A_DAY))]
    pub(super) seconds: Option<u64>,
    /// Writes the whole plan as an integer program (free MPS), so that any solver can check the
    /// claim.
    #[arg(long, value_name = "FILE")]
    pub(super) model: Option<PathBuf>,
}

/// The longest search, in seconds: a day.
const A_DAY: u64 = 86_400;

impl OrderArguments {
    /// Whether the plan is as it is in its file: nothing else is tried, or what is tried is saved.
    pub(super) fn is_as_saved(&self) -> bool {
        self.save || !(self.shortlist || self.changes())
    }

    /// Whether something was typed that is to be otherwise.
    pub(super) fn changes(&self) -> bool {
        let typed = [
            &self.set,
            &self.add,
            &self.drop,
            &self.add_event,
            &self.drop_event,
            &self.add_round,
            &self.drop_round,
            &self.add_bed,
            &self.drop_bed,
            &self.add_supplier,
            &self.drop_supplier,
            &self.fix,
        ];
        typed.iter().any(|typed| !typed.is_empty())
    }
}

/// Ends a search after so many seconds.
pub(super) fn after(seconds: u64) -> impl FnMut(Progress) -> bool {
    let begun = Instant::now();
    move |_| begun.elapsed() >= Duration::from_secs(seconds)
}

/// What was asked for cannot be.
pub(super) fn bad(error: impl std::fmt::Display) -> anyhow::Error {
    anyhow!(BadInput(error.to_string()))
}
