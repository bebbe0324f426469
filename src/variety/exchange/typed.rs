//! One field of a variety as a person types it: the grammar of cells, in which an empty text is nothing
//! known.

use super::Terms;
use super::field::Field;
use super::kind::Kind;
use super::term::{Meaning, expected, meant};
use super::{cell, export, lengths, statement};
use crate::form::Answers;
use crate::measure::{LengthUnit, SizeUnits};
use crate::variety::ParseWeatherError;
use crate::variety::record::{ColourNote, Foliage, FormKnown, FormNote, Shortlisted, Variety};
use crate::variety::text::Text;

pub(in crate::variety) use super::cell::{
    count, date, money, name, name_out, one_of, text, whole, yes_no,
};

/// What stands in a field, as [`take`] reads it; empty where nothing is known.
pub(in crate::variety) fn shown(variety: &Variety, field: Field) -> String {
    let written = export::written(variety, field);
    written.map_or(String::new(), |text| text.into_owned())
}

/// Takes in what was typed for a field that hangs on no other. A bare number is a bloom's in the
/// smaller of the grower's units, a plant's or a stem's in the larger.
///
/// # Errors
/// What was found and what was expected; the variety is then as it was.
pub(in crate::variety) fn take(
    variety: &mut Variety,
    field: Field,
    typed: &str,
    terms: &Terms,
    units: SizeUnits,
) -> Result<(), String> {
    let (across, along) = match units {
        SizeUnits::Mm => (LengthUnit::Millimetre, LengthUnit::Centimetre),
        SizeUnits::In => (LengthUnit::Inch, LengthUnit::Inch),
    };
    cell::value(typed)?;
    match field {
        Field::Raiser => variety.raiser = some(typed, text)?,
        Field::Bloom => variety.bloom = some(typed, |typed| bloom(typed, terms))?.map(Into::into),
        Field::Size => variety.size = some(typed, |typed| size(typed, terms, across))?,
        Field::Diameters => variety.diameters = lengths::lengths(typed, Some(across))?,
        Field::Height => variety.height = some(typed, |one| lengths::reach(one, Some(along)))?,
        Field::PlantHeights => variety.plant_heights = lengths::lengths(typed, Some(along))?,
        Field::Stem => variety.stem = some(typed, |one| lengths::reach(one, Some(along)))?,
        Field::StemLengths => variety.stem_lengths = lengths::lengths(typed, Some(along))?,
        Field::Foliage => {
            let word = |typed: &str| one_of(typed, &Foliage::ALL, Foliage::word);
            variety.foliage = some(typed, word)?;
        }
        Field::Stated => variety.stated = statement::read(typed)?,
        Field::Weather => {
            let each = cell::items(&typed.replace(',', ";")).into_iter();
            let each = each.map(|one| one.parse());
            let read: Result<_, ParseWeatherError> = each.collect();
            variety.weather = read.map_err(|error| error.to_string())?;
        }
        Field::StemsAWeek => variety.stems_a_week = some(typed, cell::stems_a_week)?,
        Field::StemsAPlant => {
            let within = |stems: std::num::NonZeroU32| match stems.get() {
                0..=9999 => Ok(stems),
                _ => Err(format!(
                    "found {stems} stems a plant, expected at most 9999"
                )),
            };
            variety.stems_a_plant = some(typed, |typed| count(typed).and_then(within))?;
        }
        Field::OnHand => variety.on_hand = some(typed, whole)?,
        Field::Protected => variety.protected = some(typed, yes_no)?,
        Field::Licence => variety.licence = some(typed, text)?,
        Field::Notes => variety.notes = some(typed, text)?,
        Field::Shortlist => {
            let on = some(typed, yes_no)? == Some(true);
            let mark = variety.shortlist.take().filter(|_| on);
            variety.shortlist = mark.or(on.then(Shortlisted::default));
        }
        Field::ShortlistNote => match (some(typed, text)?, &mut variety.shortlist) {
            (None, Some(mark)) => mark.note = None,
            (None, None) => {}
            (note, mark) => *mark = Some(Shortlisted { note }),
        },
        _ => {
            return Err(format!(
                "found {}, expected a field of its own",
                field.heading()
            ));
        }
    }
    Ok(())
}

