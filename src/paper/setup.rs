//! The sheet in the printer: its size, which way it lies, its margins, and how far it is off.

use std::fmt;

use kurbo::{Affine, Rect};
use serde::Deserialize;

use super::page::{Item, Page};
use crate::problem::{Problem, read_ron};

const EMBEDDED: &str = include_str!("../../assets/papers.ron");

/// A size of paper, upright.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Paper {
    /// What commands and settings call it.
    pub id: String,
    /// What people call it.
    pub says: String,
    /// Its short side in mm.
    pub width: f64,
    /// Its long side in mm.
    pub height: f64,
}

/// Which way a page lies.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Hash, Default, Deserialize)]
pub enum Orientation {
    /// The long side upright.
    #[default]
    Portrait,
    /// The long side across.
    Landscape,
}

/// Room that stays blank, in mm.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Margins {
    /// At the upper edge.
    pub top: f64,
    /// At the right edge.
    pub right: f64,
    /// At the lower edge.
    pub bottom: f64,
    /// At the left edge.
    pub left: f64,
}

/// A page before anything is printed on it.
#[derive(Debug, Clone, PartialEq)]
pub struct Setup {
    width: f64,
    height: f64,
    margins: Margins,
    offset: (f64, f64),
}

/// Why a page cannot be set up so, as one sentence.
#[derive(Debug, Clone, PartialEq)]
pub struct SetupError(String);

/// Paper of up to two metres: more is a slip of the keyboard.
const LARGEST: f64 = 2000.0;
/// What margins must leave, in mm.
const LEAST_ROOM: f64 = 20.0;

impl Paper {
    /// The sizes of the program.
    pub fn embedded() -> Vec<Paper> {
        // OK because a test reads them.
        Paper::read("papers.ron", EMBEDDED).unwrap_or_else(|problem| unreachable!("{problem}"))
    }

    /// Reads a file of sizes.
    ///
    /// # Errors
    /// A [`Problem`] with the place in `file`.
    pub fn read(file: &str, text: &str) -> Result<Vec<Paper>, Problem> {
        read_ron(file, text)
    }

    /// The size of the program with this id, in any case of letters.
    pub fn named(id: &str) -> Option<Paper> {
        let same = |paper: &Paper| paper.id.eq_ignore_ascii_case(id.trim());
        Paper::embedded().into_iter().find(same)
    }
}

impl Margins {
    /// The same at every edge.
    pub const fn even(width: f64) -> Margins {
        Margins {
            top: width,
            right: width,
            bottom: width,
            left: width,
        }
    }
}

impl Setup {
    /// A page of this paper. What is printed is moved by `offset` mm, to the right and down, to
    /// make up for a printer that feeds the sheet askew.
    ///
    /// # Errors
    /// [`SetupError`] where a length is no length, where the margins leave no room, and where the
    /// offset is wider than the margin that it eats.
    pub fn new(
        paper: &Paper,
        orientation: Orientation,
        margins: Margins,
        offset: (f64, f64),
    ) -> Result<Setup, SetupError> {
        let sides = (paper.width, paper.height);
        for side in [sides.0, sides.1] {
            if !(side > 0.0 && side <= LARGEST) {
                return Err(SetupError(format!(
                    "paper {}: found a side of {side} mm, expected over 0 and up to {LARGEST} mm",
                    paper.id
                )));
            }
        }
        let (short, long) = (sides.0.min(sides.1), sides.0.max(sides.1));
        let (width, height) = match orientation {
            Orientation::Portrait => (short, long),
            Orientation::Landscape => (long, short),
        };
        let edges = [
            ("top", margins.top, offset.1),
            ("right", margins.right, -offset.0),
            ("bottom", margins.bottom, -offset.1),
            ("left", margins.left, offset.0),
        ];
        for (edge, margin, inward) in edges {
            if !(margin >= 0.0 && margin.is_finite()) {
                return Err(SetupError(format!(
                    "found a {edge} margin of {margin} mm, expected 0 mm or more"
                )));
            }
            // An offset that is no number fails this as well.
            let left_over = margin + inward;
            if !(left_over >= 0.0 && left_over.is_finite()) {
                return Err(SetupError(format!(
                    "found an offset of {} mm across and {} mm down, expected one that leaves the \
                     {edge} margin of {margin} mm on the page",
                    offset.0, offset.1
                )));
            }
        }
        let setup = Setup {
            width,
            height,
            margins,
            offset,
        };
        let room = setup.room();
        match room.width() >= LEAST_ROOM && room.height() >= LEAST_ROOM {
            true => Ok(setup),
            false => Err(SetupError(format!(
                "found margins that leave {:.0} by {:.0} mm of {width} by {height} mm, expected \
                 {LEAST_ROOM} by {LEAST_ROOM} mm or more",
                room.width().max(0.0),
                room.height().max(0.0)
            ))),
        }
    }

