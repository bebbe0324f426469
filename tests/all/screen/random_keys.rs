//! The pages under random keys, pastes and sizes: nothing panics, no control character is drawn, and
//! what was typed is undone to the start.
//!
//!     TRUG_RANDOM_KEYS=1000000 cargo test --release --test all screen::random_keys

use std::panic::{AssertUnwindSafe, catch_unwind};

use clap::Parser;
use ratatui::Terminal;
use ratatui::backend::TestBackend;
use ratatui::crossterm::event::{KeyCode, KeyEvent, KeyModifiers};

use trug::account::Section;
use trug::command::{Arguments, Context, open};
use trug::form::Answers;
use trug::order::Plan;
use trug::screen::import::{Asked, Found, Listing, Named};
use trug::screen::keys::{BINDINGS, Press};
use trug::screen::theme::Theme;
use trug::screen::{App, Effect, Message, Page};
use trug::table::{self, Table};
use trug::trial::{Entry, Seedling, Subject, What};
use trug::variety::Variety;
use trug::variety::exchange::Intake;

use crate::common::shell::trug;

/// Keys where nothing is said.
const USUALLY: usize = 2_000;
/// Keys from one start to the undo.
const AN_EPISODE: usize = 400;
/// Keys without a change after which there is nothing to undo.
const IDLE: usize = 12;
/// The window in which all is undone.
const USUAL: (u16, u16) = (80, 24);

/// What a grower may type or paste: lines of every page, and what is none.
const TEXTS: &[&str] = &[
    "98 104 101",
    "7 8 6 6+",
    "wind 3/12",
    "soft pink",
    "rows=2 note='weak neck'",
    "keep good plum",
    "cull",
    "26-050",
    "26-002",
    "26-070..26-073 Haaf Bell, byre 7",
    "Kist Lum",
    "pompon",
    "plum; white",
    "25-003 x Haaf Bell, byre 7",
    "2026-08-20 Ann",
    "Haaf",
    "peach or blush",
    "#f4c2c2",
    "40",
    "0",
    "=0",
    "60 30-33",
    "9999999999",
    "wedding: 40 37-37 use=event-focal within=8",
    "Haaf Kettle=10",
    "12 43",
    "3 rotten",
    "31 4.50 the market",
    "sale-tags.pdf",
    "-1,0.5",
    "tags",
    "4-7",
    "3 1/2 in",
    "half",
    "\u{1b}[2J\u{7}q\r",
    "e\u{301}\u{202e}\u{1f1eb}\u{1f1ee}",
    "",
];

/// A list with everything in it that is asked about, and a row that cannot be read.
const LIST: &str = "Sort,Kind,Stock,Price,colour,height\n\
    Haaf Bell,dinner plate,3,4.50,plumm/wine,90cm\nEbb Novel,Inf. Dec,0,£5,red tipped white,tall\n\
    Foam Novel,ball,2,,,3'\n";

/// What the keys can change.
#[derive(Debug, PartialEq)]
struct Held {
    list: String,
    plan: Option<Plan>,
    answers: Answers,
    seedlings: Vec<Seedling>,
    /// Of each plant that was there at first, all that stands of it.
    row: Vec<(Subject, Vec<What>)>,
    /// What the stock book comes to.
    stock: Vec<Section>,
}

impl Held {
    fn of(app: &App, subjects: &[Subject]) -> Held {
        let trial = app.row.trial();
        let stands = |subject: &Subject| {
            let entries = trial.of_subject(subject).into_iter();
            let told = entries.map(|entry: &Entry| entry.what.clone());
            (subject.clone(), told.collect())
        };
        Held {
            list: app.choose.list().write().expect("a list"),
            plan: app.order.plan().cloned(),
            answers: app.key.answers().clone(),
            seedlings: trial.seedlings().to_vec(),
            row: subjects.iter().map(stands).collect(),
            stock: app.stock.stock().account(None),
        }
    }
}

/// A folder with the demo in it, as the screen opens on it.
pub(super) fn opened() -> App {
    opened_in(Theme::Colours(None))
}

/// The same in this theme.
pub(crate) fn opened_in(theme: Theme) -> App {
    let home = tempfile::tempdir().expect("a folder");
    let dir = home.path().join("lane").display().to_string();
    trug(home.path(), &["start", &dir, "--demo"]).done();
    let arguments = Arguments::parse_from(["trug", "--at", &dir]);
    let context = Context::new(&arguments.common, &mut std::io::sink()).expect("a folder");
    let (mut app, _saver) = open::screen(&context, theme).expect("a screen");
    app.update(Message::Resize(USUAL.0, USUAL.1));
    for _ in Page::ALL {
        app.update(Message::NextPage);
    }
    app
}

