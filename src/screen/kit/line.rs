//! A line that is typed, with a cursor in it.

use tui_input::{Input, InputRequest};
use unicode_segmentation::UnicodeSegmentation;

use super::text::{CUT, Row, clean, lines, width};
use crate::book::Doubt;
use crate::screen::theme::Role;

/// More characters than this are a slip of the paste key.
const MOST: usize = 4000;

/// What is said of a text that is offered.
const OFFERED: &str = "Type over it, or End to go on from it.";

/// What can be done to a line.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum Edit {
    /// Write at the cursor: one character, or all that was pasted.
    Write(String),
    /// Erase the character before the cursor.
    Erase,
    /// Erase the character under the cursor.
    EraseNext,
    /// Erase the word before the cursor.
    EraseWord,
    /// Erase all before the cursor.
    EraseToStart,
    /// Erase all from the cursor on.
    EraseToEnd,
    /// A character to the left.
    Left,
    /// A character to the right.
    Right,
    /// A word to the left.
    WordLeft,
    /// A word to the right.
    WordRight,
    /// To the start of the line.
    Start,
    /// To its end.
    End,
}

/// A line, what it is for, and why it was refused. A character is what a reader sees as one.
#[derive(Debug, Clone)]
pub(in crate::screen) struct Line<Of> {
    /// What it is for.
    pub(in crate::screen) of: Of,
    input: Input,
    problem: Option<String>,
    /// What is strange was told: given again as it is, the grower means it.
    doubted: bool,
    /// The text was offered and not touched yet: what is written next stands in its place.
    offered: bool,
}

impl<Of> Line<Of> {
    /// A line that begins with this text, the cursor behind it.
    pub(in crate::screen) fn new(of: Of, text: impl Into<String>) -> Line<Of> {
        Line {
            of,
            input: Input::new(text.into()),
            problem: None,
            doubted: false,
            offered: false,
        }
    }

    /// A line that offers this text: the first character written stands in its place, and any other
    /// edit keeps it to be gone on from.
    pub(in crate::screen) fn offering(of: Of, text: impl Into<String>) -> Line<Of> {
        let mut line = Line::new(of, text);
        line.offered = !line.text().is_empty();
        line
    }

    /// What is on the line.
    pub(in crate::screen) fn text(&self) -> &str {
        self.input.value()
    }

    /// Puts another text on the line, the cursor behind it.
    pub(in crate::screen) fn set(&mut self, text: impl Into<String>) {
        self.input = Input::new(text.into());
        self.offered = false;
        self.accept();
    }

    /// Offers another text in place of what is on the line.
    pub(in crate::screen) fn offer(&mut self, text: impl Into<String>) {
        self.set(text);
        self.offered = !self.text().is_empty();
    }

    /// Edits the line, and answers whether its text changed: what was wrong with it is then no
    /// longer said.
    pub(in crate::screen) fn edit(&mut self, edit: &Edit) -> bool {
        let request = match edit {
            Edit::Write(text) => return self.write(text),
            Edit::Erase => InputRequest::DeletePrevChar,
            Edit::EraseNext => InputRequest::DeleteNextChar,
            Edit::EraseWord => InputRequest::DeletePrevWord,
            Edit::EraseToStart => InputRequest::DeleteFromStart,
            Edit::EraseToEnd => InputRequest::DeleteTillEnd,
            Edit::Left => InputRequest::GoToPrevChar,
            Edit::Right => InputRequest::GoToNextChar,
            Edit::WordLeft => InputRequest::GoToPrevWord,
            Edit::WordRight => InputRequest::GoToNextWord,
            Edit::Start => InputRequest::GoToStart,
            Edit::End => InputRequest::GoToEnd,
        };
        self.offered = false;
        let before = self.text().len();
        self.input.handle(request);
        let changed = self.text().len() != before;
        if changed {
            self.accept();
        }
        changed
    }

    /// Writes at the cursor; a line break or any other control character that was pasted is a space.
    fn write(&mut self, text: &str) -> bool {
        // Counted no further than needed: a slip of the paste key may be of any length.
        if is_too_long(text) {
            self.refuse(too_long());
            return false;
        }
        let kept = if self.offered { "" } else { self.text() };
        let room = MOST.saturating_sub(kept.chars().count());
        let written = text.trim_end_matches(['\r', '\n']).replace("\r\n", " ");
        let plain = |c: char| if c.is_control() { ' ' } else { c };
        let fits: String = written.chars().map(plain).take(room).collect();
        let left_out = written.chars().count() > room;
        if !fits.is_empty() {
            if std::mem::take(&mut self.offered) {
                self.input = Input::default();
            }
            let (before, after) = self.halves();
            let cursor = self.input.cursor() + fits.chars().count();
            let whole = format!("{before}{fits}{after}");
            self.input = Input::new(whole).with_cursor(cursor);
            self.accept();
        }
        if left_out {
            self.refuse(format!(
                "a line has room for {MOST} characters: the rest was left out"
            ));
        }
        !fits.is_empty()
    }

    /// The text before the cursor, and that from it on.
    fn halves(&self) -> (&str, &str) {
        let text = self.text();
        let at = text.char_indices().nth(self.input.cursor());
        text.split_at(at.map_or(text.len(), |(at, _)| at))
    }

    /// Says what is wrong with it, until it changes.
    pub(in crate::screen) fn refuse(&mut self, problem: impl Into<String>) {
        self.problem = Some(problem.into());
    }

