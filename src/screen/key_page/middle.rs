//! The middle: the question with its answers, a search for a trait, or the verdict when settled.

use super::answered::answer_words;
use super::pictures::{Arranged, Place, Told};
use super::settled::{settled, stuck};
use super::words::examples;
use super::{Entry, KeyPage, find, typed};
use crate::form::{Answer, Status, Trait};
use crate::measure::SizeUnits;
use crate::screen::kit::cursor::Cursor;
use crate::screen::kit::line::Line;
use crate::screen::kit::part::about;
use crate::screen::kit::text::{Row, cut, lines, paragraph};
use crate::screen::theme::Role;

/// Columns of an answer's mark and key.
const LEAD: usize = 3;
/// The fewest columns for the words beside a picture.
const LEAST_WORDS: usize = 14;

/// What stands in the middle, in `columns`, best in `height` rows.
pub(super) fn rows(page: &KeyPage, columns: usize, height: usize) -> Vec<Row> {
    if let Entry::Find(line, at) = &page.entry {
        return search(page, line, *at, columns, height);
    }
    match (page.asked(), page.reading.verdict.status) {
        (Some(index), _) => question(page, index, columns, height),
        (None, Status::Settled(form)) => settled(page, form, columns, height),
        (None, _) => stuck(page, columns),
    }
}

/// How much of a question is shown, the most first.
#[derive(Debug, Clone, Copy, PartialEq, Eq, PartialOrd)]
enum Room {
    /// Everything.
    Full,
    /// No blank rows.
    Tight,
    /// No hints on looking either.
    Bare,
    /// Each state in one row, cut with a mark; no examples.
    Rows,
}

/// The question, as much of it as has room: what must go, goes in the order of `Room`.
fn question(page: &KeyPage, index: usize, columns: usize, height: usize) -> Vec<Row> {
    if let Some(arranged) = page.pictures.arranged(Place::Beside) {
        return beside(page, index, columns, arranged);
    }
    if let Some(arranged) = page.pictures.arranged(Place::BelowQuestion) {
        let mut rows = asked(page, index, columns, Room::Tight);
        rows.extend(page.line_of_pictures(arranged, columns));
        return rows;
    }
    let fits = |room: &Room| asked(page, index, columns, *room).len() <= height;
    let room = [Room::Full, Room::Tight, Room::Bare].into_iter().find(fits);
    asked(page, index, columns, room.unwrap_or(Room::Rows))
}

/// The rows of a question without blank ones.
pub(super) fn tight_rows(page: &KeyPage, index: usize, columns: usize) -> usize {
    asked(page, index, columns, Room::Tight).len()
}

/// Whether all answers fit with a picture beside each.
pub(super) fn fits_beside(
    page: &KeyPage,
    index: usize,
    (columns, height): (usize, usize),
    arranged: Arranged,
) -> bool {
    let words = columns.saturating_sub(LEAD + arranged.columns() + 1);
    let states = page.trait_at(index).states();
    words >= LEAST_WORDS
        && !states.is_empty()
        && beside(page, index, columns, arranged).len() <= height
}

fn asked(page: &KeyPage, index: usize, columns: usize, room: Room) -> Vec<Row> {
    let one = page.trait_at(index);
    let mut rows = questioned(page, index, columns, room);
    if room == Room::Full {
        rows.push(Row::default());
    }
    if one.states().is_empty() {
        rows.extend(line(page, index, columns, room));
    } else {
        let states = (0..one.states().len()).flat_map(|at| state(page, index, at, columns, room));
        rows.extend(states);
    }
    rows.extend(passing(page, index, columns, room));
    rows
}

/// The question with a picture beside each answer, its words half way up.
fn beside(page: &KeyPage, index: usize, columns: usize, arranged: Arranged) -> Vec<Row> {
    let mut rows = questioned(page, index, columns, Room::Full);
    if arranged.told == Told::Caption {
        rows.push(page.caption(columns));
    }
    let wide = arranged.columns() + 1;
    for at in 0..page.trait_at(index).states().len() {
        let words = state(page, index, at, columns.saturating_sub(wide), Room::Full);
        let picture = usize::from(arranged.rows);
        let over = picture.saturating_sub(words.len()) / 2;
        for row in 0..picture.max(words.len()) {
            let drawn = page.pictures.rows(at).get(row).cloned().unwrap_or_default();
            let told = row.checked_sub(over).and_then(|row| words.get(row));
            rows.push(drawn.fit(wide).and(told.cloned().unwrap_or_default()));
        }
    }
    rows.extend(passing(page, index, columns, Room::Full));
    rows
}

/// What is asked, and how to look.
fn questioned(page: &KeyPage, index: usize, columns: usize, room: Room) -> Vec<Row> {
    let one = page.trait_at(index);
    let mut rows = lines(&one.ask, Role::Strong, columns);
    if page.is_again() {
        rows.push(Row::of("A second look: both count.", Role::Doubt));
    }
    if room < Room::Bare {
        rows.extend(lines(&one.look, Role::Plain, columns));
    }
    rows
}

