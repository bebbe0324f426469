//! Where the values of a text of RON stand in it.

use super::tree::Node;
use super::{Path, Problem, Step, Wrong, told};

/// The places of all values of one text, read once however much is looked up.
#[derive(Debug, Clone)]
pub struct Places<'a> {
    text: &'a str,
    whole: Node,
    /// Where each line begins.
    lines: Vec<usize>,
}

impl<'a> Places<'a> {
    /// Of a text that was read as RON. Of any other it is not said what is found.
    pub fn of(text: &'a str) -> Places<'a> {
        let after_line = text.match_indices('\n').map(|(at, _)| at + 1);
        Places {
            whole: Node::of(text),
            lines: std::iter::once(0).chain(after_line).collect(),
            text,
        }
    }

    /// Where the value at the end of the path begins; of one that is left out in the text, the
    /// record or list that would hold it.
    pub fn offset(&self, path: &Path) -> usize {
        let mut here = &self.whole;
        for step in path.steps() {
            let named = |name: &str| {
                let mut within = here.within.iter();
                within.find(|held| held.name(self.text) == Some(name))
            };
            let held = match step {
                Step::Field(name) => named(name),
                Step::Renamed { now, once } => named(now).or_else(|| named(once)),
                Step::At(place) => here.within.get(*place),
            };
            match held {
                Some(held) => here = &held.value,
                None => break,
            }
        }
        here.start
    }

    /// What is wrong, with its line and column in the text.
    pub fn problem(&self, file: &str, wrong: Wrong) -> Problem {
        let offset = self.offset(&wrong.at);
        let line = self.lines.partition_point(|start| *start <= offset);
        let before = &self.text[self.lines[line - 1]..offset];
        Problem {
            file: file.to_string(),
            line,
            column: 1 + before.chars().count(),
            message: told(&wrong.message),
        }
    }
}

#[cfg(test)]
mod tests;
