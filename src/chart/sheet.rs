//! A page before its chart is on it: the title, what the chart is from, and what its signs say.

use std::fmt;

use kurbo::Rect;

use crate::colour::Srgb;
use crate::geometry::Outline;
use crate::paper::{
    Align, Item, Margins, Orientation, Page, Paper, Printable, Setup, SetupError, Style, TextLine,
    Unprintable,
};

const MARGINS: Margins = Margins::even(12.0);
const TITLE: Style = Style::bold(15.0);
/// The least size of a title, in points, and the most lines.
const LEAST_TITLE: f64 = 9.0;
const TITLE_LINES: usize = 2;
const NOTES: Style = Style::regular(9.0);
/// Names and figures along a chart.
pub(super) const FIGURES: Style = Style::regular(8.0);
/// The names of axes.
pub(super) const NAMES: Style = Style::bold(8.0);
/// Between the parts of the head, in mm.
const GAP: f64 = 3.0;
/// A sign of the legend, in mm: its width, and its height above and below the middle of the words.
const SIGN: f64 = 7.0;
const HALF: f64 = 1.6;

/// Draws a sign of the legend within a rectangle.
pub(super) type Sign = fn(Rect) -> Vec<Outline>;

/// Why a chart cannot be put on a page, as one sentence.
#[derive(Debug, Clone, PartialEq)]
pub enum PageError {
    /// The paper has no room.
    Setup(SetupError),
    /// A text cannot be set.
    Text(Unprintable),
}

/// A page that is being filled.
pub(super) struct Sheet {
    setup: Setup,
    /// What is left for the chart.
    pub(super) room: Rect,
    items: Vec<Item>,
}

impl Sheet {
    /// A page that lies across, with its head.
    ///
    /// # Errors
    /// [`PageError`] where the paper is too small for it, or a text cannot be set.
    pub(super) fn new(
        paper: &Paper,
        title: &str,
        notes: &[String],
        legend: &[(Sign, &str)],
    ) -> Result<Sheet, PageError> {
        let setup = Setup::new(paper, Orientation::Landscape, MARGINS, (0.0, 0.0))?;
        let room = setup.room();
        let mut sheet = Sheet {
            setup,
            room,
            items: Vec::new(),
        };
        let title = Printable::new(title)?;
        let (style, lines) = title.fitted(TITLE, LEAST_TITLE, room.width(), TITLE_LINES)?;
        let mut y = room.y0 + style.capital() - style.line();
        for line in lines {
            y += style.line();
            sheet.line(TextLine::new(line, style, (room.x0, y)));
        }
        y += GAP;
        for note in notes {
            for line in Printable::new(note)?.wrapped(NOTES, room.width())? {
                y += NOTES.line();
                let line = TextLine::new(line, NOTES, (room.x0, y));
                sheet.line(line.inked(Srgb::grey(70)));
            }
        }
        if !legend.is_empty() {
            y = sheet.legend(y + GAP + NOTES.line(), legend)?;
        }
        sheet.room.y0 = y + 2.0 * GAP;
        Ok(sheet)
    }

    /// Each sign and what it says, one after the other; the base line of the last of them.
    fn legend(&mut self, mut base: f64, signs: &[(Sign, &str)]) -> Result<f64, PageError> {
        let room = self.room;
        let mut x = room.x0;
        for (sign, says) in signs {
            let says = Printable::new(says)?;
            let end = x + SIGN + 2.0 + says.width(NOTES);
            if end > room.x1 && x > room.x0 {
                (x, base) = (room.x0, base + 1.3 * NOTES.line());
            }
            let middle = base - NOTES.capital() / 2.0;
            let area = Rect::new(x, middle - HALF, x + SIGN, middle + HALF);
            self.draw(sign(area));
            let at = (area.x1 + 2.0, base);
            x = at.0 + says.width(NOTES) + 6.0;
            self.line(TextLine::new(says, NOTES, at));
        }
        Ok(base)
    }

    /// Puts outlines on it, later ones over earlier.
    pub(super) fn draw(&mut self, outlines: impl IntoIterator<Item = Outline>) {
        self.items.extend(outlines.into_iter().map(Item::from));
    }

    /// Sets a text with its start, middle or end at a place on its base line; nothing of no text.
    ///
    /// # Errors
    /// [`PageError::Text`] where the fonts lack a letter of it.
    pub(super) fn say(
        &mut self,
        text: &str,
        style: Style,
        at: (f64, f64),
        align: Align,
    ) -> Result<(), PageError> {
        if !text.is_empty() {
            let line = TextLine::new(Printable::new(text)?, style, at).aligned(align);
            self.line(line);
        }
        Ok(())
    }

    /// Sets a line that is ready.
    pub(super) fn line(&mut self, line: TextLine) {
        self.items.push(line.into());
    }

    /// The page, and what it shows in words.
    pub(super) fn end(self, shows: &str) -> Page {
        Page {
            shows: shows.to_string(),
            ..self.setup.page(&self.items)
        }
    }
}

/// How wide a text is, in mm; 0 where it cannot be set, which is told where it is set.
pub(super) fn wide(text: &str, style: Style) -> f64 {
    Printable::new(text).map_or(0.0, |text| text.width(style))
}

impl From<SetupError> for PageError {
    fn from(error: SetupError) -> PageError {
        PageError::Setup(error)
    }
}

impl From<Unprintable> for PageError {
    fn from(error: Unprintable) -> PageError {
        PageError::Text(error)
    }
}

impl fmt::Display for PageError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            PageError::Setup(error) => error.fmt(f),
            PageError::Text(error) => error.fmt(f),
        }
    }
}

impl std::error::Error for PageError {}
