//! The table of keys: each row drives dispatch, the footer, the help and the tests.
//!
//! On the Key page the number keys answer, so pages are switched by Tab and Shift-Tab.

use ratatui::crossterm::event::{KeyCode, KeyEvent, KeyModifiers};

use super::Message;
use super::key_page::KeyMessage;
use super::text::{Row, paragraph};
use super::theme::Role;

/// Where a key means something. A key is looked for in the places that are open, in turn.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Place {
    /// Everywhere.
    Anywhere,
    /// A page with nothing typed: letters are commands.
    Page,
    /// A page, where there is more than one.
    Pages,
    /// The Key page, at a question.
    Asking,
    /// The Key page, with a line begun.
    Typing,
    /// The Key page, looking for a trait.
    Finding,
    /// A sheet of text over the page.
    Sheet,
}

/// Which presses a row takes.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Press {
    /// This key, without Control or Alt.
    Plain(KeyCode),
    /// This letter with Control.
    Control(char),
    /// Any of the digits.
    Digit,
    /// Any character that can be typed.
    Printable,
}

/// What a press becomes.
#[derive(Debug, Clone, Copy)]
pub enum Meaning {
    /// Always the same message.
    Is(Message),
    /// A message of the digit or character that was pressed.
    Of(fn(char) -> Message),
}

/// One row of the table.
#[derive(Debug, Clone, Copy)]
pub struct Binding {
    /// Where it holds.
    pub place: Place,
    /// The presses that it takes.
    pub presses: &'static [Press],
    /// The keys as they are shown.
    pub keys: &'static str,
    /// What it does in a word or two, for the footer; not in the footer where empty.
    pub short: &'static str,
    /// What it does, for the help.
    pub long: &'static str,
    /// What it sends.
    pub meaning: Meaning,
}

const fn row(
    place: Place,
    presses: &'static [Press],
    keys: &'static str,
    short: &'static str,
    long: &'static str,
    meaning: Meaning,
) -> Binding {
    Binding {
        place,
        presses,
        keys,
        short,
        long,
        meaning,
    }
}

use KeyCode::{
    BackTab, Backspace, Char, Delete, Down, End, Enter, Esc, F, Home, Left, PageDown, PageUp,
    Right, Tab, Up,
};
use KeyMessage as K;
use Meaning::{Is, Of};
use Place::{Anywhere, Asking, Finding, Page, Pages, Sheet, Typing};
use Press::{Control, Digit, Plain, Printable};

const fn key(message: KeyMessage) -> Meaning {
    Is(Message::Key(message))
}

