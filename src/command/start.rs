//! `trug start DIR`: a folder to call one's own.

use std::io::Write;
use std::path::PathBuf;

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

pub(super) fn run(arguments: &StartArguments, json: bool, out: &mut dyn Write) -> Result<bool> {
    let list = if arguments.demo {
        varieties(None)?
    } else {
        Varieties::default()
    };
    let order = match arguments.demo {
        true => (demo_file().0, demo_file().1.to_string()),
        false => blank_file(super::season_ahead()),
    };
    let own = [
        (VARIETIES, list.write()?),
        order,
        (SETTINGS, text::write_value(&Settings::default())?),
    ];
    let own = own.each_ref().map(|(name, text)| (*name, text.as_str()));
    let mut files = own.to_vec();
    if arguments.demo {
        files.extend(demo_files());
    }
    place::start(&arguments.folder, &files, &super::now()).map_err(|error| match error {
        FolderError::Exists(_) => anyhow!(BadInput(error.to_string())),
        error => anyhow!(error),
    })?;
    let shown = arguments.folder.display();
    let names: Vec<&str> = files.iter().map(|(name, _)| *name).collect();
    if json {
        let object = serde_json::json!({ "folder": shown.to_string(), "files": names, "varieties": list.len() });
        write_object(out, &object)?;
    } else {
        writeln!(
            out,
            "{shown} is ready, with {}: {} varieties.",
            list_and(&names),
            list.len()
        )?;
        writeln!(
            out,
            "Use it with --at {shown}; edited rule sets go into {shown}/rules."
        )?;
    }
    Ok(true)
}
