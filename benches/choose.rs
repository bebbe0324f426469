//! One keystroke on a long list, to the drawn frame: narrowed, every facet counted, ranked by a use
//! and a colour; and opening that list from a folder; and one note in the trial row to the new score.
//! Beside it, in the same run, SQLite for the same questions, `fzf --filter` for the words and for a
//! key, and all columns worked out anew for the note.
//!
//! `cargo bench --bench choose -- [PART] [COUNT]`; a part is `opening`, `questions`, `keys`, `note`
//! or `words`, and without one all are run.

#[path = "../tests/all/common/shipped.rs"]
mod shipped;
#[path = "../tests/all/common/varieties.rs"]
mod varieties;

use std::fmt::Write as _;
use std::fs::{self, File};
use std::hint::black_box;
use std::path::Path;
use std::process::{Command, Stdio};
use std::sync::mpsc::channel;
use std::thread;
use std::time::{Duration, Instant};

use ratatui::Terminal;
use ratatui::backend::TestBackend;
use ratatui::crossterm::event::{KeyCode, KeyEvent, KeyModifiers};
use shipped::Shipped;
use trug::colour::Target;
use trug::cores::give_way;
use trug::folder::contents::{VARIETIES, open_varieties};
use trug::folder::{Folder, text};
use trug::form::Keyer;
use trug::measure::SizeUnits;
use trug::problem::read_ron;
use trug::screen::abilities::{Abilities, Pixels, Protocol};
use trug::screen::choose_page::Stock;
use trug::screen::picture::{Job, Painted, REST};
use trug::screen::row_page::Plot;
use trug::screen::theme::Theme;
use trug::screen::{App, Keeping, Message};
use trug::trial::Trial;
use trug::variety::{
    Ask, By, Facet, Index, IndexContext, Narrowing, Query, QueryCache, Ranking, Varieties,
};

/// What is typed, letter by letter.
const TYPED: [&str; 7] = [
    "skerry am",
    "norlane",
    "torsadro",
    "quarff mi",
    "e",
    "haaf kelmotide",
    "pompon",
];
/// A key comes so soon after the one before where it matters: who types fast hits twelve a second.
const TYPING: Duration = Duration::from_millis(80);
/// What can be run by itself.
const PARTS: [&str; 5] = ["opening", "questions", "keys", "note", "words"];
/// What a grower might press on the Choose page, key by key; a name stands for a key of that name.
const SESSION: &str = "/ s k e r r y space a m enter End Home backspace \
    c p e a c h enter p down down down enter + + + + - - End up up Home \
    / n o r l enter s s s s backspace f down enter f right down space esc backspace backspace \
    / e esc / t o r s a d r o backspace backspace backspace esc f right right enter f right right right enter \
    pagedown pagedown pagedown down down m u backspace backspace backspace backspace \
    c p i n k s enter + + + + + + + + + + / h a a f enter s End s Home s End s \
    x down x v esc w down esc g esc m e g o o d enter h 3 enter u u u backspace backspace \
    c # f f c 0 c b enter End pageup m Home f right right right right right right right enter s End";
/// The window of the session: wide, so that every part of the page is drawn.
const WINDOW: (u16, u16) = (140, 45);
/// Set for a child that opens the folder it names and tells what that took.
const ALONE: &str = "TRUG_BENCH_FOLDER";
const FORM: &str = "ball";
const WITHIN: f64 = 12.0;

fn main() {
    let shipped = Shipped::new();
    let context = shipped.context(8.0);
    if let Some(dir) = std::env::var_os(ALONE) {
        return open_alone(Path::new(&dir), context);
    }
    let count = std::env::args()
        .find_map(|word| word.parse().ok())
        .unwrap_or(100_000);
    let named: Vec<String> = std::env::args()
        .filter(|word| PARTS.contains(&word.as_str()))
        .collect();
    let wanted = |part: &str| named.is_empty() || named.iter().any(|one| one == part);
    let dir = tempfile::tempdir().expect("a folder");
    let written = text::write_records(varieties::varieties(count).list()).expect("writes");
    fs::write(dir.path().join(VARIETIES), &written).expect("writes");
    let megabytes = written.len() as f64 / 1e6;
    drop(written);

    say(&format!(
        "{count} varieties, {megabytes:.0} MB, {:?} cores",
        std::thread::available_parallelism()
    ));
    if wanted("opening") {
        opening(dir.path());
    }
    let list = open(dir.path());
    let index = Index::new(&list, context);
    if wanted("questions") {
        questions(dir.path(), &list, &index, context);
    }
    if wanted("keys") {
        keys(dir.path(), &list, context);
    }
    if wanted("note") {
        note(&list, context);
    }
    if wanted("words") {
        words_and_parts(dir.path(), &list, &index, context);
    }
}

