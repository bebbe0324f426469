//! The parser of the command line as it is: the arguments of every command, with the words that it
//! understands and the examples at the end of its help.

use std::io::{self, Write as _};

use clap::{Command, CommandFactory, FromArgMatches};

use super::shown::shown;
use super::{Arguments, examples, notes};
use crate::account::text::wrap;
use crate::colour::Vocabulary as ColourWords;
use crate::folder::settings::Settings;
use crate::form::{RuleSet, Traits};
use crate::measure::SizeUnits;
use crate::measure::day::Calendar;
use crate::order::{Need, Pieces, Plan, PlanGround, Terms, UsualFrosts, Work};
use crate::problem::steers;
use crate::record::{Field, Fields};
use crate::settings::SettingsGround;
use crate::stock::read::WORDS as STOCK_WORDS;
use crate::trial::Sowing;
use crate::trial::read::WORDS;
use crate::variety::{Draft, IndexContext, Uses, Varieties};

/// The columns of a terminal that are taken as sure.
const COLUMNS: usize = 80;

/// Reads what was typed; where that makes no sense or asks for help, says so and ends the program.
pub fn arguments() -> Arguments {
    let mut parser = parser();
    let matches = parser.try_get_matches_from_mut(std::env::args_os());
    let read = matches.and_then(|matches| Arguments::from_arg_matches(&matches));
    read.unwrap_or_else(|error| told(error.format(&mut parser)))
}

/// Says what the parser says, help or an error, and ends the program. An argument in it that would
/// steer the terminal is shown, and then the whole stands there without its bold letters.
fn told(error: clap::Error) -> ! {
    let plain = |word: std::ffi::OsString| !word.to_string_lossy().chars().any(steers);
    if std::env::args_os().all(plain) {
        error.exit()
    }
    let safe = shown(&error.render().to_string());
    // OK to ignore: where the stream is closed there is nobody to tell.
    let _ = match error.use_stderr() {
        true => io::stderr().write_all(safe.as_bytes()),
        false => io::stdout().write_all(safe.as_bytes()),
    };
    std::process::exit(error.exit_code())
}

/// The parser, with everything that help shows.
pub fn parser() -> Command {
    with_ending(Arguments::command(), "")
}

/// A command and all below it, each with the end of its help. `words` are what it is called by.
fn with_ending(command: Command, words: &str) -> Command {
    let command = command.after_help(ending(words));
    command.mut_subcommands(|below| {
        let words = format!("{words} {}", below.get_name());
        with_ending(below, words.trim_start())
    })
}

/// What stands below the options of a command.
fn ending(words: &str) -> String {
    let mut lines = Vec::new();
    if let Some(vocabulary) = Vocabulary::of(words) {
        lines.extend(vocabulary.lines());
        lines.push(String::new());
    }
    if let [first, rest @ ..] = notes::of(words) {
        lines.push("Good to know:".to_string());
        lines.extend(paragraph(first));
        for note in rest {
            lines.push(String::new());
            lines.extend(paragraph(note));
        }
        lines.push(String::new());
    }
    lines.push("Examples:".to_string());
    for example in examples::of(words) {
        lines.push(format!("  {}", example.line));
        lines.push(format!("      {}", example.does));
    }
    lines.join("\n")
}

/// A note in lines that are set in as the rest is.
fn paragraph(note: &str) -> impl Iterator<Item = String> {
    let lines = wrap(note, COLUMNS - 2);
    lines.into_iter().map(|line| format!("  {line}"))
}

/// Words that stand before `=` on the command line, and what may stand after it.
pub(super) struct Vocabulary {
    pub(super) heading: &'static str,
    pub(super) words: Vec<(String, String)>,
}

/// Fields of a record, each with what it means and what may stand there.
fn fields(heading: &'static str, all: Vec<Field>) -> Vocabulary {
    let told = |field: Field| {
        (
            field.key.to_string(),
            format!("{} {}", field.means, field.takes),
        )
    };
    Vocabulary {
        heading,
        words: all.into_iter().map(told).collect(),
    }
}

