//! A text whose words are measured once, to be tried at many sizes.

use super::breaking::Breaking;
use super::font::{Face, Weight};
use super::printable::{Printable, Unprintable};

/// A text in letters of one weight. How many lines it takes is counted at any size without looking at a
/// letter again.
#[derive(Debug, Clone, PartialEq)]
pub struct Measured {
    text: Printable,
    weight: Weight,
    /// How wide each word is, as a share of the size of its letters.
    words: Vec<f64>,
    space: f64,
}

impl Measured {
    /// A text in these letters.
    pub fn new(text: Printable, weight: Weight) -> Measured {
        let face = Face::of(weight);
        Measured {
            words: text.split().map(|word| face.advances(word)).collect(),
            space: face.advances(" "),
            text,
            weight,
        }
    }

    /// Its letters.
    pub fn weight(&self) -> Weight {
        self.weight
    }

    /// How many lines of `width` mm it takes in letters of so many points; `None` where a word is wider
    /// than a line.
    pub fn lines(&self, points: f64, width: f64) -> Option<usize> {
        let mut breaking = Breaking::new(self.space, points, width);
        let mut lines = 0;
        for word in &self.words {
            lines += usize::from(breaking.begins_a_line(*word)?);
        }
        Some(lines)
    }

    /// Those lines.
    ///
    /// # Errors
    /// [`Unprintable::TooWide`] where one word is wider than a line: a word is never cut.
    pub fn wrapped(&self, points: f64, width: f64) -> Result<Vec<Printable>, Unprintable> {
        self.text
            .broken(self.words.iter().copied(), self.space, points, width)
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::paper::Style;

    proptest! {
        /// At any size it breaks as the text itself does, and as many lines are counted.
        #[test]
        fn it_breaks_as_its_text_does(
            text in "[A-Za-z\u{c0}-\u{24f} ,.\u{a0}-]{0,120}", points in 4.0f64..30.0, width in 5.0f64..120.0,
        ) {
            let text = Printable::new(&text).expect("a text that can be printed");
            for (weight, style) in [
                (Weight::Regular, Style::regular(points)),
                (Weight::Bold, Style::bold(points)),
            ] {
                let measured = Measured::new(text.clone(), weight);
                let lines = text.wrapped(style, width);
                prop_assert_eq!(measured.lines(points, width), lines.as_ref().ok().map(Vec::len));
                prop_assert_eq!(measured.wrapped(points, width), lines);
            }
        }
    }
}
