//! The table of keys as a sheet: what holds here first, in as many columns as the window has room for.

use super::Mode::{
    Anywhere, Asking, Beginning, Browsing, Choosing, Counting, Filling, Finding, Helping,
    ImportingAnswer, ImportingFile, ImportingPreview, ImportingWords, Jumping, Line, List, Naming,
    Narrow, Noting, Ordering, Page, Pages, Picking, Reckoning, Rowing, Sheet, Small, Stocking,
    Tagging, Typing, Writing,
};
use super::{BINDINGS, Binding, Mode};
use crate::screen::kit::columns::{balanced, height};
use crate::screen::kit::text::{Row, paragraph, width};
use crate::screen::theme::Role;

/// The least columns of a column of keys; and the most of them side by side.
const LEAST: usize = 38;
const MOST: usize = 3;
/// The columns between two of them.
const GAP: usize = 2;

/// Where each mode is, the most used page first.
const PARTS: [(&str, &[Mode]); 29] = [
    ("At a question", &[Asking]),
    ("While a number is typed", &[Typing]),
    ("While a trait is looked for", &[Finding]),
    ("While forms are looked through", &[Browsing]),
    ("At the list", &[Choosing]),
    ("While words or a colour are typed", &[Writing]),
    ("While a value is picked", &[Picking]),
    ("While a file to read in is chosen", &[ImportingFile]),
    ("While headings are asked about", &[ImportingWords]),
    ("While another answer is typed", &[ImportingAnswer]),
    ("While a file's changes are seen", &[ImportingPreview]),
    ("At the row", &[Rowing]),
    ("While a note along the row is typed", &[Noting]),
    ("At the order", &[Ordering]),
    ("Where there is no order yet", &[Beginning]),
    ("While a figure is typed", &[Reckoning]),
    ("At the stock", &[Stocking]),
    ("While a count is typed", &[Counting]),
    ("At the tags", &[Tagging]),
    ("While a name is typed", &[Naming]),
    ("On a slip that is filled in", &[Filling]),
    ("On the jump line", &[Jumping]),
    ("Up and down any list", &[List]),
    ("On any line that is typed", &[Line]),
    ("On any page", &[Page, Pages, Anywhere]),
    ("On a sheet of text", &[Sheet]),
    ("On this list of keys", &[Helping]),
    ("Where the page has no room", &[Narrow]),
    ("In a window that is too small", &[Small]),
];

/// What is told elsewhere where there is too little room: it is so in any program.
const USUAL: [&str; 2] = ["Up and down any list", "On any line that is typed"];

/// How much of what a key does is told.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Room {
    /// All of it.
    Full,
    /// The clause before the first colon or semicolon.
    Brief,
}

/// Keys under one head.
struct Group {
    title: &'static str,
    rows: Vec<&'static Binding>,
}

/// Where the grower is, for the head of the sheet.
pub fn title(here: Mode) -> &'static str {
    let own = PARTS.iter().find(|(_, modes)| modes.contains(&here));
    own.map_or("", |(title, _)| title)
}

