//! The first step: which file. A line that is typed, completed by Tab, and under it what stands in the folder
//! that the line names.

use super::steps::{Asked, Listing, Named, Next};
use crate::screen::kit::cursor::{Cursor, Movement};
use crate::screen::kit::line::{Edit, Line};
use crate::variety::folded;

/// The endings of files that hold a table.
const ENDINGS: [&str; 5] = ["csv", "tsv", "txt", "xlsx", "ods"];

/// A path that is typed, and the folder that it leads through.
#[derive(Debug, Clone)]
pub(super) struct FileStep {
    line: Line<()>,
    listing: Listing,
    cursor: Cursor,
    /// What the edge is to look at.
    asked: Wanted,
}

#[derive(Debug, Clone, PartialEq, Eq)]
enum Wanted {
    Nothing,
    Folder(String),
    Table(String),
}

impl Default for FileStep {
    fn default() -> FileStep {
        FileStep {
            line: Line::new((), ""),
            listing: Listing::default(),
            cursor: Cursor::default(),
            asked: Wanted::Nothing,
        }
    }
}

impl FileStep {
    pub(super) fn asks(&self) -> Option<Asked<'_>> {
        match &self.asked {
            Wanted::Nothing => None,
            Wanted::Folder(folder) => Some(Asked::Folder(folder)),
            Wanted::Table(file) => Some(Asked::Table(file)),
        }
    }

    pub(super) fn line(&self) -> &Line<()> {
        &self.line
    }

    pub(super) fn listing(&self) -> &Listing {
        &self.listing
    }

    /// The place of the cursor among the names that match.
    pub(super) fn cursor(&self) -> usize {
        self.cursor.row(self.matching().len())
    }

    /// The names that go on from what is typed: folders, and files that may hold a table. Hidden ones only
    /// where their point is typed.
    pub(super) fn matching(&self) -> Vec<&Named> {
        let begun = folded(self.halves().1);
        let is_table = |name: &str| {
            let ending = name
                .rsplit_once('.')
                .map(|(_, ending)| ending.to_lowercase());
            ending.is_some_and(|ending| ENDINGS.contains(&ending.as_str()))
        };
        let matches = |one: &&Named| {
            let is_shown = begun.starts_with('.') || !one.name.starts_with('.');
            is_shown
                && (one.is_folder || is_table(&one.name))
                && folded(&one.name).starts_with(&begun)
        };
        self.listing.names.iter().filter(matches).collect()
    }

    /// The folder that is typed, its slash with it, and what of a name stands behind it.
    fn halves(&self) -> (&str, &str) {
        let text = self.line.text().trim_start();
        let at = text.rfind('/').map_or(0, |at| at + 1);
        text.split_at(at)
    }

    /// Looks at the folder that the line names.
    pub(super) fn look_again(&mut self) -> Next {
        self.asked = Wanted::Folder(self.halves().0.to_string());
        Next::Look
    }

    /// Goes into the folder under the cursor or has the file read; where no name goes on from what is typed,
    /// the file that is typed.
    pub(super) fn give(&mut self) -> Option<Next> {
        let (folder, begun) = self.halves();
        let chosen = self.matching().get(self.cursor()).map(|one| (*one).clone());
        let (path, is_folder) = match chosen {
            _ if matches!(begun, "." | ".." | "~") => (format!("{folder}{begun}"), true),
            Some(one) => (format!("{folder}{}", one.name), one.is_folder),
            None => (self.line.text().trim().to_string(), false),
        };
        if path.is_empty() {
            self.line
                .refuse("found no file, expected the path of one in CSV, XLSX or ODS");
            return None;
        }
        if is_folder {
            return Some(self.go_into(&path));
        }
        self.line.set(path.clone());
        self.asked = Wanted::Table(path);
        Some(Next::Look)
    }

    fn go_into(&mut self, path: &str) -> Next {
        self.line.set(format!("{path}/"));
        self.cursor = Cursor::default();
        self.look_again()
    }

    /// Writes what all names that match have in common; of one name all of it.
    pub(super) fn complete(&mut self) -> Option<Next> {
        let (folder, begun) = self.halves();
        let matching = self.matching();
        let first = matching.first()?;
        if let [only] = matching[..]
            && only.is_folder
        {
            let path = format!("{folder}{}", only.name);
            return Some(self.go_into(&path));
        }
        let common = |name: &str, so_far: usize| {
            let both = first.name.chars().zip(name.chars());
            let same = both.take_while(|(one, other)| one == other).count();
            same.min(so_far)
        };
        let all = first.name.chars().count();
        let shared = matching
            .iter()
            .fold(all, |most, one| common(&one.name, most));
        if shared > begun.chars().count() || matching.len() == 1 {
            let name: String = first.name.chars().take(shared).collect();
            let whole = format!("{folder}{name}");
            self.line.set(whole);
            self.cursor = Cursor::default();
        }
        None
    }

    pub(super) fn edit(&mut self, edit: &Edit) -> Option<Next> {
        let before = self.halves().0.to_string();
        if !self.line.edit(edit) {
            return None;
        }
        self.cursor = Cursor::default();
        (self.halves().0 != before).then(|| self.look_again())
    }

    pub(super) fn go(&mut self, movement: Movement, window: usize) {
        let count = self.matching().len();
        self.cursor.go(movement, count, window);
    }

    /// Takes the names of a folder; an answer that is of another folder than the line has now is none.
    pub(super) fn listed(&mut self, listing: Result<Listing, String>) {
        self.asked = Wanted::Nothing;
        match listing {
            Ok(listing) if listing.typed == self.halves().0 => self.listing = listing,
            Ok(_) => {}
            Err(told) => {
                self.listing = Listing::default();
                self.line.refuse(told);
            }
        }
    }

    /// Says what is wrong with the file; the path stays.
    pub(super) fn refuse(&mut self, told: String) {
        self.asked = Wanted::Nothing;
        self.line.refuse(told);
    }

    /// The path of the file that was read.
    pub(super) fn taken(&mut self) -> String {
        self.asked = Wanted::Nothing;
        self.line.text().to_string()
    }
}
