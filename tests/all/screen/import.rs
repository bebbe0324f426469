//! A messy spreadsheet read in by keys alone: asked about, looked at, taken in, taken back.

use std::fs;
use std::path::Path;

use clap::Parser;
use ratatui::Terminal;
use ratatui::backend::TestBackend;
use ratatui::crossterm::event::{KeyCode, KeyEvent, KeyModifiers};
use rust_xlsxwriter::Workbook;
use tempfile::TempDir;

use trug::command::{Arguments, Context, look, open};
use trug::screen::terminal::Change;
use trug::screen::theme::Theme;
use trug::screen::{App, Effect, Message, Page};

use crate::common::shell::trug;

const USUAL: (u16, u16) = (80, 24);

/// A grower at the screen, her folder with what is on its disk.
struct Grower {
    home: TempDir,
    app: App,
    saver: open::Saver,
}

impl Grower {
    /// At the Choose page of a new folder.
    fn new() -> Grower {
        let home = tempfile::tempdir().expect("a place");
        let dir = home.path().join("lane").display().to_string();
        trug(home.path(), &["start", &dir]).done();
        let arguments = Arguments::parse_from(["trug", "--at", &dir]);
        let context = Context::new(&arguments.common, &mut std::io::sink()).expect("a folder");
        let (app, saver) = open::screen(&context, Theme::Plain).expect("a screen");
        let mut grower = Grower { home, app, saver };
        grower.resize(USUAL);
        while grower.app.page != Page::Choose {
            grower.app.update(Message::NextPage);
        }
        grower
    }

    fn resize(&mut self, size: (u16, u16)) {
        self.app.update(Message::Resize(size.0, size.1));
    }

    fn path(&self, name: &str) -> String {
        self.home.path().join(name).display().to_string()
    }

    fn list(&self) -> String {
        fs::read_to_string(self.path("lane/varieties.ron")).expect("a list")
    }

    /// Presses keys: a character is itself, a key with a name stands in `<>`.
    fn press(&mut self, keys: &str) {
        let mut rest = keys;
        while let Some(c) = rest.chars().next() {
            let name = rest.strip_prefix('<').and_then(|rest| rest.split_once('>'));
            let (key, left) = match name {
                Some((name, left)) => (named(name), left),
                None => (KeyEvent::from(KeyCode::Char(c)), &rest[c.len_utf8()..]),
            };
            if let Some(message) = self.app.message(key) {
                self.send(message);
            }
            rest = left;
        }
    }

    /// Does what the terminal does with what follows from a message.
    fn send(&mut self, message: Message) {
        let mut next = Some(message);
        while let Some(effect) = next.take().and_then(|message| self.app.update(message)) {
            let choose = &self.app.choose;
            next = Some(match effect {
                Effect::Look => {
                    let asked = choose.asks().expect("something to look at");
                    Message::Looked(Box::new(look::look(asked)))
                }
                Effect::SaveWords => {
                    let words = choose.own_words().expect("words");
                    Message::WordsSaved(self.saver.save(Change::Words(words)))
                }
                Effect::SaveVarieties => {
                    let saved = self.saver.save(Change::Varieties(choose.list()));
                    saved.map_or_else(Message::NotSaved, |()| Message::Saved)
                }
                other => panic!("{other:?} follows from no key of an import"),
            });
        }
    }

    fn shown(&self, size: (u16, u16)) -> String {
        let mut terminal = Terminal::new(TestBackend::new(size.0, size.1)).expect("a test backend");
        terminal.draw(|frame| self.app.view(frame)).expect("draws");
        let buffer = terminal.backend().buffer();
        let cells = |y| (0..size.0).map(move |x| (x, y));
        let row = |y| cells(y).map(|at| buffer[at].symbol()).collect::<String>();
        let rows: Vec<String> = (0..size.1).map(|y| row(y).trim_end().to_string()).collect();
        rows.join("\n").trim_end().to_string()
    }

    #[track_caller]
    fn sees(&self, texts: &[&str]) {
        let shown = self.shown(USUAL);
        for text in texts {
            assert!(shown.contains(text), "{text:?} is not on\n{shown}");
        }
    }
}