/// Every key of the screen, the most used first within a place.
#[rustfmt::skip] // A table reads by rows.
pub const BINDINGS: &[Binding] = &[
    row(Asking, &[Digit], "1 to 9", "", "Answer with that state; at a number, begin the line. 0: cannot tell", Of(|c| Message::Key(K::Digit(c)))),
    row(Asking, &[Plain(Char(' '))], "Space", "", "Pass the question: I can't tell", key(K::CannotTell)),
    row(Asking, &[Plain(Char('+')), Plain(Char('m'))], "+ or m", "several", "Mark several states, then Enter: one of these", key(K::Mark)),
    row(Asking, &[Plain(Char('.'))], ".", "", "Begin a number under 1", key(K::Type('.'))),
    row(Asking, &[Plain(Enter)], "Enter", "", "Give what is marked; on an answer, change it", key(K::Give)),
    row(Asking, &[Plain(Up), Plain(Left)], "Up or Left", "", "Go back over the answers", key(K::Up)),
    row(Asking, &[Plain(Down), Plain(Right)], "Down or Right", "", "Go forward, at last to the next question", key(K::Down)),
    row(Asking, &[Plain(Esc)], "Esc", "", "Drop the marks, or go to the next question", key(K::Drop)),
    row(Asking, &[Plain(Char('/'))], "/", "find", "Find a trait and answer it now", key(K::Find)),
    row(Asking, &[Plain(Char('d'))], "d", "", "Measure: answer the diameter now", key(K::Measure)),
    row(Asking, &[Plain(Char('n'))], "n", "new", "Start a new bloom", key(K::New)),
    row(Asking, &[Plain(Char('a'))], "a", "look again", "Look again at the answer that would tell most; both looks count", key(K::LookAgain)),
    row(Asking, &[Plain(Char('u'))], "u", "undo", "Undo the last change of answers, a new bloom too", key(K::Undo)),
    row(Asking, &[Control('r')], "Ctrl-R", "", "Redo what was undone", key(K::Redo)),
    row(Asking, &[Plain(Char('r'))], "r", "rules", "Read the same answers under the next rule set", key(K::Rules)),
    row(Asking, &[Plain(Backspace), Plain(Delete)], "Backspace", "take back", "Take back the answer under the cursor, else the last one given", key(K::TakeBack)),
    row(Typing, &[Plain(Enter)], "Enter", "give", "Give the line as the answer", key(K::Give)),
    row(Typing, &[Plain(Esc)], "Esc", "drop the line", "Drop the line", key(K::Drop)),
    row(Typing, &[Plain(Backspace)], "Backspace", "", "Erase the last character", key(K::Erase)),
    row(Typing, &[Printable], "any character", "", "Write on the line: 5, 4-7, 60 %, 98 104 101, 3 1/2 in", Of(|c| Message::Key(K::Type(c)))),
    row(Finding, &[Plain(Enter)], "Enter", "ask it", "Ask the trait under the cursor", key(K::Give)),
    row(Finding, &[Plain(Up), Plain(Left)], "Up", "", "Go up the list", key(K::Up)),
    row(Finding, &[Plain(Down), Plain(Right)], "Down", "", "Go down the list", key(K::Down)),
    row(Finding, &[Plain(Esc)], "Esc", "back", "Leave the search", key(K::Drop)),
    row(Finding, &[Plain(Backspace)], "Backspace", "", "Erase the last character", key(K::Erase)),
    row(Finding, &[Printable], "any character", "", "Look for a trait by name, state or question; slips are forgiven", Of(|c| Message::Key(K::Type(c)))),
    row(Page, &[Plain(Char('w'))], "w", "why", "Everything in full: why, how sure, what was ruled out by which answer", Is(Message::OpenWhy)),
    row(Pages, &[Plain(Tab)], "Tab", "next page", "Next page", Is(Message::NextPage)),
    row(Pages, &[Plain(BackTab)], "Shift-Tab", "", "Previous page", Is(Message::PreviousPage)),
    row(Page, &[Plain(Char('?'))], "?", "keys", "This list of keys", Is(Message::OpenHelp)),
    row(Page, &[Plain(Char('q'))], "q", "quit", "Quit", Is(Message::Quit)),
    row(Sheet, &[Plain(Down), Plain(Char('j'))], "Down", "scroll", "Scroll down a row", Is(Message::Scroll(1))),
    row(Sheet, &[Plain(Up), Plain(Char('k'))], "Up", "", "Scroll up a row", Is(Message::Scroll(-1))),
    row(Sheet, &[Plain(PageDown), Plain(Char(' '))], "Page Down", "", "Scroll down ten rows", Is(Message::Scroll(10))),
    row(Sheet, &[Plain(PageUp)], "Page Up", "", "Scroll up ten rows", Is(Message::Scroll(-10))),
    row(Sheet, &[Plain(Home)], "Home", "", "To the top", Is(Message::Scroll(i16::MIN))),
    row(Sheet, &[Plain(End)], "End", "", "To the end", Is(Message::Scroll(i16::MAX))),
    row(Sheet, &[Plain(Esc), Plain(Enter), Plain(Char('q')), Plain(Char('w')), Plain(Char('?'))], "Esc", "back", "Close the sheet", Is(Message::CloseSheet)),
    row(Anywhere, &[Plain(F(1))], "F1", "", "This list of keys, also while typing", Is(Message::OpenHelp)),
    row(Anywhere, &[Control('c')], "Ctrl-C", "", "Quit, also while typing", Is(Message::Quit)),
];

