//! Every page in all that it can be doing, in windows from a telephone's to a wall's: the ways on and
//! out are in sight, nothing is wider than the window, and no column is cut beside an empty one.
//!
//!     TRUG_PICTURES=DIR cargo test --test all screen::sizes     # writes what each looks like

use ratatui::Terminal;
use ratatui::backend::TestBackend;
use ratatui::buffer::Buffer;
use ratatui::crossterm::event::{KeyCode, KeyEvent, KeyModifiers};
use ratatui::style::Color;

use trug::screen::{App, Effect, Message};

use super::random_keys::opened;

/// Columns and rows.
pub(super) const SIZES: [(u16, u16); 6] = [
    (44, 20),
    (60, 16),
    (80, 24),
    (100, 30),
    (140, 45),
    (200, 60),
];

/// The most columns between two figures of a table.
const BETWEEN: usize = 8;

/// What is open, and the keys to it from the first page.
pub(super) const OPEN: &[(&str, &str)] = &[
    ("key", ""),
    ("key number", "d98 104"),
    ("key number refused", "d98 x\r"),
    ("key find", "/ro"),
    ("key forms", "o"),
    ("key marks", "+1"),
    (
        "key settled",
        "d98\r/roll\r2/tip\r1/outline\r1/rolled\r90\r/set\r1",
    ),
    ("key full", "w"),
    ("key words", "g"),
    ("key help", "?"),
    ("choose", "\t"),
    ("choose ranked", "\tcplum\rp\u{19}\r"),
    ("choose words", "\t/pink"),
    ("choose colour refused", "\tcblurgh\r"),
    ("choose values", "\tf"),
    ("choose uses", "\tp"),
    ("choose full", "\tw"),
    ("choose compare", "\tx\u{19}x\u{19}xv"),
    ("choose colours", "\tg"),
    ("choose help", "\t?"),
    ("choose help sought", "\t?colour"),
    ("row", "\t\t"),
    ("row walk", "\t\t198 104"),
    ("row walk doubted", "\t\t1300\r"),
    ("row decide", "\t\td"),
    ("row add", "\t\ta"),
    ("row full", "\t\t\r"),
    ("row whole", "\t\tg"),
    ("row compare", "\t\tx\u{19}xv"),
    ("row help", "\t\t?"),
    ("order", "\t\t\t"),
    ("order figure", "\t\t\te"),
    ("order need", "\t\t\ta"),
    ("order event", "\t\t\tV"),
    ("order round", "\t\t\tR"),
    ("order need refused", "\t\t\tawedding: 40 37-37 use=bad\r"),
    ("order full", "\t\t\tw"),
    ("order help", "\t\t\t?"),
    ("stock", "\t\t\t\t"),
    ("stock walk", "\t\t\t\t1"),
    ("stock walk refused", "\t\t\t\t6999\r"),
    ("stock day", "\t\t\t\tt"),
    ("stock add", "\t\t\t\ta"),
    ("stock full", "\t\t\t\t\r"),
    ("stock help", "\t\t\t\t?"),
    ("tags", "\t\t\t\t\t"),
    ("tags print", "\t\t\t\t\tp"),
    ("tags find", "\t\t\t\t\t/plum"),
    ("tags full", "\t\t\t\t\t\r"),
    ("tags refused", "\t\t\t\t\tar"),
    ("tags help", "\t\t\t\t\t?"),
];

/// Each page in words, the window and what is drawn in it.
pub(super) struct Picture {
    pub(super) name: &'static str,
    pub(super) size: (u16, u16),
    app: App,
    pub(super) rows: Vec<String>,
}

