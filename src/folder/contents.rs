//! Everything that the grower's folder holds, or the demo where there is no folder.

use std::io;
use std::path::Path;

use super::names::{COLOURS, NAMING, PIECES, RELEASE, TAGS, USES};
use super::order::plan;
use super::rule_sets::{self, RuleSets};
use super::settings::{Settings, open_settings};
use super::text::kept::Holds;
use super::text::{read_records, record_again};
use super::{FileGuard, Folder, FolderError, file};
use crate::colour::Vocabulary;
use crate::form::RuleSet;
use crate::order::Pieces;
use crate::problem::Problem;
use crate::tag::Stock;
use crate::trial::Release;
use crate::variety::{BloomSeason, IndexContext, NamingRules, Uses, Varieties, Variety};

pub use super::names::VARIETIES;

/// The demo's list.
const DEMO: &str = include_str!("../../catalogue/varieties.ron");

/// What a folder holds.
#[derive(Debug)]
pub struct Contents {
    /// Whether this is the demo: there is no folder.
    pub demo: bool,
    /// Rule sets, the program's and the folder's.
    pub sets: Vec<RuleSet>,
    /// The settings.
    pub settings: Settings,
    /// The uses.
    pub uses: Uses,
    /// The colour words.
    pub words: Vocabulary,
    /// What new names are checked for.
    pub naming: NamingRules,
    /// What a seedling must show before it is kept.
    pub release: Release,
    /// What pieces of work take in stems, the program's and the folder's.
    pub pieces: Pieces,
    /// What tags say, and what they are printed on.
    pub tags: Stock,
    /// When varieties are expected in bloom, by the order's season; `None` where there is no order that
    /// can be read. Whoever reads the order says what is wrong with it.
    pub season: Option<BloomSeason>,
    /// The year of that season's planting.
    pub planted: Option<i16>,
    /// Sentences on files that were passed over.
    pub problems: Vec<String>,
}

impl Contents {
    /// Reads all but the list. A file of data that is wrong is passed over with a sentence, and
    /// what is in the program is used.
    ///
    /// # Errors
    /// [`FolderError`] where the settings cannot be read: nothing stands in for them.
    pub fn load(folder: Option<&Path>) -> Result<Contents, FolderError> {
        let RuleSets { sets, mut problems } = rule_sets::load(folder);
        let settings = match folder {
            None => Settings::default(),
            Some(dir) => open_settings(&Folder::open_to_read(dir)?)?.0,
        };
        let first =
            |problems: Vec<Problem>| problems.first().map_or(String::new(), Problem::to_string);
        let uses = own(folder, USES, &mut problems, |text| {
            Uses::read(USES, text).map_err(first)
        });
        let words = own(folder, COLOURS, &mut problems, |text| {
            Vocabulary::from_ron(text).map_err(|error| format!("{COLOURS}, {error}"))
        });
        let naming = own(folder, NAMING, &mut problems, |text| {
            NamingRules::read(NAMING, text).map_err(|problem| problem.to_string())
        });
        let release = own(folder, RELEASE, &mut problems, |text| {
            Release::read(RELEASE, text).map_err(first)
        });
        let tags = own(folder, TAGS, &mut problems, |text| {
            Stock::read(TAGS, text).map_err(|problem| problem.to_string())
        });
        let pieces = own(folder, PIECES, &mut problems, |text| {
            Pieces::embedded().with_own(PIECES, text).map_err(first)
        });
        let plan = plan(folder).ok().flatten();
        Ok(Contents {
            demo: folder.is_none(),
            sets,
            settings,
            uses: uses.unwrap_or_else(Uses::embedded),
            words: words.unwrap_or_else(Vocabulary::embedded),
            naming: naming.unwrap_or_else(NamingRules::embedded),
            release: release.unwrap_or_else(Release::embedded),
            pieces: pieces.unwrap_or_else(Pieces::embedded),
            tags: tags.unwrap_or_else(Stock::embedded),
            season: plan.as_ref().map(|plan| plan.season.in_bloom()),
            planted: plan.map(|plan| plan.season.planted.year()),
            problems,
        })
    }

    /// What a list is worked out under.
    pub fn grounds<'a>(&'a self, rules: &'a RuleSet) -> IndexContext<'a> {
        IndexContext {
            rules,
            uses: &self.uses,
            words: &self.words,
            stems_a_plant: self.settings.stems_a_plant,
            season: self.season.as_ref(),
        }
    }
}

/// The grower's list, or the demo's where there is no folder. An empty list where the folder has
/// none yet.
///
/// # Errors
/// [`FolderError`] with the place of what is wrong.
pub fn varieties(folder: Option<&Path>) -> Result<Varieties, FolderError> {
    match folder {
        Some(dir) => Ok(open_varieties(&Folder::open_to_read(dir)?)?.0),
        // OK because a test reads the demo.
        None => Ok(read_varieties(VARIETIES, DEMO).unwrap_or_default()),
    }
}

/// The list of an opened folder, and the right to save it.
///
/// # Errors
/// [`FolderError`] with the place of what is wrong; nothing can then be saved over it.
pub fn open_varieties(folder: &Folder) -> Result<(Varieties, FileGuard), FolderError> {
    let (list, guard) = folder.read(VARIETIES, read_varieties)?;
    Ok((list.unwrap_or_default(), guard))
}

/// Saves the list of an opened folder.
///
/// # Errors
/// [`FolderError`]; after every error but [`FolderError::Unconfirmed`] the file is as it was.
pub fn save_varieties(
    folder: &Folder,
    guard: &mut FileGuard,
    list: &Varieties,
) -> Result<(), FolderError> {
    let written = list.write().map_err(|error| {
        FolderError::Write(folder.dir().join(VARIETIES), io::Error::other(error))
    })?;
    folder.save_value(guard, &written, Holds::Records(record_again::<Variety>))
}

fn read_varieties(file: &str, text: &str) -> Result<Varieties, Problem> {
    Varieties::of(read_records(file, text)?).map_err(|taken| {
        // OK because an error has at least one name.
        Problem::all(file, text, taken).swap_remove(0)
    })
}

/// A file of the folder in place of what is in the program; `None` where it has none that is right.
fn own<T>(
    folder: Option<&Path>,
    name: &str,
    problems: &mut Vec<String>,
    read: impl Fn(&str) -> Result<T, String>,
) -> Option<T> {
    let path = folder?.join(name);
    if !path.exists() {
        return None;
    }
    let read = file::read_own(&path).and_then(|text| read(&text));
    read.map_err(|told| problems.push(format!("{told} (this file is passed over)")))
        .ok()
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_demo_is_read() {
        let list = read_varieties(VARIETIES, DEMO).expect("the demo's list");
        assert!(list.len() >= 230, "{}", list.len());
        assert_eq!(varieties(None).expect("the demo"), list);
        // A record by itself is written as it stands in the list.
        let written = list.write().expect("writes");
        for line in written.lines().filter(|line| line.starts_with("  ")) {
            let record = line.trim().trim_end_matches(',');
            assert_eq!(record_again::<Variety>(record).as_deref(), Some(record));
        }
    }
}