fn named(name: &str) -> KeyEvent {
    let code = match name {
        "enter" => KeyCode::Enter,
        "esc" => KeyCode::Esc,
        "tab" => KeyCode::Tab,
        "down" => KeyCode::Down,
        "up" => KeyCode::Up,
        "back" => KeyCode::Backspace,
        "end" => KeyCode::End,
        "c-r" => return KeyEvent::new(KeyCode::Char('r'), KeyModifiers::CONTROL),
        "c-u" => return KeyEvent::new(KeyCode::Char('u'), KeyModifiers::CONTROL),
        other => panic!("no key is called {other}"),
    };
    KeyEvent::from(code)
}

const HEADINGS: [&str; 12] = [
    "Cultivar",
    "Kind of bloom",
    "Bl. size",
    "Col.",
    "Plant ht (in)",
    "Stock",
    "Cost",
    "Pack size",
    "From",
    "Leaf",
    "Photo",
    "Remarks",
];
const FIRST: [&str; 8] = [
    "Haaf", "Ebb", "Oar", "Foam", "Wrack", "Noust", "Tangle", "Skerry",
];
const SECOND: [&str; 5] = ["Bell", "Lantern", "Kettle", "Ember", "Bobbin"];
const FORMS: [&str; 10] = [
    "Min. Ball",
    "water lily",
    "collerette",
    "Inf. Dec",
    "Semi Cactus",
    "dinner plate",
    "Pom pom",
    "Formal Dec.",
    "ball",
    "Anemone",
];
const COLOURS: [&str; 9] = [
    "red, white",
    "plum/wine",
    "pink and cream",
    "red & white",
    "plumm",
    "plum with a white tip",
    "white-tipped plum",
    "Dark Red",
    "brick dust",
];

/// Forty varieties as a grower keeps them: a title, odd headings, two of them from two suppliers.
pub(super) fn messy(path: &str) {
    let mut book = Workbook::new();
    let sheet = book.add_worksheet();
    let mut write = |row: u32, column: usize, text: &str| {
        let column = u16::try_from(column).expect("few columns");
        sheet.write(row, column, text).expect("writes");
    };
    write(0, 0, "Skerry Lane, dahlias in the shed");
    for (column, heading) in HEADINGS.iter().enumerate() {
        write(2, column, heading);
    }
    let mut row = 3;
    for at in 0..40 {
        let name = format!("{} {}", FIRST[at % 8], SECOND[at / 8]);
        let height = format!("{}", 36 + at % 12);
        let price = match at % 2 {
            0 => "£4.50",
            _ => "5,20 €",
        };
        let sizes = ["Small", "mini", "4\"", "", "med"];
        let cells = [
            name.as_str(),
            FORMS[at % 10],
            sizes[at % 5],
            COLOURS[at % 9],
            &height,
            "12",
            price,
            "3",
            "Oar Bulbs",
            ["green", "bronzy", "dark"][at % 3],
            "x.jpg",
            "",
        ];
        for (column, cell) in cells.iter().enumerate() {
            write(row, column, cell);
        }
        row += 1;
        if at == 3 || at == 17 {
            write(row, 0, &name.to_uppercase());
            write(row, 6, "£3.10");
            write(row, 7, "1");
            write(row, 8, "Ness Tubers");
            write(row, 11, "late");
            row += 1;
        }
    }
    let bytes = book.save_to_buffer().expect("a workbook");
    fs::write(path, bytes).expect("writes");
}

/// The answers of the test as the command takes them.
pub(super) const MAPS: [&str; 9] = [
    "heading:Kind of bloom=form",
    "heading:Bl. size=size",
    "heading:Col.=colour",
    "heading:Plant ht (in)=height",
    "heading:Stock=available",
    "heading:Photo=unknown",
    "form:dinner plate=informal-decorative",
    "colour:plumm=plum",
    "colour:brick dust=brick",
];

