//! Text that runs down a column of a page.

use crate::paper::{Item, Printable, Style, TextLine, Unprintable};

/// A column: text is set from its top downward.
#[derive(Debug, Clone)]
pub(super) struct Flow {
    /// What was set so far.
    pub items: Vec<Item>,
    x: f64,
    width: f64,
    /// How far down it is set, in mm of the page.
    pub y: f64,
}

impl Flow {
    /// A column `width` mm wide whose upper left corner is at (x, y).
    pub(super) fn new(x: f64, y: f64, width: f64) -> Flow {
        Flow {
            items: Vec::new(),
            x,
            width,
            y,
        }
    }

    /// A paragraph, its lines broken at spaces.
    ///
    /// # Errors
    /// [`Unprintable`] where a letter cannot be set or a word is wider than the column.
    pub(super) fn say(&mut self, text: &str, style: Style) -> Result<(), Unprintable> {
        self.indented(text, style, 0.0)
    }

    /// The same, set in by so many mm.
    pub(super) fn indented(
        &mut self,
        text: &str,
        style: Style,
        by: f64,
    ) -> Result<(), Unprintable> {
        for line in Printable::new(&curly(&together(text)))?.wrapped(style, self.width - by)? {
            let at = (self.x + by, self.y + style.line() * 0.8);
            self.items.push(TextLine::new(line, style, at).into());
            self.y += style.line();
        }
        Ok(())
    }

    /// Where the next line's left end is, set in by so many mm, and its top.
    pub(super) fn corner(&self, by: f64) -> (f64, f64) {
        (self.x + by, self.y)
    }

    /// How wide it is, in mm.
    pub(super) fn width(&self) -> f64 {
        self.width
    }

    /// An empty column from where this one has come to, narrower on its right side by so many mm.
    pub(super) fn narrower(&self, by: f64) -> Flow {
        Flow::new(self.x, self.y, self.width - by)
    }

    /// Where the column ends on its right side.
    pub(super) fn right(&self) -> f64 {
        self.x + self.width
    }

    /// Room that stays blank, in mm.
    pub(super) fn gap(&mut self, mm: f64) {
        self.y += mm;
    }
}

/// The text with apostrophes as printers set them.
pub(super) fn curly(text: &str) -> String {
    text.replace('\'', "\u{2019}")
}

/// The text with no line break between a number and what it counts.
pub(super) fn together(text: &str) -> String {
    let mut words = text.split(' ').peekable();
    let mut joined = String::with_capacity(text.len());
    while let Some(word) = words.next() {
        joined += word;
        let unit = |next: &&str| next.starts_with(|c: char| c == '%' || c.is_alphabetic());
        let number = word.ends_with(|c: char| c.is_ascii_digit());
        match words.peek() {
            Some(next) if number && unit(next) => joined.push('\u{a0}'),
            Some(_) => joined.push(' '),
            None => {}
        }
    }
    joined
}