/// Takes in a form, by name or id, or one of the things that are noted of it. Another form is noted
/// anew: who stated the one before did not state it.
///
/// # Errors
/// What was found and what was expected; the note is then as it was.
pub(in crate::variety) fn take_form(
    note: &mut Option<FormNote>,
    field: Field,
    typed: &str,
    terms: &Terms,
) -> Result<(), String> {
    let missing = || "found no form, expected it before how it is known".to_string();
    match (field, note.as_mut()) {
        (Field::Form, old) => {
            let id = some(typed, |typed| form_id(typed, terms))?;
            if id.as_ref() != old.map(|old| &old.id) {
                let known = FormKnown::Stated;
                *note = id.map(|id| FormNote {
                    id,
                    known,
                    by: None,
                });
            }
        }
        (_, None) if typed.is_empty() => {}
        (_, None) => return Err(missing()),
        (Field::FormBy, Some(note)) => note.by = some(typed, text)?,
        (_, Some(note)) => {
            let known = some(typed, |typed| one_of(typed, &KNOWN, FormKnown::word))?;
            note.known = known.unwrap_or(FormKnown::Stated);
        }
    }
    Ok(())
}

/// How a form may be known.
pub(in crate::variety) const KNOWN: [FormKnown; 3] =
    [FormKnown::Stated, FormKnown::Keyed, FormKnown::Guessed];

/// One or more colours, each perhaps with its part and pattern; `None` where a word of the grower's
/// says that it is unknown.
///
/// # Errors
/// What was found and what was expected.
pub(in crate::variety) fn colours(typed: &str, terms: &Terms) -> Result<Vec<ColourNote>, String> {
    cell::value(typed)?;
    let read = super::colours::read(typed, terms).map(Option::unwrap_or_default);
    read.map_err(|words| {
        let word = words.first().map_or(typed, String::as_str);
        let expected = expected(Kind::Colour, word, terms);
        format!(
            "found the colour {:?}, expected {expected}",
            crate::measure::brief(word)
        )
    })
}

fn some<T>(typed: &str, read: impl FnOnce(&str) -> Result<T, String>) -> Result<Option<T>, String> {
    match typed {
        "" => Ok(None),
        typed => read(typed).map(Some),
    }
}

fn bloom(typed: &str, terms: &Terms) -> Result<Text, String> {
    let pairs: Vec<&str> = typed.split_whitespace().collect();
    Answers::read(&pairs, &terms.rules.traits).map_err(|error| error.to_string())?;
    text(typed)
}

fn form_id(typed: &str, terms: &Terms) -> Result<Text, String> {
    match meant(Kind::Form, typed, terms) {
        Some(Meaning::Term(id)) => text(&id),
        Some(Meaning::Left) | None => Err(refused(Kind::Form, typed, terms)),
    }
}

/// A size word, or a length within one size.
fn size(typed: &str, terms: &Terms, bare: LengthUnit) -> Result<Text, String> {
    if let Some(Meaning::Term(word)) = meant(Kind::Size, typed, terms) {
        return text(&word);
    }
    if !typed.starts_with(|c: char| c.is_ascii_digit()) {
        return Err(refused(Kind::Size, typed, terms));
    }
    let span = lengths::span(typed, Some(bare))?;
    let word = terms.rules.size_word(span).map(text);
    word.unwrap_or_else(|| Err(refused(Kind::Size, typed, terms)))
}

fn refused(kind: Kind, typed: &str, terms: &Terms) -> String {
    let found = crate::measure::brief(typed);
    format!("found {found:?}, expected {}", expected(kind, typed, terms))
}
