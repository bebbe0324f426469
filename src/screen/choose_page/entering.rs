//! Lines that are typed: words, a colour, notes, tubers on hand.

use super::{ChoosePage, Entry, Line};
use crate::screen::Effect;
use crate::screen::text::erase_last;
use crate::variety::{Change, Narrowing, Shortlisted, Text, Variety};

/// More tubers than this is a slip of the keyboard.
const MOST_TUBERS: u32 = 100_000;

impl Line {
    /// What stands before the line.
    pub(super) fn asks(&self) -> &'static str {
        match self {
            Line::Words(_) => "Words",
            Line::Colour => "Colour",
            Line::Note => "Why it is on the shortlist",
            Line::Notes => "Notes on the variety",
            Line::OnHand => "Tubers on hand",
        }
    }

    /// What may be typed.
    pub(super) fn hint(&self) -> &'static str {
        match self {
            Line::Words(_) => "Of a name, raiser, form or colour; one slip in a word is forgiven.",
            Line::Colour => {
                "Such as peach, warm, #f4c2c2, lab(83 14 24), or several: peach or blush."
            }
            Line::Note | Line::Notes => "Enter keeps the line; an empty line takes the note away.",
            Line::OnHand => "A whole number; an empty line is unknown.",
        }
    }
}

impl ChoosePage {
    pub(super) fn begin_words(&mut self) {
        let words = self.narrowings.iter().find_map(|one| match one {
            Narrowing::Words(text) => Some(text.clone()),
            _ => None,
        });
        self.begin(Line::Words(self.narrowings.clone()), words);
    }

    pub(super) fn begin_colour(&mut self) {
        let asked = self.narrowings.iter().find_map(|one| match one {
            Narrowing::Colour { asked, .. } => Some(asked.clone()),
            _ => None,
        });
        self.begin(Line::Colour, asked);
    }

    /// Opens a line on the variety under the cursor with what it has now.
    pub(super) fn begin_line(&mut self, of: Line) {
        let Some(row) = self.row() else {
            return self.say("Nothing is left to write on.");
        };
        if let Some(refusal) = self.keeper.refusal() {
            return self.say(refusal);
        }
        let text = as_it_is(&of, &self.stock.list.list()[row]);
        self.begin(of, text);
    }

    fn begin(&mut self, of: Line, text: Option<String>) {
        self.entry = Entry::Line {
            of,
            text: text.unwrap_or_default(),
            problem: None,
        };
    }

    pub(super) fn write(&mut self, c: char) {
        self.edit_line(|text| text.push(c));
    }

    pub(super) fn erase(&mut self) {
        self.edit_line(erase_last);
    }

    fn edit_line(&mut self, edit: impl Fn(&mut String)) {
        let Entry::Line { of, text, problem } = &mut self.entry else {
            return;
        };
        edit(text);
        *problem = None;
        if matches!(of, Line::Words(_)) {
            let text = text.clone();
            self.set_words(&text);
        }
    }

    pub(super) fn give(&mut self) -> Option<Effect> {
        match std::mem::replace(&mut self.entry, Entry::Nothing) {
            Entry::Nothing => None,
            Entry::Values { facet, at } => {
                self.pick_value(facet, at);
                None
            }
            Entry::Uses { at } => {
                self.pick_use(at);
                None
            }
            Entry::Line {
                of: Line::Words(_), ..
            } => None,
            Entry::Line {
                of: Line::Colour,
                text,
                ..
            } => {
                if let Err(problem) = self.set_colour(&text) {
                    self.entry = Entry::Line {
                        of: Line::Colour,
                        text,
                        problem: Some(problem),
                    };
                }
                None
            }
            Entry::Line { of, text, .. } => match meant(&of, &text) {
                Ok(change) => self.change(change),
                Err(problem) => {
                    self.entry = Entry::Line {
                        of,
                        text,
                        problem: Some(problem),
                    };
                    None
                }
            },
        }
    }

    pub(super) fn drop_entry(&mut self) {
        let dropped = std::mem::replace(&mut self.entry, Entry::Nothing);
        if let Entry::Line {
            of: Line::Words(before),
            ..
        } = dropped
        {
            self.narrowings = before;
            self.ask_from_the_top();
        }
    }
}

/// What a line on a variety begins with.
fn as_it_is(of: &Line, variety: &Variety) -> Option<String> {
    match of {
        Line::Note => variety
            .shortlist
            .as_ref()?
            .note
            .as_ref()
            .map(Text::to_string),
        Line::Notes => variety.notes.as_ref().map(Text::to_string),
        Line::OnHand => variety.on_hand.map(|tubers| tubers.to_string()),
        Line::Words(_) | Line::Colour => None,
    }
}

fn meant(of: &Line, text: &str) -> Result<Change, String> {
    let text = text.trim();
    let note = || match text {
        "" => Ok(None),
        text => Text::new(text).map(Some).map_err(|error| error.to_string()),
    };
    match of {
        Line::Note => Ok(Change::Shortlist(Some(Shortlisted { note: note()? }))),
        Line::OnHand if text.is_empty() => Ok(Change::OnHand(None)),
        Line::OnHand => match text.parse() {
            Ok(tubers) if tubers <= MOST_TUBERS => Ok(Change::OnHand(Some(tubers))),
            _ => Err(format!(
                "found {text:?}, expected a whole number from 0 to {MOST_TUBERS}"
            )),
        },
        Line::Notes | Line::Words(_) | Line::Colour => Ok(Change::Notes(note()?)),
    }
}
