//! What is typed on the Tags page: a file's name, an offset, words to look for.

use super::{Of, TagsMessage, TagsPage};
use crate::screen::Effect;
use crate::screen::kit::line::{Edit, Line};
use crate::tag::{ClaimSources, read_offset};

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
        self.line = Some(Line::offering(of, text));
    }

    /// Edits the line; what is shown follows the words that are looked for.
    pub(in crate::screen) fn edit(&mut self, edit: &Edit) {
        self.note = None;
        let Some(line) = &mut self.line else { return };
        if line.edit(edit) && matches!(line.of, Of::Find(..)) {
            self.words = line.text().to_string();
            self.show(None);
        }
    }

    pub(super) fn drop_line(&mut self) {
        let dropped = self.line.take().map(|line| line.of);
        if let Some(Of::Find(before, under)) = dropped {
            self.words = before;
            self.show(under.as_ref());
        }
    }

    pub(super) fn give(&mut self, grounds: &ClaimSources<'_>) -> Option<Effect> {
        let line = self.line.clone()?;
        let given = match &line.of {
            Of::Find(..) => Ok(None),
            Of::Offset => read_offset(line.text()).map(|offset| {
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
                    line.refuse(why);
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
