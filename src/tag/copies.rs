//! How many of each label are printed, and at which label of a begun sheet they begin.

use super::label::Label;
use super::per_plant::PerPlant;
use super::stock::LabelSheet;
use crate::measure::bounds::Bounds;
use crate::measure::brief;

/// Copies of one label: more of one plant nobody ties tags to by hand.
const COPIES: Bounds<u32> = Bounds::new("copies", 1, 9999);
/// The most labels that are printed at once: more is a slip of the keyboard, and fills no printer's tray.
const MOST: usize = 20_000;

/// How many of each plant's label are printed.
#[derive(Debug, Clone, PartialEq, Eq)]
pub struct Copies {
    /// How many.
    pub of: PerPlant<u32>,
    /// Whether each is numbered: `3 of 12`.
    pub numbered: bool,
}

/// Labels of one plant, all alike but for their numbers.
#[derive(Debug, Clone, PartialEq)]
pub struct Run {
    /// The label.
    pub label: Label,
    /// How often it is printed.
    pub copies: u32,
}

/// Where labels come on their pages.
#[derive(Debug, Clone, Copy, PartialEq)]
pub struct Placing {
    /// By how many mm all is moved, to the right and down.
    pub offset: (f64, f64),
    /// The label of the first page that is printed first, from 1: those before it are used up.
    pub from: usize,
}

impl Default for Copies {
    fn default() -> Copies {
        Copies {
            of: PerPlant::all(1),
            numbered: false,
        }
    }
}

impl Default for Placing {
    fn default() -> Placing {
        Placing {
            offset: (0.0, 0.0),
            from: 1,
        }
    }
}

impl Copies {
    /// Reads how many.
    ///
    /// # Errors
    /// In a sentence: what was found and what was expected.
    pub fn read(text: &str) -> Result<u32, String> {
        let count = text.trim().parse::<u32>().map_err(|_| {
            let found = brief(text);
            format!("found {found:?}, expected how many copies, such as 12")
        })?;
        match COPIES.wrong(count) {
            Some(told) => Err(told),
            None => Ok(count),
        }
    }
}

/// How many labels these runs are.
///
/// # Errors
/// In a sentence where they are more than are printed at once.
pub fn labels_in(copies: impl IntoIterator<Item = u32>) -> Result<usize, String> {
    let all: u64 = copies.into_iter().map(u64::from).sum();
    match usize::try_from(all) {
        Ok(all) if all <= MOST => Ok(all),
        _ => Err(format!(
            "found {all} labels, expected {MOST} at most at once: print some of the plants first"
        )),
    }
}

impl LabelSheet {
    /// The label to begin at, from 1, where the sheet has so many.
    ///
    /// # Errors
    /// In a sentence: what was found and what was expected.
    pub fn begun_at(&self, from: usize) -> Result<usize, String> {
        let count = self.labels();
        match (from, &self.paper) {
            (from, _) if (1..=count).contains(&from) => Ok(from),
            (_, Some(_)) => Err(format!(
                "found label {from} to begin at, expected one from 1 to {count}: so many are on a page"
            )),
            (_, None) => Err(format!(
                "found label {from} to begin at, expected 1: on a roll each label is a page of its own"
            )),
        }
    }

    /// The pages that so many labels take from this one on.
    pub fn pages_of(&self, labels: usize, from: usize) -> usize {
        match labels {
            0 => 0,
            labels => (from.saturating_sub(1) + labels).div_ceil(self.labels().max(1)),
        }
    }

    /// The first label of the last page that is left blank, from 1, where so many are printed from
    /// this one on; `None` where the page is full.
    pub fn left_from(&self, labels: usize, from: usize) -> Option<usize> {
        let used = (from.saturating_sub(1) + labels) % self.labels().max(1);
        (used > 0).then_some(used + 1)
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use crate::tag::Stock;

    #[test]
    fn copies_are_counted_and_a_slip_of_the_keyboard_is_told() {
        assert_eq!(Copies::read(" 12 "), Ok(12));
        for (text, told) in [
            ("0", "found 0 copies, expected from 1 to 9999"),
            ("10000", "expected from 1 to 9999"),
            ("a dozen", "expected how many copies, such as 12"),
        ] {
            let error = Copies::read(text).expect_err(text);
            assert!(error.contains(told), "{error}");
        }
        assert_eq!(labels_in([9999, 9999]), Ok(19_998));
        let error = labels_in([9999, 9999, 3]).expect_err("too many");
        assert!(error.contains("expected 20000 at most"), "{error}");
    }

    /// By counting labels one by one.
    #[test]
    fn pages_and_what_is_left_of_the_last_are_counted() {
        let stock = Stock::embedded();
        for id in ["sale-a4", "tuber-a4", "sale-roll"] {
            let sheet = stock.sheet(id).expect("a sheet");
            for from in 1..=sheet.labels() {
                for labels in 0..40 {
                    let (mut pages, mut next) = (0, from);
                    for _ in 0..labels {
                        if pages == 0 || next > sheet.labels() {
                            pages += 1;
                            next = if pages == 1 { from } else { 1 };
                        }
                        next += 1;
                    }
                    assert_eq!(sheet.pages_of(labels, from), pages, "{id} {labels} {from}");
                    if labels > 0 {
                        let left = (next <= sheet.labels()).then_some(next);
                        assert_eq!(sheet.left_from(labels, from), left, "{id} {labels} {from}");
                    }
                }
                assert_eq!(sheet.begun_at(from), Ok(from));
            }
        }
        let told = |id: &str, from| stock.sheet(id).expect("a sheet").begun_at(from);
        for from in [0, 9] {
            let why = format!(
                "found label {from} to begin at, expected one from 1 to 8: so many are on a page"
            );
            assert_eq!(told("sale-a4", from), Err(why));
        }
        let roll = told("sale-roll", 2).expect_err("a roll");
        assert!(roll.contains("expected 1: on a roll"), "{roll}");
    }
}
