//! Keys in, screen out: a new case costs one line.

use std::sync::LazyLock;

use proptest::prelude::*;
use ratatui::Terminal;
use ratatui::backend::TestBackend;
use ratatui::buffer::Buffer;
use ratatui::crossterm::event::{KeyCode, KeyModifiers};
use ratatui::layout::Rect;

use super::kit::area;
use super::*;
use crate::form::RuleSet;

pub(super) static KEYERS: LazyLock<Vec<Keyer>> =
    LazyLock::new(|| RuleSet::embedded().into_iter().map(Keyer::even).collect());

pub(super) fn app() -> App {
    App::new(
        KEYERS[0].clone(),
        KEYERS[1..].to_vec(),
        SizeUnits::Mm,
        Theme::Plain,
    )
}

/// Reads presses: a character is itself, a key with a name stands in `<>`.
pub(super) fn presses(text: &str) -> Vec<KeyEvent> {
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
        "left" => KeyCode::Left,
        "right" => KeyCode::Right,
        "home" => KeyCode::Home,
        "tab" => KeyCode::Tab,
        "f1" => KeyCode::F(1),
        "delete" => KeyCode::Delete,
        "c-left" => return KeyEvent::new(KeyCode::Left, KeyModifiers::CONTROL),
        other if other.len() == 3 && other.starts_with("c-") => {
            let letter = other.chars().last().unwrap_or_default();
            return KeyEvent::new(KeyCode::Char(letter), KeyModifiers::CONTROL);
        }
        other => panic!("no key is called {other}"),
    };
    KeyEvent::from(code)
}

pub(crate) fn play(app: &mut App, keys: &str) -> Option<Effect> {
    let play = |app: &mut App, event| app.message(event).and_then(|message| app.update(message));
    presses(keys).into_iter().find_map(|event| play(app, event))
}

/// Every text must stand on the screen that is shown.
pub(super) fn must_show(shown: &str, keys: &str, seen: &[&str]) {
    for text in seen {
        assert!(shown.contains(text), "{keys}: {text:?} is not on\n{shown}");
    }
}

