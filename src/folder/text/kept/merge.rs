//! What must change in a text of the grower's for it to hold another value, from three trees: of that
//! text, of what the program would write for the value that it holds, and of what it would write for
//! the new one.

use super::align::{aligned, staying};
use super::arrange::{Slot, arrange};
use super::layout::Fresh;
use super::names::Names;
use super::splice::Splices;
use super::three::{In, Three};
use crate::problem::{Held, Shape};

/// Collects what must change.
pub(super) struct Merge<'s> {
    /// What ends the lines of the grower's text.
    pub(super) newline: &'static str,
    /// What must change.
    pub(super) splices: &'s mut Splices,
}

impl Merge<'_> {
    /// Takes up what differs; `indent` is that of the line that the value begins on, where it is the
    /// first there. `None` where a text is not what it was taken for.
    pub(super) fn merge(&mut self, three: Three<'_>, indent: Option<&str>) -> Option<()> {
        let Three { own, old, new } = three;
        if old.written() == new.written() {
            return Some(());
        }
        let shape = own.node.shape;
        let one_shape = shape == old.node.shape && shape == new.node.shape;
        if !one_shape || shape == Shape::Word || old.head() != new.head() {
            self.replace(own, new, indent);
            return Some(());
        }
        let named = [own, old, new].map(|one| one.node.within.iter().all(Held::is_named));
        let counts = [own, old, new].map(|one| one.node.within.len());
        match shape {
            Shape::Square if counts[0] == counts[1] => self.list(three),
            Shape::Round | Shape::Curly if named == [true; 3] => self.record(three),
            Shape::Round if named != [true; 3] && counts == [counts[0]; 3] => {
                self.side_by_side(three)
            }
            _ => {
                self.replace(own, new, indent);
                Some(())
            }
        }
    }

    fn replace(&mut self, own: In<'_>, new: In<'_>, indent: Option<&str>) {
        let fresh = Fresh::unnamed(new.text, new.node);
        let written = match indent {
            Some(indent) => fresh.on_lines(indent, self.newline),
            None => fresh.on_one_line(),
        };
        self.splices.push(own.node.start..own.node.end, written);
    }

    fn list(&mut self, three: Three<'_>) -> Option<()> {
        let Three { own, old, new } = three;
        let found = aligned(&old.each(), &new.each());
        let stays = staying(&found);
        let spans = own.spans();
        let row = own.row(&spans)?;
        let mut slots = Vec::with_capacity(found.len());
        for (at, was) in found.into_iter().enumerate() {
            let Some(was) = was else {
                let value = &new.node.within[at].value;
                slots.push(Slot::New(Fresh::unnamed(new.text, value)));
                continue;
            };
            let three = Three {
                own: own.within(was),
                old: old.within(was),
                new: new.within(at),
            };
            let indent = row.indent(was);
            if stays[at] {
                self.merge(three, indent)?;
                slots.push(Slot::Stays(was));
            } else {
                let mut splices = Splices::default();
                let mut merge = Merge {
                    newline: self.newline,
                    splices: &mut splices,
                };
                merge.merge(three, indent)?;
                slots.push(Slot::Moves(was, splices));
            }
        }
        arrange(row, slots, self.newline, self.splices)
    }

    fn side_by_side(&mut self, three: Three<'_>) -> Option<()> {
        let Three { own, old, new } = three;
        let spans = own.spans();
        let row = own.row(&spans)?;
        for at in 0..spans.len() {
            let three = Three {
                own: own.within(at),
                old: old.within(at),
                new: new.within(at),
            };
            self.merge(three, row.indent(at))?;
        }
        Some(())
    }

    fn record(&mut self, three: Three<'_>) -> Option<()> {
        let Three { own, old, new } = three;
        let spans = own.spans();
        let row = own.row(&spans)?;
        let names = Names::of(three);
        let gone = |at: &usize| {
            let name = names.own[*at].as_str();
            names.in_old(name).is_some() && names.in_new(name).is_none()
        };
        let stay = (0..spans.len()).filter(|at| !gone(at));
        // The slots with the names of their fields, to find what a new one follows.
        let mut slots: Vec<(&str, Slot<'_>)> = stay
            .map(|at| (names.own[at].as_str(), Slot::Stays(at)))
            .collect();
        for (at, name) in names.new.iter().enumerate() {
            let written = new.within(at);
            let was = names.in_old(name).map(|at| old.within(at));
            if was.is_some_and(|was| was.written() == written.written()) {
                continue;
            }
            match (names.in_own(name), was) {
                (Some(place), Some(was)) => {
                    let three = Three {
                        own: own.within(place),
                        old: was,
                        new: written,
                    };
                    self.merge(three, row.indent(place))?;
                }
                // Left out by the program, as it is `None` or nothing, and written by the grower.
                (Some(place), None) => {
                    self.replace(own.within(place), written, row.indent(place));
                }
                (None, _) => {
                    let before = names.new[..at].iter().rev();
                    let mut before =
                        before.filter_map(|name| slots.iter().position(|slot| slot.0 == name));
                    let place = before.next().map_or(0, |before| before + 1);
                    let fresh = Fresh {
                        text: new.text,
                        start: new.node.within[at].start,
                        value: written.node,
                    };
                    slots.insert(place, (name, Slot::New(fresh)));
                }
            }
        }
        let slots = slots.into_iter().map(|(_, slot)| slot).collect();
        arrange(row, slots, self.newline, self.splices)
    }
}
