//! Keys in, screen out: a new case costs one line.

use std::sync::LazyLock;

use proptest::prelude::*;
use ratatui::Terminal;
use ratatui::backend::TestBackend;
use ratatui::crossterm::event::{KeyCode, KeyModifiers};

use super::*;
use crate::form::{Answer, Answers, RuleSet, Status};

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
        "c-r" => return KeyEvent::new(KeyCode::Char('r'), KeyModifiers::CONTROL),
        "c-c" => return KeyEvent::new(KeyCode::Char('c'), KeyModifiers::CONTROL),
        other => panic!("no key is called {other}"),
    };
    KeyEvent::from(code)
}

pub(super) fn play(app: &mut App, keys: &str) -> Option<Effect> {
    let play = |app: &mut App, event| app.message(event).and_then(|message| app.update(message));
    presses(keys).into_iter().find_map(|event| play(app, event))
}

pub(super) fn screen(app: &App, size: (u16, u16)) -> String {
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

pub(super) const USUAL: (u16, u16) = (80, 24);
/// What a grower sees of a ball, a single and a straight cactus.
const BALL: &str = "centre=closed rows=12 roll=forward rolled=90 line=straight tip=rounded set=regular outline=globe gradient=even width=broad heart=round diameter=98mm";
const SINGLE: &str = "centre=open rows=1 collar=none roll=flat rolled=0 line=straight tip=rounded set=regular outline=saucer gradient=even width=broad diameter=90mm";
const CACTUS: &str = "centre=closed rows=9 roll=back rolled=55 line=straight tip=pointed set=regular outline=deep gradient=even width=narrow heart=round diameter=140mm";

/// The presses that answer what the page asks of such a bloom until its form is settled.
fn presses_for(bloom: &str) -> String {
    let pairs: Vec<&str> = bloom.split_whitespace().collect();
    let traits = &KEYERS[0].set.traits;
    let seen = Answers::read(&pairs, traits).expect(bloom);
    let mut app = app();
    let mut keys = String::new();
    while let Some(asked) = app.key.reading().ask {
        let answer = match seen.get(asked.index) {
            Some(Answer::States(mask)) => (mask.trailing_zeros() + 1).to_string(),
            Some(answer) => answer.print(traits.get(asked.index)).replace("mm", "") + "<enter>",
            None => "0".to_string(),
        };
        play(&mut app, &answer);
        keys += &answer;
    }
    keys
}

#[test]
fn the_page_at_its_usual_size() {
    let mut app = app();
    app.update(Message::Resize(USUAL.0, USUAL.1));
    // The drawing is in Braille dots, shown to be there and not dot by dot.
    let shown = without_drawing(&screen(&app, USUAL));
    let expected = "
 trug  [Key]  Choose   Row              by the trade's forms, limits in inches
────────────────────────────────────────────────────────────────────────────────
Answers             │ Question: centre              │ Forms: 35 fit
> centre ?          │ What is at the centre of the  │ + anemone               3%
                    │ bloom?                        │ + micro anemone         3%
                    │ At full bloom, before it goes │ + single                3%
                    │ over, look straight at the    │ + mignon single         3%
                    │ face.                         │ + collarette            3%
                    │                               │ … 30 more (w)
                    │  1 closed: only ray florets,  │ + fits - by a mistake
                    │    right to the middle        │
                    │  2 open: a flat disc of small │
                    │    yellow florets             │
                    │  3 pincushion: a dome of long │
                    │    tubular disc florets       │
                    │  0 I can't tell (or Space)    │
────────────────────────────────────────────────────│
Answer what you can see. Any answer can be changed  │
or taken back, and none has to be given.            │
                                                    │
                                                    │
                                                    │
                                                    │ face, marked: centre
 + several  / find  o forms  n new  s to the row  w why  ? keys  q quit";
    assert_eq!(shown, expected.trim_start_matches('\n'), "\n{shown}");
}

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
fn blooms_are_keyed() {
    for (bloom, size, seen) in [
        (
            BALL,
            USUAL,
            &[
                "This bloom is a",
                "  BALL",
                "size: miniature",
                "a look again",
                "n the next bloom",
            ][..],
        ),
        (
            BALL,
            (140, 45),
            &["not with tip rounded", "- micro semi-cactus"],
        ),
        (BALL, (60, 16), &["  BALL", "= Settled: ball."]),
        (SINGLE, USUAL, &["  SINGLE", "+ single"]),
        (
            CACTUS,
            USUAL,
            &[
                "  STRAIGHT CACTUS",
                "= Settled: straight cactus. Size: small.",
            ],
        ),
    ] {
        check(&presses_for(bloom), size, seen);
    }
    // Under the other rules the same answers are read anew, and the next question is theirs.
    let other = presses_for(BALL) + "r";
    check(
        &other,
        USUAL,
        &["by the international register's groups", "The same answers"],
    );
    for (keys, seen) in [
        // A contradiction names the answers and what would mend it.
        (
            "/roll<enter>1/rolled<enter>30<enter>",
            &[
                "Forms: none fits",
                "roll and rolled cannot all be",
                "- semi-cactus",
            ][..],
        ),
        // Near a limit: how many more to measure.
        (
            "1d98 90 85<enter>/roll<enter>2",
            &["Close: the mean is above 88.9 mm", "91 mm, 3 blooms"],
        ),
    ] {
        check(keys, USUAL, seen);
    }
}

#[test]
fn answers_are_entered_changed_and_taken_back() {
    for (keys, seen) in [
        ("1d98 104<enter>", &["101 mm,", "diameter"][..]),
        ("1d98 10", &["[98 10_]", "= 54 mm, 2 blooms"]),
        (
            "1d98x<enter>",
            &["[98x_]", "! diameter: found \"98x\"", "Esc drop it"],
        ),
        ("1d98x<enter><back><enter>", &["diameter 98 mm"]),
        (
            "/roll<enter>+12",
            &["*1 flat", "*2 forward", "Enter one of those"],
        ),
        ("/roll<enter>m12<enter>", &["flat or forward"]),
        ("+<enter>", &["Nothing is marked"]),
        ("+12<esc>", &[" 1 closed", "> centre ?"]),
        (
            "1d98<enter><up>",
            &["> diameter 98 mm", "now 98 mm", "go on: Down"],
        ),
        ("1d98<enter><up>104<enter>", &["diameter 104 mm"]),
        ("1d98<enter><up><enter>", &["[98mm_]"]),
        ("1d98<enter><up><up>2", &["centre open"]),
        ("1<up><enter>2<enter>", &["closed or open"]),
        (
            "1d98<enter><back>",
            &["Took back: diameter", "Forms: 21 fit"],
        ),
        (
            "1d98<enter><up><up><back>",
            &["Took back: centre", "  diameter 98 mm"],
        ),
        ("1d98<enter>uu", &["> centre ?", "Undone."]),
        ("1d98<enter>uu<c-r><c-r>", &["diameter 98 mm"]),
        ("1n", &["A new bloom.", "> centre ?"]),
        ("1nu", &["centre closed"]),
        ("0", &["centre passed"]),
        (" ", &["centre passed"]),
        ("7", &["There is no 7 here: 1 to 3"]),
        ("d3 1/2 in<enter>", &["diameter 88.9 mm"]),
        ("/diamter<enter>98<enter>", &["diameter 98 mm"]),
        ("/zzzz<enter>", &["No trait is like that"]),
        ("/tip<esc>", &["> centre ?"]),
        ("             1", &["Nothing is asked now"]),
        ("n", &["This is a new bloom already"]),
        ("<back>", &["There is no answer here"]),
        ("u<c-r>", &["There is nothing to redo"]),
        ("a", &["There is no answer yet"]),
        ("1<up>a1", &["closed (again)"]),
        ("1<up>a ", &["centre closed", "Forms: 21 fit"]),
        ("w", &["Every form: how likely", "Your answers"]),
        ("w<end>", &["more above: Up"]),
        ("w<esc>", &["> centre ?"]),
        ("?", &["At a question", "more below: Down"]),
        ("d9<f1>", &["While a number is typed"]),
    ] {
        check(keys, USUAL, seen);
    }
}

/// From a new bloom to its form, with even odds before the first answer; Enter included.
#[test]
fn a_bloom_takes_few_keys() {
    for (bloom, form, most) in [
        (BALL, "ball", 11),
        (SINGLE, "single", 9),
        (CACTUS, "straight-cactus", 11),
        ("centre=pincushion diameter=75mm", "anemone", 4),
    ] {
        let keys = presses_for(bloom);
        let mut app = app();
        play(&mut app, &keys);
        let Status::Settled(settled) = app.key.reading().verdict.status else {
            panic!("{keys} does not settle\n{}", screen(&app, USUAL));
        };
        assert_eq!(KEYERS[0].set.forms[settled].id, form);
        assert!(presses(&keys).len() <= most, "{form}: {keys}");
    }
}

#[test]
fn a_bare_number_is_in_the_growers_units() {
    let mut app = App::new(KEYERS[0].clone(), Vec::new(), SizeUnits::In, Theme::Plain);
    play(&mut app, "d3 1/2 4<enter>");
    let answers = Answers::read(&["diameter=88.9mm,101.6mm"], &KEYERS[0].set.traits).expect("two");
    assert_eq!(app.key.answers(), &answers);
    assert!(screen(&app, USUAL).contains("3.75 in,"));
}

#[test]
fn quitting_is_an_effect_and_only_where_q_is_not_typed() {
    assert_eq!(play(&mut app(), "q"), Some(Effect::Quit));
    assert_eq!(play(&mut app(), "d9<c-c>"), Some(Effect::Quit));
    assert_eq!(play(&mut app(), "?<c-c>"), Some(Effect::Quit));
    assert_eq!(
        play(&mut app(), "?q/q1"),
        None,
        "q closes a sheet, and is looked for"
    );
}

/// Every question with all its states and the way to pass it, whole at the usual size; at the
/// least size every state still has its row.
#[test]
fn every_question_fits() {
    for one in KEYERS[0].set.traits.list() {
        for size in [USUAL, LEAST] {
            let mut app = app();
            app.update(Message::Resize(size.0, size.1));
            play(&mut app, &format!("/{}<enter>", one.id));
            let shown = screen(&app, size);
            let middles = shown
                .lines()
                .filter_map(|line| line.split('\u{2502}').nth(1));
            let middle: Vec<&str> = middles.collect();
            assert!(
                !middle.iter().any(|row| row.contains("more (w)")),
                "{} at {size:?}\n{shown}",
                one.id
            );
            for state in 1..=one.states().len() {
                assert!(
                    middle.iter().any(|row| row.contains(&format!(" {state} "))),
                    "{} at {size:?}\n{shown}",
                    one.id
                );
            }
        }
    }
}

#[test]
fn a_small_window_says_so() {
    check("", (59, 24), &["needs at least 60 by 16"]);
    check("", (80, 15), &["This window is 80 by 15"]);
}

#[test]
fn data_cannot_steer_the_terminal() {
    let mut set = KEYERS[0].set.clone();
    set.name = "a\u{1b}[2Jb\u{202e}".to_string();
    set.forms[0].name = "ane\u{7}mone\u{9b}5n".to_string();
    let app = App::new(Keyer::even(set), Vec::new(), SizeUnits::Mm, Theme::Colours);
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
        Theme::Colours,
    );
    let mut plain = app();
    for keys in ["1", "d98<enter>", "2", "+1", "<esc><up>", "w"] {
        play(&mut colours, keys);
        play(&mut plain, keys);
        let [colours, plain] = [&colours, &plain].map(|app| without_drawing(&screen(app, USUAL)));
        assert_eq!(colours, plain);
    }
}