#[test]
fn whatever_is_typed_at_any_size_nothing_panics_and_all_is_undone_to_the_start() {
    let count = std::env::var("TRUG_RANDOM_KEYS").ok();
    let count = count.map_or(USUALLY, |text| text.parse().expect("a number of keys"));
    let start = opened();
    let subjects = start.row.trial().subjects();
    let held = Held::of(&start, &subjects);
    for episode in 0..count.div_ceil(AN_EPISODE) {
        let mut told = Vec::new();
        let mut hand = Hand {
            app: start.clone(),
            random: fastrand::Rng::with_seed(episode as u64),
            size: USUAL,
        };
        let played = catch_unwind(AssertUnwindSafe(|| {
            for _ in 0..AN_EPISODE {
                hand.acts(&mut told);
            }
            hand.undoes_all();
            Held::of(&hand.app, &subjects)
        }));
        let last = &told[told.len().saturating_sub(60)..];
        match played {
            Ok(after) => assert!(after == held, "episode {episode} is not undone: {told:?}"),
            Err(_) => panic!("episode {episode} panics after {last:?}"),
        }
    }
}

/// Who plays.
struct Hand {
    app: App,
    random: fastrand::Rng,
    size: (u16, u16),
}

impl Hand {
    /// One thing happens: a key of those that mean something here, any key, a paste, a new size.
    fn acts(&mut self, told: &mut Vec<String>) {
        match self.random.u32(0..100) {
            0..4 => {
                self.size = self.any_size();
                told.push(format!("{:?}", self.size));
                self.sends(Message::Resize(self.size.0, self.size.1));
            }
            4..10 => {
                let text = *self.random.choice(TEXTS).expect("a text");
                told.push(format!("pasted {text:?}"));
                self.sends(Message::Pasted(text.to_string()));
            }
            10..13 => self.draws(),
            13..20 => {
                let key = self.any_key();
                told.push(format!("{key:?}"));
                self.presses(key);
            }
            _ => {
                let key = self.key_of_the_table();
                told.push(format!("{:?}+{:?}", key.code, key.modifiers));
                self.presses(key);
            }
        }
        self.solves_a_little();
    }

    fn any_size(&mut self) -> (u16, u16) {
        let usual = [
            (44, 20),
            (44, 19),
            (60, 16),
            (59, 16),
            (60, 15),
            (80, 24),
            (120, 30),
            (140, 45),
            (1, 1),
            (300, 100),
        ];
        match self.random.u32(0..3) {
            0 => (self.random.u16(1..=300), self.random.u16(1..=100)),
            _ => *self.random.choice(&usual).expect("a size"),
        }
    }

    fn any_key(&mut self) -> KeyEvent {
        let code = match self.random.u32(0..4) {
            0 => KeyCode::Char(self.random.char(..)),
            1 => KeyCode::F(self.random.u8(1..13)),
            _ => KeyCode::Char(self.random.char(' '..='~')),
        };
        let modifiers = [KeyModifiers::NONE, KeyModifiers::CONTROL, KeyModifiers::ALT];
        let modifiers = self.random.choice(&modifiers).expect("one");
        KeyEvent::new(code, *modifiers)
    }

    fn key_of_the_table(&mut self) -> KeyEvent {
        loop {
            let binding = self.random.choice(BINDINGS).expect("a binding");
            let press = *self.random.choice(binding.presses).expect("a press");
            let key = match press {
                Press::Plain(code) => KeyEvent::from(code),
                Press::Control(code) => KeyEvent::new(code, KeyModifiers::CONTROL),
                Press::Digit => KeyEvent::from(KeyCode::Char(self.random.char('0'..='9'))),
                Press::Printable => KeyEvent::from(KeyCode::Char(self.random.char(' '..='~'))),
            };
            if self.app.message(key).is_some() {
                return key;
            }
            // In a small window nearly no key means anything.
            if self.random.u32(0..20) == 0 {
                return key;
            }
        }
    }

    fn presses(&mut self, key: KeyEvent) {
        if let Some(message) = self.app.message(key) {
            self.sends(message);
        }
    }

    /// Sends a message, and what becomes of what it asks for: the disk fails now and then.
    fn sends(&mut self, message: Message) {
        let fails = self.random.u32(0..12) == 0;
        self.sends_to(message, fails);
    }

