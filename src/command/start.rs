//! `trug start DIR`: a folder to call one's own.

use std::io::Write;
use std::path::{Path, PathBuf};

use anyhow::{Result, anyhow};

use super::BadInput;
use super::shown::write_object;
use crate::folder::contents::{VARIETIES, varieties};
use crate::folder::order::{blank_file, demo_file};
use crate::folder::row::demo_files;
use crate::folder::settings::{SETTINGS, Settings};
use crate::folder::stock;
use crate::folder::{FolderError, place, settled, text};
use crate::form::traits::list_and;
use crate::variety::Varieties;

/// What `trug start` takes.
#[derive(Debug, clap::Args)]
pub struct StartArguments {
    /// The new folder; files that are there already are never written over.
    #[arg(value_name = "DIR")]
    folder: PathBuf,
    /// Begins with the demo's list, trial row and order; without it all are empty.
    #[arg(long)]
    demo: bool,
}

/// What was laid out.
pub(super) struct LaidOut {
    /// The names of the files.
    pub(super) files: Vec<&'static str>,
    /// How many varieties the list has.
    pub(super) varieties: usize,
}

/// What a folder begins with.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Holds {
    /// No records: an order is begun on the screen.
    Nothing,
    /// No varieties and seedlings, and a first order to be changed by hand.
    AnOrder,
    /// The demo's list, row and order.
    Demo,
}

/// Makes a folder with these settings.
///
/// # Errors
/// As [`place::start`].
pub(super) fn lay_out(dir: &Path, holds: Holds, settings: &Settings) -> Result<LaidOut> {
    let list = if holds == Holds::Demo {
        varieties(None)?
    } else {
        Varieties::default()
    };
    let order = match holds {
        Holds::Nothing => None,
        Holds::AnOrder => Some(blank_file(super::season_ahead(), settings.usual_frosts())),
        Holds::Demo => Some((demo_file().0, demo_file().1.to_string())),
    };
    let mut own = vec![(VARIETIES, list.write()?)];
    own.extend(order);
    own.push((SETTINGS, text::write_value(settings)?));
    let mut files: Vec<(&'static str, &str)> = (own.iter())
        .map(|(name, text)| (*name, text.as_str()))
        .collect();
    if holds == Holds::Demo {
        files.extend(demo_files());
        files.push(stock::demo_file());
    }
    let names = files.iter().map(|(name, _)| *name).collect();
    if holds == Holds::Demo {
        // No record: it can be made again at any time.
        files.push(settled::demo_file());
    }
    place::start(dir, &files, &super::now())?;
    Ok(LaidOut {
        files: names,
        varieties: list.len(),
    })
}

pub(super) fn run(arguments: &StartArguments, json: bool, out: &mut dyn Write) -> Result<bool> {
    let holds = match arguments.demo {
        true => Holds::Demo,
        false => Holds::AnOrder,
    };
    let laid_out = lay_out(&arguments.folder, holds, &Settings::default());
    let laid_out = laid_out.map_err(|error| match error.downcast::<FolderError>() {
        Ok(error @ FolderError::Exists(_)) => anyhow!(BadInput(error.to_string())),
        Ok(error) => anyhow!(error),
        Err(error) => error,
    })?;
    let shown = arguments.folder.display();
    if json {
        let object = serde_json::json!({ "folder": shown.to_string(), "files": laid_out.files, "varieties": laid_out.varieties });
        write_object(out, &object)?;
    } else {
        writeln!(
            out,
            "{shown} is ready, with {}: {} varieties.",
            list_and(&laid_out.files),
            laid_out.varieties
        )?;
        writeln!(
            out,
            "Use it with --at {shown}; edited rule sets go into {shown}/rules."
        )?;
    }
    Ok(true)
}