/// The message of a press where these places are open.
pub fn dispatch(event: KeyEvent, places: &[Place]) -> Option<Message> {
    let in_place = |place: &Place| {
        let own = BINDINGS.iter().filter(|row| row.place == *place);
        own.flat_map(|row| row.presses.iter().map(move |press| (row, press)))
            .find(|(_, press)| press.takes(event))
    };
    let (row, _) = places.iter().find_map(in_place)?;
    match (row.meaning, event.code) {
        (Is(message), _) => Some(message),
        (Of(message), Char(c)) => Some(message(c)),
        (Of(_), _) => None,
    }
}

impl Press {
    fn takes(self, event: KeyEvent) -> bool {
        let control = event.modifiers.contains(KeyModifiers::CONTROL);
        let alt = event.modifiers.contains(KeyModifiers::ALT);
        match (self, event.code) {
            (Control(letter), Char(c)) => control && !alt && c == letter,
            (Plain(code), pressed) => !control && !alt && pressed == code,
            (Digit, Char(c)) => !control && !alt && c.is_ascii_digit(),
            (Printable, Char(c)) => !control && !alt && !c.is_control(),
            _ => false,
        }
    }
}

/// The footer: the keys of the open places that fit, and always how to see them all.
pub fn footer(places: &[Place], columns: usize) -> Row {
    let told = |row: &&Binding| !row.short.is_empty() && places.contains(&row.place);
    let mut rows: Vec<&Binding> = BINDINGS.iter().filter(told).collect();
    // The last rows lead to help and out: they stay when the window is narrow.
    let stays = |row: &Binding| matches!(row.short, "keys" | "quit" | "back" | "why");
    let needed = |rows: &[&Binding]| -> usize {
        rows.iter()
            .map(|row| first_key(row).len() + row.short.len() + 3)
            .sum()
    };
    while needed(&rows) > columns {
        let Some(last) = rows.iter().rposition(|row| !stays(row)) else {
            break;
        };
        rows.remove(last);
    }
    let add = |line: Row, row: &&Binding| {
        line.with(" ", Role::Plain)
            .with(first_key(row), Role::Key)
            .with(format!(" {} ", row.short), Role::Quiet)
    };
    rows.iter().fold(Row::default(), add)
}

/// The first of the keys as they are shown: the footer has little room.
fn first_key(row: &Binding) -> &'static str {
    row.keys.split(" or ").next().unwrap_or(row.keys)
}

/// The help: every row of the table, by place, where the grower is first.
pub fn help(here: Place, columns: usize) -> Vec<Row> {
    let mut parts: [(&str, &[Place]); 5] = [
        ("At a question", &[Asking]),
        ("While a number is typed", &[Typing]),
        ("While a trait is looked for", &[Finding]),
        ("On any page", &[Page, Pages, Anywhere]),
        ("On a sheet such as this", &[Sheet]),
    ];
    parts.sort_by_key(|(_, places)| !places.contains(&here));
    let mut rows = Vec::new();
    for (title, places) in parts {
        if !rows.is_empty() {
            rows.push(Row::default());
        }
        rows.push(Row::of(title, Role::Heading));
        for row in BINDINGS
            .iter()
            .filter(|row| places.contains(&row.place) && row.is_open())
        {
            let lead = format!("  {:<14} ", row.keys);
            rows.extend(paragraph(
                (&lead, Role::Key),
                row.long,
                Role::Plain,
                columns,
            ));
        }
    }
    rows
}

impl Binding {
    /// Whether the row's place can be reached at all.
    fn is_open(&self) -> bool {
        self.place != Pages || super::Page::ALL.len() > 1
    }
}
