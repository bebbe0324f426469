//! What the README shows, and `tests/data/shown.md` at greater length, is what the program does today.
//!
//! - A line that begins with `$ trug` is typed at a shell, by a grower whose folder is a copy of the
//!   demo. The lines under it are what it prints, from the first to the last.
//! - A block that is named `screen` is what the screen shows after the keys that stand behind the
//!   name.
//!
//! A line that is `...` stands for any lines, and `…` within a line for any text.

use std::path::Path;
use std::time::{Duration, Instant};

use crate::common::grower::Grower;
use crate::screen::Session;

/// How long the screen may take to show what it should: an order is settled meanwhile, on a machine
/// that has other work.
const PATIENCE: Duration = Duration::from_secs(300);

/// A fenced block: what stands behind the fence, and the lines.
struct Block {
    name: String,
    lines: Vec<String>,
}

/// A line to type and what is shown under it.
struct Typed {
    line: String,
    shown: Vec<String>,
}

/// The page that all open first, and the one that shows more.
const README: &str = "README.md";
const SHOWN: &str = "tests/data/shown.md";

fn text_of(page: &str) -> String {
    let path = Path::new(env!("CARGO_MANIFEST_DIR")).join(page);
    std::fs::read_to_string(path).expect("a page")
}

fn blocks(text: &str) -> Vec<Block> {
    let mut blocks = Vec::new();
    let mut open: Option<Block> = None;
    for line in text.lines() {
        match (line.strip_prefix("```"), &mut open) {
            (Some(name), None) => {
                open = Some(Block {
                    name: name.to_string(),
                    lines: Vec::new(),
                });
            }
            (Some(_), Some(_)) => blocks.extend(open.take()),
            (None, Some(block)) => block.lines.push(line.to_string()),
            (None, None) => {}
        }
    }
    assert!(open.is_none(), "a block is not closed");
    blocks
}

fn typed(text: &str) -> Vec<Typed> {
    let mut all: Vec<Typed> = Vec::new();
    for block in blocks(text) {
        // `screen` is pressed below. `text` shows what depends on how long a search may take.
        if !block.name.is_empty() {
            continue;
        }
        let before = all.len();
        for line in block.lines {
            if let Some(line) = line.strip_prefix("$ ") {
                all.push(Typed {
                    line: line.to_string(),
                    shown: Vec::new(),
                });
            } else if all.len() > before
                && let Some(last) = all.last_mut()
            {
                last.shown.push(line);
            } else {
                panic!("{line:?} is shown under no line that was typed");
            }
        }
    }
    all
}

/// Whether what is shown is what was printed, but for what `...` leaves out.
fn is_shown(shown: &[String], printed: &[&str]) -> bool {
    let Some((first, rest)) = shown.split_first() else {
        return printed.iter().all(|line| line.trim().is_empty());
    };
    if first == "..." {
        return (0..=printed.len()).any(|from| is_shown(rest, &printed[from..]));
    }
    printed.split_first().is_some_and(|(line, after)| {
        is_line(first.trim_end(), line.trim_end()) && is_shown(rest, after)
    })
}

/// Whether a line is as shown, with any text where `…` stands.
fn is_line(shown: &str, line: &str) -> bool {
    match shown.split_once('…') {
        None => shown == line,
        Some((before, after)) => line.strip_prefix(before).is_some_and(|rest| {
            let ends = rest.char_indices().map(|(at, _)| at).chain([rest.len()]);
            ends.into_iter().any(|at| is_line(after, &rest[at..]))
        }),
    }
}

/// Blank lines at the end of a block set it apart from the next line that is typed.
fn without_blank_end(mut shown: Vec<String>) -> Vec<String> {
    while shown.last().is_some_and(String::is_empty) {
        shown.pop();
    }
    shown
}

/// One after the other, since what one writes another reads. What takes longest is two orders to
/// settle; the screens, which settle a third, are tested beside them.
fn prints_what_is_shown(page: &str, least: usize) {
    let grower = Grower::new();
    let all = typed(&text_of(page));
    assert!(all.len() >= least, "{page}: {}", all.len());
    for Typed { line, shown } in all {
        let printed = grower.does(&with_time(&line));
        let lines: Vec<&str> = printed.lines().collect();
        let shown = without_blank_end(shown);
        assert!(is_shown(&shown, &lines), "{page}: $ {line}\n{printed}");
    }
}

#[test]
fn every_command_prints_what_is_shown() {
    prints_what_is_shown(SHOWN, 20);
}

#[test]
fn every_command_of_the_readme_prints_what_it_shows() {
    prints_what_is_shown(README, 6);
}

/// A search is given more than its minute, since a machine with other work may need it to prove the
/// same.
fn with_time(line: &str) -> String {
    match line.starts_with("trug order") {
        true => format!("{line} --seconds {}", PATIENCE.as_secs()),
        false => line.to_string(),
    }
}

#[test]
fn every_screen_is_as_shown() {
    let screens = blocks(&text_of(SHOWN)).into_iter();
    let screens: Vec<Block> = (screens.filter(|block| block.name.starts_with("screen"))).collect();
    assert_eq!(screens.len(), 5, "one of each page");
    let grower = Grower::new();
    for block in screens {
        let mut session = Session::start_among(&[], true, &grower.surroundings());
        session.wait_for_text("[Key]");
        session.press(&keys(&block.name));
        session.wait_until(Instant::now() + PATIENCE, &block.name, |screen| {
            let contents = screen.contents();
            is_shown(&block.lines, &contents.lines().collect::<Vec<_>>())
        });
        session.quit("q");
    }
}

/// What a terminal sends for the keys that a block is named by.
fn keys(name: &str) -> String {
    let key = |word: &str| match word {
        "Tab" => "\t".to_string(),
        "Enter" => "\r".to_string(),
        "Down" => "\u{1b}[B".to_string(),
        typed => typed.to_string(),
    };
    name.split_whitespace().skip(1).map(key).collect()
}

#[test]
fn every_command_is_named() {
    let text = text_of(README);
    let parser = trug::command::help::parser();
    for command in parser.get_subcommands() {
        let name = format!("trug {}", command.get_name());
        assert!(text.contains(&name), "{name}");
    }
}

#[test]
fn a_line_that_is_not_so_is_noticed() {
    let own = |lines: &[&str]| {
        lines
            .iter()
            .map(|line| (*line).to_string())
            .collect::<Vec<_>>()
    };
    let printed = ["one", "two: 2026-11-29 of 3", "three"];
    for shown in [
        &["one", "...", "three"][..],
        &["...", "two: … of 3", "..."],
        &["one", "two: 2026-11-29 of 3", "three"],
        &["one", "..."],
        &["...", "three", "..."],
    ] {
        assert!(is_shown(&own(shown), &printed), "{shown:?}");
    }
    for shown in [
        &["two", "..."][..],
        &["one"],
        &["one", "three"],
        &["...", "two: … of 4"],
        &["...", "three", "..., four"],
        &["one", "two: 2026-11-29 of 3", "three", "four"],
    ] {
        assert!(!is_shown(&own(shown), &printed), "{shown:?}");
    }
}