/// The help in so many columns: the keys of where the grower is and what holds there too, in `rows`
/// rows if they can be told so; then those of everywhere else. Where something is typed, only the
/// keys that hold its words, here and elsewhere.
pub fn help(here: Mode, typed: &str, (columns, rows): (usize, usize)) -> Vec<Row> {
    let holds = |modes: &[Mode]| here.open().any(|mode| modes.contains(&mode));
    let own = |modes: &[Mode]| modes.contains(&here);
    let mut groups: Vec<(u8, Group)> = PARTS
        .iter()
        .map(|(title, modes)| {
            let distance = match (own(modes), holds(modes)) {
                (true, _) => 0,
                (false, true) => 1,
                (false, false) => 2,
            };
            (distance, group(title, modes, typed))
        })
        .collect();
    groups.retain(|(_, group)| !group.rows.is_empty());
    let near = groups.iter().filter(|(distance, _)| *distance < 2);
    let near = blocks(near.map(|(_, group)| group), column(columns), Room::Brief);
    if height(&near, count(columns)) > rows {
        // Arrows and the keys of any line are those of other programs.
        let usual = groups
            .iter_mut()
            .filter(|(_, group)| USUAL.contains(&group.title));
        usual.for_each(|(distance, _)| *distance = 2);
    }
    groups.sort_by_key(|(distance, _)| *distance);
    if groups.is_empty() {
        let told = format!("No key does anything with {typed:?}: Esc clears it.");
        return vec![Row::of(told, Role::Doubt)];
    }
    let elsewhere = groups.iter().position(|(distance, _)| *distance == 2);
    let elsewhere = groups.split_off(elsewhere.unwrap_or(groups.len()));
    let mut told = Vec::new();
    if !groups.is_empty() {
        let all = || groups.iter().map(|(_, group)| group);
        let blocks = |room| blocks(all(), column(columns), room);
        let full = blocks(Room::Full);
        let has_room = |blocks: &Vec<_>| height(blocks, count(columns)) <= rows;
        let blocks = match has_room(&full) {
            true => full,
            false => blocks(Room::Brief),
        };
        told = balanced(blocks, count(columns), column(columns), GAP);
    }
    if !elsewhere.is_empty() {
        if !told.is_empty() {
            let line = "\u{2500}".repeat(columns.saturating_sub(13));
            told.push(Row::default());
            told.push(
                Row::of("\u{2500} ", Role::Line)
                    .with("Elsewhere ", Role::Heading)
                    .with(line, Role::Line),
            );
        }
        let all = elsewhere.iter().map(|(_, group)| group);
        let blocks = blocks(all, column(columns), Room::Full);
        told.extend(balanced(blocks, count(columns), column(columns), GAP));
    }
    told
}

/// How many columns of keys stand side by side.
fn count(columns: usize) -> usize {
    ((columns + GAP) / (LEAST + GAP)).clamp(1, MOST)
}

/// The width of each.
fn column(columns: usize) -> usize {
    let gaps = (count(columns) - 1) * GAP;
    columns.saturating_sub(gaps) / count(columns)
}

fn group(title: &'static str, modes: &[Mode], typed: &str) -> Group {
    let sought: Vec<String> = typed
        .split_whitespace()
        .map(|word| word.to_lowercase())
        .collect();
    let holds = |row: &&Binding| {
        let told = format!("{} {} {} {title}", row.keys, row.short, row.long).to_lowercase();
        sought.iter().all(|word| told.contains(word.as_str()))
    };
    let own = |row: &&Binding| modes.contains(&row.mode) && row.is_open();
    Group {
        title,
        rows: BINDINGS.iter().filter(own).filter(holds).collect(),
    }
}

/// What must not be torn apart: each key with all that is told of it, the first of a group under its
/// head, and a blank row above that.
fn blocks<'a>(
    groups: impl Iterator<Item = &'a Group>,
    columns: usize,
    room: Room,
) -> Vec<Vec<Row>> {
    let mut blocks = Vec::new();
    for group in groups {
        let keys = |row: &Binding| match room {
            Room::Full => row.keys,
            Room::Brief => row.first_key(),
        };
        let lead = group.rows.iter().map(|row| width(keys(row)));
        let lead = lead.max().unwrap_or(0);
        for (at, row) in group.rows.iter().enumerate() {
            let mut block = Vec::new();
            if at == 0 {
                block.push(Row::default());
                block.push(Row::of(group.title, Role::Heading));
            }
            let lead = format!("{:<lead$} ", keys(row));
            let told = match room {
                Room::Full => row.long,
                Room::Brief => row.clause(),
            };
            block.extend(paragraph((&lead, Role::Key), told, Role::Plain, columns));
            blocks.push(block);
        }
    }
    blocks
}

impl Binding {
    /// What it does without what else is worth knowing.
    fn clause(&self) -> &'static str {
        let end = self.long.find([';', ':']).filter(|at| *at > 0);
        &self.long[..end.unwrap_or(self.long.len())]
    }
}

#[cfg(test)]
mod tests;
