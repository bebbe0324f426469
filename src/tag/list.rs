//! What tags say as plain text, and as a table for the program of a label printer.

use super::about::About;
use super::says::Says;
use super::stock::Kind;
use crate::table::guard::neutral;

/// What the QR code of a tag holds: the name, then a line for each fact. What the tag has in small
/// print is sentences and needs no word before it.
pub(super) fn plain(says: &Says, kind: &Kind) -> String {
    // Straight marks keep the text within ASCII, which is shorter in a code and read everywhere.
    let mut text = says.title.replace(['\u{2018}', '\u{2019}'], "'");
    for fact in says.about(&kind.tells) {
        text += &match kind.small.tells.contains(&fact.about) {
            true => format!("\n{}", fact.text),
            false => format!("\n{}: {}", fact.about.word(), fact.text),
        };
    }
    text
}

/// Tags as text, an empty line between them.
pub fn text<'a>(tags: impl IntoIterator<Item = &'a Says>, kind: &Kind) -> String {
    let mut text = String::new();
    for says in tags {
        if !text.is_empty() {
            text.push('\n');
        }
        text += &says.title;
        text.push('\n');
        for fact in says.about(&kind.tells) {
            text += &format!("  {}: {}\n", fact.about.word(), fact.text);
        }
    }
    text
}

/// Tags as rows of cells under a heading: every fact of the kind, and the text for a QR code. A
/// cell that begins like a formula gets an apostrophe in front.
pub fn table<'a>(tags: impl IntoIterator<Item = &'a Says>, kind: &Kind) -> Vec<Vec<String>> {
    let heading = ["id", "name"].into_iter().map(str::to_string);
    let words = kind.tells.iter().map(|about| about.word().to_string());
    let mut rows = vec![heading.chain(words).chain(["code".to_string()]).collect()];
    for says in tags {
        let fact = |about: &About| {
            let fact = says.facts.iter().find(|fact| fact.about == *about);
            fact.map_or("", |fact| fact.text.as_str())
        };
        let id = says.subject.to_string();
        let code = plain(says, kind);
        let cells = [id.as_str(), says.title.as_str()].into_iter();
        let cells = cells
            .chain(kind.tells.iter().map(fact))
            .chain([code.as_str()]);
        rows.push(cells.map(|cell| neutral(cell).into_owned()).collect());
    }
    rows
}
