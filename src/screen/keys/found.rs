//! The table of keys as something to be found: by words, and as commands of the jump line.

use super::{BINDINGS, Binding, Meaning, Mode};
use crate::matching::{Finder, Folded, Query, folded};
use crate::screen::Page;
use crate::screen::jump::place::{Goal, Kind, Place};

/// The rows of the table that words find, the best first; all of them for no words. A row is found by
/// its word in the footer, by its keys, and by what it does.
pub fn found(words: &str) -> Vec<&'static Binding> {
    let query = Query::new(words);
    let names: Vec<(Folded, String)> = BINDINGS.iter().map(searched).collect();
    let all = names.iter().map(|(name, told)| (name, told.as_str()));
    let found = Finder::of(&query).ranked(all).into_iter();
    found.map(|(_, at)| &BINDINGS[at]).collect()
}

fn searched(row: &Binding) -> (Folded, String) {
    let told = format!("{} {}", row.keys, row.long);
    (Folded::of(row.short), folded(&told))
}

/// The commands of the table that can be sent from anywhere, those of this mode first.
pub(in crate::screen) fn commands(here: Mode) -> Vec<Place> {
    let rows = BINDINGS.iter().enumerate();
    let mut rows: Vec<(usize, &Binding)> = rows.filter(|(_, row)| is_command(row)).collect();
    rows.sort_by_key(|(_, row)| row.mode != here);
    let place = |(at, row): (usize, &Binding)| {
        let keys = match page_of(row.mode) {
            Some(page) => format!("{} on {}", row.keys, page.name()),
            None => row.keys.to_string(),
        };
        Place::new(Kind::Command, row.long, Goal::Command(at))
            .called(row.short)
            .with(keys)
    };
    rows.into_iter().map(place).collect()
}

/// The page on which a row of the table holds; `None` for those that hold on any.
pub(in crate::screen) fn page_of(mode: Mode) -> Option<Page> {
    match mode {
        Mode::Asking => Some(Page::Key),
        Mode::Choosing => Some(Page::Choose),
        Mode::Rowing => Some(Page::Row),
        Mode::Ordering => Some(Page::Order),
        Mode::Stocking => Some(Page::Stock),
        Mode::Tagging => Some(Page::Tags),
        _ => None,
    }
}

/// Whether a row does something by itself where no line is typed, and does not only move.
fn is_command(row: &Binding) -> bool {
    use crate::screen::Message::{Jump, Move};
    let holds = page_of(row.mode).is_some() || matches!(row.mode, Mode::Page | Mode::Anywhere);
    match &row.meaning {
        Meaning::Is(Move(_) | Jump(_)) | Meaning::Of(_) => false,
        Meaning::Is(_) => holds,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_key_is_found_by_what_it_does_and_by_its_word() {
        for (words, keys, mode) in [
            ("take back last change", "u", Mode::Choosing),
            ("whole row", "g", Mode::Rowing),
            ("shrtlst", "m or Space", Mode::Choosing),
            ("aling sheet", "t", Mode::Tagging),
        ] {
            let first = found(words).first().map(|row| (row.keys, row.mode));
            assert_eq!(first, Some((keys, mode)), "{words}");
        }
        assert_eq!(found("").len(), BINDINGS.len());
    }
}
