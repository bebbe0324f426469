//! Blocks set one under the other on pages, each page with the same head.

use kurbo::{Affine, Rect};

use super::letters::SMALL;
use super::undrawable::Undrawable;
use crate::paper::{Align, Item, Page, Printable, Setup, Style, TextLine};

const TITLE: Style = Style::bold(13.0);
const NOTES: Style = Style::regular(8.0);
/// The most pages that a plan may take; more is a slip of a unit, or a plan that nobody unrolls.
const MOST_PAGES: usize = 100;
/// Under the head of a page, in mm.
const GAP: f64 = 4.0;
/// What the signs say, on every page.
const SIGNS: &str = "Print at 100 %. Each mark is a plant, with the number of its variety and in its colour; an empty one is a free place. Distances are from the head of the bed.";

/// Something that stands on one page: items about its upper left corner.
pub(super) struct Block {
    /// In mm.
    pub(super) height: f64,
    pub(super) items: Vec<Item>,
    /// What it shows, in words.
    pub(super) shows: String,
}

/// Pages that are being filled.
pub(super) struct Flow<'a> {
    setup: &'a Setup,
    head: Vec<Item>,
    /// Where blocks begin on a page.
    top: f64,
    /// Where the next one begins.
    y: f64,
    pages: Vec<(Vec<Item>, Vec<String>)>,
}

impl<'a> Flow<'a> {
    /// Pages with a title and the scale in words.
    pub(super) fn new(setup: &'a Setup, title: &str, scale: &str) -> Result<Flow<'a>, Undrawable> {
        let room = setup.room();
        let mut y = room.y0 + TITLE.capital();
        let title = TextLine::new(Printable::new(title)?, TITLE, (room.x0, y));
        let mut head: Vec<Item> = vec![title.into()];
        let notes = Printable::new(&format!("Scale {scale}. {SIGNS}"))?;
        y += 1.0;
        for line in notes.wrapped(NOTES, room.width())? {
            y += NOTES.line();
            head.push(TextLine::new(line, NOTES, (room.x0, y)).into());
        }
        let top = y + GAP;
        Ok(Flow {
            setup,
            head,
            top,
            y: top,
            pages: vec![(Vec::new(), Vec::new())],
        })
    }

    /// The room of a page.
    pub(super) fn room(&self) -> Rect {
        self.setup.room()
    }

    /// Puts a block on the page, or on a new one where it has no room.
    ///
    /// # Errors
    /// [`Undrawable`] where there are too many pages.
    pub(super) fn put(&mut self, block: Block) -> Result<(), Undrawable> {
        let room = self.room();
        if self.y + block.height > room.y1 - SMALL.line() && self.y > self.top {
            self.y = self.top;
            self.pages.push((Vec::new(), Vec::new()));
        }
        if self.pages.len() > MOST_PAGES {
            return Err(Undrawable(format!(
                "found beds that take more than {MOST_PAGES} pages, expected fewer: are their lengths in the unit that is meant?"
            )));
        }
        let place = Affine::translate((room.x0, self.y));
        if let Some((items, shows)) = self.pages.last_mut() {
            items.extend(block.items.iter().map(|item| item.placed(place)));
            shows.extend(Some(block.shows).filter(|shows| !shows.is_empty()));
        }
        self.y += block.height;
        Ok(())
    }

    /// The pages, numbered where there are several.
    pub(super) fn end(self) -> Result<Vec<Page>, Undrawable> {
        let room = self.room();
        let count = self.pages.len();
        let page = |(at, (items, shows)): (usize, (Vec<Item>, Vec<String>))| {
            let mut all = self.head.clone();
            all.extend(items);
            if count > 1 {
                let told = Printable::new(&format!("page {} of {count}", at + 1))?;
                let corner = (room.x1, room.y1 - SMALL.below());
                all.push(
                    TextLine::new(told, SMALL, corner)
                        .aligned(Align::Right)
                        .into(),
                );
            }
            Ok(Page {
                shows: shows.join(" "),
                ..self.setup.page(&all)
            })
        };
        self.pages.iter().cloned().enumerate().map(page).collect()
    }
}
