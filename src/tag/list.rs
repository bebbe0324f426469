//! What tags say as plain text, and as a table for the program of a label printer.

use super::about::About;
use super::says::Says;
use super::stock::Kind;
use crate::table::guard::neutral;

/// What the QR code of a tag holds: the name, then a line for each fact but those that are spared. What the tag has in small
/// print is sentences and needs no word before it.
pub(super) fn plain(says: &Says, kind: &Kind, spared: &[About]) -> String {
    // Straight marks keep the text within ASCII, which is shorter in a code and read everywhere.
    let mut text = says.name_on(kind).replace(['\u{2018}', '\u{2019}'], "'");
    let told = says.about(&kind.tells);
    for fact in told.filter(|fact| !spared.contains(&fact.about)) {
        text += &match kind.small.tells.contains(&fact.about) {
            true => format!("\n{}", fact.text),
            false => format!("\n{}: {}", fact.about.word(), fact.text),
        };
    }
    text
}

/// Tags as text, each with how many there are of it, an empty line between them.
pub fn text<'a>(tags: impl IntoIterator<Item = (&'a Says, u32)>, kind: &Kind) -> String {
    let mut text = String::new();
    for (says, copies) in tags {
        if !text.is_empty() {
            text.push('\n');
        }
        text += &says.name_on(kind);
        text.push('\n');
        if copies != 1 {
            text += &format!("  copies: {copies}\n");
        }
        for fact in says.about(&kind.tells) {
            text += &format!("  {}: {}\n", fact.about.word(), fact.text);
        }
    }
    text
}

/// Tags as rows of cells under a heading: how many there are of each, every fact of the kind, and the
/// text for a QR code; where they are numbered a row for each copy, with its number. A cell that
/// begins like a formula gets an apostrophe in front.
pub fn table<'a>(
    tags: impl IntoIterator<Item = (&'a Says, u32)>,
    kind: &Kind,
    numbered: bool,
) -> Vec<Vec<String>> {
    let count = if numbered { "number" } else { "copies" };
    let heading = ["id", "name", count].into_iter().map(str::to_string);
    let words = kind.tells.iter().map(|about| about.word().to_string());
    let mut rows = vec![heading.chain(words).chain(["code".to_string()]).collect()];
    for (says, copies) in tags {
        let fact = |about: &About| {
            let fact = says.facts.iter().find(|fact| fact.about == *about);
            fact.map_or(String::new(), |fact| fact.text.clone())
        };
        let counts: Vec<String> = match numbered {
            true => { 1..=copies }
                .map(|at| format!("{at} of {copies}"))
                .collect(),
            false => vec![copies.to_string()],
        };
        for count in counts {
            let named = [says.subject.to_string(), says.name_on(kind), count];
            let facts = kind.tells.iter().map(fact).chain([plain(says, kind, &[])]);
            let cells = named.into_iter().chain(facts);
            rows.push(cells.map(|cell| neutral(&cell).into_owned()).collect());
        }
    }
    rows
}