fn percentile(took: &[Duration], of: usize) -> Duration {
    took[took.len() * of / 100]
}

fn opening(dir: &Path) {
    let alone: Vec<[f64; 3]> = (0..5).filter_map(|_| opened_alone(dir)).collect();
    let best = |at: usize| {
        alone
            .iter()
            .map(|one| one[at])
            .fold(f64::INFINITY, f64::min)
    };
    for (at, name, unit) in [
        (0, "read, fresh process, best of 5", "ms"),
        (1, "columns, the same", "ms"),
        (2, "most memory, one question asked", "MB"),
    ] {
        say(&format!("{name:32} {:8.2} {unit}", best(at)));
    }
}

fn questions(dir: &Path, list: &Varieties, index: &Index, grounds: IndexContext<'_>) {
    let asks = asks(grounds);
    let mut all = Vec::new();
    for _ in 0..5 {
        let mut held = QueryCache::default();
        let mut took = |ask| timed(|| drop(black_box(index.ask_next(ask, &mut held)))).0;
        all.extend(asks.iter().map(&mut took));
    }
    all.sort();
    let sqlite = sqlite(dir, list, index, &asks);
    let of = |pair: Option<(f64, f64)>, at: fn((f64, f64)) -> f64| {
        pair.map(|pair| ("SQLite", Duration::from_secs_f64(at(pair) / 1e3)))
    };
    row(
        "question, median",
        percentile(&all, 50),
        of(sqlite, |p| p.0),
    );
    row("question, 99th", percentile(&all, 99), of(sqlite, |p| p.1));
}

/// Beside the 99th percentile stands the median of what `fzf` takes for the words of the session.
fn keys(dir: &Path, list: &Varieties, grounds: IndexContext<'_>) {
    let (all, worst) = keystrokes(list, grounds, None);
    let mut fzf: Vec<Duration> = TYPED
        .iter()
        .filter_map(|typed| fzf(dir, list, typed))
        .collect();
    fzf.sort();
    let fzf = (!fzf.is_empty()).then(|| ("fzf, median", percentile(&fzf, 50)));
    row("key to frame, median", percentile(&all, 50), None);
    row("key to frame, 99th", percentile(&all, 99), fzf);
    let pixels = Pixels {
        protocol: Protocol::Sixel,
        cell: (10, 20),
    };
    let (pictures, _) = keystrokes(list, grounds, Some(pixels));
    row("  with pictures, median", percentile(&pictures, 50), None);
    row("  with pictures, 99th", percentile(&pictures, 99), None);
    for (keys, took) in worst {
        row(&format!("  among the slowest: {keys}"), took, None);
    }
}

/// One note of a variety, given in the trial row, to the frame of Choose with its new score: narrowed
/// by a colour and ranked by a use. Beside it what the columns take to be worked out anew.
fn note(list: &Varieties, grounds: IndexContext<'_>) {
    let noted = &list.list()[list.len() / 2].name;
    let entry = format!(
        "[(id: 1, date: \"2026-08-20\", of: {:?}, what: observed((vase: [\"7\", \"8\"], colours: [\"lab(70.5 25.2 30.1)\"])))]",
        noted.as_str()
    );
    let entries = read_ron("entries", &entry).expect("an entry");
    let keyer = Keyer::even(grounds.rules.clone());
    let plot = Plot {
        trial: Trial::of(Vec::new(), entries).0,
        today: jiff::civil::date(2026, 9, 1),
        days: None,
        ..Plot::empty(keyer.clone(), SizeUnits::Mm)
    };
    let mut app = App::new(keyer, Vec::new(), SizeUnits::Mm, Theme::AllColours(None))
        .with_list(stock(list, grounds), Keeping::Session)
        .with_row(plot, Keeping::Session, Vec::new());
    let mut terminal = Terminal::new(TestBackend::new(WINDOW.0, WINDOW.1)).expect("memory");
    app.update(Message::Resize(WINDOW.0, WINDOW.1));
    let mut press_all = |app: &mut App, keys: &str| {
        for key in keys.split_whitespace() {
            let message = app.message(press(key)).expect(key);
            app.update(message);
        }
        terminal.draw(|frame| app.view(frame)).expect("memory");
    };
    app.update(Message::NextPage);
    press_all(&mut app, "p down enter c p e a c h enter");
    app.update(Message::NextPage);
    let mut took = Vec::new();
    for line in [
        "2 7 space 9",
        "4 # e 6 9 a 6 8",
        "5 5 5 space 6 0",
        "2 1 2",
        "1 9 8",
    ]
    .iter()
    .cycle()
    .take(40)
    {
        press_all(&mut app, line);
        let (one, ()) = timed(|| {
            let message = app.message(press("enter")).expect("a line is given");
            app.update(message);
            app.update(Message::PreviousPage);
            press_all(&mut app, "");
        });
        took.push(one);
        app.update(Message::NextPage);
    }
    took.sort();
    let anew = median(|| drop(black_box(Index::new(list, grounds))));
    let anew = Some(("all columns anew", anew));
    row("a note to its score, median", percentile(&took, 50), anew);
    row("a note to its score, 99th", percentile(&took, 99), anew);
}

