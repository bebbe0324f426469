//! Paper as the commands take it.

use anyhow::{Result, anyhow};

use super::BadInput;
use crate::paper::{Margins, Paper};

/// Room at the edges of a printed sheet, mm.
pub(super) const MARGINS: Margins = Margins {
    top: 12.0,
    right: 10.0,
    bottom: 12.0,
    left: 10.0,
};

/// The paper asked for; A4 where none is.
///
/// # Errors
/// [`BadInput`] that names the sizes there are.
pub(super) fn paper(name: Option<&str>) -> Result<Paper> {
    let name = name.unwrap_or("a4");
    Paper::named(name).ok_or_else(|| {
        let known = Paper::embedded();
        let known: Vec<&str> = known.iter().map(|paper| paper.id.as_str()).collect();
        anyhow!(BadInput(format!(
            "found the paper {name:?}, expected one of {}",
            known.join(", ")
        )))
    })
}
