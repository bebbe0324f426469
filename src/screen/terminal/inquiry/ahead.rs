//! What was typed while the terminal's answers were waited for: keys of one byte or letter, and the arrows.
//! Other keys are left out, since nothing was seen yet that they could be meant for.

use ratatui::crossterm::event::{Event, KeyCode, KeyEvent, KeyModifiers};

/// The keys of these bytes.
pub(in crate::screen::terminal) fn events(typed: &[u8]) -> Vec<Event> {
    let text = String::from_utf8_lossy(typed);
    let mut letters = text.chars().peekable();
    let mut events = Vec::new();
    while let Some(letter) = letters.next() {
        let plain = |code| (code, KeyModifiers::NONE);
        let key = match letter {
            '\x1b' if letters.next_if_eq(&'[').is_some() => {
                let last = letters.find(|letter| matches!(letter, '@'..='~'));
                let arrow = match last {
                    Some('A') => KeyCode::Up,
                    Some('B') => KeyCode::Down,
                    Some('C') => KeyCode::Right,
                    Some('D') => KeyCode::Left,
                    Some('Z') => KeyCode::BackTab,
                    _ => continue,
                };
                plain(arrow)
            }
            '\x1b' => plain(KeyCode::Esc),
            '\r' | '\n' => plain(KeyCode::Enter),
            '\t' => plain(KeyCode::Tab),
            '\x7f' => plain(KeyCode::Backspace),
            '\x01'..='\x1a' => {
                // OK because it is a letter of the alphabet, by its number.
                let letter = char::from(letter as u8 - 1 + b'a');
                (KeyCode::Char(letter), KeyModifiers::CONTROL)
            }
            letter if letter.is_control() => continue,
            letter => plain(KeyCode::Char(letter)),
        };
        events.push(Event::Key(KeyEvent::new(key.0, key.1)));
    }
    events
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn what_is_typed_before_the_first_page_is_done_in_its_order() {
        let key = |code, modifiers| Event::Key(KeyEvent::new(code, modifiers));
        let plain = |code| key(code, KeyModifiers::NONE);
        let expected = [
            plain(KeyCode::Char('d')),
            plain(KeyCode::Char('9')),
            plain(KeyCode::Enter),
            plain(KeyCode::Down),
            plain(KeyCode::Tab),
            key(KeyCode::Char('c'), KeyModifiers::CONTROL),
            plain(KeyCode::Char('é')),
            plain(KeyCode::Esc),
        ];
        assert_eq!(events("d9\r\x1b[B\x1b[5~\t\x03é\x1b".as_bytes()), expected);
    }
}
