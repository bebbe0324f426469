//! One value, whatever its shape.

use super::change::{Again, Change, digest, newline};
use super::merge::Merge;
use super::splice::Splices;
use super::three::{In, Three};
use crate::problem::Node;

/// What changes a text into one with the value that the program would write as `new`; `None` where that
/// does not come out.
pub(super) fn change(text: &str, new: &str, again: Again) -> Option<Change> {
    let old = again(text)?;
    let [own_node, old_node, new_node] = [text, &old, new].map(Node::of);
    let mut splices = Splices::default();
    let mut merge = Merge {
        newline: newline(text),
        splices: &mut splices,
    };
    let as_in = |text, node| In { text, node };
    merge.merge(
        Three {
            own: as_in(text, &own_node),
            old: as_in(&old, &old_node),
            new: as_in(new, &new_node),
        },
        Some(""),
    )?;
    let splices = splices.in_order();
    let text = splices.applied(text)?;
    (again(&text)? == new).then(|| Change {
        text,
        splices,
        before: digest([old.as_str()].into_iter()),
    })
}
