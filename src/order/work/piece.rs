//! Pieces as data: so many stems for each part, how they are split among the colours, and spares.

use std::collections::BTreeMap;
use std::num::NonZeroU32;

use serde::Deserialize;

use crate::measure::bounds::Bounds;
use crate::measure::{brief, same_id};
use crate::problem::{Path, Problem, Wrong, read_ron};
use crate::variety::{Text, use_id};

/// The table as it ships.
const EMBEDDED: &str = include_str!("../../../assets/pieces.ron");

/// The most stems of one part in a piece; more than any stand is filled with.
const STEMS: Bounds<u32> = Bounds::new("stems", 1, 10_000);
/// The most spares of a hundred: as many again.
const SPARES: Bounds<u8> = Bounds::new("spares in a hundred", 0, 100);

/// Every piece, and the parts that they are made of.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Pieces {
    #[serde(default)]
    parts: Vec<Part>,
    #[serde(default)]
    pieces: Vec<Piece>,
}

/// What some stems of a piece are for.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Part {
    /// Its word in files and names: `focal`.
    pub id: Text,
    /// The id of the use that its varieties must fit; any stem where there is none.
    #[serde(default, rename = "use")]
    pub for_use: Option<Text>,
    /// What it is, in one phrase.
    #[serde(default)]
    pub means: Option<Text>,
}

/// One piece of work.
#[derive(Debug, Clone, PartialEq, Eq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Piece {
    /// What one is called.
    pub name: Text,
    /// What several are called; the name of one where it is not said.
    #[serde(default)]
    pub many: Option<Text>,
    /// What it is, in one phrase.
    #[serde(default)]
    pub means: Option<Text>,
    /// Stems by the id of their part.
    pub stems: BTreeMap<Text, NonZeroU32>,
    /// Of a hundred stems of a part, so many in each colour in turn, and the last in all that are left.
    #[serde(default)]
    pub shares: Vec<u8>,
    /// Stems more in a hundred, for what breaks.
    #[serde(default)]
    pub spares: u8,
}

impl Pieces {
    /// The table that ships in the binary.
    ///
    /// # Panics
    /// Never: a test reads the embedded table.
    pub fn embedded() -> Pieces {
        let none = Pieces {
            parts: Vec::new(),
            pieces: Vec::new(),
        };
        let read = none.with_own("pieces.ron", EMBEDDED);
        read.expect("the embedded pieces are read by a test")
    }

    /// The table with what a grower's file adds to it or puts in place of one of the same name.
    ///
    /// # Errors
    /// Everything that is wrong with the file, each at its line and column.
    pub fn with_own(self, file: &str, text: &str) -> Result<Pieces, Vec<Problem>> {
        let own: Pieces = read_ron(file, text).map_err(|problem| vec![problem])?;
        let wrong = own.wrong(&self);
        if !wrong.is_empty() {
            return Err(Problem::all(file, text, wrong));
        }
        let mut pieces = self;
        for mut part in own.parts {
            // An old id of a use is read as the one in its place.
            part.for_use = part
                .for_use
                .and_then(|id| Text::new(use_id(id.as_str())).ok());
            put(&mut pieces.parts, part, |one| &one.id);
        }
        for piece in own.pieces {
            put(&mut pieces.pieces, piece, |one| &one.name);
        }
        Ok(pieces)
    }

    /// Every piece.
    pub fn list(&self) -> &[Piece] {
        &self.pieces
    }

    /// The piece of this name, for one or for several, in any case of letters.
    pub fn find(&self, name: &str) -> Option<&Piece> {
        let many = |one: &Piece| {
            one.many
                .as_ref()
                .is_some_and(|many| same_id(name, many.as_str()))
        };
        let mut own = self.pieces.iter();
        own.find(|one| same_id(name, one.name.as_str()))
            .or_else(|| self.pieces.iter().find(|one| many(one)))
    }

    /// The place of a part in the table, and the part.
    pub fn part(&self, id: &str) -> Option<(usize, &Part)> {
        let mut parts = self.parts.iter().enumerate();
        parts.find(|(_, part)| same_id(id, part.id.as_str()))
    }

    /// `bride's bunch, jar, ...`: what may be asked for, for messages.
    pub fn names(&self) -> String {
        let names: Vec<&str> = self.pieces.iter().map(|one| one.name.as_str()).collect();
        names.join(", ")
    }

