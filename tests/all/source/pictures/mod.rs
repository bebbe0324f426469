//! The pictures of the README are what the program draws today.
//!
//!     TRUG_WRITE_PICTURES=1 cargo test --test all source::pictures     # writes them anew
//!
//! The pages are drawn from the cells of the screen, the papers are what the commands write, with their
//! outlines in fewer bytes.

mod smaller;

use std::fs;
use std::path::{Path, PathBuf};

use ratatui::crossterm::event::{KeyCode, KeyEvent};

use trug::colour::{Ground, Srgb};
use trug::screen::abilities::{Abilities, Finest};
use trug::screen::tags_page::Supply;
use trug::screen::theme::Theme;
use trug::screen::window::{Window, svg};
use trug::screen::{App, Message};

use crate::common::grower::Grower;
use crate::screen::random_keys::opened_in;
use crate::screen::sizes::{buffer, send};

/// The most bytes of a picture, so that a page of them opens at once; of the chart, which has some thirty
/// drawings, more.
const MOST: usize = 150_000;
const MOST_OF_THE_CHART: usize = 800_000;

/// A page of the screen as a picture.
struct Page {
    name: &'static str,
    size: (u16, u16),
    /// What is pressed: a word of one letter is a key, a longer one is typed, or a key by its name.
    keys: &'static str,
    shows: &'static str,
}

const KEY: Page = Page {
    name: "key",
    size: (132, 44),
    keys: "1 /diameter Enter 3.5in,3.55in,3.54in Enter /outline Enter 1 /tip Enter 1 /roll Enter",
    shows: "The Key page: what was answered of a bloom, the next question with a picture of each answer, and the forms that it can still be.",
};
const CHOOSE: Page = Page {
    name: "choose",
    size: (132, 44),
    keys: "Tab c plum Enter p Down Enter",
    shows: "The Choose page: varieties near to plum, the best for an event first, and why the first one is.",
};
const ROW: Page = Page {
    name: "row",
    size: (132, 44),
    keys: "Tab Tab t 2026-09-04 Enter",
    shows: "The Row page: seedlings by what needs doing next, and what the notes on one of them add up to.",
};
const ORDER: Page = Page {
    name: "order",
    size: (132, 44),
    keys: "Tab Tab Tab Down Down Down",
    shows: "The Order page: what is needed each week, what to buy of it, and how the season goes.",
};
const STOCK: Page = Page {
    name: "stock",
    size: (132, 44),
    keys: "Tab Tab Tab Tab t 2026-11-09 Enter Down",
    shows: "The Stock page: whose tubers there are, how many are free to sell, and what became of those of one plant.",
};
const TAGS: Page = Page {
    name: "tags",
    size: (132, 44),
    keys: "Tab Tab Tab Tab Tab",
    shows: "The Tags page: the plants that get a tag, and the tag of one as it will print.",
};

impl Page {
    /// The page after its keys, and after the searches that they began.
    fn played(&self) -> App {
        // Where files go is told, and is another folder wherever this runs.
        let supply = Supply {
            folder: "/home/ann/tags".to_string(),
            ..Supply::embedded()
        };
        let mut app = opened_in(Theme::AllColours(None)).with_supply(supply);
        send(&mut app, Message::Resize(self.size.0, self.size.1));
        let words = self.keys.split_whitespace();
        for key in words.flat_map(keys) {
            let message = app.message(KeyEvent::from(key));
            { message.into_iter() }.for_each(|message| send(&mut app, message));
        }
        if app.page == trug::screen::Page::Order {
            work(&mut app);
        }
        app
    }

    fn is_as_drawn(&self) {
        let mut app = self.played();
        for (colour, ground) in [(Srgb::WHITE, Ground::Light), (Srgb::BLACK, Ground::Dark)] {
            let told = Abilities {
                ground: Some(colour),
                finest: Finest::Octants,
                ..Abilities::default()
            };
            send(&mut app, Message::Sees(told));
            send(&mut app, Message::Resize(self.size.0, self.size.1));
            let title = format!("trug: {}", app.page.name());
            let window = Window {
                title: &title,
                shows: self.shows,
                ground,
            };
            let cells = buffer(&app, self.size);
            is_kept(
                &format!("{}-{ground}.svg", self.name),
                &svg(&cells, &window),
            );
        }
    }
}

