//! A line of a chart in characters: pieces of text with what they are, and the characters there are.

use std::fmt;

use crate::account::text::width;
use crate::colour::Srgb;

/// What a piece of a chart is. How it looks is for who shows it; each is told from the others by its
/// characters too.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Ink {
    /// Names and figures.
    Words,
    /// Names over columns of figures.
    Names,
    /// Axes and lines to go by; never words, for they may be faint.
    Rule,
    /// A value, as long as it is.
    Bar,
    /// From where to where a value may lie.
    Range,
    /// The same drawn over a bar.
    RangeOnBar,
    /// What is wanted, or a limit.
    Need,
    /// The same drawn over a bar.
    NeedOnBar,
    /// What is as good as sure.
    Sure,
    /// What may or may not be.
    Unsure,
    /// What lacks.
    Short,
    /// A colour itself.
    Colour(Srgb),
}

/// The characters that a chart may be drawn with.
#[derive(Debug, Clone, Copy, PartialEq, Eq, Default)]
pub enum Signs {
    /// Blocks to an eighth, lines and corners.
    #[default]
    Eighths,
    /// Blocks to a half alone, as the oldest fonts have them.
    Halves,
    /// ASCII alone.
    Ascii,
}

/// Eighths of a cell.
pub(super) const EIGHTHS: usize = 8;

/// Blocks from the left, an eighth wide to seven.
const ACROSS: [char; 7] = ['▏', '▎', '▍', '▌', '▋', '▊', '▉'];
/// Blocks from below, an eighth high to seven.
const UP: [char; 7] = ['▁', '▂', '▃', '▄', '▅', '▆', '▇'];
const FULL: char = '█';

impl Signs {
    /// A cell of which so many eighths are filled from the left.
    pub(super) fn across(self, eighths: usize) -> char {
        self.block(eighths, ACROSS, '▌', ['=', '='])
    }

    /// A bar of such a share of so many columns, which it fills.
    pub fn bar(self, share: f64, columns: usize) -> String {
        let eighths = (share * (columns * EIGHTHS) as f64).round() as usize;
        let cell = |at: usize| self.across(eighths.saturating_sub(at * EIGHTHS).min(EIGHTHS));
        (0..columns).map(cell).collect()
    }

    /// A cell of which so many eighths are filled from below.
    pub(super) fn up(self, eighths: usize) -> char {
        self.block(eighths, UP, '▄', ['.', '#'])
    }

    /// The character for such a sign, or the one of ASCII.
    pub(super) fn pick(self, fine: char, ascii: char) -> char {
        match self {
            Signs::Ascii => ascii,
            Signs::Eighths | Signs::Halves => fine,
        }
    }

    fn block(self, eighths: usize, fine: [char; 7], half: char, ascii: [char; 2]) -> char {
        match (self, eighths) {
            (_, 0) => ' ',
            (Signs::Eighths, 1..EIGHTHS) => fine[eighths - 1],
            (Signs::Halves, 1) | (Signs::Ascii, 1..4) => ' ',
            (Signs::Halves, 2..6) => half,
            (Signs::Ascii, 4..EIGHTHS) => ascii[0],
            (Signs::Ascii, _) => ascii[1],
            (Signs::Eighths | Signs::Halves, _) => FULL,
        }
    }
}

/// A line: pieces one after the other.
#[derive(Debug, Clone, PartialEq, Eq, Default)]
pub struct Line {
    pieces: Vec<(String, Ink)>,
}

impl Line {
    /// A line of one piece.
    pub fn of(text: impl Into<String>, ink: Ink) -> Line {
        Line::default().with(text, ink)
    }

    /// The line with one more piece.
    pub fn with(mut self, text: impl Into<String>, ink: Ink) -> Line {
        let text = text.into();
        match self.pieces.last_mut() {
            Some((last, own)) if *own == ink => last.push_str(&text),
            _ if text.is_empty() => {}
            _ => self.pieces.push((text, ink)),
        }
        self
    }

    /// The line with another after it.
    pub fn and(self, other: Line) -> Line {
        let pieces = other.pieces.into_iter();
        pieces.fold(self, |line, (text, ink)| line.with(text, ink))
    }

    /// Its pieces in order, each with what it is.
    pub fn pieces(&self) -> impl Iterator<Item = (&str, Ink)> {
        self.pieces.iter().map(|(text, ink)| (text.as_str(), *ink))
    }

    /// Its width in columns.
    pub fn width(&self) -> usize {
        self.pieces().map(|(text, _)| width(text)).sum()
    }

    /// The line without spaces at its end.
    pub fn trimmed(mut self) -> Line {
        while let Some((last, _)) = self.pieces.last_mut() {
            last.truncate(last.trim_end_matches(' ').len());
            if !last.is_empty() {
                break;
            }
            self.pieces.pop();
        }
        self
    }
}

impl fmt::Display for Line {
    /// The text alone.
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        self.pieces().try_for_each(|(text, _)| f.write_str(text))
    }
}
