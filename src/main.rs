//! The edge: arguments, terminal, and the one place that prints an error.

use std::io::{self, Write};
use std::process::ExitCode;

use anyhow::Result;
use clap::Parser;

use trug::command::{self, Arguments, BadInput, Context};
use trug::screen::theme::Theme;
use trug::screen::{App, terminal};

/// Bad input.
const BAD_INPUT: u8 = 2;
/// What was asked could not be done.
const COULD_NOT: u8 = 1;

fn main() -> ExitCode {
    match run(&Arguments::parse()) {
        Ok(true) => ExitCode::SUCCESS,
        Ok(false) => ExitCode::from(COULD_NOT),
        Err(error) if is_closed_pipe(&error) => ExitCode::SUCCESS,
        Err(error) => {
            // OK to ignore: where standard error is closed there is nobody to tell.
            let _ = writeln!(io::stderr(), "trug: {error:#}");
            let bad = error.downcast_ref::<BadInput>().is_some();
            ExitCode::from(if bad { BAD_INPUT } else { COULD_NOT })
        }
    }
}

fn run(arguments: &Arguments) -> Result<bool> {
    let context = Context::new(&arguments.common, &mut io::stderr())?;
    match &arguments.command {
        Some(command) => {
            let mut out = io::BufWriter::new(io::stdout().lock());
            let done = command::run(command, &context, &mut out, &mut io::stderr())?;
            out.flush()?;
            Ok(done)
        }
        None => {
            let theme = if arguments.common.plain
                || std::env::var_os("NO_COLOR").is_some_and(|set| !set.is_empty())
            {
                Theme::Plain
            } else {
                Theme::Colours
            };
            let sets = &context.contents.sets;
            terminal::run(App::under(sets, context.used, context.units, theme))?;
            Ok(true)
        }
    }
}

/// `trug ... | head` ends quietly.
fn is_closed_pipe(error: &anyhow::Error) -> bool {
    error
        .downcast_ref::<io::Error>()
        .is_some_and(|error| error.kind() == io::ErrorKind::BrokenPipe)
}