/// Words beside `fzf`, and what a question is made of.
fn words_and_parts(dir: &Path, list: &Varieties, index: &Index, grounds: IndexContext<'_>) {
    for typed in ["torsadro", "e", "pompon"] {
        let narrowing = [Narrowing::Words(typed.to_string())];
        let ours = median(|| drop(black_box(index.narrowed(&narrowing))));
        let fzf = fzf(dir, list, typed).map(|took| ("fzf", took));
        row(&format!("words '{typed}'"), ours, fzf);
    }
    let asks = asks(grounds);
    let ranking = &asks[0].ranking;
    let everything = index.narrowed(&[]);
    let colour = [near(&ranking.targets[0])];
    let parts: [(&str, &dyn Fn()); 3] = [
        ("colour within 12", &|| drop(index.narrowed(&colour))),
        ("all facets counted", &|| {
            drop(black_box(index.left(&everything)))
        }),
        ("first 200 by use and colour", &|| {
            drop(index.ranked(&everything, ranking, 200))
        }),
    ];
    for (name, part) in parts {
        row(name, median(part), None);
    }
}

fn stock(list: &Varieties, grounds: IndexContext<'_>) -> Stock {
    Stock {
        list: list.clone(),
        rules: grounds.rules.clone(),
        uses: grounds.uses.clone(),
        words: grounds.words.clone(),
        pieces: trug::order::Pieces::embedded(),
        stems_a_plant: grounds.stems_a_plant,
        sure: trug::order::USUALLY_SURE,
        season: None,
        units: SizeUnits::Mm,
    }
}

/// How long each key of the session takes to the drawn frame, rising, over several rounds; and the
/// keys that are slowest even in their best round. Where there are pixels, a picture is begun on a thread once
/// the page rests, and a key comes every [`TYPING`]: of a picture that is not made by then it feels the rest.
fn keystrokes(
    list: &Varieties,
    grounds: IndexContext<'_>,
    pixels: Option<Pixels>,
) -> (Vec<Duration>, Vec<(String, Duration)>) {
    let keys: Vec<&str> = SESSION.split_whitespace().collect();
    let mut best = vec![Duration::MAX; keys.len()];
    let mut all = Vec::new();
    for _ in 0..5 {
        let stock = stock(list, grounds);
        let keyer = Keyer::even(grounds.rules.clone());
        let mut app = App::new(keyer, Vec::new(), SizeUnits::Mm, Theme::AllColours(None))
            .with_list(stock, Keeping::Session);
        let mut terminal = Terminal::new(TestBackend::new(WINDOW.0, WINDOW.1)).expect("memory");
        app.update(Message::Resize(WINDOW.0, WINDOW.1));
        app.update(Message::Sees(Abilities {
            pixels,
            ..Abilities::default()
        }));
        app.update(Message::NextPage);
        let (jobs, to_make) = channel::<Job>();
        let (done, made) = channel();
        thread::spawn(move || {
            give_way();
            while let Ok(job) = to_make.recv() {
                if done.send((job.id, Painted::of(&job))).is_err() {
                    break;
                }
            }
        });
        let mut busy = false;
        let rests = { pixels.is_some() }.then(|| TYPING.saturating_sub(REST));
        for (key, best) in keys.iter().zip(&mut best) {
            let (took, ()) = timed(|| {
                if let Ok((id, painted)) = made.try_recv() {
                    app.update(Message::Painted(id, painted));
                    busy = false;
                }
                let message = app.message(press(key)).expect(key);
                app.update(message);
                terminal.draw(|frame| app.view(frame)).expect("memory");
            });
            if let (Some(rest), Some(job)) = (rests, app.next_picture()) {
                thread::sleep(REST);
                busy = busy || jobs.send(job).is_ok();
                thread::sleep(rest);
            }
            *best = took.min(*best);
            all.push(took);
        }
    }
    all.sort();
    let told = |at: usize| (keys[at.saturating_sub(4)..=at].join(" "), best[at]);
    let mut worst: Vec<_> = (0..keys.len()).map(told).collect();
    worst.sort_by_key(|(_, took)| std::cmp::Reverse(*took));
    worst.truncate(4);
    (all, worst)
}

