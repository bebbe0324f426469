//! What may stand in a field, as it is typed.

use super::Ground;
use crate::colour::{Part, Pattern};
use crate::record::beginning_with;
use crate::variety::exchange::{Field, typed};
use crate::variety::record::{Foliage, FormKnown};
use crate::variety::text::Text;

/// Values of a field that go with what is typed.
pub(super) fn offered(field: Field, typed: &str, ground: Ground<'_>) -> Vec<String> {
    let words = |words: &mut dyn Iterator<Item = &'static str>| beginning_with(typed, words);
    match field {
        Field::Form => {
            let forms = ground.rules.forms.iter();
            beginning_with(typed, forms.map(|form| form.name.as_str()))
        }
        Field::FormKnown => words(&mut typed::KNOWN.into_iter().map(FormKnown::word)),
        Field::FormBy | Field::Supplier => names(typed, ground.known.suppliers(ground.list)),
        Field::Raiser => names(typed, ground.known.raisers(ground.list)),
        Field::Colour => {
            let words = ground.words.words().iter();
            beginning_with(typed, words.map(|word| word.word.as_str()))
        }
        Field::SecondColour => words(&mut Part::ALL.into_iter().map(Part::word)),
        Field::Pattern => words(&mut Pattern::ALL.into_iter().map(Pattern::word)),
        Field::Size => {
            let sizes = ground.rules.size_words.iter();
            beginning_with(typed, sizes.map(|(word, _)| word.as_str()))
        }
        Field::Foliage => words(&mut Foliage::ALL.into_iter().map(Foliage::word)),
        Field::Protected | Field::Shortlist => words(&mut ["yes", "no"].into_iter()),
        _ => Vec::new(),
    }
}

fn names(typed: &str, known: &[Text]) -> Vec<String> {
    beginning_with(typed, known.iter().map(Text::as_str))
}