/// One answer with its key.
fn state(page: &KeyPage, index: usize, at: usize, columns: usize, room: Room) -> Vec<Row> {
    let state = &page.trait_at(index).states()[at];
    let marked = match (&page.entry, page.answers.get(index)) {
        (Entry::Marks(mask), _) => *mask,
        (_, Some(Answer::States(mask))) => *mask,
        _ => 0,
    };
    let mark = if marked >> at & 1 == 1 { '*' } else { ' ' };
    let lead = format!("{mark}{} ", at + 1);
    let told = format!("{}: {}", state.id, state.means);
    let told = match room {
        Room::Rows => cut(&told, columns.saturating_sub(lead.len())),
        _ => told,
    };
    paragraph((&lead, Role::Key), &told, Role::Plain, columns)
}

/// The key that gives no answer, or gives what was marked.
fn passing(page: &KeyPage, index: usize, columns: usize, room: Room) -> Vec<Row> {
    let one = page.trait_at(index);
    let passed = match page.answers.get(index) {
        Some(Answer::CannotTell) => '*',
        _ => ' ',
    };
    let (keys, told) = match (&page.entry, one.states().is_empty()) {
        (Entry::Marks(_), _) => ("Enter ", "one of those marked *"),
        (_, _) if page.is_again() => ("Space ", "leave it as it was"),
        (Entry::Line(_), _) if room == Room::Rows => ("Enter ", "give it"),
        (Entry::Line(_), _) => ("Enter ", "give it, Esc drop it"),
        (_, true) => ("Space ", "I can't tell"),
        (_, false) if room == Room::Rows => ("0 ", "I can't tell"),
        (_, false) => ("0 ", "I can't tell (or Space)"),
    };
    let lead = format!("{passed}{keys}");
    paragraph((&lead, Role::Key), told, Role::Plain, columns)
}

/// The line for a number, how it is understood so far, and why it was refused.
fn line(page: &KeyPage, index: usize, columns: usize, room: Room) -> Vec<Row> {
    let with_examples = room < Room::Rows;
    let one = page.trait_at(index);
    let Entry::Line(typed) = &page.entry else {
        let mut rows = vec![
            Row::of(" [", Role::Key)
                .with("_", Role::Strong)
                .with("] type a number", Role::Plain),
        ];
        if let Some(answer) = page.answers.get(index) {
            let told = answer_words(one, answer, page.units);
            rows.extend(paragraph(
                (" now ", Role::Quiet),
                &told,
                Role::Strong,
                columns,
            ));
        }
        if with_examples {
            rows.extend(example_rows(one, page.units));
        }
        return rows;
    };
    let line = typed.typed(columns.saturating_sub(1));
    let mut rows = vec![Row::of(" ", Role::Plain).and(line)];
    match (typed.problem(), typed::read(typed.text(), one, page.units)) {
        (Some(problem), _) => rows.extend(paragraph(
            (" ! ", Role::Wrong),
            problem,
            Role::Wrong,
            columns,
        )),
        (None, Ok(answer)) => {
            let told = answer_words(one, &answer, page.units);
            rows.extend(paragraph((" = ", Role::Fits), &told, Role::Plain, columns));
        }
        (None, Err(_)) => rows.push(Row::of(" ? not an answer yet", Role::Quiet)),
    }
    if typed.problem().is_none() && with_examples {
        rows.extend(example_rows(one, page.units));
    }
    rows
}

fn example_rows(one: &Trait, units: SizeUnits) -> impl Iterator<Item = Row> {
    let row = |(typed, means): &(&str, &str)| {
        Row::of(format!(" {typed:<11} "), Role::Strong).with(means, Role::Quiet)
    };
    examples(one, units).iter().map(row)
}

fn search(page: &KeyPage, line: &Line<()>, at: Cursor, columns: usize, height: usize) -> Vec<Row> {
    let traits = &page.keyer().set.traits;
    let found = find::matches(traits, line.text());
    let at = at.row(found.len());
    let lead = Row::of("Find a trait: ", Role::Strong);
    let typed = line.typed(columns.saturating_sub(lead.width()));
    let mut rows = vec![lead.and(typed)];
    if found.is_empty() {
        rows.extend(paragraph(
            ("! ", Role::Wrong),
            "No trait is like that.",
            Role::Wrong,
            columns,
        ));
        return rows;
    }
    let list = found.iter().enumerate().map(|(place, index)| {
        let one = traits.get(*index);
        let given = page
            .answers
            .get(*index)
            .map(|answer| answer_words(one, answer, page.units));
        let told = given.unwrap_or_else(|| one.ask.clone());
        let mark = if place == at { "> " } else { "  " };
        Row::of(mark, Role::Key)
            .with(format!("{:<9}", one.id), Role::Strong)
            .with(told, Role::Plain)
            .in_list(place == at)
    });
    rows.extend(about(list.collect(), at, height.saturating_sub(1)));
    rows
}
