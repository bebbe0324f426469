//! Pictures in pixels, from the answers of a terminal to what it is sent, read by others than those who
//! wrote it.

use std::time::{Duration, Instant};

use base64::Engine;
use base64::engine::general_purpose::STANDARD;

use super::Session;

/// A terminal of kitty's kind, with cells of 10 by 20 pixels.
const KITTY: &str = "\x1b_Gi=31;OK\x1b\\\x1b[6;20;10t\x1b]11;rgb:1e1e/1e1e/1e1e\x1b\\\x1bP>|kitty(0.42.1)\x1b\\\x1b[?62;52;c";
/// One that shows sixels.
const SIXEL: &str =
    "\x1b[6;20;10t\x1b]11;rgb:ffff/ffff/ffff\x07\x1bP>|foot(1.21.0)\x1b\\\x1b[?62;4;22c";
/// The question that all terminals answer, which comes last.
const LAST_QUESTION: &str = "\x1b[c";
/// Pixels of a bloom beside a text: 24 by 12 cells.
const SIDE: u32 = 240;

/// A screen whose terminal answers with this.
fn answering(answers: &str) -> Session {
    let mut session = Session::start(&["--units", "mm"], false);
    session.wait_for_sent(LAST_QUESTION);
    session.press(answers);
    session.wait_for_text("> centre ?");
    session
}

/// What stands between these in what was sent.
fn between<'a>(sent: &'a str, first: &str, last: &str) -> Vec<&'a str> {
    let parts = sent.split(first).skip(1);
    parts
        .filter_map(|part| part.split_once(last))
        .map(|(part, _)| part)
        .collect()
}

/// How many pixels have a colour.
fn coloured(pixels: &[u8]) -> usize {
    pixels.chunks(4).filter(|pixel| pixel[3] > 0).count()
}

#[test]
fn a_terminal_of_kittys_kind_is_sent_pixels_and_forgets_them_at_the_end() {
    let mut session = answering(KITTY);
    // The bloom of a variety, beside what is said of it.
    session.press("\tw");
    // It stands in the cells that its rows would have.
    let sent = session.wait_for_sent("\u{10eeee}");
    let commands = between(&sent, "\x1b_Gq=2,", "\x1b\\");
    let first = commands.first().expect("a picture");
    assert!(
        first.contains(&format!("a=T,U=1,f=32,t=d,s={SIDE},v={SIDE},")),
        "{}",
        &first[..60]
    );
    let id = first
        .split(',')
        .find_map(|part| part.strip_prefix("i="))
        .expect("a number");
    let until = commands
        .iter()
        .position(|one| one.contains("m=0;"))
        .expect("an end");
    let data: String = { commands[..=until].iter() }
        .map(|one| one.split_once(';').expect("data").1)
        .collect();
    let pixels = STANDARD.decode(data).expect("base64");
    assert_eq!(pixels.len(), (SIDE * SIDE * 4) as usize);
    let share = coloured(&pixels) as f64 / f64::from(SIDE * SIDE);
    assert!((0.3..0.9).contains(&share), "{share}");
    let id = id.to_string();
    session.quit("\x03");
    let sent = session.sent();
    assert!(
        sent.contains(&format!("\x1b_Ga=d,d=I,i={id},q=2\x1b\\")),
        "{id} stays"
    );
    let end = sent.rfind("\x1b[?1049l").expect("left");
    assert!(sent.rfind("\x1b_Ga=d").expect("deleted") < end);
}

#[test]
fn a_terminal_that_shows_sixels_is_sent_them() {
    let mut session = answering(SIXEL);
    session.press("\tw");
    let whole = |sent: &str| !between(sent, "\x1bP9;1;0q", "\x1b\\").is_empty();
    let sent = session.wait_until_sent("sixels", whole);
    let sixels = between(&sent, "\x1bP9;1;0q", "\x1b\\")[0];
    let decoded = icy_sixel::SixelImage::decode(format!("\x1bP9;1;0q{sixels}\x1b\\").as_bytes());
    let decoded = decoded.expect("sixels");
    assert_eq!(
        (decoded.width, decoded.height),
        (SIDE as usize, SIDE as usize)
    );
    session.quit("\x03");
}

#[test]
fn a_terminal_that_answers_nothing_is_waited_for_briefly_and_shows_cells() {
    let began = Instant::now();
    let mut session = Session::start(&["--units", "mm"], false);
    session.wait_for_sent(LAST_QUESTION);
    let asked = began.elapsed();
    session.wait_for_text("> centre ?");
    let waited = began.elapsed() - asked;
    assert!(waited < Duration::from_secs(2), "{waited:?}");
    session.press("\tw");
    session.wait_for_text("\u{2580}");
    session.quit("\x03");
    let sent = session.sent();
    assert!(
        !sent.contains("\x1b_Gq=2") && !sent.contains("\x1bP9;"),
        "pixels"
    );
}

#[test]
fn answers_that_come_late_are_never_taken_as_keys() {
    for answers in [KITTY, SIXEL] {
        let mut session = Session::start(&["--units", "mm"], false);
        session.wait_for_text("> centre ?");
        session.press("d");
        session.press(answers);
        session.press("98");
        session.wait_for_text("[98");
        session.wait_for_text("[98_]");
        session.quit("\x03");
        assert!(!session.sent().contains("\x1b_Gq=2"));
    }
}

#[test]
fn without_colour_or_where_the_grower_said_no_there_are_no_pixels() {
    let mut session = Session::start(&["--units", "mm"], true);
    session.wait_for_text("> centre ?");
    session.quit("q");
    assert!(!session.sent().contains(LAST_QUESTION), "asked for nothing");
    let home = tempfile::tempdir().expect("a folder");
    let dir = super::lane(home.path());
    let set = ["settings", "set", "pictures=cells", "--at", &dir];
    super::trug(home.path(), &set).done();
    let mut session = Session::start(&["--units", "mm", "--at", &dir], false);
    session.wait_for_sent(LAST_QUESTION);
    session.press(KITTY);
    session.wait_for_text("> centre ?");
    session.press("\tw");
    // Kitty draws octants itself.
    session.wait_for("octants", |screen| {
        screen
            .contents()
            .contains(|c| matches!(c, '\u{1cd00}'..='\u{1cde5}'))
    });
    session.quit("\x03");
    assert!(!session.sent().contains("\x1b_Gq=2"));
}
