//! The middle where nothing is asked: the form that is settled, or why nothing more would tell.

use super::KeyPage;
use super::words::with_article;
use crate::form::Answer;
use crate::form::sentences::percent;
use crate::screen::kit::text::{Row, lines, paragraph, wrap};
use crate::screen::theme::Role;

/// The form, large and plain, how sure it is, and what to do next; what the form is where there is
/// room, and no lines about its name where there is little.
pub(super) fn settled(page: &KeyPage, form: usize, columns: usize, height: usize) -> Vec<Row> {
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
        rows.extend(key('d', "measure it, for its size", columns));
    }
    if let Some(check) = page.reading.check {
        let one = page.trait_at(check.index);
        let told = match page.answers.get(check.index) {
            Some(_) => format!("look again at {}", one.id),
            None => format!("to be surer, answer {}", one.id),
        };
        rows.extend(key('a', &told, columns));
    }
    rows.extend(key('n', "the next bloom", columns));
    rows
}

/// A key and what it does.
fn key(key: char, does: &str, columns: usize) -> Vec<Row> {
    paragraph((&format!("{key} "), Role::Key), does, Role::Plain, columns)
}

/// Several forms are left and no question would part them.
pub(super) fn stuck(page: &KeyPage, columns: usize) -> Vec<Row> {
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
        rows.extend(key('a', "look again at what would tell most", columns));
    }
    rows.extend(key('n', "the next bloom", columns));
    rows
}