    fn sends_to(&mut self, message: Message, fails: bool) {
        let mut next = Some(message);
        while let Some(effect) = next.take().and_then(|message| self.app.update(message)) {
            let why = || "the disk is full".to_string();
            next = Some(match (effect, fails) {
                (Effect::Quit, _) => return,
                (Effect::SaveVarieties, false) => Message::Saved,
                (Effect::SaveVarieties, true) => Message::NotSaved(why()),
                (Effect::Look, fails) => Message::Looked(Box::new(self.looks(fails))),
                (Effect::SaveWords, false) => Message::WordsSaved(Ok(())),
                (Effect::SaveWords, true) => Message::WordsSaved(Err(why())),
                (Effect::AddEntry | Effect::SaveSeedlings, false) => Message::Entered,
                (Effect::AddEntry | Effect::SaveSeedlings, true) => Message::NotEntered(why()),
                (Effect::AddStock, false) => Message::Stocked,
                (Effect::AddStock, true) => Message::NotStocked(why()),
                (Effect::SaveOrder, false) => Message::OrderSaved,
                (Effect::SaveOrder, true) => Message::OrderNotSaved(why()),
                // No folder is made here, and settings that change what is shown open it anew.
                (Effect::SaveSettings | Effect::MakeFolder, _) => Message::NotKept(why()),
                (Effect::PrintTags, false) => Message::Printed,
                (Effect::PrintTags, true) => Message::NotPrinted(why()),
            });
        }
    }

    /// What stands on a disk to be read in: one folder in another for ever, and one table.
    fn looks(&self, fails: bool) -> Found {
        let why = || Err("could not read it: it is not there".to_string());
        match self.app.choose.asks().expect("something to look at") {
            Asked::Folder(_) if fails => Found::Folder(why().map(|()| Listing::default())),
            Asked::Folder(typed) => {
                let named = |(name, is_folder): (&str, bool)| Named {
                    name: name.to_string(),
                    is_folder,
                };
                Found::Folder(Ok(Listing {
                    typed: typed.to_string(),
                    shown: format!("/disk/{typed}"),
                    names: [("lists", true), (".old", true), ("list.csv", false)]
                        .map(named)
                        .to_vec(),
                    more: 0,
                }))
            }
            Asked::Table(_) if fails => Found::Table(why().map(|()| Intake::new(Table::default()))),
            Asked::Table(_) => {
                let (table, _) = table::parse(LIST).expect("a table");
                Found::Table(Ok(Intake::new(table)))
            }
        }
    }

    /// Now and then a search is begun, and stopped at its first step.
    fn solves_a_little(&mut self) {
        if self.app.page == Page::Order && self.app.order.has_work() && self.random.u32(0..200) == 0
        {
            let task = self.app.order.begin().expect("a task");
            let outcome = task.run(&mut |_| true);
            self.app.update(Message::Worked(Box::new(outcome)));
        }
    }

    fn draws(&self) {
        let (width, height) = self.size;
        let mut terminal = Terminal::new(TestBackend::new(width, height)).expect("a test backend");
        terminal
            .draw(|frame| self.app.view(frame))
            .expect("a test backend");
        let cells = &terminal.backend().buffer().content;
        let control = cells
            .iter()
            .find(|cell| cell.symbol().chars().any(char::is_control));
        assert_eq!(control, None, "a control character is drawn");
    }

    /// Leaves what is open, and undoes page by page until nothing changes any more.
    fn undoes_all(&mut self) {
        self.size = USUAL;
        self.app.update(Message::Resize(USUAL.0, USUAL.1));
        self.escapes();
        for page in Page::ALL {
            while self.app.page != *page {
                self.app.update(Message::NextPage);
            }
            self.escapes();
            while self.app.page != *page {
                self.app.update(Message::NextPage);
            }
            self.undoes_page();
        }
    }

    /// Out of all that is open on the page: a file that is read in has a step for each of its questions.
    fn escapes(&mut self) {
        for _ in 0..12 {
            self.presses(KeyEvent::from(KeyCode::Esc));
        }
    }

    /// Undoes until nothing changes any more. An answer that was given again as it was is undone to
    /// the same answers, so that one key without a change is not the end.
    fn undoes_page(&mut self) {
        let mut idle = 0;
        while idle < IDLE {
            let before = self.seen();
            let undo = self.app.message(KeyEvent::from(KeyCode::Char('u')));
            undo.into_iter()
                .for_each(|message| self.sends_to(message, false));
            idle = if self.seen() == before { idle + 1 } else { 0 };
        }
    }

    /// What the open page can change, as far as an undo changes it.
    fn seen(
        &self,
    ) -> (
        Answers,
        Option<Plan>,
        Vec<Variety>,
        Vec<Seedling>,
        [usize; 2],
    ) {
        let app = &self.app;
        let list = match app.page {
            Page::Choose => app.choose.list().list().to_vec(),
            _ => Vec::new(),
        };
        let entries = app.row.trial().entries().len();
        let stock = app.stock.stock().book().entries().len();
        (
            app.key.answers().clone(),
            app.order.plan().cloned(),
            list,
            app.row.trial().seedlings().to_vec(),
            [entries, stock],
        )
    }
}
