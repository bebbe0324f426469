//! In which order the pages made their changes. Each page keeps its own.

use super::message::Page;

/// The pages in the order of their changes, and of those that were taken back.
#[derive(Debug, Clone, Default)]
pub(super) struct Turns {
    pub(super) past: Vec<Page>,
    pub(super) future: Vec<Page>,
}

/// How many changes of a page can be undone, and how many done again.
pub(super) type Depth = (usize, usize);

/// The pages that keep records.
pub(super) const KEEPERS: [Page; 4] = [Page::Choose, Page::Row, Page::Order, Page::Stock];

impl Turns {
    /// Takes in what a message did to the changes of a page.
    pub(super) fn follow(&mut self, page: Page, before: Depth, after: Depth) {
        let (made, again) = (after.0 > before.0, after.1 < before.1);
        if made && again && self.future.last() == Some(&page) {
            self.future.pop();
            self.past.push(page);
        } else if made {
            self.future.clear();
            self.past.push(page);
        } else if after.0 < before.0 {
            if let Some(at) = self.past.iter().rposition(|one| *one == page) {
                self.past.remove(at);
            }
            self.future.push(page);
        }
    }
}

#[cfg(test)]
mod tests {
    use super::*;
    use Page::{Choose, Order};

    #[test]
    fn the_last_change_is_the_first_to_be_undone_wherever_it_was_made() {
        let mut turns = Turns::default();
        turns.follow(Choose, (0, 0), (1, 0));
        turns.follow(Order, (0, 0), (1, 0));
        turns.follow(Choose, (1, 0), (2, 0));
        assert_eq!(turns.past, [Choose, Order, Choose]);
        turns.follow(Choose, (2, 0), (1, 1));
        turns.follow(Order, (1, 0), (0, 1));
        assert_eq!(
            (&turns.past[..], &turns.future[..]),
            (&[Choose][..], &[Choose, Order][..])
        );
        turns.follow(Order, (0, 1), (1, 0));
        assert_eq!(
            (&turns.past[..], &turns.future[..]),
            (&[Choose, Order][..], &[Choose][..])
        );
        // What is new ends what could be done again.
        turns.follow(Order, (1, 0), (2, 0));
        assert_eq!((turns.past.len(), turns.future.len()), (3, 0));
    }
}
