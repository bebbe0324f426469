//! The files that a command writes, and its errors told as those of a command.

use std::path::{Path, PathBuf};

use anyhow::{Result, anyhow};

use super::{BadInput, Context};
use crate::folder::output::{self, OutputError};

/// What is so of every file that one command writes.
#[derive(Debug, Clone, Copy)]
pub(super) struct Output<'a>(output::Output<'a>);

impl Context {
    /// How this command writes files for others.
    pub(super) fn output(&self) -> Output<'_> {
        Output::new(self.folder.as_deref(), self.replace)
    }
}

impl<'a> Output<'a> {
    /// With the grower's folder, whose files are never written over, and whether a file that is there
    /// may be replaced.
    pub(super) fn new(folder: Option<&'a Path>, replace: bool) -> Output<'a> {
        Output(output::Output { folder, replace })
    }

    /// Whether all of these may be written, each another one; before much is worked out for them, or
    /// the first of them is written.
    ///
    /// # Errors
    /// [`BadInput`] of the first that may not.
    pub(super) fn check<'p>(self, paths: impl IntoIterator<Item = &'p Path>) -> Result<()> {
        let mut before: Vec<PathBuf> = Vec::new();
        for path in paths {
            self.0.check(path).map_err(told)?;
            if before.iter().any(|other| other == path) {
                return Err(anyhow!(BadInput(format!(
                    "found {} twice, expected a name for each file; nothing was changed",
                    path.display()
                ))));
            }
            before.push(path.to_path_buf());
        }
        Ok(())
    }

    /// Writes a file whole or not at all.
    ///
    /// # Errors
    /// [`BadInput`] where a file of that name is not to be written, or why it could not be.
    pub(super) fn write(self, path: &Path, bytes: &[u8]) -> Result<()> {
        self.0.write(path, bytes).map_err(told)
    }

    /// The same of a file that may become one of the grower's folder.
    ///
    /// # Errors
    /// As [`Output::write`].
    pub(super) fn begin(self, path: &Path, bytes: &[u8]) -> Result<()> {
        self.0.begin(path, bytes).map_err(told)
    }
}

fn told(error: OutputError) -> anyhow::Error {
    match error {
        OutputError::Refused(told) => anyhow!(BadInput(told)),
        OutputError::Failed(error) => anyhow!(error),
    }
}