fn press(key: &str) -> KeyEvent {
    let code = match key {
        "enter" => KeyCode::Enter,
        "esc" => KeyCode::Esc,
        "space" => KeyCode::Char(' '),
        "backspace" => KeyCode::Backspace,
        "up" => KeyCode::Up,
        "down" => KeyCode::Down,
        "right" => KeyCode::Right,
        "pageup" => KeyCode::PageUp,
        "pagedown" => KeyCode::PageDown,
        "Home" => KeyCode::Home,
        "End" => KeyCode::End,
        // OK because all others are one character.
        one => KeyCode::Char(one.chars().next().unwrap_or(' ')),
    };
    KeyEvent::new(code, KeyModifiers::NONE)
}

/// The child's side of [`opened_alone`].
fn open_alone(dir: &Path, grounds: IndexContext<'_>) {
    let (read, list) = timed(|| open(dir));
    let (columns, index) = timed(|| Index::new(&list, grounds));
    let target = grounds.words.target("peach").expect("a word");
    let everything = index.narrowed(&[near(&target)]);
    drop(black_box(index.left(&everything)));
    let [read, columns] = [read, columns].map(|took| took.as_secs_f64() * 1e3);
    say(&format!(
        "{read} {columns} {}",
        most_memory().unwrap_or(f64::NAN)
    ));
}

/// Opens the list in a process of its own, as a program that starts does: milliseconds to read and
/// for the columns, and the most memory held in megabytes.
fn opened_alone(dir: &Path) -> Option<[f64; 3]> {
    let exe = std::env::current_exe().ok()?;
    let output = Command::new(exe).env(ALONE, dir).output().ok()?;
    let told = String::from_utf8(output.stderr).ok()?;
    let numbers = told.split_whitespace().map(|number| number.parse().ok());
    numbers.collect::<Option<Vec<f64>>>()?.try_into().ok()
}

fn open(dir: &Path) -> Varieties {
    let folder = Folder::open_to_read(dir).expect("opens");
    open_varieties(&folder).expect("reads").0
}

fn near(target: &Target) -> Narrowing {
    Narrowing::Colour {
        asked: "peach".into(),
        targets: vec![target.clone()],
        within: WITHIN,
    }
}

/// A question for each letter that is typed, alone, with a colour, a form and both.
fn asks(grounds: IndexContext<'_>) -> Vec<Ask> {
    let target = &grounds.words.target("peach").expect("a word");
    let use_at = grounds.uses.find("market-bunch").expect("a use");
    let near = near(target);
    let form = Narrowing::facet(Facet::Form, FORM);
    let mut asks = Vec::new();
    for typed in TYPED {
        for more in [&[][..], &[&near], &[&form], &[&near, &form]] {
            for end in 0..=typed.len() {
                let words = Narrowing::Words(typed[..end].to_string());
                let more = more.iter().map(|one| (*one).clone());
                asks.push(Ask {
                    narrowings: std::iter::once(words).chain(more).collect(),
                    ranking: Ranking {
                        by: By::Both,
                        use_at: Some(use_at),
                        targets: vec![target.clone()],
                        words: Some(Query::new(&typed[..end])),
                    },
                    top: 200,
                });
            }
        }
    }
    asks
}

