//! The middle: the question with its answers, a search for a trait, or the verdict when settled.

use super::answered::answer_words;
use super::words::{examples, with_article};
use super::{Entry, KeyPage, find, typed};
use crate::form::sentences::percent;
use crate::form::{Answer, Status, Trait};
use crate::measure::SizeUnits;
use crate::screen::kit::cursor::Cursor;
use crate::screen::kit::line::Line;
use crate::screen::kit::part::about;
use crate::screen::kit::text::{Row, cut, lines, paragraph, wrap};
use crate::screen::theme::Role;

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
    let fits = |room: &Room| asked(page, index, columns, *room).len() <= height;
    let room = [Room::Full, Room::Tight, Room::Bare].into_iter().find(fits);
    asked(page, index, columns, room.unwrap_or(Room::Rows))
}

fn asked(page: &KeyPage, index: usize, columns: usize, room: Room) -> Vec<Row> {
    let one = page.trait_at(index);
    let mut rows = lines(&one.ask, Role::Strong, columns);
    if page.is_again() {
        rows.push(Row::of("A second look: both count.", Role::Doubt));
    }
    if room < Room::Bare {
        rows.extend(lines(&one.look, Role::Plain, columns));
    }
    if room == Room::Full {
        rows.push(Row::default());
    }
    let given = page.answers.get(index);
    if one.states().is_empty() {
        rows.extend(line(page, index, columns, room));
    } else {
        let marked = match (&page.entry, given) {
            (Entry::Marks(mask), _) => *mask,
            (_, Some(Answer::States(mask))) => *mask,
            _ => 0,
        };
        for (at, state) in one.states().iter().enumerate() {
            let lead = format!(
                "{}{} ",
                if marked >> at & 1 == 1 { '*' } else { ' ' },
                at + 1
            );
            let told = format!("{}: {}", state.id, state.means);
            let told = match room {
                Room::Rows => cut(&told, columns.saturating_sub(lead.len())),
                _ => told,
            };
            rows.extend(paragraph((&lead, Role::Key), &told, Role::Plain, columns));
        }
    }
    let passed = if given == Some(&Answer::CannotTell) {
        '*'
    } else {
        ' '
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
    rows.extend(paragraph(
        (&format!("{passed}{keys}"), Role::Key),
        told,
        Role::Plain,
        columns,
    ));
    rows
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

/// The form, large and plain, how sure it is, and what to do next; what the form is where there is
/// room, and no lines about its name where there is little.
fn settled(page: &KeyPage, form: usize, columns: usize, height: usize) -> Vec<Row> {
    let mut rows = verdict(page, form, columns, true);
    if rows.len() > height {
        return verdict(page, form, columns, false);
    }
    let set = &page.keyer().set;
    let means = format!("{}: {}.", set.forms[form].name, set.shape_of(form).means);
    let means = paragraph(("", Role::Plain), &means, Role::Quiet, columns);
    if rows.len() + 1 + means.len() <= height {
        rows.push(Row::default());
        rows.extend(means);
    }
    rows
}

fn verdict(page: &KeyPage, form: usize, columns: usize, with_lines: bool) -> Vec<Row> {
    let set = &page.keyer().set;
    let name = &set.forms[form].name;
    let rule = || with_lines.then(|| Row::of("=".repeat(columns), Role::Fits));
    let article = with_article(name);
    let article = article.split(' ').next().unwrap_or_default();
    let mut rows = vec![Row::of(format!("This bloom is {article}"), Role::Plain)];
    rows.extend(rule());
    let large = name.to_uppercase();
    rows.extend(
        wrap(&large, columns.saturating_sub(2))
            .iter()
            .map(|row| Row::of(format!("  {row}"), Role::Fits)),
    );
    if let Some(size) = &page.reading.size {
        let size = set.size_in_words(Some(form), size, page.units);
        rows.extend(paragraph(("  ", Role::Plain), &size, Role::Strong, columns));
    }
    rows.extend(rule());
    let share = page
        .reading
        .likely
        .iter()
        .find(|likely| likely.form == form)
        .map_or(0.0, |likely| likely.share);
    let told = format!("{} likely, with mistakes allowed for.", percent(share));
    rows.extend(paragraph(("", Role::Plain), &told, Role::Plain, columns));
    if page.reading.size.is_none() {
        rows.extend(paragraph(
            ("d ", Role::Key),
            "measure it, for its size",
            Role::Plain,
            columns,
        ));
    }
    if let Some(check) = page.reading.check {
        let one = page.trait_at(check.index);
        let told = match page.answers.get(check.index) {
            Some(_) => format!("look again at {}", one.id),
            None => format!("to be surer, answer {}", one.id),
        };
        rows.extend(paragraph(("a ", Role::Key), &told, Role::Plain, columns));
    }
    rows.extend(paragraph(
        ("n ", Role::Key),
        "the next bloom",
        Role::Plain,
        columns,
    ));
    rows
}

/// Several forms are left and no question would part them.
fn stuck(page: &KeyPage, columns: usize) -> Vec<Row> {
    let passed = page
        .answers
        .iter()
        .filter(|(_, answer)| **answer == Answer::CannotTell);
    let passed: Vec<&str> = passed
        .map(|(index, _)| page.trait_at(index).id.as_str())
        .collect();
    let none = "No question that is left would tell more.";
    let mut rows = lines(none, Role::Strong, columns);
    rows.push(Row::default());
    if let Some(first) = page.reading.likely.first() {
        let name = &page.keyer().set.forms[first.form].name;
        let told = format!("Likeliest: {name} ({}).", percent(first.share));
        rows.extend(paragraph(("", Role::Plain), &told, Role::Plain, columns));
    }
    if !passed.is_empty() {
        let told = format!(
            "You passed {}: go back with Up to answer.",
            passed.join(", ")
        );
        rows.extend(paragraph(("", Role::Plain), &told, Role::Plain, columns));
    }
    rows.push(Row::default());
    if page.reading.check.is_some() {
        rows.extend(paragraph(
            ("a ", Role::Key),
            "look again at what would tell most",
            Role::Plain,
            columns,
        ));
    }
    rows.extend(paragraph(
        ("n ", Role::Key),
        "the next bloom",
        Role::Plain,
        columns,
    ));
    rows
}
