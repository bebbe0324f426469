//! Answers that come after the wait. They reach the program as keys: an escape and a letter as a letter
//! with Alt, the rest as letters. None of them may be done.

use std::time::{Duration, Instant};

use ratatui::crossterm::event::{Event, KeyCode, KeyEvent, KeyModifiers};

use super::replies::{Begun, Replies};

/// So long after the question an answer may come; no line takes longer.
const LATEST: Duration = Duration::from_secs(30);
/// So long an escape is held, for it may be the beginning of an answer whose rest is under way. A hand that
/// presses Esc does not notice.
pub(super) const HELD: Duration = Duration::from_millis(20);
/// No answer has more letters.
const LONGEST: usize = 4096;

/// Sifts late answers out of what is typed.
#[derive(Debug, Clone)]
pub(in crate::screen::terminal) struct Late {
    /// When none may come any more; `None` where all came.
    until: Option<Instant>,
    within: Within,
    /// Keys that may be the beginning of one.
    held: Vec<Event>,
}

/// Within what of an answer the next key is.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Within {
    Nothing,
    /// The letter that tells which answer it is comes next.
    Beginning(char),
    /// One that ends with a letter.
    Control,
    /// A text, after so many letters of it; and whether an escape came, which a backslash makes its end.
    Text(usize, bool),
}

impl Late {
    /// Nothing is to come.
    pub(in crate::screen::terminal) fn nothing() -> Late {
        Late {
            until: None,
            within: Within::Nothing,
            held: Vec::new(),
        }
    }

    /// What is to come after these.
    pub(super) fn after(replies: &Replies) -> Late {
        let within = match replies.begun() {
            _ if replies.is_ended() => return Late::nothing(),
            None | Some(Begun::Escape) => Within::Nothing,
            Some(Begun::Control) => Within::Control,
            Some(Begun::Text) => Within::Text(0, false),
        };
        Late {
            until: Some(Instant::now() + LATEST),
            within,
            held: Vec::new(),
        }
    }

    /// How long to wait for the next event, where it would else be so long.
    pub(in crate::screen::terminal) fn patience(&self, usual: Duration) -> Duration {
        match self.held.is_empty() {
            true => usual,
            false => HELD.max(usual),
        }
    }

    /// What was typed of this event and of those that were held.
    pub(in crate::screen::terminal) fn typed(&mut self, event: Event) -> Vec<Event> {
        match self.until {
            None => vec![event],
            Some(until) if Instant::now() > until => {
                let held = self.let_go();
                *self = Late::nothing();
                held.into_iter().chain([event]).collect()
            }
            Some(_) => self.sifted(event),
        }
    }

    /// What was held and is no beginning, since nothing came behind it.
    pub(in crate::screen::terminal) fn let_go(&mut self) -> Vec<Event> {
        if !self.held.is_empty() {
            self.within = Within::Nothing;
        }
        std::mem::take(&mut self.held)
    }

    fn sifted(&mut self, event: Event) -> Vec<Event> {
        let Event::Key(key) = event else {
            return self.let_go().into_iter().chain([event]).collect();
        };
        let letter = letter_of(key);
        match self.within {
            Within::Nothing => self.begins(event, key),
            Within::Beginning(kind) => {
                let answers = matches!(
                    (kind, letter),
                    (']', Some('1')) | ('_', Some('G')) | ('P', Some('>'))
                );
                let held = std::mem::take(&mut self.held);
                if answers {
                    self.within = Within::Text(0, false);
                    return Vec::new();
                }
                self.within = Within::Nothing;
                held.into_iter().chain(self.begins(event, key)).collect()
            }
            Within::Control => {
                if matches!(letter, Some('@'..='~')) {
                    self.within = Within::Nothing;
                }
                Vec::new()
            }
            Within::Text(count, escaped) => {
                let alt = key.modifiers.contains(KeyModifiers::ALT);
                let bell = key.code == KeyCode::Char('g') && key.modifiers == KeyModifiers::CONTROL;
                let ends = letter == Some('\\') && escaped || bell || count > LONGEST;
                let ends = ends || alt && key.code == KeyCode::Char('\\');
                self.within = match ends {
                    true => Within::Nothing,
                    false => Within::Text(count + 1, key.code == KeyCode::Esc),
                };
                Vec::new()
            }
        }
    }

