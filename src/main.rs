//! The edge: arguments, terminal, and the one place that prints an error.

use std::io::{self, Write};
use std::process::ExitCode;

use anyhow::Result;

use trug::command::shown::Shown;
use trug::command::{self, Arguments, BadInput, Context, help, look, open};
use trug::screen::terminal::{self, Ended};
use trug::screen::theme::Theme;

/// Bad input.
const BAD_INPUT: u8 = 2;
/// What was asked could not be done.
const COULD_NOT: u8 = 1;
/// A signal ended it: as shells have it, this and the signal's number.
const BY_SIGNAL: u8 = 128;

fn main() -> ExitCode {
    match run(&help::arguments()) {
        Ok(code) => code,
        Err(error) if is_closed_pipe(&error) => ExitCode::SUCCESS,
        Err(error) => {
            // OK to ignore: where standard error is closed there is nobody to tell.
            let _ = writeln!(Shown::new(io::stderr()), "trug: {error:#}");
            let bad = error.downcast_ref::<BadInput>().is_some();
            ExitCode::from(if bad { BAD_INPUT } else { COULD_NOT })
        }
    }
}

fn run(arguments: &Arguments) -> Result<ExitCode> {
    if let Some(command) = &arguments.command
        && let Some(done) = command::about_itself(command, &mut Shown::new(io::stdout().lock()))
    {
        return done.map(whole_or_part);
    }
    let mut errors = Shown::new(io::stderr());
    let context = Context::new(&arguments.common, &mut errors)?;
    match &arguments.command {
        Some(command) => {
            let mut out = Shown::new(io::BufWriter::new(io::stdout().lock()));
            let done = command::run(command, &context, &mut out, &mut errors)?;
            out.flush()?;
            Ok(whole_or_part(done))
        }
        None => {
            let (mut app, mut saver) = open::screen(&context, theme(arguments.common.plain))?;
            let ended = terminal::run(&mut app, |change| saver.save(change), look::look);
            // However it ended.
            let kept = open::put_aside(&app);
            if let Err(told) = &kept {
                // OK to ignore: where standard error is closed there is nobody to tell.
                let _ = writeln!(io::stderr(), "trug: {told}");
            }
            Ok(match ended? {
                Ended::Quit => whole_or_part(kept.is_ok()),
                Ended::Signal(signal) => ExitCode::from(BY_SIGNAL.saturating_add(signal)),
            })
        }
    }
}

/// All of it was done, or part of it could not be.
fn whole_or_part(done: bool) -> ExitCode {
    match done {
        true => ExitCode::SUCCESS,
        false => ExitCode::from(COULD_NOT),
    }
}

/// The colours that were asked for and that the terminal says it has.
fn theme(plain: bool) -> Theme {
    let says = |name: &str| std::env::var_os(name).unwrap_or_default();
    let is = |name: &str, values: &[&str]| values.iter().any(|one| says(name) == *one);
    // The fonts of a text console have blocks and no dots.
    let (dumb, console) = (is("TERM", &["dumb"]), is("TERM", &["linux"]));
    let colourless = !says("NO_COLOR").is_empty();
    if plain || dumb || (console && colourless) {
        Theme::Ascii
    } else if colourless {
        Theme::Plain
    } else if console {
        Theme::Console
    } else if is("COLORTERM", &["truecolor", "24bit"]) {
        Theme::AllColours
    } else {
        Theme::Colours
    }
}

/// `trug ... | head` ends quietly.
fn is_closed_pipe(error: &anyhow::Error) -> bool {
    error
        .downcast_ref::<io::Error>()
        .is_some_and(|error| error.kind() == io::ErrorKind::BrokenPipe)
}
