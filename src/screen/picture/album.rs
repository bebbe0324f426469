//! The pictures that pages show, and some that they showed last.

use super::painted::Painted;
use super::request::{Job, Request};
use crate::screen::abilities::Protocol;

/// So many pictures are kept beside those that are shown: whoever goes up and down a list sees them again
/// at once.
const MOST: usize = 48;
/// So many cells all of them may have: the text of a picture takes some 1,000 bytes a cell, so that they
/// stay under 32 MB.
const MOST_CELLS: usize = 32_000;
/// The number of the first picture. Terminals of kitty's kind know pictures by numbers, those of all
/// programs in a window together: one that is far from where others begin.
const FIRST: u32 = 0x54_52_00;
/// Numbers are colours of letters in such a terminal: three bytes, and none of them is 0 at the top.
const LAST: u32 = 0xff_ff_ff;

/// What was asked for, the last first.
#[derive(Debug, Clone)]
pub(in crate::screen) struct Album {
    leaves: Vec<Leaf>,
    next: u32,
    /// Numbers that the terminal may forget.
    gone: Vec<u32>,
}

#[derive(Debug, Clone)]
struct Leaf {
    id: u32,
    request: Request,
    made: Made,
    /// Whether a page shows it now.
    shown: bool,
}

#[derive(Debug, Clone)]
enum Made {
    NotYet,
    Never,
    Yes(Painted),
}

impl Default for Album {
    fn default() -> Album {
        Album {
            leaves: Vec::new(),
            next: FIRST,
            gone: Vec::new(),
        }
    }
}

impl Album {
    /// From now on pages say anew what they show.
    pub(in crate::screen) fn turn(&mut self) {
        self.leaves.iter_mut().for_each(|leaf| leaf.shown = false);
    }

    /// A page shows this: its number.
    pub(in crate::screen) fn show(&mut self, request: Request) -> u32 {
        let found = self.leaves.iter().position(|leaf| leaf.request == request);
        let mut leaf = match found {
            Some(at) => self.leaves.remove(at),
            None => Leaf {
                id: self.number(),
                request,
                made: Made::NotYet,
                shown: true,
            },
        };
        leaf.shown = true;
        let id = leaf.id;
        self.leaves.insert(0, leaf);
        id
    }

    /// Pages said what they show: what no page shows any more is dropped where it was not made, or was shown
    /// longest ago.
    pub(in crate::screen) fn close(&mut self) {
        let (mut count, mut cells) = (0, 0);
        let (kept, gone): (Vec<Leaf>, Vec<Leaf>) = self.leaves.drain(..).partition(|leaf| {
            let made = matches!(leaf.made, Made::Yes(_));
            count += 1;
            cells += usize::from(leaf.request.size.0) * usize::from(leaf.request.size.1);
            leaf.shown || made && count <= MOST && cells <= MOST_CELLS
        });
        self.leaves = kept;
        self.forget(gone);
    }

    /// The next that is to be made.
    pub(in crate::screen) fn next(&self) -> Option<Job> {
        let mut leaves = self.leaves.iter();
        let leaf = leaves.find(|leaf| leaf.shown && matches!(leaf.made, Made::NotYet))?;
        Some(Job {
            id: leaf.id,
            request: leaf.request.clone(),
        })
    }

    /// Takes in what was made, or that it cannot be; nobody waits for one that is gone.
    pub(in crate::screen) fn put(&mut self, id: u32, painted: Option<Painted>) {
        if let Some(leaf) = self.leaves.iter_mut().find(|leaf| leaf.id == id) {
            leaf.made = painted.map_or(Made::Never, Made::Yes);
        }
    }

    /// The picture of this number, once it is made.
    pub(in crate::screen) fn painted(&self, id: u32) -> Option<&Painted> {
        let leaf = self.leaves.iter().find(|leaf| leaf.id == id)?;
        match &leaf.made {
            Made::Yes(painted) => Some(painted),
            Made::NotYet | Made::Never => None,
        }
    }

    /// Forgets all: the terminal shows them in another size now, or is left.
    pub(in crate::screen) fn clear(&mut self) {
        let gone = std::mem::take(&mut self.leaves);
        self.forget(gone);
    }

    /// The numbers of those that the terminal may forget since the last asking.
    pub(in crate::screen) fn take_gone(&mut self) -> Vec<u32> {
        std::mem::take(&mut self.gone)
    }

    /// Only terminals of kitty's kind keep pictures by themselves.
    fn forget(&mut self, gone: Vec<Leaf>) {
        let kept = gone.iter().filter(|leaf| {
            leaf.request.pixels.protocol == Protocol::Kitty && matches!(leaf.made, Made::Yes(_))
        });
        self.gone.extend(kept.map(|leaf| leaf.id));
    }

    fn number(&mut self) -> u32 {
        let number = self.next;
        self.next = if number == LAST { FIRST } else { number + 1 };
        number
    }
}