/// Opens the messy sheet and answers all that is asked.
fn at_the_preview(grower: &mut Grower) {
    messy(&grower.path("list.xlsx"));
    grower.press(&format!("i{}<tab><enter>", grower.path("li")));
    grower.sees(&["The heading \"Kind of bloom\" is not known.", "Min. Ball"]);
    for _ in 0..MAPS.len() {
        let key = answer(&grower.shown(USUAL));
        grower.press(&key.to_string());
    }
}

/// The key that answers what is asked on the screen, as [`MAPS`] has it.
pub(super) fn answer(shown: &str) -> char {
    let asked = |map: &str| {
        let (word, _) = map.rsplit_once('=').expect("a mapping");
        let (_, word) = word.split_once(':').expect("a mapping");
        shown.contains(&format!("{word:?}"))
    };
    let map = MAPS.iter().find(|map| asked(map));
    let map = map.unwrap_or_else(|| panic!("asked:\n{shown}"));
    match map.rsplit_once('=').expect("a mapping").1 {
        "unknown" => '0',
        term => {
            let row = shown.lines().find(|line| line.trim_end().ends_with(term));
            let row = row.or_else(|| shown.lines().find(|line| line.contains(term)));
            let row = row.unwrap_or_else(|| panic!("{term} is not offered:\n{shown}"));
            let digit = row.trim_start_matches(['>', ' ']).chars().next();
            digit.expect("a digit")
        }
    }
}

#[test]
fn a_messy_spreadsheet_of_forty_varieties_becomes_a_list_by_keys_and_is_taken_back() {
    let mut grower = Grower::new();
    let before = grower.list();
    at_the_preview(&mut grower);
    grower.sees(&[
        "list.xlsx: 40 new, 0 changed, 0 the same.",
        "+ Haaf Bell: form miniature-ball",
        "(main, self); white (second, self); height 36in",
    ]);
    assert_eq!(grower.list(), before, "nothing is changed yet");
    grower.press("<enter>");
    grower.sees(&[
        "40 varieties read from list.xlsx; u takes them back (saved)",
        "All 40 varieties",
    ]);
    let after = grower.list();
    for part in [
        "(id: \"formal-decorative\"",
        "(colour: \"plum\", part: main, pattern: tipped)",
        "height: \"36in\"",
        "(supplier: \"Oar Bulbs\", price: \"5.20\", pack: 3, available: 12), (supplier: \"Ness Tubers\", price: \"3.10\", pack: 1)",
    ] {
        assert!(after.contains(part), "{part} is not in\n{after}");
    }
    let words = fs::read_to_string(grower.path("lane/words.ron")).expect("words");
    assert!(
        words.contains("plumm") && words.contains("Photo"),
        "{words}"
    );

    // As one it goes, by name, and comes again.
    grower.press("u");
    grower.sees(&["took back: 40 varieties read from list.xlsx (Ctrl-R does it again)"]);
    assert_eq!(grower.list(), before);
    grower.press("<c-r>");
    grower.sees(&["done again: 40 varieties read from list.xlsx"]);
    assert_eq!(grower.list(), after);

    // Nothing is asked twice, and the same file changes nothing.
    grower.press(&format!("i<c-u>{}<enter>", grower.path("list.xlsx")));
    grower.sees(&[
        "list.xlsx: 0 new, 0 changed, 40 the same.",
        "the list has all of it",
    ]);
    grower.press("<esc><esc>");
    grower.sees(&["All 40 varieties"]);
    assert_eq!(grower.list(), after);

    // Out and in again it is the same list.
    drop(grower.app);
    drop(grower.saver);
    let (home, dir) = (grower.home.path(), grower.home.path().join("lane"));
    let dir = dir.display().to_string();
    trug(home, &["export", "out.csv", "--at", &dir]).done();
    let told = trug(home, &["import", "out.csv", "--at", &dir]).done();
    assert!(told.contains("0 new, 0 changed, 40 the same"), "{told}");
}