    /// What is wrong with a file in itself, beside the table that it adds to.
    fn wrong(&self, base: &Pieces) -> Vec<Wrong> {
        let mut wrong = Vec::new();
        let parts = self.parts.iter().map(|part| &part.id);
        wrong.extend(again("parts", "id", parts));
        let names = self.pieces.iter().map(|piece| &piece.name);
        wrong.extend(again("pieces", "name", names));
        let is_part = |id: &Text| {
            let known = self.part(id.as_str()).or_else(|| base.part(id.as_str()));
            known.is_some()
        };
        for (at, piece) in self.pieces.iter().enumerate() {
            let place = || Path::field("pieces").nth(at);
            let found = piece.wrong(&is_part, || {
                let parts = base.parts.iter().chain(&self.parts);
                let ids: Vec<&str> = parts.map(|part| part.id.as_str()).collect();
                ids.join(", ")
            });
            wrong.extend(found.map(|(field, told)| {
                Wrong::new(place().then(field), format!("{}: {told}", piece.name))
            }));
        }
        wrong
    }
}

impl Piece {
    /// `1 jar`, `12 table bowls`.
    pub fn counted(&self, number: u32) -> String {
        let many = self.many.as_ref().filter(|_| number != 1);
        format!("{number} {}", many.unwrap_or(&self.name))
    }

    /// The colours of its stems, each with its share in a hundred: all of them together where the piece
    /// does not split its stems, or there is but one.
    pub fn split<'a>(&self, colours: &'a [Text]) -> Vec<(u64, &'a [Text])> {
        let shares = self.shares.len().min(colours.len());
        if shares < 2 {
            return vec![(100, colours)];
        }
        let share = |at: usize| {
            let last = at + 1 == shares;
            let of = &self.shares[at..if last { self.shares.len() } else { at + 1 }];
            let colours = &colours[at..if last { colours.len() } else { at + 1 }];
            (of.iter().map(|one| u64::from(*one)).sum(), colours)
        };
        (0..shares).map(share).collect()
    }

    /// The field that is wrong, and how.
    fn wrong(
        &self,
        is_part: &dyn Fn(&Text) -> bool,
        parts: impl Fn() -> String,
    ) -> Option<(&'static str, String)> {
        let numbered = |name: &Text| {
            let mut words = name.as_str().split_whitespace();
            words.any(|word| word.bytes().all(|byte| byte.is_ascii_digit()))
        };
        let unknown = self.stems.keys().find(|id| !is_part(id));
        let shares: u32 = self.shares.iter().map(|share| u32::from(*share)).sum();
        let stems = { self.stems.values() }.find_map(|stems| STEMS.wrong(stems.get()));
        let names = [Some(&self.name), self.many.as_ref()];
        if names.into_iter().flatten().any(numbered) {
            let told = "found a number in its name, expected words, for a number says how many";
            Some(("name", told.into()))
        } else if self.stems.is_empty() {
            Some((
                "stems",
                "found no stems, expected those of one part at least".into(),
            ))
        } else if let Some(id) = unknown {
            let (id, parts) = (brief(id.as_str()), parts());
            Some((
                "stems",
                format!("found the part {id:?}, expected one of {parts}"),
            ))
        } else if let Some(told) = stems {
            Some(("stems", told))
        } else if !self.shares.is_empty() && (shares != 100 || self.shares.contains(&0)) {
            let told = format!(
                "found shares that come to {shares}, expected some over 0 that come to 100"
            );
            Some(("shares", told))
        } else {
            Some(("spares", SPARES.wrong(self.spares)?))
        }
    }
}

/// Puts one in the place of that of the same name, or behind the others.
fn put<T>(list: &mut Vec<T>, one: T, name: impl Fn(&T) -> &Text) {
    let same = |own: &&mut T| same_id(name(own).as_str(), name(&one).as_str());
    match list.iter_mut().find(same) {
        Some(own) => *own = one,
        None => list.push(one),
    }
}

/// Each name of a list that was there before.
fn again<'a>(
    list: &'static str,
    field: &'static str,
    names: impl Iterator<Item = &'a Text>,
) -> Vec<Wrong> {
    let names: Vec<&Text> = names.collect();
    let before = |at: &usize| {
        let own = names[*at].as_str();
        names[..*at].iter().any(|name| same_id(name.as_str(), own))
    };
    let told = |at: usize| {
        let message = format!(
            "found the name {:?} a second time, expected each name once",
            names[at].as_str()
        );
        Wrong::new(Path::field(list).nth(at).then(field), message)
    };
    (0..names.len()).filter(before).map(told).collect()
}

#[cfg(test)]
mod tests;
