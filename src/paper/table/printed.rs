//! A table as it is given, and its texts in the letters that they are printed in.

use kurbo::Rect;

use crate::paper::font::Style;
use crate::paper::printable::{Printable, Unprintable};

/// A table: what is printed, and what is left for the pencil.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Table {
    /// What it is called, at the head of every page.
    pub title: String,
    /// A line under the title: how to fill it in. May be empty.
    pub note: String,
    /// What is filled in at the head of every page, under the note: a word, and what is known already.
    /// Where nothing is, a line is left to write on.
    pub blanks: Vec<(String, String)>,
    /// The columns; the first says whose row it is and is repeated in every strip.
    pub columns: Vec<Column>,
    /// The rows: the text of each cell from the left. Cells that are left out or empty are blank.
    pub rows: Vec<Vec<String>>,
    /// What the rows come to, in a block of its own under the last of them: a name and a figure, the
    /// last the total. The figures end where those of the last column of figures do.
    pub sums: Vec<(String, String)>,
}

/// A column of a table.
#[derive(Debug, Clone, PartialEq, Default)]
pub struct Column {
    /// What stands at its head.
    pub heading: String,
    /// Under it, small: what may be written in a cell.
    pub hint: String,
    /// The width in mm that a pencil needs. It is made wider where the words of the heading or the
    /// printed cells need it, and where the page has room to spare.
    pub width: f64,
    /// Whether its cells are figures: they end at one line, so that points and units stand under each
    /// other.
    pub figures: bool,
}

/// The height of a row, for a hand that writes with a pencil outdoors.
pub(super) const ROW: f64 = 9.0;
/// The height of a sum, and the room above the first.
pub(super) const SUM_ROW: f64 = 6.0;
pub(super) const SUM_GAP: f64 = 2.5;
/// The height of a line to write on at the head of a page, and how long it is at most.
pub(super) const BLANK: f64 = 8.0;
pub(super) const BLANK_WIDTH: f64 = 90.0;
/// Room under the title and above the table.
pub(super) const GAP: f64 = 2.0;
/// Room between a rule and the text beside it.
pub(super) const PAD: f64 = 1.2;
pub(super) const TITLE: Style = Style::bold(14.0);
pub(super) const SMALL: Style = Style::regular(8.5);
pub(super) const HEADING: Style = Style::bold(8.5);
pub(super) const HINT: Style = Style::regular(7.5);
pub(super) const CELL: Style = Style::regular(10.0);
pub(super) const FIRST_CELL: Style = Style::bold(10.0);
/// The least size of a printed cell on one line; smaller, it is set on two.
pub(super) const LEAST_LINE: f64 = 8.5;
/// The size of a cell on two lines, and the least it shrinks to.
pub(super) const TWO_LINES: f64 = 8.0;
pub(super) const LEAST: f64 = 6.5;

/// The table with every text printable.
pub(super) struct Printed {
    pub title: Printable,
    pub note: Printable,
    pub blanks: Vec<(Printable, Printable)>,
    pub headings: Vec<Printable>,
    pub hints: Vec<Printable>,
    pub widths: Vec<f64>,
    pub figures: Vec<bool>,
    pub rows: Vec<Vec<Printable>>,
    pub sums: Vec<(Printable, Printable)>,
}

/// Some of the columns, side by side on one page: which, and how wide.
pub(super) type Strip = Vec<(usize, f64)>;

impl Printed {
    pub(super) fn of(table: &Table) -> Result<Printed, Unprintable> {
        let columns = || table.columns.iter();
        let all = |texts: Vec<&str>| {
            let printable = texts.into_iter().map(Printable::new);
            printable.collect::<Result<Vec<_>, _>>()
        };
        let row = |row: &Vec<String>| {
            all(row
                .iter()
                .take(table.columns.len())
                .map(String::as_str)
                .collect())
        };
        let pairs = |pairs: &[(String, String)]| {
            let pair = |(name, told): &(String, String)| {
                Ok((Printable::new(name)?, Printable::new(told)?))
            };
            pairs.iter().map(pair).collect::<Result<Vec<_>, _>>()
        };
        Ok(Printed {
            title: Printable::new(&table.title)?,
            blanks: pairs(&table.blanks)?,
            figures: columns().map(|one| one.figures).collect(),
            sums: pairs(&table.sums)?,
            note: Printable::new(&table.note)?,
            headings: all(columns().map(|one| one.heading.as_str()).collect())?,
            hints: all(columns().map(|one| one.hint.as_str()).collect())?,
            widths: columns().map(|one| one.width).collect(),
            rows: table.rows.iter().map(row).collect::<Result<_, _>>()?,
        })
    }

    /// The height of title and note, down to the table; `parted` tables say where they go on.
    pub(super) fn top(&self, room: Rect, parted: bool) -> Result<f64, Unprintable> {
        let lines = self.note.wrapped(SMALL, room.width())?.len() + usize::from(parted);
        let blanks = self.blanks.len() as f64 * BLANK;
        Ok(TITLE.line() + 2.0 * GAP + lines as f64 * SMALL.line() + blanks)
    }

    /// How many rows the sums take the room of.
    pub(super) fn rows_of_sums(&self) -> usize {
        match self.sums.len() {
            0 => 0,
            count => ((SUM_GAP + count as f64 * SUM_ROW) / ROW).ceil() as usize,
        }
    }

    /// The column that the sums stand under: the last of figures, or else the last.
    pub(super) fn column_of_sums(&self) -> usize {
        let last = self.figures.iter().rposition(|figures| *figures);
        last.unwrap_or(self.figures.len().saturating_sub(1))
    }

    /// The height of the head that holds every heading and hint of a strip.
    pub(super) fn head_height(&self, strip: &Strip) -> Result<f64, Unprintable> {
        let mut tallest = 0.0;
        for (column, width) in strip {
            let inside = width - 2.0 * PAD;
            let heading = self.headings[*column].wrapped(HEADING, inside)?.len() as f64;
            let hint = self.hints[*column].wrapped(HINT, inside)?.len() as f64;
            tallest = f64::max(tallest, heading * HEADING.line() + hint * HINT.line());
        }
        Ok(tallest + 2.0 * PAD)
    }
}

/// The lines of a printed cell: one, or two of smaller letters.
pub(super) fn cell_lines(
    text: &Printable,
    first: bool,
    width: f64,
) -> Result<(Style, Vec<Printable>), Unprintable> {
    let style = if first { FIRST_CELL } else { CELL };
    text.fitted(style, LEAST_LINE, width, 1).or_else(|_| {
        let smaller = Style {
            points: TWO_LINES,
            ..style
        };
        text.fitted(smaller, LEAST, width, 2)
    })
}
