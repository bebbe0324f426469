//! What tags are printed on, as data: kinds of label and the sheets and rolls that carry them.

use serde::Deserialize;

use super::about::About;
use crate::measure::{SizeUnits, same_id};
use crate::paper::Paper;
use crate::problem::{Places, Problem, read_ron};

mod check;
mod planting;

use planting::Planting;

/// Kinds and sheets, and what every tag says beside what was observed.
#[derive(Debug, Clone, PartialEq)]
pub struct Stock {
    /// What every tag says.
    pub practice: Practice,
    /// The least width of a square of a QR code, in mm.
    pub module: f64,
    /// The width from which squares need not be larger, in mm.
    pub comfort: f64,
    /// The kinds, each id once.
    pub kinds: Vec<Kind>,
    /// The sheets, each id once.
    pub sheets: Vec<LabelSheet>,
}

/// What tags say beside what was observed.
#[derive(Debug, Clone, PartialEq)]
pub struct Practice {
    /// The least fitness, 0 to 1, for a use to be named.
    pub floor: f64,
    /// The share of all that a use wants, by weight, that must be observed for it to be the plant's own.
    pub observed: f64,
    /// The most uses named of each ground.
    pub most_uses: usize,
    /// What to take care of, as sentences: for whoever handles plant or tuber.
    pub handling: String,
    /// What to ask about before selling, as sentences: for the grower.
    pub selling: String,
    /// What to know of a line of one's own on tags, as a sentence: for the grower; empty for nothing.
    pub own_line: String,
    planting: Planting,
}

/// A kind of label: what it tells and how large.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Kind {
    /// What commands call it.
    pub id: String,
    /// What people call it.
    pub says: String,
    /// Whether it goes to a buyer.
    pub sold: bool,
    /// The name or number.
    pub title: Title,
    /// The facts.
    pub body: Body,
    /// Which facts, in order.
    pub tells: Vec<About>,
    /// Those of them that stand at the foot in small print.
    #[serde(default)]
    pub small: Small,
    /// Those of them that are left out where all have no room, on the label and in its code.
    #[serde(default)]
    pub spare: Vec<About>,
    /// The side of the drawing in mm; 0 for none.
    pub drawing: f64,
    /// The side of the QR code in mm, its light border counted; 0 for none.
    pub code: f64,
    /// What stays blank at the edge, in mm.
    #[serde(alias = "pad")]
    pub margin: f64,
}

/// How the name is set. Sizes in points.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Title {
    /// Its size.
    pub points: f64,
    /// The least that it shrinks to.
    pub least: f64,
    /// The size of what stands over it for a buyer: `Dahlia`.
    #[serde(default = "over")]
    pub over: f64,
    /// The most lines that it takes.
    pub lines: usize,
    /// The width in mm that it has beside the facts; above them where there is none.
    #[serde(default)]
    pub beside: Option<f64>,
}

/// How the facts are set. Sizes in points.
#[derive(Debug, Clone, Copy, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Body {
    /// Their size.
    pub points: f64,
    /// The least that they shrink to.
    pub least: f64,
}

/// The small print. Sizes in points.
#[derive(Debug, Clone, PartialEq, Default, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct Small {
    /// Which facts are in it.
    pub tells: Vec<About>,
    /// Its size.
    pub points: f64,
    /// The least that it shrinks to.
    pub least: f64,
}

/// A sheet of labels, or a roll of them. Lengths in mm.
#[derive(Debug, Clone, PartialEq, Deserialize)]
#[serde(deny_unknown_fields)]
pub struct LabelSheet {
    /// What commands call it.
    pub id: String,
    /// The id of the kind that it carries.
    pub kind: String,
    /// The id of its paper; without one every label is a page of its own.
    #[serde(default)]
    pub paper: Option<String>,
    /// Labels side by side.
    #[serde(default = "one")]
    pub across: usize,
    /// Labels one below the other.
    #[serde(default = "one")]
    pub down: usize,
    /// Width and height of a label.
    pub label: (f64, f64),
    /// The left and the upper edge of the first label.
    #[serde(default)]
    pub first: (f64, f64),
    /// From one label to the next, across and down; the label's size if left out.
    #[serde(default)]
    pub step: Option<(f64, f64)>,
    /// Whether to print lines to cut along.
    #[serde(default)]
    pub cut: bool,
    /// Dots to the inch of the label printer that it is for: squares of codes are whole dots.
    #[serde(default)]
    pub dots: Option<f64>,
}

/// As the program's own sale tag has it.
fn over() -> f64 {
    10.0
}

fn one() -> usize {
    1
}

