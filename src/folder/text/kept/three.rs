//! One value in three texts.

use super::place::{Row, Span};
use crate::problem::Node;

/// A value with the text that it stands in.
#[derive(Clone, Copy)]
pub(super) struct In<'a> {
    pub(super) text: &'a str,
    pub(super) node: &'a Node,
}

/// One value three times.
#[derive(Clone, Copy)]
pub(super) struct Three<'a> {
    /// As the grower wrote it.
    pub(super) own: In<'a>,
    /// As the program would write it.
    pub(super) old: In<'a>,
    /// As the program would write the new one.
    pub(super) new: In<'a>,
}

impl<'a> In<'a> {
    pub(super) fn written(self) -> &'a str {
        &self.text[self.node.start..self.node.end]
    }

    pub(super) fn head(self) -> &'a str {
        self.node.head(self.text)
    }

    pub(super) fn within(self, at: usize) -> In<'a> {
        let node = &self.node.within[at].value;
        In { node, ..self }
    }

    /// What the program wrote for each value within.
    pub(super) fn each(self) -> Vec<&'a str> {
        let within = self.node.within.iter();
        within
            .map(|held| &self.text[held.start..held.end])
            .collect()
    }

    pub(super) fn spans(self) -> Vec<Span> {
        self.node.within.iter().map(Span::from).collect()
    }

    /// Its inside; `None` where its bracket is never closed.
    pub(super) fn row(self, spans: &'a [Span]) -> Option<Row<'a>> {
        let inside = self.node.inside(self.text);
        let close = self.text.get(inside.end..self.node.end)?;
        [")", "]", "}"].contains(&close).then_some(Row {
            text: self.text,
            begin: inside.start,
            end: inside.end,
            spans,
        })
    }
}