fn example(press: keys::Press) -> KeyEvent {
    use keys::Press;
    match press {
        Press::Plain(code) => KeyEvent::from(code),
        Press::Control(letter) => KeyEvent::new(KeyCode::Char(letter), KeyModifiers::CONTROL),
        Press::Digit => KeyEvent::from(KeyCode::Char('7')),
        Press::Printable => KeyEvent::from(KeyCode::Char('x')),
    }
}

#[test]
fn every_binding_is_dispatched_and_told() {
    let help: String = keys::help(Place::Asking, 400)
        .iter()
        .map(|row| format!("{row:?}\n"))
        .collect();
    for row in keys::BINDINGS {
        for press in row.presses {
            let sent = keys::dispatch(example(*press), &[row.place, Place::Anywhere]);
            let meant = match &row.meaning {
                keys::Meaning::Is(message) => message.clone(),
                keys::Meaning::Of(make) => match example(*press).code {
                    KeyCode::Char(c) => make(c),
                    other => panic!("{other:?} is no character"),
                },
            };
            assert_eq!(sent, Some(meant), "{} in {:?}", row.keys, row.place);
        }
        let told = help.contains(row.keys) && help.contains(row.long);
        assert_eq!(
            told,
            row.place != Place::Pages || Page::ALL.len() > 1,
            "{}",
            row.keys
        );
    }
}

pub(super) fn any_key() -> impl Strategy<Value = KeyEvent> {
    let codes = prop_oneof![
        6 => "[0-9]".prop_map(|text| KeyCode::Char(text.chars().next().unwrap_or('0'))),
        4 => prop::sample::select("+m/dawnurq? .-,in\"%cefghlpsvxjkot".chars().collect::<Vec<_>>()).prop_map(KeyCode::Char),
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