/// As the file has it.
#[derive(Deserialize)]
#[serde(deny_unknown_fields)]
struct Source {
    floor: f64,
    observed: f64,
    most_uses: usize,
    planting: Planting,
    handling: String,
    selling: String,
    #[serde(default)]
    own_line: String,
    module: f64,
    comfort: f64,
    kinds: Vec<Kind>,
    sheets: Vec<LabelSheet>,
}

impl Stock {
    /// The file of the program's stock, with what its fields mean: where a grower's own begins.
    pub const SOURCE: &str = include_str!("../../assets/tags.ron");

    /// The stock of the program.
    ///
    /// # Panics
    /// Never: a test reads it.
    pub fn embedded() -> Stock {
        Stock::read("tags.ron", Stock::SOURCE).expect("the embedded stock is read by a test")
    }

    /// Reads a file of it.
    ///
    /// # Errors
    /// A [`Problem`] with the place in `file`: what is no stock, or the first label that does not
    /// fit its sheet.
    pub fn read(file: &str, text: &str) -> Result<Stock, Problem> {
        let source: Source = read_ron(file, text)?;
        let stock = Stock {
            practice: Practice {
                floor: source.floor,
                observed: source.observed,
                most_uses: source.most_uses,
                handling: source.handling,
                selling: source.selling,
                own_line: source.own_line,
                planting: source.planting,
            },
            module: source.module,
            comfort: source.comfort,
            kinds: source.kinds,
            sheets: source.sheets,
        };
        match stock.checked() {
            Ok(()) => Ok(stock),
            Err(wrong) => Err(Places::of(text).problem(file, wrong)),
        }
    }

    /// The kind with this id.
    pub fn kind(&self, id: &str) -> Option<&Kind> {
        self.kinds.iter().find(|kind| same_id(id, &kind.id))
    }

    /// The sheet with this id.
    pub fn sheet(&self, id: &str) -> Option<&LabelSheet> {
        self.sheets.iter().find(|sheet| same_id(id, &sheet.id))
    }

    /// The first sheet of a kind on this paper; where it has none, its first.
    pub fn sheet_for(&self, kind: &str, paper: &str) -> Option<&LabelSheet> {
        let own = || self.sheets.iter().filter(|sheet| sheet.kind == kind);
        let on_paper = own().find(|sheet| sheet.paper.as_deref() == Some(paper));
        on_paper.or_else(|| own().next())
    }
}

impl Practice {
    /// How to plant what grows to this height in mm and whose blooms are of this size, as far as
    /// they are known; with lengths in these units.
    pub fn planting(&self, height: Option<f64>, size: Option<&str>, units: SizeUnits) -> String {
        self.planting.sentence(height, size, units)
    }
}

impl LabelSheet {
    /// The labels on a page.
    pub fn labels(&self) -> usize {
        self.across * self.down
    }

    /// The left and the upper edge of a label on its page, counted row by row from 0.
    pub fn corner(&self, at: usize) -> (f64, f64) {
        let (column, row) = (at % self.across, at / self.across);
        let step = self.step.unwrap_or(self.label);
        (
            self.first.0 + column as f64 * step.0,
            self.first.1 + row as f64 * step.1,
        )
    }

    /// The right and the lower edge of its last label.
    pub(super) fn end(&self) -> (f64, f64) {
        let (x, y) = self.corner(self.labels() - 1);
        (x + self.label.0, y + self.label.1)
    }

    /// The paper in the printer; of a roll one label of it.
    pub(super) fn sheet_of_paper(&self) -> Paper {
        let named = self.paper.as_deref().and_then(Paper::named);
        named.unwrap_or_else(|| Paper {
            id: self.id.clone(),
            says: self.id.clone(),
            width: self.label.0,
            height: self.label.1,
        })
    }

    /// What it is, in words: `8 labels of 95 by 68 mm on A4`.
    pub fn described(&self, units: SizeUnits) -> String {
        let size = self.label_size(units);
        match &self.paper {
            Some(_) => format!(
                "{} labels of {size} on {}",
                self.labels(),
                self.sheet_of_paper().says
            ),
            None => format!("a roll of labels of {size}"),
        }
    }