    /// Says what is strange about it: given once more as it is, the grower insists.
    pub(in crate::screen) fn doubt(&mut self, problem: impl Into<String>) {
        self.refuse(problem);
        self.doubted = true;
    }

    /// Whether what it says may be saved, with this to be said against it. What cannot be is refused; what is
    /// only strange is asked after once, all of it, so that nothing is saved that was not seen.
    pub(in crate::screen) fn stands_against(&mut self, doubts: &[Doubt]) -> bool {
        if let Some(doubt) = doubts.iter().find(|doubt| doubt.refuses) {
            self.refuse(doubt.told.clone());
            return false;
        }
        if doubts.is_empty() || self.doubted {
            return true;
        }
        let told: Vec<&str> = doubts.iter().map(|doubt| doubt.told.as_str()).collect();
        self.doubt(format!(
            "Enter again saves it as it is. To check: {}.",
            told.join("; ")
        ));
        false
    }

    /// Whether what is strange about it was said, and it is still the same.
    pub(in crate::screen) fn is_doubted(&self) -> bool {
        self.doubted
    }

    /// Why it was refused.
    pub(in crate::screen) fn problem(&self) -> Option<&str> {
        self.problem.as_deref()
    }

    fn accept(&mut self) {
        (self.problem, self.doubted) = (None, false);
    }

    /// What is asked for with the line behind it; and below, what is wrong with it, else `hint`.
    pub(in crate::screen) fn rows(
        &self,
        asks: &str,
        hint: (&str, Role),
        columns: usize,
    ) -> Vec<Row> {
        let asks = Row::of(format!("{asks}: "), Role::Key).cut(columns / 2);
        let typed = self.typed(columns.saturating_sub(asks.width()));
        let (below, role) = match self.problem() {
            Some(problem) => (problem.to_string(), Role::Wrong),
            None if self.offered => (format!("{OFFERED} {}", hint.0), hint.1),
            None => (hint.0.to_string(), hint.1),
        };
        let mut rows = vec![asks.and(typed)];
        rows.extend(lines(&below, role, columns.saturating_sub(1)));
        rows
    }

    /// The line in brackets: `[98 104_]`, within the text the character under the cursor in
    /// reverse. What of a long line has no room beside the cursor is marked as cut.
    pub(in crate::screen) fn typed(&self, columns: usize) -> Row {
        let cells = self.cells();
        let cursor = self.cursor_among(&cells);
        let (first, last) = in_sight(&cells, cursor, columns.saturating_sub(2));
        let cut = |is_cut: bool| if is_cut { CUT } else { "" };
        // What is written over looks as what is chosen does everywhere.
        let before = match self.offered {
            true => Role::Chosen,
            false => Role::Strong,
        };
        let under = match self.is_at_its_end() {
            true => Role::Strong,
            false => Role::Chosen,
        };
        Row::of("[", Role::Key)
            .with(cut(first > 0), Role::Quiet)
            .with(cells[first..cursor].concat(), before)
            .with(&cells[cursor], under)
            .with(cells[cursor + 1..last].concat(), Role::Strong)
            .with(cut(last < cells.len()), Role::Quiet)
            .with("]", Role::Key)
    }

    /// The characters as they are shown; where the cursor is behind them, what stands for it.
    fn cells(&self) -> Vec<String> {
        let shown = clean(self.text());
        let cells = shown.graphemes(true).map(str::to_string);
        let behind = self.is_at_its_end().then(|| "_".to_string());
        cells.chain(behind).collect()
    }

    fn is_at_its_end(&self) -> bool {
        self.halves().1.is_empty()
    }

    /// Which of the cells the cursor is at.
    fn cursor_among(&self, cells: &[String]) -> usize {
        let mut before = 0;
        let reached = |cell: &String| {
            let here = before >= self.input.cursor();
            before += cell.chars().count();
            here
        };
        let at = cells.iter().position(reached);
        at.unwrap_or(cells.len() - 1)
    }
}

/// From which cell up to which before the cursor and behind it a line is seen, with a column for the mark
/// of each end that is cut. As much before the cursor as has room, then what is left for the rest. What stands
/// before the cursor, under it and behind it is measured whole each: in some scripts a character is wider
/// or narrower beside another.
fn in_sight(cells: &[String], cursor: usize, room: usize) -> (usize, usize) {
    let wide = |from: usize, to: usize| width(&cells[from..to].concat());
    let fits = |first: usize, last: usize| {
        let seen = wide(first, cursor) + wide(cursor, cursor + 1) + wide(cursor + 1, last);
        let ends = usize::from(first > 0) + usize::from(last < cells.len());
        seen + ends <= room
    };
    let (mut first, mut last) = (cursor, cursor + 1);
    if fits(0, last) {
        first = 0;
    }
    while first > 1 && fits(first - 1, last) {
        first -= 1;
    }
    while last < cells.len() && fits(first, last + 1) {
        last += 1;
    }
    (first, last)
}

/// Whether a text that was pasted is longer than any line.
pub(in crate::screen) fn is_too_long(text: &str) -> bool {
    text.chars().nth(MOST).is_some()
}

/// What is said of such a text.
pub(in crate::screen) fn too_long() -> String {
    format!(
        "found more than {MOST} characters pasted at once, expected what a line has room for: nothing was written"
    )
}

#[cfg(test)]
mod tests;
