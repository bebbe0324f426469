//! The parser of the command line as it is: the arguments of every command, with the words that it
//! understands and the examples at the end of its help.

use clap::{Command, CommandFactory, FromArgMatches};

use super::{Arguments, examples};
use crate::account::text::wrap;
use crate::form::Traits;
use crate::trial::read::WORDS;

/// The columns of a terminal that are taken as sure.
const COLUMNS: usize = 80;

/// Reads what was typed; where that makes no sense or asks for help, says so and ends the program.
pub fn arguments() -> Arguments {
    let mut parser = parser();
    let matches = parser.get_matches_mut();
    Arguments::from_arg_matches(&matches).unwrap_or_else(|error| error.format(&mut parser).exit())
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
    lines.push("Examples:".to_string());
    for example in examples::of(words) {
        lines.push(format!("  {}", example.line));
        lines.push(format!("      {}", example.does));
    }
    lines.join("\n")
}

/// Words that stand before `=` on the command line, and what may stand after it.
pub(super) struct Vocabulary {
    pub(super) heading: &'static str,
    pub(super) words: Vec<(String, String)>,
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
            "row note" => Some(Vocabulary {
                heading: "Words, beside the traits of `trug key`",
                words: (WORDS.iter())
                    .map(|word| (word.id.to_string(), word.expected.to_string()))
                    .collect(),
            }),
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