/// Median and 99th percentile in milliseconds of the same questions to SQLite; nothing is forgiven
/// there, and words are looked for in the name and the raiser only. `None` where it is not installed.
fn sqlite(dir: &Path, list: &Varieties, index: &Index, asks: &[Ask]) -> Option<(f64, f64)> {
    let mut values = vec![vec![String::new(); list.len()]; Facet::ALL.len()];
    for (facet, column) in Facet::ALL.iter().zip(&mut values) {
        for value in index.values(*facet) {
            let rows = index.narrowed(&[Narrowing::facet(*facet, value)]);
            for row in rows.iter() {
                let separator = if column[row].is_empty() { "" } else { "|" };
                write!(column[row], "{separator}{value}").expect("to memory");
            }
        }
    }
    let (use_at, targets) = (asks[0].ranking.use_at?, &asks[0].ranking.targets);
    let distances = index.distances(targets);
    let mut rows = String::from("name");
    Facet::ALL
        .iter()
        .for_each(|facet| rows += &format!("\t{}", facet.id()));
    rows += "\tfitness\tdistance\n";
    for (at, variety) in list.list().iter().enumerate() {
        rows += &variety.name;
        values
            .iter()
            .for_each(|column| rows += &format!("\t{}", column[at]));
        let fitness = index.fitness(at, use_at).unwrap_or(-1.0);
        writeln!(rows, "\t{fitness}\t{}", distances.of(at).min(1e6)).expect("to memory");
    }
    let mut questions = String::new();
    for ask in asks {
        let (mut words, mut form, mut within) = ("", "", String::new());
        for one in &ask.narrowings {
            match one {
                Narrowing::Words(typed) => words = typed,
                Narrowing::Colour { within: most, .. } => within = most.to_string(),
                Narrowing::Facet { values, .. } => form = &values[0],
            }
        }
        writeln!(questions, "{words}\t{form}\t{within}").expect("to memory");
    }
    let (rows_file, questions_file) = (dir.join("rows.tsv"), dir.join("questions.tsv"));
    fs::write(&rows_file, rows).expect("writes");
    fs::write(&questions_file, questions).expect("writes");
    let script = concat!(env!("CARGO_MANIFEST_DIR"), "/benches/facets_by_sqlite.py");
    let output = Command::new("python3")
        .arg(script)
        .arg(rows_file)
        .arg(questions_file)
        .output();
    let told = output.ok().filter(|output| output.status.success());
    let Some(told) = told.and_then(|output| String::from_utf8(output.stdout).ok()) else {
        say("SQLite is left out: it takes python3 with its sqlite3 module.");
        return None;
    };
    let (median, most) = told.trim().split_once(' ')?;
    Some((median.parse().ok()?, most.parse().ok()?))
}

/// What `fzf --filter` takes for one query, its start and the reading of the names with it: it has
/// no other way to be asked. `None` where it is not installed.
fn fzf(dir: &Path, list: &Varieties, typed: &str) -> Option<Duration> {
    let path = dir.join("names.txt");
    let names: Vec<&str> = list.list().iter().map(|one| one.name.as_str()).collect();
    fs::write(&path, names.join("\n")).expect("writes");
    let run = || {
        let names = File::open(&path).expect("opens");
        let mut fzf = Command::new("fzf");
        fzf.arg(format!("--filter={typed}"))
            .stdin(names)
            .stdout(Stdio::null());
        fzf.status()
    };
    if run().is_err() {
        say("fzf is left out: it is not installed.");
        return None;
    }
    Some(median(|| drop(run())))
}

fn timed<T>(work: impl FnOnce() -> T) -> (Duration, T) {
    let start = Instant::now();
    let done = work();
    (start.elapsed(), done)
}

fn median(work: impl Fn()) -> Duration {
    let mut took: Vec<Duration> = (0..11).map(|_| timed(&work).0).collect();
    took.sort();
    took[5]
}

/// The most memory that this program has held, in megabytes, as the kernel counts it.
fn most_memory() -> Option<f64> {
    let status = fs::read_to_string("/proc/self/status").ok()?;
    let line = status.lines().find(|line| line.starts_with("VmHWM:"))?;
    let kilobytes: f64 = line.split_whitespace().nth(1)?.parse().ok()?;
    Some(kilobytes / 1e3)
}

#[allow(clippy::print_stderr)] // A bench's answer is what it prints.
fn say(line: &str) {
    eprintln!("{line}");
}

/// Ours, the peer's, and how many times longer the peer takes.
fn row(name: &str, ours: Duration, peer: Option<(&str, Duration)>) {
    let ms = |took: Duration| took.as_secs_f64() * 1e3;
    let peer = peer.map_or(String::new(), |(peer, took)| {
        format!(
            "  {peer} {:8.2} ms, {:.1} times",
            ms(took),
            ms(took) / ms(ours)
        )
    });
    say(&format!("{name:32} {:8.2} ms{peer}", ms(ours)));
}
