//! The colours of a cell: by the grower's own words, by the trade's, in the one grammar of colours.

use super::Terms;
use super::cell;
use super::kind::Kind;
use super::own_words::UNKNOWN;
use super::spellings::meanings;
use crate::colour::{Pattern, Piece, several};
use crate::variety::record::ColourNote;
use crate::variety::text::Text;

/// The colours of a cell; `None` where the grower's words say that they are to be left as they are.
///
/// # Errors
/// The words that are no colour.
pub(super) fn read(cell: &str, terms: &Terms) -> Result<Option<Vec<ColourNote>>, Vec<String>> {
    let own = |word: &str| terms.own.find(Kind::Colour, word);
    match own(cell) {
        Some(UNKNOWN) => return Ok(None),
        Some(term) => return listed(term, terms).map(Some),
        None => {}
    }
    let is_colour = |text: &str| own(text).is_some() || one(text, terms).is_some();
    let pieces = several(cell, &is_colour).map_err(|_| vec![cell.to_string()])?;
    let (mut notes, mut unknown) = (Vec::new(), Vec::new());
    for piece in pieces {
        match own(&piece.colour) {
            Some(UNKNOWN) => {}
            Some(term) => match listed(term, terms) {
                Ok(found) => notes.extend(in_place_of(&piece, found)),
                Err(words) => unknown.extend(words),
            },
            None => match note(&piece, terms) {
                Some(note) => notes.push(note),
                None => unknown.push(piece.colour),
            },
        }
    }
    match unknown.is_empty() {
        true => Ok((!notes.is_empty()).then_some(notes)),
        false => Err(unknown),
    }
}

/// Colours without the grower's own words, as a term has them.
///
/// # Errors
/// The words that are no colour.
pub(super) fn listed(text: &str, terms: &Terms) -> Result<Vec<ColourNote>, Vec<String>> {
    let is_colour = |text: &str| one(text, terms).is_some();
    let pieces = several(text, &is_colour).map_err(|_| vec![text.to_string()])?;
    let known = |piece: &Piece| note(piece, terms).ok_or_else(|| piece.colour.clone());
    let read: Vec<Result<ColourNote, String>> = pieces.iter().map(known).collect();
    let unknown: Vec<String> = read.iter().filter_map(|one| one.clone().err()).collect();
    match unknown.is_empty() {
        true => Ok(read.into_iter().flatten().collect()),
        false => Err(unknown),
    }
}

/// Colours as [`listed`] reads them.
pub(super) fn written(colours: &[ColourNote]) -> String {
    cell::joined(colours.iter().map(|one| {
        let (part, pattern) = (one.part.word(), one.pattern.word());
        format!("{} ({part}, {pattern})", one.colour)
    }))
}

/// What a colour of the grower's stands for, where the cell says of which part it is.
fn in_place_of(piece: &Piece, mut found: Vec<ColourNote>) -> Vec<ColourNote> {
    if let [note] = &mut found[..] {
        note.part = piece.part;
        note.pattern = piece.pattern.unwrap_or(note.pattern);
    }
    found
}

fn note(piece: &Piece, terms: &Terms) -> Option<ColourNote> {
    Some(ColourNote {
        colour: one(&piece.colour, terms)?.into(),
        part: piece.part,
        pattern: piece.pattern.unwrap_or(Pattern::SelfColoured),
    })
}

/// One colour as a record has it: as it was written, or the word that the trade's spelling means.
fn one(text: &str, terms: &Terms) -> Option<Text> {
    if terms.colours.target(text).is_ok() {
        return cell::text(text).ok();
    }
    let means = meanings(Kind::Colour, text);
    let known: Vec<&String> = means
        .iter()
        .filter(|term| terms.colours.find(term).is_some())
        .collect();
    match known[..] {
        [term] => Text::new(term.as_str()).ok(),
        _ => None,
    }
}