pub(crate) fn screen(app: &App, size: (u16, u16)) -> String {
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

/// What is drawn alone in a window of this size.
pub(super) fn painted((width, height): (u16, u16), draw: impl FnOnce(Rect, &mut Buffer)) -> String {
    let window = area::window(width, height);
    let mut buffer = Buffer::empty(window);
    draw(window, &mut buffer);
    let row = |y| (0..width).map(move |x| (x, y));
    let line = |y| row(y).map(|at| buffer[at].symbol()).collect::<String>();
    (0..height)
        .map(|y| line(y).trim_end().to_string() + "\n")
        .collect()
}

/// Plays the keys on a new screen of this size; every text must then be seen.
pub(super) fn check(keys: &str, size: (u16, u16), seen: &[&str]) {
    let mut app = app();
    app.update(Message::Resize(size.0, size.1));
    play(&mut app, keys);
    let shown = screen(&app, size);
    must_show(&shown, keys, seen);
}

pub(super) const USUAL: (u16, u16) = (80, 24);
/// The least window that has room for every page.
pub(super) const LEAST: (u16, u16) = (60, 16);
/// Whether a character belongs to a drawing in half blocks or Braille.
pub(super) fn is_drawn(c: char) -> bool {
    matches!(c, '\u{2580}' | '\u{2584}' | '\u{2801}'..='\u{28ff}')
}

/// The screen with every character of a drawing blanked.
pub(super) fn without_drawing(shown: &str) -> String {
    let blank = |c: char| if is_drawn(c) { ' ' } else { c };
    let rows = shown.lines();
    let rows = rows.map(|row| row.chars().map(blank).collect::<String>());
    let rows: Vec<String> = rows.map(|row| row.trim_end().to_string()).collect();
    rows.join("\n")
}

#[test]
fn quitting_is_an_effect_and_only_where_q_is_not_typed() {
    assert_eq!(play(&mut app(), "q"), Some(Effect::Quit));
    assert_eq!(play(&mut app(), "d9<c-c>"), Some(Effect::Quit));
    assert_eq!(play(&mut app(), "?<c-c>"), Some(Effect::Quit));
    for (keys, why) in [
        ("?q/q1", "q is looked for in the help"),
        ("wq/q1", "q closes a sheet, and is looked for"),
    ] {
        assert_eq!(play(&mut app(), keys), None, "{why}");
    }
}

#[test]
fn a_line_is_edited_alike_on_every_page() {
    let keys = "98 104<left><left><left>0<c-w><home>1<delete><end>7<c-left>";
    for (page, begun) in [
        ("", "d"),
        ("<tab>", "/"),
        ("<tab><tab>", "a<c-u>"),
        ("<tab><tab><tab><tab>", "a<c-u>"),
        ("<tab><tab><tab><tab><tab>", "o<c-u>"),
    ] {
        let shown = play_shown(&format!("{page}{begun}{keys}"));
        assert!(shown.contains("[18 1047]"), "{page}\n{shown}");
        let shown = play_shown(&format!("{page}{begun}{keys}<c-k>x"));
        assert!(shown.contains("[18 x_]"), "{page}\n{shown}");
    }
}

#[test]
fn what_is_pasted_goes_to_the_line_that_is_open() {
    let paste = |text: &str| Message::Edit(Edit::Write(text.to_string()));
    let mut app = app();
    app.update(paste("nothing is open"));
    play(&mut app, "d9");
    app.update(paste("8 104\n101"));
    assert!(screen(&app, USUAL).contains("[98 104 101_]"));
    play(&mut app, "<f1>");
    app.update(paste(" lost"));
    assert!(
        screen(&app, USUAL).contains("/ [ lost_]"),
        "looked for in the help"
    );
    play(&mut app, "<esc><esc>");
    assert!(screen(&app, USUAL).contains("[98 104 101_]"));
    play(&mut app, "<enter>");
    assert!(screen(&app, USUAL).contains("101 mm"));
}

#[test]
fn what_is_pasted_where_no_line_is_open_is_left_out_and_said() {
    for page in [
        "",
        "<tab>",
        "<tab><tab>",
        "<tab><tab><tab>",
        "<tab><tab><tab><tab>",
    ] {
        let mut app = app();
        play(&mut app, page);
        let mode = app.mode();
        assert_eq!(app.update(Message::Pasted("q1dx".to_string())), None);
        assert_eq!(app.mode(), mode, "{page}");
        let shown = screen(&app, (140, 45));
        must_show(&shown, page, &["What was pasted is left out"]);
    }
    let mut app = app();
    play(&mut app, "d98");
    app.update(Message::Pasted("1".repeat(5000)));
    let shown = screen(&app, (140, 45));
    must_show(&shown, "a long paste", &["[98_]", "found more than 4000"]);
}

#[test]
fn no_key_acts_where_the_page_is_not_seen_but_those_that_quit() {
    for keys in ["q", "<c-c>"] {
        let mut app = app();
        play(&mut app, "d9");
        app.update(Message::Resize(40, 12));
        assert_eq!(play(&mut app, "8<enter><tab>1<f1>"), None);
        app.update(Message::Pasted("8".to_string()));
        must_show(&screen(&app, (40, 12)), "small", &["no other key"]);
        let mut large = app.clone();
        large.update(Message::Resize(80, 24));
        must_show(&screen(&large, USUAL), "as it was", &["[Key]", "[9_]"]);
        assert_eq!(play(&mut app, keys), Some(Effect::Quit));
    }
}

/// On a telephone pages of the house have no room: a key leads on to one that has.
#[test]
fn a_page_without_room_is_left_by_the_key_to_the_next_page() {
    let mut app = app();
    app.update(Message::Resize(44, 20));
    play(&mut app, "<tab><tab><tab>");
    let shown = screen(&app, (44, 20));
    let words: Vec<&str> = shown.split_whitespace().collect();
    let seen = [
        "Order needs at least 60 by 16.",
        "go to the next page with Tab",
    ];
    must_show(&words.join(" "), "Order", &seen);
    assert_eq!(play(&mut app, "e1<enter>x<f1>"), None);
    assert_eq!(app.page, Page::Order);
    play(&mut app, "<tab><tab><tab>");
    must_show(
        &screen(&app, (44, 20)),
        "Key",
        &[" [Key] 1 of 6", "> centre ?"],
    );
}

/// The screen after these keys.
fn play_shown(keys: &str) -> String {
    let mut app = app();
    play(&mut app, keys);
    screen(&app, USUAL)
}

#[test]
fn a_small_window_says_so() {
    for (size, seen) in [
        ((43, 24), "trug needs at least 60 by 16 or 44 by 20"),
        ((59, 19), "This window is 59 by 19"),
    ] {
        let mut app = app();
        app.update(Message::Resize(size.0, size.1));
        let shown = screen(&app, size);
        let words: Vec<&str> = shown.split_whitespace().collect();
        must_show(&words.join(" "), "small", &[seen]);
    }
    check("", (80, 15), &["This window is 80 by 15"]);
}

#[test]
fn data_cannot_steer_the_terminal() {
    let mut set = KEYERS[0].set.clone();
    set.name = "a\u{1b}[2Jb\u{202e}".to_string();
    set.forms[0].name = "ane\u{7}mone\u{9b}5n".to_string();
    let app = App::new(
        Keyer::even(set),
        Vec::new(),
        SizeUnits::Mm,
        Theme::Colours(None),
    );
    let shown = screen(&app, USUAL);
    assert!(
        shown.contains("by a·[2Jb·") && shown.contains("ane·mone·5n"),
        "{shown}"
    );
    assert!(!shown.chars().any(|c| c.is_control() && c != '\n'));
}

#[test]
fn colour_adds_nothing_that_words_do_not_say() {
    let mut colours = App::new(
        KEYERS[0].clone(),
        KEYERS[1..].to_vec(),
        SizeUnits::Mm,
        Theme::Colours(None),
    );
    let mut plain = app();
    for keys in ["1", "d98<enter>", "2", "+1", "<esc><up>", "w"] {
        play(&mut colours, keys);
        play(&mut plain, keys);
        let [colours, plain] = [&colours, &plain].map(|app| without_drawing(&screen(app, USUAL)));
        assert_eq!(colours, plain);
    }
}

#[test]
fn the_ground_that_was_settled_goes_before_what_the_terminal_says() {
    use crate::colour::{Ground, Srgb};
    let keyer = KEYERS[0].clone();
    let mut app = App::new(keyer, Vec::new(), SizeUnits::Mm, Theme::AllColours(None));
    let heading = |app: &App| {
        let mut terminal = Terminal::new(TestBackend::new(80, 24)).expect("a test backend");
        terminal.draw(|frame| app.view(frame)).expect("a drawing");
        // The name of the page that is open, in the head.
        terminal.backend().buffer()[(7, 0)].fg
    };
    let of = |ground: Ground| {
        Theme::AllColours(Some(ground))
            .style(theme::Role::Heading)
            .fg
    };
    assert_eq!(heading(&app), ratatui::style::Color::Reset);
    app.update(Message::Sees(abilities::Abilities {
        ground: Some(Srgb::new(0x2e, 0x34, 0x40)),
        ..abilities::Abilities::default()
    }));
    assert_eq!(Some(heading(&app)), of(Ground::Dark));
    app.own.settings.ground = Some(Ground::Light);
    app.easel.wants(&app.own.settings);
    assert_eq!(Some(heading(&app)), of(Ground::Light));
    let opened = App::new(
        KEYERS[0].clone(),
        Vec::new(),
        SizeUnits::Mm,
        Theme::AllColours(None),
    );
    app.go_on_in(opened, "");
    assert_eq!(
        Some(heading(&app)),
        of(Ground::Dark),
        "what the terminal said is kept"
    );
}

fn example(press: keys::Press) -> KeyEvent {
    use keys::Press;
    match press {
        Press::Plain(code) => KeyEvent::from(code),
        Press::Control(code) => KeyEvent::new(code, KeyModifiers::CONTROL),
        Press::Digit => KeyEvent::from(KeyCode::Char('7')),
        Press::Printable => KeyEvent::from(KeyCode::Char('x')),
    }
}

#[test]
fn every_binding_is_dispatched_and_told() {
    // One column of keys, whose sentences go on over rows.
    let help = keys::help(Mode::Asking, "", (70, 1000));
    let words: Vec<String> = help.iter().map(|row| row.to_string()).collect();
    let words = words.join(" ");
    let help = words.split_whitespace().collect::<Vec<_>>().join(" ");
    for row in keys::BINDINGS {
        for press in row.presses {
            let sent = keys::dispatch(example(*press), row.mode);
            let meant = match &row.meaning {
                keys::Meaning::Is(message) => message.clone(),
                keys::Meaning::Of(make) => match example(*press).code {
                    KeyCode::Char(c) => make(c),
                    other => panic!("{other:?} is no character"),
                },
            };
            assert_eq!(sent, Some(meant), "{} in {:?}", row.keys, row.mode);
        }
        let told = help.contains(row.keys) && help.contains(row.long);
        assert_eq!(
            told,
            row.mode != Mode::Pages || Page::ALL.len() > 1,
            "{}",
            row.keys
        );
    }
}

pub(super) fn any_key() -> impl Strategy<Value = KeyEvent> {
    let codes = prop_oneof![
        6 => "[0-9]".prop_map(|text| KeyCode::Char(text.chars().next().unwrap_or('0'))),
        4 => prop::sample::select("+m/dawnurq? .-,in\"%cefghlpsvxjkot:".chars().collect::<Vec<_>>()).prop_map(KeyCode::Char),
        1 => any::<char>().prop_map(KeyCode::Char),
        4 => prop::sample::select(vec![
            KeyCode::Enter, KeyCode::Esc, KeyCode::Up, KeyCode::Down, KeyCode::Left, KeyCode::Right, KeyCode::Backspace,
            KeyCode::Delete, KeyCode::Tab, KeyCode::BackTab, KeyCode::Home, KeyCode::End, KeyCode::PageUp, KeyCode::PageDown, KeyCode::F(1),
        ]),
    ];
    (codes, prop::bool::weighted(0.05)).prop_map(|(code, control)| {
        KeyEvent::new(
            code,
            if control {
                KeyModifiers::CONTROL
            } else {
                KeyModifiers::NONE
            },
        )
    })
}

proptest! {
    #![proptest_config(ProptestConfig::with_cases(96))]

    #[test]
    fn any_keys_at_any_size_never_panic(
        steps in prop::collection::vec((any_key(), 1_u16..200, 1_u16..60), 1..40),
    ) {
        let mut app = app();
        for (key, width, height) in steps {
            app.update(Message::Resize(width, height));
            if let Some(message) = app.message(key) {
                app.update(message);
            }
            let shown = screen(&app, (width, height));
            prop_assert!(!shown.chars().any(|c| c.is_control() && c != '\n'));
        }
    }
}
