//! The edge: arguments, terminal, and the one place that prints an error.

use std::io::{self, Write};
use std::process::ExitCode;

use anyhow::Result;

use trug::command::reopen::Screen;
use trug::command::shown::Shown;
use trug::command::{self, Arguments, BadInput, Context, help, open};
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
            let theme = Theme::told(arguments.common.plain, variable);
            let (mut app, mut edge) = Screen::open(&context, &arguments.common, theme)?;
            let ended = terminal::run(&mut app, &mut edge);
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

/// The text of a variable, empty where it is not set.
fn variable(name: &str) -> String {
    let text = std::env::var_os(name).unwrap_or_default();
    text.to_string_lossy().into_owned()
}

/// `trug ... | head` ends quietly.
fn is_closed_pipe(error: &anyhow::Error) -> bool {
    error
        .downcast_ref::<io::Error>()
        .is_some_and(|error| error.kind() == io::ErrorKind::BrokenPipe)
}