    /// A key outside of an answer: held or taken where one begins with it.
    fn begins(&mut self, event: Event, key: KeyEvent) -> Vec<Event> {
        let alt = key.modifiers.contains(KeyModifiers::ALT);
        let kind = match key.code {
            KeyCode::Char(kind @ (']' | '_' | 'P')) => Some(kind),
            _ => None,
        };
        let escaped = !self.held.is_empty();
        match kind {
            // No key with Alt means anything here, so that nothing is lost with it.
            Some(kind) if alt && !escaped => self.within = Within::Beginning(kind),
            Some(kind) if escaped && !alt => {
                self.within = Within::Beginning(kind);
                self.held.push(event);
            }
            _ if escaped && letter_of(key) == Some('[') => {
                self.within = Within::Control;
                self.held.clear();
            }
            _ if !escaped && key.code == KeyCode::Esc => self.held.push(event),
            _ => return self.let_go().into_iter().chain([event]).collect(),
        }
        Vec::new()
    }
}

/// The letter of a key that is pressed with no other but Shift.
fn letter_of(key: KeyEvent) -> Option<char> {
    match key.code {
        KeyCode::Char(letter) if (key.modifiers - KeyModifiers::SHIFT).is_empty() => Some(letter),
        _ => None,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn key(code: KeyCode, modifiers: KeyModifiers) -> Event {
        Event::Key(KeyEvent::new(code, modifiers))
    }

    /// The keys that a terminal's bytes become; `~` stands for an escape that came alone.
    fn keys(bytes: &str) -> Vec<Event> {
        let mut all = Vec::new();
        let mut bytes = bytes.chars();
        while let Some(one) = bytes.next() {
            all.push(match one {
                '~' => key(KeyCode::Esc, KeyModifiers::NONE),
                '\x1b' => key(
                    KeyCode::Char(bytes.next().expect("a letter")),
                    KeyModifiers::ALT,
                ),
                '\x07' => key(KeyCode::Char('g'), KeyModifiers::CONTROL),
                letter => key(KeyCode::Char(letter), KeyModifiers::NONE),
            });
        }
        all
    }

    fn typed(late: &mut Late, bytes: &str) -> Vec<Event> {
        let mut all: Vec<Event> = keys(bytes)
            .into_iter()
            .flat_map(|one| late.typed(one))
            .collect();
        all.extend(late.let_go());
        all
    }

    fn waiting() -> Late {
        Late::after(&Replies::default())
    }

    #[test]
    fn a_late_answer_is_never_taken_as_keys() {
        for answer in [
            "\x1b_Gi=31;OK\x1b\\",
            "\x1b]11;rgb:1e1e/2020/2121\x1b\\",
            "\x1b]11;rgb:1e1e/2020/2121\x07",
            "\x1bP>|kitty(0.42.1)\x1b\\",
            "~_Gi=31;OK~\\",
            "~[6;20;10t",
            "~]11;rgb:q/q/q~\\",
        ] {
            let mut late = waiting();
            assert_eq!(
                typed(&mut late, &format!("d{answer}q")),
                keys("dq"),
                "{answer}"
            );
        }
        let mut cut = Replies::default();
        cut.take(b"\x1b]11;rgb:ff");
        assert_eq!(typed(&mut Late::after(&cut), "ff/qq\x1b\\9"), keys("9"));
    }

    #[test]
    fn what_is_typed_is_done() {
        for typing in ["~", "~~", "~q", "~P", "~_q", "_G", "]11;", "\x1b\\", "Pq"] {
            let typing = format!("{typing}d~");
            assert_eq!(typed(&mut waiting(), &typing), keys(&typing), "{typing}");
        }
        // A key with Alt means nothing, and what comes behind it is done.
        assert_eq!(typed(&mut waiting(), "\x1bPq\x1b]d"), keys("qd"));
        assert_eq!(typed(&mut Late::nothing(), "\x1b_Gq"), keys("\x1b_Gq"));
    }
}