#[test]
fn the_command_makes_the_same_list_of_the_same_answers() {
    let mut grower = Grower::new();
    at_the_preview(&mut grower);
    grower.press("<enter>");
    let home = grower.home.path();
    let other = home.join("other").display().to_string();
    trug(home, &["start", &other]).done();
    let mut words = vec!["import", "list.xlsx", "--at", &other];
    words.extend(MAPS.iter().flat_map(|map| ["--map", map]));
    trug(home, &words).done();
    let read = |name: &str| fs::read_to_string(Path::new(&other).join(name)).expect("a file");
    assert_eq!(read("varieties.ron"), grower.list());
    let own = fs::read_to_string(grower.path("lane/words.ron")).expect("words");
    assert_eq!(read("words.ron"), own);
}

#[test]
fn a_step_back_loses_no_answer_and_a_wrong_file_stays_on_the_line() {
    let mut grower = Grower::new();
    messy(&grower.path("list.xlsx"));
    fs::write(grower.path("old.csv"), "\u{0}\u{1}").expect("writes");
    grower.press(&format!("i{}<enter>", grower.path("nowhere.csv")));
    grower.sees(&["could not read", "it is not there", "nowhere.csv_]"]);
    grower.press(&format!("<c-u>{}<enter>", grower.path("old.csv")));
    grower.sees(&["could not read", "old.csv_]"]);
    grower.press(&format!("<c-u>{}<enter>", grower.path("list.xlsx")));
    grower.sees(&["\"Kind of bloom\" is not known"]);
    // The second that is offered, back, and it is there again.
    grower.press("0");
    grower.sees(&["\"Bl. size\" is not known"]);
    grower.press("<esc>");
    grower.sees(&["\"Kind of bloom\" is not known", "> 0 leave the column out"]);
    grower.press("<enter>1<esc><esc><esc>");
    grower.sees(&["File: [", "list.xlsx_]"]);
    grower.press("<esc>");
    grower.sees(&["No varieties yet: i reads a spreadsheet in"]);
    // Opened again it goes on where it was, all answers at hand.
    grower.press("i<enter>");
    grower.sees(&["> 0 leave the column out"]);
    // Another answer is typed and found.
    grower.press("/foli");
    grower.sees(&["Answer: [foli_]", "> foliage"]);
    grower.press("<esc>/zzz<enter>");
    grower.sees(&["found the heading \"zzz\"", "[zzz_]"]);
    assert!(grower.list().trim().len() < 5, "nothing is taken in");
}

#[test]
fn rows_that_cannot_be_read_are_told_first_and_stay_out_only_when_asked() {
    let mut grower = Grower::new();
    let rows = "name,form,height\nHaaf Bell,ball,90cm\nEbb Oar,ball,tall\nHaaf bell,pompon,90cm\n";
    fs::write(grower.path("list.csv"), rows).expect("writes");
    grower.press(&format!("i{}<enter>", grower.path("list.csv")));
    grower.sees(&[
        "list.csv: 1 new, 0 changed, 0 the same; 2 rows cannot be read.",
        "! line 3, Ebb Oar: height: found \"tall\"",
        "! line 4, Haaf bell: form: found \"pompon\", but line 2 of the same name says",
    ]);
    grower.press("<enter>");
    grower.sees(&["2 rows cannot be read: mend them in the file"]);
    // Mended, it is opened again from the same line.
    fs::write(grower.path("list.csv"), rows.replace("tall", "1m")).expect("writes");
    grower.press("<esc><enter>");
    grower.sees(&["list.csv: 2 new, 0 changed, 0 the same; 1 row cannot be read."]);
    grower.press("x<enter>");
    grower.sees(&["2 varieties read from list.csv", "All 2 varieties"]);
}

