//! Lines that are typed: words, a colour, notes, tubers on hand.

use super::{ChoosePage, Entry, Of};
use crate::measure::day;
use crate::screen::Effect;
use crate::screen::kit::line::{Edit, Line};
use crate::variety::{Change, Narrowing, Shortlisted, Text, Variety};

/// More tubers than this is a slip of the keyboard.
const MOST_TUBERS: u32 = 100_000;

impl Of {
    /// What stands before the line.
    pub(super) fn asks(&self) -> &'static str {
        match self {
            Of::Words(_) => "Words",
            Of::Colour => "Colour",
            Of::Note => "Why it is on the shortlist",
            Of::Notes => "Notes on the variety",
            Of::OnHand => "Tubers on hand",
        }
    }

    /// What may be typed.
    pub(super) fn hint(&self) -> &'static str {
        match self {
            Of::Words(_) => "Of a name, raiser, form or colour; letters in order, a slip forgiven.",
            Of::Colour => {
                "Such as peach, warm, #f4c2c2, lab(83 14 24), or several: peach or blush."
            }
            Of::Note | Of::Notes => "Enter keeps the line; an empty line takes the note away.",
            Of::OnHand => "A whole number; an empty line is unknown.",
        }
    }
}

impl ChoosePage {
    pub(super) fn begin_words(&mut self) {
        let words = self.narrowings.iter().find_map(|one| match one {
            Narrowing::Words(text) => Some(text.clone()),
            _ => None,
        });
        self.begin(Of::Words(self.narrowings.clone()), words);
    }

    pub(super) fn begin_colour(&mut self) {
        let asked = self.narrowings.iter().find_map(|one| match one {
            Narrowing::Colour { asked, .. } => Some(asked.clone()),
            _ => None,
        });
        self.begin(Of::Colour, asked);
    }

    /// Opens a line on the variety under the cursor with what it has now.
    pub(super) fn begin_line(&mut self, of: Of) {
        let Some(row) = self.row() else {
            return self.say("Nothing is left to write on.");
        };
        if let Some(refusal) = self.keeper.refusal() {
            return self.say(refusal);
        }
        let counted = self.known(row).store.and_then(|store| store.counted);
        if let (Of::OnHand, Some(day)) = (&of, counted) {
            let day = day::in_words(day);
            return self.say(format!(
                "Your stock book counted them on {day}: a new count is noted there (trug stock note)."
            ));
        }
        let text = as_it_is(&of, &self.stock.list.list()[row]);
        self.begin(of, text);
    }

    fn begin(&mut self, of: Of, text: Option<String>) {
        self.entry = Entry::Line(Line::offering(of, text.unwrap_or_default()));
    }

    /// Edits the line; the list follows the words that are looked for.
    pub(in crate::screen) fn edit(&mut self, edit: &Edit) -> Option<Effect> {
        self.note = None;
        if let Entry::Import = self.entry {
            return self.edit_import(edit);
        }
        let Entry::Line(line) = &mut self.entry else {
            self.edit_slip(edit);
            return None;
        };
        if line.edit(edit) && matches!(line.of, Of::Words(_)) {
            let text = line.text().to_string();
            self.set_words(&text);
        }
        None
    }

    pub(super) fn give(&mut self) -> Option<Effect> {
        match std::mem::replace(&mut self.entry, Entry::Nothing) {
            // These are given by keys of their own.
            other @ (Entry::Slip(_) | Entry::Import) => {
                self.entry = other;
                None
            }
            Entry::Nothing => None,
            Entry::Values { facet, at } => {
                self.pick_value(facet, at);
                None
            }
            Entry::Uses { at } => {
                self.pick_use(at);
                None
            }
            Entry::Line(line) => self.give_line(line),
        }
    }

    /// Does what the line says; a line that is refused stays as it was typed.
    fn give_line(&mut self, mut line: Line<Of>) -> Option<Effect> {
        let done = match &line.of {
            Of::Words(_) => Ok(None),
            Of::Colour => self.set_colour(line.text()).map(|()| None),
            of => meant(of, line.text()).map(Some),
        };
        match done {
            Ok(change) => change.and_then(|change| self.change(change)),
            Err(problem) => {
                line.refuse(problem);
                self.entry = Entry::Line(line);
                None
            }
        }
    }

    pub(super) fn drop_entry(&mut self) {
        let dropped = std::mem::replace(&mut self.entry, Entry::Nothing);
        if let Entry::Line(Line {
            of: Of::Words(before),
            ..
        }) = dropped
        {
            self.narrowings = before;
            self.ask_from_the_top();
        }
    }
}

/// What a line on a variety begins with.
fn as_it_is(of: &Of, variety: &Variety) -> Option<String> {
    match of {
        Of::Note => variety
            .shortlist
            .as_ref()?
            .note
            .as_ref()
            .map(Text::to_string),
        Of::Notes => variety.notes.as_ref().map(Text::to_string),
        Of::OnHand => variety.on_hand.map(|tubers| tubers.to_string()),
        Of::Words(_) | Of::Colour => None,
    }
}

fn meant(of: &Of, text: &str) -> Result<Change, String> {
    let text = text.trim();
    let note = || match text {
        "" => Ok(None),
        text => Text::new(text).map(Some).map_err(|error| error.to_string()),
    };
    match of {
        Of::Note => Ok(Change::Shortlist(Some(Shortlisted { note: note()? }))),
        Of::OnHand if text.is_empty() => Ok(Change::OnHand(None)),
        Of::OnHand => match text.parse() {
            Ok(tubers) if tubers <= MOST_TUBERS => Ok(Change::OnHand(Some(tubers))),
            _ => Err(format!(
                "found {text:?}, expected a whole number from 0 to {MOST_TUBERS}"
            )),
        },
        Of::Notes | Of::Words(_) | Of::Colour => Ok(Change::Notes(note()?)),
    }
}