    /// How large one label is: `95 by 65 mm`, `3.74 by 2.56 in`.
    pub fn label_size(&self, units: SizeUnits) -> String {
        let (width, height) = self.label;
        match units {
            SizeUnits::Mm => format!("{width} by {height} mm"),
            SizeUnits::In => {
                let [width, height] =
                    [width, height].map(|mm| (mm / units.in_mm() * 100.0).round() / 100.0);
                format!("{width} by {height} in")
            }
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn the_embedded_stock_has_a_sheet_of_each_kind_on_both_papers() {
        let stock = Stock::embedded();
        for kind in &stock.kinds {
            for paper in ["a4", "letter"] {
                let sheet = stock.sheet_for(&kind.id, paper).expect("a sheet");
                assert_eq!(sheet.paper.as_deref(), Some(paper), "{}", kind.id);
            }
        }
        assert!(stock.sheets.iter().any(|sheet| sheet.paper.is_none()));
    }

    /// What most label printers print: 8 dots to the mm, sold as 203 to the inch. Common practice,
    /// no source.
    #[test]
    fn the_least_squares_of_codes_are_whole_dots_of_a_label_printer() {
        let stock = Stock::embedded();
        assert_eq!((stock.module * 8.0, stock.comfort * 8.0), (3.0, 4.0));
        for sheet in &stock.sheets {
            let of_a_roll = sheet.paper.is_none().then_some(203.0);
            assert_eq!(sheet.dots, of_a_roll, "{}", sheet.id);
        }
    }

    /// The labels lie in the middle of their paper, as near as half a millimetre a side.
    #[test]
    fn labels_lie_in_the_middle_and_their_sizes_are_round() {
        for sheet in Stock::embedded().sheets {
            let (width, height) = sheet.label;
            assert!(width % 5.0 == 0.0 && height % 5.0 == 0.0, "{}", sheet.id);
            let (paper, (right, bottom)) = (sheet.sheet_of_paper(), sheet.end());
            for (before, after) in [
                (sheet.first.0, paper.width - right),
                (sheet.first.1, paper.height - bottom),
            ] {
                assert!(
                    (before - after).abs() <= 1.0,
                    "{}: {before}, {after}",
                    sheet.id
                );
            }
        }
    }

    #[test]
    fn a_stock_that_cannot_be_printed_is_refused_with_its_place() {
        for (from, to, told) in [
            (
                "label: (95, 70)",
                "label: (120, 70)",
                "sale-a4: found labels from 10 by 8.5 to 250",
            ),
            (
                "label: (95, 70)",
                "label: (95, 70), step: (90, 70)",
                "lie on each other",
            ),
            (
                "kind: \"sale\", paper: \"a4\"",
                "kind: \"sail\", paper: \"a4\"",
                "found the kind \"sail\"",
            ),
            (
                "paper: \"a4\"",
                "paper: \"foolscap\"",
                "found the paper \"foolscap\"",
            ),
            (
                "across: 2, down: 4, label: (95, 70)",
                "across: 0, down: 4, label: (95, 70)",
                "found 0 by 4 labels",
            ),
            ("floor: 0.8", "floor: 7", "found a share outside 0 to 1"),
            (
                "drawing: 22",
                "drawing: -1",
                "stake: found a length below 0",
            ),
            ("least: 18", "least: 70", "found sizes of letters"),
            (
                "points: 9.5, least: 6.5",
                "points: 4000000000, least: 6.5",
                "stake: found sizes of letters that do not rise from `least` to `points`, expected 4 to \
                 400 points",
            ),
            (
                "points: 7, least: 6",
                "points: 4000000000, least: 6",
                "expected 4 to 400 points",
            ),
            (
                "points: 7, least: 6",
                "points: 7, least: 0",
                "expected 4 to 400 points",
            ),
            (
                "lines: 2, beside: 82",
                "lines: 4000000000",
                "found a title of 4000000000 lines",
            ),
            (
                "lines: 2, beside: 82",
                "lines: 2, beside: 4e9",
                "expected 1 to 20 lines",
            ),
            (
                "across: 2, down: 4, label: (95, 70)",
                "across: 4294967296, down: 4294967296, label: (95, 70)",
                "found 4294967296 by 4294967296 labels",
            ),
            (
                "dots: 203",
                "dots: 20",
                "sale-roll: found 20 dots to the inch",
            ),
            (
                "in sun{spacing}",
                "in sun",
                "planting: found lines of `spacing` and a sentence without {spacing}",
            ),
            (
                "sizes: [\"giant\"], ",
                "",
                "found the spacing \"15 cm deep and 90 cm apart\" for no plant",
            ),
        ] {
            let text = Stock::SOURCE.replacen(from, to, 1);
            assert_ne!(text, Stock::SOURCE, "{from}");
            let problem = Stock::read("tags.ron", &text).expect_err(to).to_string();
            assert!(problem.contains(told), "{to}: {problem}");
        }
        let slip = Stock::read("tags.ron", "(floor: 0.7, flour: 1)").expect_err("a slip");
        assert!(slip.to_string().starts_with("tags.ron, line 1"), "{slip}");
    }
}
