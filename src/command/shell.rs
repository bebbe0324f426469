//! `trug completions` and `trug man`: what a shell and its manual want to know of the program.

use std::io::{self, Write};

use anyhow::Result;
use clap::Command;
use clap_complete::{Shell, generate};
use clap_mangen::Man;
use clap_mangen::roff::{Roff, roman};

use super::help::Vocabulary;
use super::{completing, examples, help, notes};

/// What `trug completions` takes.
#[derive(Debug, clap::Args)]
pub struct CompletionArguments {
    /// Your shell.
    #[arg(value_name = "SHELL")]
    shell: Shell,
    /// Lists in place of the script what may come next on a line of trug: the script asks so.
    #[arg(long, value_name = "LINE", allow_hyphen_values = true)]
    line: Option<String>,
}

/// What a script does beside what it completes by itself: it asks for ids and names.
const ASKS: [(Shell, &str); 3] = [
    (Shell::Bash, include_str!("completing/bash.sh")),
    (Shell::Zsh, include_str!("completing/zsh.sh")),
    (Shell::Fish, include_str!("completing/fish.fish")),
];

pub(super) fn completions(arguments: &CompletionArguments, out: &mut dyn Write) -> Result<bool> {
    if let Some(line) = &arguments.line {
        for word in completing::offered(line) {
            writeln!(out, "{word}")?;
        }
        return Ok(true);
    }
    let mut script = Vec::new();
    generate(arguments.shell, &mut help::parser(), "trug", &mut script);
    out.write_all(&script)?;
    if let Some((_, asks)) = ASKS.iter().find(|(shell, _)| *shell == arguments.shell) {
        out.write_all(asks.as_bytes())?;
    }
    Ok(true)
}

/// One page for the program and all its commands, each under a heading of its own.
pub(super) fn manual(out: &mut dyn Write) -> Result<bool> {
    let parser = help::parser();
    let page = Man::new(parser.clone().disable_help_subcommand(true)).manual("User Commands");
    page.render_title(out)?;
    page.render_name_section(out)?;
    page.render_synopsis_section(out)?;
    section("DESCRIPTION", &[DESCRIPTION], out)?;
    page.render_options_section(out)?;
    write_notes("SH", "", out)?;
    write_examples("SH", "", out)?;
    for command in parser.get_subcommands() {
        write_command(command, command.get_name(), out)?;
    }
    Ok(true)
}

/// What the program is, where nobody has seen it.
const DESCRIPTION: &str = "Without a command trug opens its screen. Every command does in plain \
    text what a page of the screen does. With no folder of your own, all of them show the demo.";

/// A command under a heading of its own, and then those below it.
fn write_command(command: &Command, words: &str, out: &mut dyn Write) -> io::Result<()> {
    let name = format!("trug {words}");
    let about = command.get_about().map(ToString::to_string);
    section(&name.to_uppercase(), &[&about.unwrap_or_default()], out)?;
    let named = command.clone().bin_name(&name).display_name(&name);
    let page = Man::new(named.disable_help_flag(true).disable_help_subcommand(true));
    let mut text = Vec::new();
    page.render_synopsis_section(&mut text)?;
    if command.get_arguments().next().is_some() {
        page.render_options_section(&mut text)?;
    }
    // Inside a command's section all headings are one level lower.
    let text = String::from_utf8_lossy(&text).replace(".SH ", ".SS ");
    out.write_all(text.as_bytes())?;
    if let Some(vocabulary) = Vocabulary::of(words) {
        let pairs = vocabulary.words.iter();
        let pairs = pairs.map(|(word, expected)| (word.as_str(), expected.as_str()));
        write_pairs("SS", &vocabulary.heading.to_uppercase(), pairs, out)?;
    }
    write_notes("SS", words, out)?;
    write_examples("SS", words, out)?;
    for below in command.get_subcommands() {
        write_command(below, &format!("{words} {}", below.get_name()), out)?;
    }
    Ok(())
}

fn section(heading: &str, text: &[&str], out: &mut dyn Write) -> io::Result<()> {
    let mut roff = Roff::new();
    roff.control("SH", [heading]);
    for line in text {
        roff.text([roman(*line)]);
    }
    roff.to_writer(out)
}

/// What is good to know of a command, under a heading of this level.
fn write_notes(level: &str, words: &str, out: &mut dyn Write) -> io::Result<()> {
    let notes = notes::of(words);
    if notes.is_empty() {
        return Ok(());
    }
    let mut roff = Roff::new();
    roff.control(level, ["GOOD TO KNOW"]);
    for note in notes {
        roff.control("PP", []);
        roff.text([roman(*note)]);
    }
    roff.to_writer(out)
}

/// The examples of a command, under a heading of this level.
fn write_examples(level: &str, words: &str, out: &mut dyn Write) -> io::Result<()> {
    let examples = examples::of(words).iter();
    let pairs = examples.map(|example| (example.line, example.does));
    write_pairs(level, "EXAMPLES", pairs, out)
}

/// Words with what they mean set in below, under a heading of this level.
fn write_pairs<'a>(
    level: &str,
    heading: &str,
    pairs: impl Iterator<Item = (&'a str, &'a str)>,
    out: &mut dyn Write,
) -> io::Result<()> {
    let mut roff = Roff::new();
    roff.control(level, [heading]);
    for (word, means) in pairs {
        roff.control("TP", []);
        roff.text([roman(word)]);
        roff.text([roman(means)]);
    }
    roff.to_writer(out)
}