#[test]
fn who_sells_and_the_name_are_asked_for_where_no_column_says() {
    let mut grower = Grower::new();
    let rows = "Sort,Blooms,Price\nHaaf Bell,ball,4.50\nEbb Oar,pompon,5\n";
    fs::write(grower.path("list.csv"), rows).expect("writes");
    grower.press(&format!("i{}<enter>", grower.path("list.csv")));
    grower.sees(&[
        "No heading is known as that of the names.",
        "> 1 Sort",
        "Haaf Bell | Ebb Oar",
    ]);
    grower.press("<enter>");
    grower.sees(&["The heading \"Blooms\" is not known", "> 1 form"]);
    grower.press("<enter>");
    grower.sees(&["There are prices or packs, and no column", "Answer: [_]"]);
    grower.press("Oar Bulbs<enter>");
    grower.sees(&["There are prices, and no column says", "> 1 1"]);
    grower.press("/x<enter>");
    grower.sees(&["expected a whole number"]);
    grower.press("<back>5<enter>");
    grower.sees(&["offers Oar\n  Bulbs: 5 for 4.50"]);
    grower.press("<enter>");
    assert!(
        grower
            .list()
            .contains("supplier: \"Oar Bulbs\", price: \"5.00\", pack: 5"),
        "{}",
        grower.list()
    );
}

#[test]
fn every_step_has_room_in_the_least_window() {
    let mut grower = Grower::new();
    let least = (60, 16);
    grower.resize(least);
    messy(&grower.path("list.xlsx"));
    grower.press("i");
    assert!(
        grower.shown(least).contains("File: [_]"),
        "{}",
        grower.shown(least)
    );
    grower.press(&format!("{}<enter>", grower.path("list.xlsx")));
    let shown = grower.shown(least);
    assert!(
        shown.contains("> 1 form") && shown.contains("Enter this one"),
        "{shown}"
    );
    at_the_preview(&mut Grower::new());
}

/// The screen without the rows that are blank.
fn rows_seen(grower: &Grower) -> String {
    let shown = grower.shown(USUAL);
    let rows: Vec<&str> = shown.lines().filter(|row| !row.is_empty()).collect();
    rows.join("\n") + "\n"
}

#[test]
fn each_step_says_what_is_asked_and_what_the_keys_do() {
    let mut grower = Grower::new();
    messy(&grower.path("list.xlsx"));
    grower.press(&format!("i{}<enter>", grower.path("list.xlsx")));
    let mut steps = rows_seen(&grower);
    // The first answer that is offered, until the headings are done.
    for _ in 0..4 {
        grower.press("<enter>");
    }
    steps += &rows_seen(&grower);
    grower.press("20");
    steps += &rows_seen(&grower);
    grower.press("/wat");
    steps += &rows_seen(&grower);
    insta::assert_snapshot!(steps, @r#"
      trug  Key [Choose] Row  Order  Stock  Tags              your list, all saved
      list.xlsx, question 1 of 6 or more. The heading "Kind of bloom" is not known.
      Its cells: Min. Ball | water lily | collerette
    ─ What is it? (Enter; / another field) ─────────────────────────────────────────
    > 1 form
      2 bloom
      3 size
      4 colour
      0 leave the column out
      Enter this one  / type  ? keys  Esc back  Ctrl-C quit
      trug  Key [Choose] Row  Order  Stock  Tags              your list, all saved
      list.xlsx, question 5 of 6 or more. The heading "Stock" may mean either of
      two things.
      Its cells: 12
    ─ What is it? (Enter; / another field) ─────────────────────────────────────────
    > 1 on hand  tubers in your own store
      2 available  packs that a supplier has for sale
      0 leave the column out
      Enter this one  / type  ? keys  Esc back  Ctrl-C quit
      trug  Key [Choose] Row  Order  Stock  Tags              your list, all saved
      list.xlsx, question 7 of 9 or more. The form "dinner plate" is not known; it
      stands in 4 rows.
    ─ What does it mean? (Enter; / another word) ───────────────────────────────────
    > 1 informal-decorative
      2 formal-decorative
      0 leave the field as it is
      Enter this one  / type  ? keys  Esc back  Ctrl-C quit
      trug  Key [Choose] Row  Order  Stock  Tags              your list, all saved
      list.xlsx, question 7 of 9 or more. The form "dinner plate" is not known; it
      stands in 4 rows.
      Answer: [wat_]
      Enter gives the answer under the cursor, else what is typed.
    ─ What does it mean? (Enter; / another word) ───────────────────────────────────
    > waterlily
      micro-waterlily
      Enter give  Esc back  F1 keys  Ctrl-C quit
    "#);
}