    /// What lies within the margins, without the offset: the room to lay a page out in.
    pub fn room(&self) -> Rect {
        let Margins {
            top,
            right,
            bottom,
            left,
        } = self.margins;
        Rect::new(left, top, self.width - right, self.height - bottom)
    }

    /// The page with these items on it, moved by the offset.
    pub fn page(&self, items: &[Item]) -> Page {
        let place = Affine::translate(self.offset);
        Page {
            width: self.width,
            height: self.height,
            shows: String::new(),
            items: items.iter().map(|item| item.placed(place)).collect(),
        }
    }
}

impl fmt::Display for SetupError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        f.write_str(&self.0)
    }
}

impl std::error::Error for SetupError {}

#[cfg(test)]
mod tests {
    use super::*;

    fn setup(orientation: Orientation, margin: f64, offset: (f64, f64)) -> Result<Setup, String> {
        let paper = Paper::named("A4").expect("A4");
        Setup::new(&paper, orientation, Margins::even(margin), offset)
            .map_err(|error| error.to_string())
    }

    /// ISO 216: a side is the other times the root of two, to a millimetre. Letter is 8.5 by 11 in.
    #[test]
    fn sizes_are_those_of_the_standards() {
        for id in ["a4", "a5"] {
            let paper = Paper::named(id).expect("known");
            assert!(
                (paper.width * 2f64.sqrt() - paper.height).abs() < 1.0,
                "{id}"
            );
        }
        let letter = Paper::named("letter").expect("known");
        for (side, inches) in [(letter.width, 8.5), (letter.height, 11.0)] {
            assert!((side - inches * 25.4).abs() < 1e-9, "{side}");
        }
        assert_eq!(Paper::named("a4").expect("known").height, 297.0);
    }

    #[test]
    fn a_page_lies_as_asked_and_keeps_its_margins() {
        let upright = setup(Orientation::Portrait, 10.0, (0.0, 0.0)).expect("fits");
        assert_eq!(upright.room(), Rect::new(10.0, 10.0, 200.0, 287.0));
        let across = setup(Orientation::Landscape, 10.0, (0.0, 0.0)).expect("fits");
        assert_eq!(across.room(), Rect::new(10.0, 10.0, 287.0, 200.0));
        assert_eq!(across.page(&[]).width, 297.0);
    }

    #[test]
    fn a_setup_that_cannot_be_printed_is_refused_with_a_sentence() {
        for (margin, offset, told) in [
            (f64::NAN, (0.0, 0.0), "found a top margin of NaN mm"),
            (-1.0, (0.0, 0.0), "found a top margin of -1 mm"),
            (100.0, (0.0, 0.0), "leave 10 by 97 mm"),
            (
                10.0,
                (-11.0, 0.0),
                "leaves the left margin of 10 mm on the page",
            ),
            (10.0, (0.0, 12.0), "leaves the bottom margin"),
            (10.0, (f64::NAN, 0.0), "leaves the right margin"),
        ] {
            let refused = setup(Orientation::Portrait, margin, offset).expect_err("refused");
            assert!(refused.contains(told), "{margin} {offset:?}: {refused}");
        }
    }

    #[test]
    fn a_file_of_sizes_with_a_slip_names_its_place() {
        let slip = Paper::read("papers.ron", "[(id: \"a4\", says: \"A4\", wide: 210)]");
        let told = slip.expect_err("a slip").to_string();
        assert!(told.starts_with("papers.ron, line 1"), "{told}");
    }
}
