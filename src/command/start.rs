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
use crate::folder::{FolderError, place, text};
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

/// Makes a folder with these settings: empty, or with the demo's records in it.
///
/// # Errors
/// As [`place::start`].
pub(super) fn lay_out(dir: &Path, demo: bool, settings: &Settings) -> Result<LaidOut> {
    let list = if demo {
        varieties(None)?
    } else {
        Varieties::default()
    };
    let order = match demo {
        true => (demo_file().0, demo_file().1.to_string()),
        false => blank_file(super::season_ahead(), settings.usual_frosts()),
    };
    let own = [
        (VARIETIES, list.write()?),
        order,
        (SETTINGS, text::write_value(settings)?),
    ];
    let mut files: Vec<(&'static str, &str)> = (own.iter())
        .map(|(name, text)| (*name, text.as_str()))
        .collect();
    if demo {
        files.extend(demo_files());
    }
    place::start(dir, &files, &super::now())?;
    Ok(LaidOut {
        files: files.iter().map(|(name, _)| *name).collect(),
        varieties: list.len(),
    })
}

pub(super) fn run(arguments: &StartArguments, json: bool, out: &mut dyn Write) -> Result<bool> {
    let laid_out = lay_out(&arguments.folder, arguments.demo, &Settings::default());
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
