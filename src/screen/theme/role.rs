//! What a piece of text on the screen can be.

use crate::colour::Srgb;

/// What a piece of text is; how it looks is the theme's.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Role {
    /// Running text.
    Plain,
    /// The head of a part of the page.
    Heading,
    /// What the eye should find first.
    Strong,
    /// Words that can wait: hints, names of fields, heads of columns. They are read like all others.
    Quiet,
    /// A line that parts or frames; never words, for it may be faint.
    Line,
    /// A key to press.
    Key,
    /// A form that fits, or a settled verdict.
    Fits,
    /// Something to be unsure about.
    Doubt,
    /// Something that is wrong.
    Wrong,
    /// A letter that was looked for.
    Found,
    /// The same where the cursor is.
    ChosenFound,
    /// Where the cursor is.
    Chosen,
    /// The half of a cell in a flower's colour, where the cursor is.
    ChosenSwatch(Srgb),
    /// A block of a flower's colour; what is written in it is not seen where there is colour.
    Swatch(Srgb),
    /// A cell of a bloom's drawing: the colours of its symbol and behind it, as far as it has any.
    Petal(Option<Srgb>, Option<Srgb>),
    /// The same where an arrow or a dimension line runs through it, which has its own ink.
    MarkedPetal(Option<Srgb>),
    /// Such an arrow elsewhere, and the words for what it points to.
    Marked,
    /// A bar of a chart, or its curve.
    Bar,
    /// From where to where a bar may end.
    Range,
    /// The same drawn over a bar.
    RangeOnBar,
    /// What is needed, or a limit, in a chart.
    Need,
    /// The same drawn over a bar.
    NeedOnBar,
    /// What lacks, in a chart.
    Short,
}
