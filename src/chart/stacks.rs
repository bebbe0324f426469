//! Bars that lie, each of pieces in their own colours.

mod cells;
mod page;

use crate::colour::Srgb;

/// Counts by group, and in each by its parts.
#[derive(Debug, Clone, PartialEq)]
pub struct Stacks {
    /// What it shows.
    pub title: String,
    /// What it is from.
    pub notes: Vec<String>,
    /// What is counted.
    pub across: String,
    /// The groups in their order.
    pub stacks: Vec<Stack>,
    /// All of it in words, for who cannot see it.
    pub shows: String,
}

/// One group.
#[derive(Debug, Clone, PartialEq)]
pub struct Stack {
    /// Its name.
    pub name: String,
    /// Its parts in their order; some may count nothing.
    pub pieces: Vec<Piece>,
    /// How many there are of it beyond what is counted here: `None` where nothing is left out.
    pub of: Option<usize>,
}

/// A part of a group.
#[derive(Debug, Clone, PartialEq)]
pub struct Piece {
    /// Its name.
    pub name: String,
    /// Its colour.
    pub colour: Srgb,
    /// How many there are.
    pub count: usize,
}

impl Stack {
    /// How many there are of all its parts.
    pub fn count(&self) -> usize {
        self.pieces.iter().map(|piece| piece.count).sum()
    }

    /// `23`, or `5 of 23`.
    pub fn told(&self) -> String {
        match self.of {
            Some(of) => format!("{} of {of}", self.count()),
            None => self.count().to_string(),
        }
    }

    /// Parts of which there is any.
    fn present(&self) -> impl Iterator<Item = &Piece> {
        self.pieces.iter().filter(|piece| piece.count > 0)
    }
}

impl Stacks {
    /// The groups that have a bar: of a part of all, those of which it has any.
    fn drawn(&self) -> impl Iterator<Item = &Stack> {
        let stacks = self.stacks.iter();
        stacks.filter(|stack| stack.of.is_none() || stack.count() > 0)
    }

    /// The groups that a part has none of, in one line: `none of: whites (24), reds (12)`.
    fn told_without(&self) -> Option<String> {
        let without = self.stacks.iter().filter(|stack| stack.count() == 0);
        let without = without.filter_map(|stack| {
            let of = stack.of?;
            Some(format!("{} ({of})", stack.name))
        });
        let without: Vec<String> = without.collect();
        (!without.is_empty()).then(|| format!("none of: {}", without.join(", ")))
    }

    /// The most that any group has; at least 1.
    pub fn most(&self) -> usize {
        let counts = self.stacks.iter().map(Stack::count);
        counts.max().unwrap_or(0).max(1)
    }
}