impl Vocabulary {
    /// What the command that is called by `words` understands, where that is more than its options.
    pub(super) fn of(words: &str) -> Option<Vocabulary> {
        match words {
            "key" => Some(Vocabulary {
                heading: "Traits",
                words: (Traits::embedded().list().iter())
                    .map(|one| (one.id.clone(), one.expected_answer()))
                    .collect(),
            }),
            "variety add" | "variety set" => {
                let heading = "Fields; of several alike the second is colour-2, price-2";
                Some(fields(heading, Draft::described()))
            }
            "row add" | "row set" => Some(fields("Fields", Sowing::described())),
            "row note" => Some(Vocabulary {
                heading: "Words, beside the traits of `trug key`",
                words: (WORDS.iter())
                    .map(|word| (word.id.to_string(), word.expected.to_string()))
                    .collect(),
            }),
            "stock note" => Some(Vocabulary {
                heading: "Words",
                words: (STOCK_WORDS.iter())
                    .map(|word| (word.id.to_string(), word.expected.to_string()))
                    .collect(),
            }),
            "order" => Some(Vocabulary {
                heading: "Words of --add (need), --add-bed (bed) and --add-supplier (terms)",
                words: of_a_plan(),
            }),
            "settings set" => {
                let rules: Vec<String> = { RuleSet::embedded().into_iter() }
                    .map(|set| set.id)
                    .collect();
                let (rules, year) = (&rules[..], super::season_ahead());
                let fields = Settings::default().fields(SettingsGround { rules, year });
                Some(Vocabulary {
                    heading: "Settings",
                    words: fields.iter().map(|field| said("", field)).collect(),
                })
            }
            _ => None,
        }
    }

    /// A word a line, with what goes on from it set in below.
    fn lines(&self) -> Vec<String> {
        let widest = (self.words.iter()).map(|(word, _)| word.len()).max();
        let indent = widest.unwrap_or(0) + 4;
        let mut lines = vec![format!("{}:", self.heading)];
        for (word, expected) in &self.words {
            for (at, part) in wrap(expected, COLUMNS - indent).iter().enumerate() {
                let word = if at == 0 { word } else { "" };
                lines.push(format!("  {word:<width$}{part}", width = indent - 2));
            }
        }
        lines
    }
}
/// The words of a plan's records.
fn of_a_plan() -> Vec<(String, String)> {
    let frosts = UsualFrosts::default();
    let Ok(plan) = Plan::blank(super::season_ahead(), frosts) else {
        return Vec::new();
    };
    let (rules, list) = (RuleSet::embedded(), Varieties::default());
    let (uses, words) = (Uses::embedded(), ColourWords::embedded());
    let pieces = Pieces::embedded();
    let ground = PlanGround {
        plan: &plan,
        at: None,
        grounds: IndexContext {
            rules: &rules[0],
            uses: &uses,
            words: &words,
            stems_a_plant: 1.0,
            season: None,
        },
        list: &list,
        units: SizeUnits::Mm,
        days: Calendar::FILES,
        pieces: &pieces,
        palette: &[],
    };
    let of = |kind: &str, fields: Vec<Field>| -> Vec<(String, String)> {
        let named = |field: &&Field| field.key.word != "name";
        fields
            .iter()
            .filter(named)
            .map(|field| said(kind, field))
            .collect()
    };
    let need = of("need ", Need::fresh(&plan).fields(ground));
    let bed = of("bed ", plan.beds[0].fields(ground));
    let terms = of("terms ", Terms::fresh(ground).fields(ground));
    let event = of("event ", Work::fresh_event(&plan, &pieces).fields(ground));
    let round = Work::fresh_round(&plan, &pieces).fields(ground);
    let own = |field: &Field| ["every", "from", "to"].contains(&field.key.word);
    let round = of("round ", round.into_iter().filter(own).collect());
    [need, event, round, bed, terms].concat()
}

/// A field's word, and what may stand there.
fn said(kind: &str, field: &Field) -> (String, String) {
    let said = format!("{} {}", field.means, field.takes);
    (format!("{kind}{}", field.key), said)
}
