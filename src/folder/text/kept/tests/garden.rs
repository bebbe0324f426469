//! Values drawn, with every shape that a file of ours has, and changes of them.

use std::collections::BTreeMap;

use fastrand::Rng;
use serde::{Deserialize, Serialize};

/// A garden.
#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Garden {
    pub(super) title: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) money: Option<u32>,
    pub(super) beds: Vec<Bed>,
    pub(super) weeks: (u8, u8),
    #[serde(default, alias = "terms", skip_serializing_if = "Vec::is_empty")]
    pub(super) words: Vec<String>,
    #[serde(default, skip_serializing_if = "BTreeMap::is_empty")]
    pub(super) prices: BTreeMap<String, u32>,
    #[serde(default)]
    pub(super) only: bool,
}

#[derive(Debug, Clone, PartialEq, Serialize, Deserialize)]
#[serde(deny_unknown_fields)]
pub(super) struct Bed {
    pub(super) name: String,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) length: Option<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) rows: Option<u32>,
    #[serde(default, skip_serializing_if = "Vec::is_empty")]
    pub(super) colours: Vec<String>,
    #[serde(default, skip_serializing_if = "Option::is_none")]
    pub(super) kind: Option<Kind>,
}

#[derive(Debug, Clone, Copy, PartialEq, Serialize, Deserialize)]
pub(super) enum Kind {
    Ball,
    Rows(u8, u8),
}

const WORDS: [&str; 8] = [
    "sea, (wall",
    "plum",
    "// no",
    "é]",
    "quay \"x\"",
    "\\",
    "/*",
    "b",
];

fn word(dice: &mut Rng) -> String {
    WORDS[dice.usize(..WORDS.len())].to_string()
}

pub(super) fn bed(dice: &mut Rng) -> Bed {
    Bed {
        name: format!("{} {}", word(dice), dice.u32(..)),
        length: dice.bool().then(|| format!("{}ft", dice.u8(..9))),
        rows: dice.bool().then(|| dice.u32(..9)),
        colours: (0..dice.usize(..3)).map(|_| word(dice)).collect(),
        kind: match dice.u8(..3) {
            0 => None,
            1 => Some(Kind::Ball),
            _ => Some(Kind::Rows(dice.u8(..9), dice.u8(..9))),
        },
    }
}

pub(super) fn garden(dice: &mut Rng) -> Garden {
    Garden {
        title: word(dice),
        money: dice.bool().then(|| dice.u32(..9)),
        beds: (0..dice.usize(..5)).map(|_| bed(dice)).collect(),
        weeks: (dice.u8(..9), dice.u8(..9)),
        words: (0..dice.usize(..4)).map(|_| word(dice)).collect(),
        prices: (0..dice.usize(..4))
            .map(|_| (word(dice), dice.u32(..9)))
            .collect(),
        only: dice.bool(),
    }
}

/// One thing changed.
pub(super) fn edit(garden: &mut Garden, dice: &mut Rng) {
    let count = garden.beds.len();
    match dice.u8(..13) {
        0 => garden.title = word(dice),
        1 => garden.money = garden.money.is_none().then(|| dice.u32(..9)),
        2 => garden.weeks.1 += 1,
        3 => garden.only = !garden.only,
        4 if !garden.words.is_empty() => {
            drop(garden.words.remove(dice.usize(..garden.words.len())))
        }
        4 | 5 => garden
            .words
            .insert(dice.usize(..=garden.words.len()), word(dice)),
        6 => drop(garden.prices.insert(word(dice), dice.u32(..9))),
        7 => drop(garden.prices.pop_first()),
        8 if count > 0 => drop(garden.beds.remove(dice.usize(..count))),
        9 if count > 1 => {
            let bed = garden.beds.remove(dice.usize(..count));
            garden.beds.insert(dice.usize(..count), bed);
        }
        10..=11 if count > 0 => {
            let at = dice.usize(..count);
            let (other, own) = (bed(dice), &mut garden.beds[at]);
            match dice.u8(..4) {
                0 => own.length = other.length,
                1 => own.rows = other.rows,
                2 => own.colours = other.colours,
                _ => own.kind = other.kind,
            }
        }
        _ => garden.beds.insert(dice.usize(..=count), bed(dice)),
    }
}
