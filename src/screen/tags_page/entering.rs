//! What is typed on the Tags page: a file's name, an offset, words to look for.

use super::{Line, Of, TagsMessage, TagsPage};
use crate::screen::Effect;
use crate::screen::text::erase_last;
use crate::tag::{Grounds, read_offset};

impl TagsPage {
    pub(super) fn begin(&mut self, message: TagsMessage) {
        let (of, text) = match message {
            TagsMessage::Find => {
                let before = (self.words.clone(), self.subject().cloned());
                (Of::Find(before.0, before.1), self.words.clone())
            }
            TagsMessage::Offset => {
                let (x, y) = self.offset;
                (Of::Offset, format!("{x},{y}"))
            }
            TagsMessage::TestPage => (Of::TestPage, self.usual_name(&Of::TestPage)),
            _ => (Of::Print, self.usual_name(&Of::Print)),
        };
        self.line = Some(Line {
            of,
            text,
            problem: None,
        });
    }

    pub(super) fn write(&mut self, c: char) {
        self.edit(|text| text.push(c));
    }

    pub(super) fn erase(&mut self) {
        self.edit(erase_last);
    }

    fn edit(&mut self, edit: impl Fn(&mut String)) {
        let Some(line) = &mut self.line else { return };
        edit(&mut line.text);
        line.problem = None;
        if matches!(line.of, Of::Find(..)) {
            self.words = line.text.clone();
            self.show(None);
        }
    }

    pub(super) fn drop_line(&mut self) {
        if let Some(Line {
            of: Of::Find(before, under),
            ..
        }) = self.line.take()
        {
            self.words = before;
            self.show(under.as_ref());
        }
    }

    pub(super) fn give(&mut self, grounds: &Grounds<'_>) -> Option<Effect> {
        let line = self.line.clone()?;
        let given = match &line.of {
            Of::Find(..) => Ok(None),
            Of::Offset => read_offset(&line.text).map(|offset| {
                self.offset = offset;
                None
            }),
            Of::Print | Of::TestPage => self.print(&line, grounds).map(Some),
        };
        match given {
            Ok(Some(effect)) => return Some(effect),
            Ok(None) => self.line = None,
            Err(why) => {
                if let Some(line) = &mut self.line {
                    line.problem = Some(why);
                }
            }
        }
        None
    }

    /// What the line is for, and what may be typed.
    pub(super) fn asked(&self, of: &Of) -> (&'static str, String) {
        let here = &self.supply.folder;
        match of {
            Of::Print => (
                "Print to",
                format!(".pdf and .svg are pages, .csv for a label printer, .txt plain; in {here}"),
            ),
            Of::TestPage => ("Test page to", format!("A .pdf or .svg; in {here}")),
            Of::Offset => (
                "Move by mm",
                "To the right and down, such as -1,0.5; t prints a page to see it by.".to_string(),
            ),
            Of::Find(..) => (
                "Words",
                "Of a number, name or form; or kept, held, culled, shortlist, on hand, protected."
                    .to_string(),
            ),
        }
    }
}