/// The keys of a word.
fn keys(word: &str) -> Vec<KeyCode> {
    match word {
        "Tab" => vec![KeyCode::Tab],
        "Enter" => vec![KeyCode::Enter],
        "Down" => vec![KeyCode::Down],
        typed => typed.chars().map(KeyCode::Char).collect(),
    }
}

/// Does every search that is due, as the terminal does.
fn work(app: &mut App) {
    while app.order.has_work() {
        let Some(task) = app.order.begin() else { break };
        let outcome = task.run(&mut |_| false);
        app.update(Message::Worked(Box::new(outcome)));
    }
}

fn pictures() -> PathBuf {
    Path::new(env!("CARGO_MANIFEST_DIR")).join("assets/pictures")
}

/// The picture that is kept under a name is this one; where that was asked for it is written first.
fn is_kept(name: &str, drawn: &str) {
    let path = pictures().join(name);
    if std::env::var_os("TRUG_WRITE_PICTURES").is_some() {
        fs::create_dir_all(pictures()).expect("a folder");
        fs::write(&path, drawn).expect("a picture");
    }
    let kept = fs::read_to_string(&path).unwrap_or_default();
    assert!(
        kept == drawn,
        "assets/pictures/{name} is not what the program draws today; this writes it anew: \
         TRUG_WRITE_PICTURES=1 cargo test --test all source::pictures"
    );
}

#[test]
fn the_key_page_is_as_drawn() {
    KEY.is_as_drawn();
}

#[test]
fn the_choose_page_is_as_drawn() {
    CHOOSE.is_as_drawn();
}

#[test]
fn the_row_page_is_as_drawn() {
    ROW.is_as_drawn();
}

#[test]
fn the_order_page_is_as_drawn() {
    ORDER.is_as_drawn();
}

#[test]
fn the_stock_page_is_as_drawn() {
    STOCK.is_as_drawn();
}

#[test]
fn the_tags_page_is_as_drawn() {
    TAGS.is_as_drawn();
}

#[test]
fn what_is_printed_is_as_drawn() {
    let grower = Grower::new();
    for (line, written, file) in [
        (
            "trug tag 24-001 --sheet sale-roll --coloured --out tag.svg",
            "tag.svg",
            "tag.svg",
        ),
        // The first of its pages.
        (
            "trug rules chart --paper letter --out chart.svg",
            "chart-1.svg",
            "chart.svg",
        ),
        (
            "trug order --seconds 300 --chart season.svg",
            "season.svg",
            "season.svg",
        ),
    ] {
        grower.does(line);
        let drawn = fs::read_to_string(grower.here().join(written)).expect("a picture");
        is_kept(file, &smaller::smaller(&drawn));
    }
}

#[test]
fn every_picture_is_small_and_says_what_it_shows() {
    for entry in fs::read_dir(pictures()).expect("pictures") {
        let path = entry.expect("a picture").path();
        let text = fs::read_to_string(&path).expect("a text");
        let most = match path.ends_with("chart.svg") {
            true => MOST_OF_THE_CHART,
            false => MOST,
        };
        assert!(text.len() <= most, "{}: {}", path.display(), text.len());
        let document = roxmltree::Document::parse(&text).expect("XML");
        for part in ["title", "desc"] {
            let mut parts = document.root_element().children();
            let said = parts.find(|node| node.has_tag_name(part));
            let said = said.and_then(|node| node.text()).unwrap_or_default();
            assert!(!said.is_empty(), "{}: no {part}", path.display());
        }
    }
}

/// Each picture is seen in the README with words for who cannot see it, and none is there for nothing.
#[test]
fn every_picture_is_in_the_readme_with_its_words() {
    let readme = Path::new(env!("CARGO_MANIFEST_DIR")).join("README.md");
    let readme = fs::read_to_string(readme).expect("the README");
    let named = readme.split('"').filter(|text| text.starts_with("assets/"));
    let mut named: Vec<PathBuf> = named.map(PathBuf::from).collect();
    named.sort();
    let kept = fs::read_dir(pictures()).expect("pictures");
    let kept = kept.map(|entry| entry.expect("a picture").file_name());
    let mut kept: Vec<PathBuf> = kept
        .map(|name| Path::new("assets/pictures").join(name))
        .collect();
    kept.sort();
    assert_eq!(named, kept);
    for image in readme.lines().filter(|line| line.contains("<img ")) {
        let (_, words) = image.split_once("alt=\"").expect("words");
        let (words, _) = words.split_once('"').expect("an end");
        assert!(words.len() > 20, "{image}");
    }
}
