//! How a value of the program's is laid out in a text of the grower's.

use crate::problem::{Node, Scan, Shape, Token};

/// A value of a text that the program wrote.
#[derive(Debug, Clone, Copy)]
pub(super) struct Fresh<'a> {
    /// All of that text.
    pub(super) text: &'a str,
    /// Where the value begins, its name with it.
    pub(super) start: usize,
    /// The value.
    pub(super) value: &'a Node,
}

impl<'a> Fresh<'a> {
    /// A value without the name of its field.
    pub(super) fn unnamed(text: &'a str, value: &'a Node) -> Fresh<'a> {
        let start = value.start;
        Fresh { text, start, value }
    }

    fn own(self) -> &'a str {
        &self.text[self.start..self.value.end]
    }

    /// Whether it is a value of a list.
    pub(super) fn is_unnamed(self) -> bool {
        self.start == self.value.start
    }

    /// On one line: `(name: "sea wall", rows: 2)`.
    pub(super) fn on_one_line(self) -> String {
        one_line(self.own())
    }

    /// On as many lines as the program gave it, from a line that is indented so.
    pub(super) fn on_lines(self, indent: &str, newline: &str) -> String {
        let before = &self.text[..self.start];
        let line = before.rfind('\n').map_or(before, |at| &before[at + 1..]);
        let own = &line[..line.len() - line.trim_start().len()];
        let mut lines = self.own().split('\n');
        let mut text = lines.next().unwrap_or_default().to_string();
        for line in lines {
            text += newline;
            text += indent;
            text += line.strip_prefix(own).unwrap_or(line);
        }
        text
    }

    /// With each value within it on a line of its own.
    pub(super) fn spread(self, indent: &str, newline: &str) -> String {
        if self.value.within.is_empty() || self.value.shape == Shape::Word {
            return self.on_one_line();
        }
        let inside = self.value.inside(self.text);
        let mut text = self.text[self.start..inside.start].to_string();
        for held in &self.value.within {
            let line = one_line(&self.text[held.start..held.end]);
            text += &format!("{newline}{indent}  {line},");
        }
        text + newline + indent + &self.text[inside.end..self.value.end]
    }
}

/// Whether a value has the first of those within it on a line of its own.
pub(super) fn is_spread(text: &str) -> bool {
    let mut scan = Scan::new(text);
    let open = scan.find(|(token, _)| *token != Token::Word);
    let gap = open.zip(scan.next());
    gap.is_some_and(|((_, open), (next, at))| {
        next != Token::Close && text[open.end..at.start].contains('\n')
    })
}

/// The marks and words of a text with one blank behind each comma and colon.
fn one_line(text: &str) -> String {
    let mut line = String::with_capacity(text.len());
    let mut comma = false;
    for (token, range) in Scan::new(text) {
        if comma && token != Token::Close {
            line.push_str(", ");
        }
        comma = token == Token::Comma;
        match token {
            Token::Comma => {}
            Token::Colon => line.push_str(": "),
            _ => line.push_str(&text[range]),
        }
    }
    line
}
