//! One bloom gone through by the card's own questions, so that who reads it sees how it is used.

use super::bloom::Blooms;
use super::flow::Flow;
use crate::account::text::capitalised;
use crate::draw::{Bloom, Paint, View};
use crate::form::RuleSet;
use crate::form::card::WORKED;
use crate::form::worked::Worked;
use crate::paper::{Style, Unprintable};

/// How wide the drawing of the bloom is, in mm.
const SIDE: f64 = 16.0;

/// What is done step by step, the drawing of the bloom to the right of it.
///
/// # Errors
/// [`Unprintable`] where a letter cannot be set or a word is wider than the column.
pub(super) fn draw_worked(
    flow: &mut Flow,
    worked: &Worked,
    set: &RuleSet,
    points: f64,
) -> Result<(), Unprintable> {
    flow.gap(1.5);
    flow.say(WORKED, Style::bold(points + 1.0))?;
    let top = flow.y;
    let mut words = flow.narrower(SIDE + 1.5);
    for told in worked.told(set) {
        words.say(&capitalised(&told), Style::regular(points))?;
    }
    let bloom = Bloom::of_form(set, worked.form, &worked.answers);
    let place = (flow.right() - SIDE, top);
    let drawn = Blooms::default().drawing(&bloom, &Paint::plain(), View::Face, SIDE, place);
    flow.items.append(&mut words.items);
    flow.items.push(drawn.into());
    flow.y = words.y.max(top + SIDE);
    Ok(())
}
