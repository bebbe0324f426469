//! What may stand in a field, in a sentence.

use super::Ground;
use crate::colour::{Part, Pattern};
use crate::measure::SizeUnits;
use crate::variety::exchange::{Field, typed};
use crate::variety::record::{Foliage, FormKnown};

/// What may stand in a field, with an example; a list of words is told whole.
pub(super) fn takes(field: Field, ground: Ground<'_>) -> String {
    let bare = match ground.units {
        SizeUnits::Mm => ("a bare number is in mm", "a bare number is in cm"),
        SizeUnits::In => ("a bare number is in inches", "a bare number is in inches"),
    };
    takes_with(field, bare, ground)
}

/// The same, with what is said of bare numbers: of blooms, and of plants and stems.
pub(super) fn takes_with(
    field: Field,
    (across, along): (&str, &str),
    ground: Ground<'_>,
) -> String {
    let any_of = |words: Vec<&str>| format!("One of {}.", words.join(", "));
    match field {
        Field::Name => "One line, such as Haaf Kettle.".to_string(),
        Field::Form => any_of(ground.rules.forms.iter().map(|form| form.name.as_str()).collect()),
        Field::FormKnown => format!(
            "{} Keyed is by a bloom on the Key page, guessed by eye or from a picture.",
            any_of(typed::KNOWN.into_iter().map(FormKnown::word).collect())
        ),
        Field::FormBy | Field::Supplier => "A name, such as Oar Bulbs.".to_string(),
        Field::Raiser => "A name, such as A. Voe.".to_string(),
        Field::Colour => {
            let words = ground.words.words().iter().map(|word| word.word.as_str());
            format!(
                "A word, #rrggbb or lab(L a b); several as red (main, tipped); white (second, tipped). The words: {}.",
                words.collect::<Vec<_>>().join(", ")
            )
        }
        Field::SecondColour => any_of(Part::ALL.into_iter().map(Part::word).collect()),
        Field::Pattern => any_of(Pattern::ALL.into_iter().map(Pattern::word).collect()),
        Field::Price => "An amount such as 4.50.".to_string(),
        Field::Pack => "A whole number over 0; 1 where the price is of one tuber.".to_string(),
        Field::Available | Field::OnHand => "A whole number, such as 12; empty is unknown.".to_string(),
        Field::Closes => "A day such as 2027-02-28.".to_string(),
        Field::Size => {
            let words = ground.rules.size_words.iter().map(|(word, _)| word.as_str());
            format!("{} Or a length within one of them, such as 4in.", any_of(words.collect()))
        }
        Field::Diameters => format!("Lengths such as 98mm; 104mm, {across}."),
        Field::PlantHeights | Field::StemLengths => format!("Lengths such as 55cm; 60cm, {along}."),
        Field::Height | Field::Stem => format!("A length, or a span such as 90-120cm; {along}."),
        Field::Foliage => any_of(Foliage::ALL.into_iter().map(Foliage::word).collect()),
        Field::Vase => "A number of days such as 7.5.".to_string(),
        Field::VaseStems => "A whole number over 0.".to_string(),
        Field::Stated => "Such as Oar Bulbs: diameter 90mm to 110mm; Oar Bulbs: height 900mm: size, diameter, height, stem or vase.".to_string(),
        Field::Weather => "Such as wind:3/12; rain:1/9.".to_string(),
        Field::Bloom => "TRAIT=VALUE words, such as centre=closed tip=rounded.".to_string(),
        Field::StemsAWeek => "A number such as 1.5.".to_string(),
        Field::StemsAPlant => format!(
            "A whole number; where nothing stands you plan with {}, by your settings.",
            ground.stems_a_plant
        ),
        Field::Protected => "yes or no; empty is unknown.".to_string(),
        Field::Shortlist => "yes or no.".to_string(),
        _ => "One line.".to_string(),
    }
}
