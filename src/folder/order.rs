//! The order's file: what the grower needs, has and has fixed by hand.

use std::path::Path;

use super::text::kept::Holds;
use super::{FileGuard, Folder, FolderError, file};
use crate::order::{Plan, UsualFrosts, blank_text};
use crate::problem::Problem;

pub use super::names::ORDER;

/// The demo's.
const DEMO: &str = include_str!("../../catalogue/order.ron");

/// The right to save the order of an opened folder.
#[derive(Debug)]
pub struct OrderFile {
    guard: FileGuard,
}

/// The plan of a folder, or the demo's where there is none; `None` where the folder has none yet.
///
/// # Errors
/// [`FolderError`] with the place of the first thing that is wrong, and what else is.
pub fn plan(folder: Option<&Path>) -> Result<Option<Plan>, FolderError> {
    match folder {
        Some(dir) => Ok(open_plan(&Folder::open_to_read(dir)?)?.0),
        // OK because a test reads the demo.
        None => Ok(Plan::read(ORDER, DEMO).ok()),
    }
}

/// The text of a folder's order, or of the demo's; `None` where it cannot be read.
pub fn text(folder: Option<&Path>) -> Option<String> {
    match folder {
        Some(dir) => file::read_own(&dir.join(ORDER)).ok(),
        None => Some(DEMO.to_string()),
    }
}

/// The plan of an opened folder, and the right to save it.
///
/// # Errors
/// As [`plan`]; nothing can then be saved over it.
pub fn open_plan(folder: &Folder) -> Result<(Option<Plan>, OrderFile), FolderError> {
    let (plan, guard) = folder.read(ORDER, |file, text| Plan::read(file, text).map_err(joined))?;
    Ok((plan, OrderFile { guard }))
}

/// The demo's file as it is laid out in a folder.
pub fn demo_file() -> (&'static str, &'static str) {
    (ORDER, DEMO)
}

/// A first plan for the season of a year, to be changed by hand.
pub fn blank_file(year: i16, frosts: UsualFrosts) -> (&'static str, String) {
    (ORDER, blank_text(year, frosts))
}

impl OrderFile {
    /// Lays out a first plan for the season of a year in a folder that has none.
    ///
    /// # Errors
    /// As [`OrderFile::save`].
    pub fn begin(
        &mut self,
        folder: &Folder,
        year: i16,
        frosts: UsualFrosts,
    ) -> Result<(), FolderError> {
        folder.save(&mut self.guard, &blank_file(year, frosts).1)
    }

    /// Saves the plan in place of the one in the folder. What the grower wrote of what is not changed
    /// stays as it is.
    ///
    /// # Errors
    /// [`FolderError`]; after every error but [`FolderError::Unconfirmed`] the file is as it was.
    pub fn save(&mut self, folder: &Folder, plan: &Plan) -> Result<(), FolderError> {
        let written = plan.write().map_err(|error| {
            FolderError::Write(folder.dir().join(ORDER), std::io::Error::other(error))
        })?;
        folder.save_value(&mut self.guard, &written, Holds::Value(again))
    }
}

/// What the program would write for the plan that a text holds.
fn again(text: &str) -> Option<String> {
    Plan::read(ORDER, text).ok()?.write().ok()
}

/// The first problem, which has the place, and the others behind it.
fn joined(problems: Vec<Problem>) -> Problem {
    let mut problems = problems.into_iter();
    // OK because what cannot be read has at least one problem.
    let mut first = problems
        .next()
        .unwrap_or_else(|| Problem::at(ORDER, "", 0, "found nothing"));
    for other in problems {
        first.message += &format!("; line {}: {}", other.line, other.message);
    }
    first
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_demo_and_the_blank_are_read_whole() {
        assert!(plan(None).expect("the demo").is_some());
        let (file, text) = blank_file(2028, UsualFrosts::default());
        let plan = Plan::read(file, &text).expect("the blank");
        assert_eq!(plan.season.planted.year(), 2028);
    }

    #[test]
    fn a_save_keeps_the_comments_at_the_head_and_every_field() {
        let home = tempfile::tempdir().expect("a folder");
        std::fs::write(home.path().join(ORDER), DEMO).expect("writes");
        let folder = Folder::open(home.path(), "now").expect("opens");
        let (read, mut file) = open_plan(&folder).expect("reads");
        let mut plan = read.expect("a plan");
        plan.money = "900".parse().ok();
        file.save(&folder, &plan).expect("saves");
        let text = std::fs::read_to_string(home.path().join(ORDER)).expect("reads");
        assert!(text.starts_with("// Skerry Lane"), "{text}");
        assert_eq!(open_plan(&folder).expect("reads").0, Some(plan));
    }

    #[test]
    fn all_that_is_wrong_is_told_with_its_lines() {
        let home = tempfile::tempdir().expect("a folder");
        let bad = DEMO
            .replace(
                "weeks: (33, 39), use: \"market-bunch\", fitness",
                "weeks: (33, 52), use: \"market-bunch\", fitness",
            )
            .replace("weeks: (30, 32)", "weeks: (32, 30)");
        std::fs::write(home.path().join(ORDER), bad).expect("writes");
        let told = plan(Some(home.path())).expect_err("a plan").to_string();
        assert!(told.starts_with("order.ron, line 34"), "{told}");
        assert!(
            told.contains("; line 35: quay stall, early: found weeks 32 to 30"),
            "{told}"
        );
    }
}
