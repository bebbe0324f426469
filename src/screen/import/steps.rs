//! How far a file is on its way into the list, and what is asked of the edge meanwhile.

use crate::variety::exchange::Intake;

/// What the edge is to look at.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Asked<'a> {
    /// The names in a folder.
    Folder(&'a str),
    /// The table in a file.
    Table(&'a str),
}

/// What was found.
#[derive(Debug, Clone, PartialEq)]
pub enum Found {
    /// The names in a folder, or why there are none.
    Folder(Result<Listing, String>),
    /// The table in a file, or why there is none.
    Table(Result<Intake, String>),
}

/// The names in a folder.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Listing {
    /// The folder as it was typed.
    pub typed: String,
    /// The folder in full.
    pub shown: String,
    /// The names, folders first.
    pub names: Vec<Named>,
    /// How many more there are.
    pub more: usize,
}

/// A name in a folder.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Named {
    /// The name.
    pub name: String,
    /// Whether it is a folder.
    pub is_folder: bool,
}

/// What the page is to do next.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(in crate::screen) enum Next {
    /// Have the folder or the table looked at that is asked for.
    Look,
    /// Close: back to the list.
    Close,
    /// Take in what is previewed.
    TakeIn,
}

/// How far it is.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub(super) enum Step {
    /// The file is chosen.
    #[default]
    File,
    /// Its headings and words are asked about.
    Asking,
    /// What it would change is looked at.
    Preview,
}
