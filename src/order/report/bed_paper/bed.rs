//! One bed on the plan: its name and measures, its strips, and the key.

use super::flow::{Block, Flow};
use super::key::{Numbers, told};
use super::letters::{LEAST, SMALL};
use super::scale::PaperScale;
use super::strip::strips;
use super::undrawable::Undrawable;
use crate::order::Bed;
use crate::order::report::Stretch;
use crate::order::report::beds::bed_in_words;
use crate::paper::{Item, Printable, Style, TextLine};

const NAME: Style = Style::bold(10.0);
const MEASURES: Style = Style::regular(8.0);
/// Under the last strip of a bed, and under its key, in mm.
const GAP: f64 = 2.0;

/// Puts a bed with its stretches on the pages.
pub(super) fn put(
    flow: &mut Flow<'_>,
    bed: &Bed,
    stretches: &[&Stretch],
    numbers: &Numbers<'_>,
    scale: &PaperScale,
) -> Result<(), Undrawable> {
    let mut head = Some(head(bed, stretches, flow.room().width(), scale)?);
    let width = flow.room().width();
    for strip in strips(bed, width, scale, stretches, numbers) {
        let mut block = strip.block(scale)?;
        // A bed's name never stands on another page than its first strip.
        if let Some(head) = head.take() {
            block = under(head, block);
        }
        flow.put(block)?;
    }
    for items in numbers.key(stretches, width, scale.units)? {
        let lower = kurbo::Affine::translate((0.0, SMALL.line()));
        flow.put(Block {
            height: SMALL.line(),
            items: items.iter().map(|item| item.placed(lower)).collect(),
            shows: String::new(),
        })?;
    }
    flow.put(Block {
        height: 2.0 * GAP,
        items: Vec::new(),
        shows: String::new(),
    })
}

/// The bed's name, and behind or under it its measures.
fn head(
    bed: &Bed,
    stretches: &[&Stretch],
    width: f64,
    scale: &PaperScale,
) -> Result<Block, Undrawable> {
    let planted: u64 = stretches.iter().map(|one| one.plants).sum();
    let measures = bed_in_words(bed, planted, scale.units);
    let name = Printable::new(bed.name.as_str())?;
    let style = name.shrunk(NAME, LEAST, width)?;
    let mut y = NAME.line();
    let mut items: Vec<Item> = vec![TextLine::new(name, style, (0.0, y)).into()];
    for line in Printable::new(&measures)?.wrapped(MEASURES, width)? {
        y += MEASURES.line();
        items.push(TextLine::new(line, MEASURES, (0.0, y)).into());
    }
    let stretches: Vec<String> = { stretches.iter() }
        .map(|one| told(one, scale.units))
        .collect();
    let stands = match &stretches[..] {
        [] => "nothing".to_string(),
        several => several.join("; "),
    };
    Ok(Block {
        height: y + GAP,
        items,
        shows: format!("{}, {measures} It holds {stands}.", bed.name),
    })
}

/// A block with another right under it.
fn under(mut upper: Block, lower: Block) -> Block {
    let place = kurbo::Affine::translate((0.0, upper.height));
    upper
        .items
        .extend(lower.items.iter().map(|item| item.placed(place)));
    upper.height += lower.height;
    upper.shows += &lower.shows;
    upper
}