impl Picture {
    pub(super) fn of(start: &App, (name, keys): (&'static str, &str), size: (u16, u16)) -> Picture {
        let app = played(start, keys, size);
        let rows = drawn(&app, size);
        Picture {
            name,
            size,
            app,
            rows,
        }
    }

    pub(super) fn told(&self) -> String {
        let (width, height) = self.size;
        let rows = self.rows.join("\n");
        format!("{} at {width} by {height}:\n{rows}", self.name)
    }

    pub(super) fn has_page(&self) -> bool {
        !self.rows[0].starts_with("This window is")
    }

    /// Its cells with their styles.
    pub(super) fn buffer(&self) -> Buffer {
        buffer(&self.app, self.size)
    }

    fn footer(&self) -> String {
        format!(" {} ", self.rows.last().map_or("", String::as_str))
    }
}

/// The screen after keys in a window of this size.
pub(super) fn played(start: &App, keys: &str, size: (u16, u16)) -> App {
    let mut app = start.clone();
    send(&mut app, Message::Resize(size.0, size.1));
    for c in keys.chars() {
        let key = match c {
            '\t' => KeyCode::Tab,
            '\r' => KeyCode::Enter,
            // Control-Y, which no page has, stands for the key with an arrow down.
            '\u{19}' => KeyCode::Down,
            c => KeyCode::Char(c),
        };
        let message = app.message(KeyEvent::from(key));
        message
            .into_iter()
            .for_each(|message| send(&mut app, message));
    }
    app
}

/// Sends a message, and the answers to what it asks for: every save succeeds.
pub(crate) fn send(app: &mut App, message: Message) {
    let mut next = Some(message);
    while let Some(effect) = next.take().and_then(|message| app.update(message)) {
        next = Some(match effect {
            Effect::Quit => return,
            Effect::SaveVarieties => Message::Saved,
            Effect::AddEntry | Effect::SaveSeedlings => Message::Entered,
            Effect::AddStock => Message::Stocked,
            Effect::SaveOrder => Message::OrderSaved,
            Effect::PrintTags => Message::Printed,
            Effect::SaveWords => Message::WordsSaved(Ok(())),
            Effect::SaveSettings => Message::SettingsSaved,
            // There is no disk here.
            Effect::Look | Effect::MakeFolder => return,
        });
    }
}

pub(crate) fn buffer(app: &App, (width, height): (u16, u16)) -> Buffer {
    let mut terminal = Terminal::new(TestBackend::new(width, height)).expect("a test backend");
    terminal
        .draw(|frame| app.view(frame))
        .expect("a test backend");
    terminal.backend().buffer().clone()
}

fn drawn(app: &App, size: (u16, u16)) -> Vec<String> {
    let buffer = buffer(app, size);
    // A flower's colour is a blank on a ground of that colour.
    let symbol = |at: (u16, u16)| match (buffer[at].symbol(), buffer[at].bg) {
        (" ", Color::Indexed(_) | Color::Rgb(..)) => "\u{2588}",
        (symbol, _) => symbol,
    };
    (0..size.1)
        .map(|y| (0..size.0).map(|x| symbol((x, y))).collect::<String>())
        .map(|row| row.trim_end().to_string())
        .collect()
}

#[test]
fn the_ways_on_and_out_are_in_sight_in_every_window() {
    let start = at_the_key_page();
    let pictures = OPEN
        .iter()
        .flat_map(|open| SIZES.map(|size| Picture::of(&start, *open, size)));
    for picture in pictures {
        if let Some(folder) = std::env::var_os("TRUG_PICTURES") {
            let (width, height) = picture.size;
            let name = format!("{}.{width}x{height}", picture.name.replace(' ', "-"));
            let path = std::path::Path::new(&folder).join(name);
            std::fs::write(path, picture.told()).expect("a picture");
        }
        is_never_without_a_way(&picture);
        cuts_nothing_beside_an_empty_column(&picture);
    }
}

/// On the first page, where every picture starts.
pub(super) fn at_the_key_page() -> App {
    let app = opened();
    assert_eq!(app.page.name(), "Key");
    app
}

/// What the keys do that lead on and out is what the footer says, in a line with Enter and Esc.
fn is_never_without_a_way(picture: &Picture) {
    if !picture.has_page() {
        let told = picture.rows.join(" ");
        assert!(
            told.contains("or quit with q or Ctrl-C"),
            "{}",
            picture.told()
        );
        return;
    }
    let does = |code, modifiers| picture.app.message(KeyEvent::new(code, modifiers));
    let plain = |code| does(code, KeyModifiers::NONE);
    let footer = picture.footer();
    let sees = |keys: &[&str]| {
        let seen = keys.iter().any(|key| footer.contains(&format!(" {key} ")));
        assert!(seen, "no {keys:?} in {footer:?}\n{}", picture.told());
    };
    if plain(KeyCode::Tab) == Some(Message::NextPage) {
        sees(&["Tab"]);
    }
    match plain(KeyCode::Char('?')) == Some(Message::OpenHelp) {
        true => sees(&["?"]),
        false => sees(&["F1"]),
    }
    match plain(KeyCode::Char('q')) == Some(Message::Quit) {
        true => sees(&["q"]),
        false => {
            sees(&["Esc"]);
            sees(&["Ctrl-C", "^C"]);
        }
    }
    let is_typed = matches!(plain(KeyCode::Char('e')), Some(Message::Edit(_)));
    let is_help = picture.name.contains("help");
    if is_typed && !is_help {
        sees(&["Enter"]);
    }
    if picture.rows.iter().any(|row| row.contains("Esc closes")) {
        assert!(picture.rows[1].contains("Esc closes"), "{}", picture.told());
    }
}

/// Of a table, from its head down to the next part: where a cell is cut no more columns are empty from the
/// first row to the last than stand between two figures.
fn cuts_nothing_beside_an_empty_column(picture: &Picture) {
    let heads = ["  plant ", "    plant ", "    name "];
    let head = picture
        .rows
        .iter()
        .position(|row| heads.iter().any(|head| row.starts_with(head)));
    let Some(head) = head.filter(|_| picture.has_page()) else {
        return;
    };
    // A part at its right has a head that goes on as a line.
    let line = picture.rows[head].chars().position(|c| c == '\u{2500}');
    let width = line.unwrap_or(usize::from(picture.size.0));
    let body = picture.rows[head + 1..].iter();
    let body = body.take_while(|row| !row.starts_with('\u{2500}') && !row.is_empty());
    let table: Vec<Vec<char>> = std::iter::once(&picture.rows[head])
        .chain(body)
        .map(|row| {
            let mut cells: Vec<char> = row.chars().take(width).collect();
            cells.resize(width, ' ');
            cells
        })
        .collect();
    let is_cut = table.iter().any(|row| row.contains(&'\u{2026}'));
    let empty: Vec<bool> = (4..width)
        .map(|at| table.iter().all(|row| row[at] == ' '))
        .collect();
    let runs = empty.chunk_by(|one, other| one == other);
    let widest = runs.filter(|run| run[0]).map(<[bool]>::len).max();
    assert!(
        !is_cut || widest.unwrap_or(0) <= BETWEEN,
        "{widest:?} columns are empty\n{}",
        picture.told()
    );
}
