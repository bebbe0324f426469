//! What the screen asks to look at: a folder to choose a file from, a table to read in.

use std::path::{Path, PathBuf};

use crate::folder::browse;
use crate::folder::sheet::{self, SheetError};
use crate::screen::import::{Asked, Found, Listing, Named};
use crate::variety::exchange::Intake;

/// Looks at what the screen asks for.
pub fn look(asked: Asked<'_>) -> Found {
    match asked {
        Asked::Folder(typed) => Found::Folder(listing(typed)),
        Asked::Table(typed) => Found::Table(table(typed)),
    }
}

fn listing(typed: &str) -> Result<Listing, String> {
    let path = meant(typed);
    let found = browse::names(&path)?;
    let shown = std::path::absolute(&path).unwrap_or(path);
    let named = |(name, is_folder)| Named { name, is_folder };
    Ok(Listing {
        typed: typed.to_string(),
        shown: shown.display().to_string(),
        names: found.names.into_iter().map(named).collect(),
        more: found.more,
    })
}

fn table(typed: &str) -> Result<Intake, String> {
    let read = sheet::read(&meant(typed), None).map_err(|error| match error {
        SheetError::Asked(told) | SheetError::File(told) => told,
    })?;
    Ok(Intake::new(read.table))
}

/// The path that is meant: `~` is the home folder, nothing the folder that the program was started in.
fn meant(typed: &str) -> PathBuf {
    let home = || etcetera::home_dir().ok();
    let rest = typed
        .strip_prefix('~')
        .filter(|rest| rest.is_empty() || rest.starts_with('/'));
    match (typed, rest.and_then(|rest| Some((home()?, rest)))) {
        ("", _) => PathBuf::from("."),
        (_, Some((home, rest))) => home.join(Path::new(rest.trim_start_matches('/'))),
        (typed, None) => PathBuf::from(typed),
    }
}
