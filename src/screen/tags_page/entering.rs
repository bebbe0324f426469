//! What is typed on the Tags page: a file's name, an offset, words to look for.

use super::{Of, TagsMessage, TagsPage};
use crate::measure::brief;
use crate::screen::Effect;
use crate::screen::kit::line::{Edit, Line};
use crate::stock::Stock;
use crate::tag::{ClaimSources, Copies, Selling, read_offset};
use crate::trial::Subject;

impl TagsPage {
    pub(super) fn begin(&mut self, message: TagsMessage) {
        let (of, text) = match message {
            TagsMessage::Find => {
                let before = (self.words.clone(), self.subject().cloned());
                (Of::Find(before.0, before.1), self.words.clone())
            }
            TagsMessage::CopiesOfOne | TagsMessage::PriceOfOne if self.subject().is_none() => {
                return self.say("There is no plant under the cursor.");
            }
            TagsMessage::CopiesOfOne | TagsMessage::CopiesOfAll => {
                let one = self
                    .subject()
                    .filter(|_| message == TagsMessage::CopiesOfOne);
                let copies = one.map_or(*self.copies.of.for_all(), |one| self.copies_of(one));
                (Of::Copies(one.cloned()), copies.to_string())
            }
            TagsMessage::PriceOfOne | TagsMessage::PriceOfAll => {
                let one = self
                    .subject()
                    .filter(|_| message == TagsMessage::PriceOfOne);
                let price = &self.selling_now().price;
                let price = one.map_or(price.for_all(), |one| price.of(one));
                let text = price.map_or("none".to_string(), |price| price.to_string());
                (Of::Price(one.cloned()), text)
            }
            TagsMessage::From => (Of::From, self.placing.from.to_string()),
            TagsMessage::Offset => {
                let (x, y) = self.placing.offset;
                (Of::Offset, format!("{x},{y}"))
            }
            TagsMessage::TestPage => (Of::TestPage, self.usual_name(&Of::TestPage)),
            TagsMessage::Prices(order) => {
                let of = Of::Prices(order);
                let name = self.usual_name(&of);
                (of, name)
            }
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

    pub(super) fn give(&mut self, grounds: &ClaimSources<'_>, book: &Stock) -> Option<Effect> {
        let line = self.line.clone()?;
        let given = match &line.of {
            Of::Find(..) => Ok(None),
            Of::Offset => read_offset(line.text()).map(|offset| {
                self.placing.offset = offset;
                None
            }),
            Of::Copies(one) => Copies::read(line.text()).map(|copies| {
                self.copies.of.set(one.clone(), copies);
                None
            }),
            Of::Price(one) => Selling::read_price(line.text()).map(|price| {
                self.selling.price.set(one.clone(), price);
                self.forget_said();
                None
            }),
            Of::From => self.read_from(line.text()).map(|from| {
                self.placing.from = from;
                None
            }),
            Of::Print | Of::TestPage | Of::Prices(_) => self.print(&line, grounds, book).map(Some),
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

    fn read_from(&self, text: &str) -> Result<usize, String> {
        let sheet = self.sheet().ok_or("the stock has no sheet")?;
        let from = text.trim().parse::<usize>().map_err(|_| {
            let found = brief(text);
            format!("found {found:?}, expected the number of a label, such as 5")
        })?;
        sheet.begun_at(from)
    }

    /// What the line is for, and what may be typed.
    pub(super) fn asked(&self, of: &Of) -> (&'static str, String) {
        let here = &self.supply.folder;
        match of {
            Of::Print => (
                "Print to",
                format!(".pdf and .svg are pages, .csv for a label printer, .txt plain; in {here}"),
            ),
            Of::Prices(_) => (
                "Price list to",
                format!(".pdf and .svg are pages with drawings, .csv a table; in {here}"),
            ),
            Of::TestPage => ("Test page to", format!("A .pdf or .svg; in {here}")),
            Of::Offset => (
                "Move by mm",
                "To the right and down, such as -1,0.5; t prints a page to see it by.".to_string(),
            ),
            Of::Copies(one) => (
                "Copies",
                format!("How many labels {}, such as 12.", of_whom(one.as_ref())),
            ),
            Of::Price(one) => (
                "Price",
                format!(
                    "What one costs {}, such as 4.50; or none.",
                    of_whom(one.as_ref())
                ),
            ),
            Of::From => (
                "First label",
                "Counted row by row on the first sheet: those before it are used up.".to_string(),
            ),
            Of::Find(..) => (
                "Words",
                "Of a number, name or form; or kept, held, culled, shortlist, on hand, protected."
                    .to_string(),
            ),
        }
    }
}

fn of_whom(one: Option<&Subject>) -> String {
    match one {
        Some(one) => format!("of {one}"),
        None => "of each plant without a figure of its own".to_string(),
    }
}
