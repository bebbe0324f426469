//! Keys in, screen out: a new case costs one line.

use std::sync::LazyLock;

use proptest::prelude::*;
use ratatui::Terminal;
use ratatui::backend::TestBackend;
use ratatui::crossterm::event::{KeyCode, KeyModifiers};

use super::*;
use crate::form::{Answers, RuleSet, Status};

static KEYERS: LazyLock<Vec<Keyer>> =
    LazyLock::new(|| RuleSet::embedded().into_iter().map(Keyer::even).collect());

fn app() -> App {
    App::new(
        KEYERS[0].clone(),
        KEYERS[1..].to_vec(),
        SizeUnits::Mm,
        Theme::Plain,
    )
}

/// Reads presses: a character is itself, a key with a name stands in `<>`.
fn presses(text: &str) -> Vec<KeyEvent> {
    let mut events = Vec::new();
    let mut rest = text;
    while let Some(c) = rest.chars().next() {
        let name = rest.strip_prefix('<').and_then(|rest| rest.split_once('>'));
        let (event, left) = match name {
            Some((name, left)) => (named(name), left),
            None => (KeyEvent::from(KeyCode::Char(c)), &rest[c.len_utf8()..]),
        };
        events.push(event);
        rest = left;
    }
    events
}

fn named(name: &str) -> KeyEvent {
    let code = match name {
        "enter" => KeyCode::Enter,
        "esc" => KeyCode::Esc,
        "up" => KeyCode::Up,
        "down" => KeyCode::Down,
        "back" => KeyCode::Backspace,
        "end" => KeyCode::End,
        "pgdn" => KeyCode::PageDown,
        "tab" => KeyCode::Tab,
        "f1" => KeyCode::F(1),
        "c-r" => return KeyEvent::new(KeyCode::Char('r'), KeyModifiers::CONTROL),
        "c-c" => return KeyEvent::new(KeyCode::Char('c'), KeyModifiers::CONTROL),
        other => panic!("no key is called {other}"),
    };
    KeyEvent::from(code)
}

fn play(app: &mut App, keys: &str) -> Option<Effect> {
    let play = |app: &mut App, event| app.message(event).and_then(|message| app.update(message));
    presses(keys).into_iter().find_map(|event| play(app, event))
}

fn screen(app: &App, size: (u16, u16)) -> String {
    let mut terminal = Terminal::new(TestBackend::new(size.0, size.1)).expect("a test backend");
    terminal
        .draw(|frame| app.view(frame))
        .expect("a test backend");
    let buffer = terminal.backend().buffer();
    let row = |y| {
        (0..size.0)
            .map(|x| buffer[(x, y)].symbol())
            .collect::<String>()
    };
    let rows: Vec<String> = (0..size.1).map(|y| row(y).trim_end().to_string()).collect();
    rows.join("\n")
}

/// Plays the keys on a new screen of this size; every text must then be seen.
fn check(keys: &str, size: (u16, u16), seen: &[&str]) {
    let mut app = app();
    app.update(Message::Resize(size.0, size.1));
    play(&mut app, keys);
    let shown = screen(&app, size);
    for text in seen {
        assert!(shown.contains(text), "{keys}: {text:?} is not on\n{shown}");
    }
}

#[test]
fn the_first_question_is_open() {
    check("", (80, 24), &["> centre ?", "1 closed", "Forms: 35 fit"]);
}

#[test]
#[ignore = "prints"]
fn print() {
    for (keys, size) in [
        ("", (80, 24)),
        ("1", (80, 24)),
        ("1111", (80, 24)),
        ("1  ", (80, 24)),
        ("", (140, 45)),
        ("11", (140, 45)),
        ("11", (60, 16)),
        ("?", (80, 24)),
        ("1w", (80, 24)),
        ("/dia", (80, 24)),
    ] {
        let mut app = app();
        app.update(Message::Resize(size.0, size.1));
        play(&mut app, keys);
        eprintln!("=== {keys} {size:?}\n{}", screen(&app, size));
    }
}
