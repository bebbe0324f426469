//! The table of keys at the foot of the screen.

use ratatui::crossterm::event::KeyCode::{Enter, Esc};

use super::{BINDINGS, Binding, Meaning, Mode, Press};
use crate::screen::Message;
use crate::screen::filling::FillingMessage;
use crate::screen::kit::text::{Row, width};
use crate::screen::theme::Role;

/// The footer: the keys of the mode that fit, the most used first. To the next page, to the help, out
/// of a line and out of the program always leads a key that is in sight, in a narrow window in fewer
/// letters.
pub fn footer(mode: Mode, columns: usize) -> Row {
    let told = told(mode);
    let stay = told.iter().filter(|row| row.stays(mode)).copied().collect();
    let style = match fits(&stay, Style::Wide, columns) {
        true => Style::Wide,
        false => Style::Brief,
    };
    let mut rows = told;
    while !fits(&rows, style, columns) {
        match rows.iter().rposition(|row| !row.stays(mode)) {
            Some(last) => rows.remove(last),
            None => break,
        };
    }
    let pieces = rows.iter().map(|row| style.of(row));
    let add = |line: Row, (key, what): (String, String)| {
        let gap = if line.width() > 0 { style.gap() } else { 0 };
        line.with(" ".repeat(gap), Role::Plain)
            .with(key, Role::Key)
            .with(format!(" {what}"), Role::Quiet)
    };
    let line = pieces.fold(Row::default(), add);
    match style {
        Style::Wide => Row::of(" ", Role::Plain).and(line),
        Style::Brief => line,
    }
}

/// How the keys are set.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Style {
    /// With a blank before them, and two between.
    Wide,
    /// A word for each key, and a blank between.
    Brief,
}

impl Style {
    fn gap(self) -> usize {
        match self {
            Style::Wide => 2,
            Style::Brief => 1,
        }
    }

    /// The key and what it does.
    fn of(self, row: &Binding) -> (String, String) {
        let key = row.first_key();
        match self {
            Style::Wide => (key.to_string(), row.short.to_string()),
            Style::Brief => {
                let word = row.short.split([' ', ',']).next().unwrap_or_default();
                (key.replace("Ctrl-", "^"), word.to_string())
            }
        }
    }
}

fn fits(rows: &Vec<&Binding>, style: Style, columns: usize) -> bool {
    let wide = |row: &&Binding| {
        let (key, what) = style.of(row);
        width(&key) + 1 + width(&what)
    };
    let gaps = rows.len().saturating_sub(1) * style.gap();
    let edge = usize::from(style == Style::Wide);
    rows.iter().map(wide).sum::<usize>() + gaps + edge <= columns
}

/// The keys that hold in the mode and have a word for the footer, each thing that is done once.
fn told(mode: Mode) -> Vec<&'static Binding> {
    let in_it = |row: &&Binding| !row.short.is_empty() && row.is_reached(mode);
    let mut rows: Vec<&Binding> = Vec::new();
    for row in BINDINGS.iter().filter(in_it) {
        let same = |other: &&Binding| match (&other.meaning, &row.meaning) {
            (Meaning::Is(one), Meaning::Is(other)) => one == other,
            _ => false,
        };
        if !rows.iter().any(same) {
            rows.push(row);
        }
    }
    rows
}

impl Binding {
    /// Whether it is in the footer however narrow the window.
    fn stays(&self, mode: Mode) -> bool {
        let leads_on = matches!(
            self.meaning,
            Meaning::Is(
                Message::NextPage
                    | Message::OpenHelp
                    | Message::OpenWhy
                    | Message::CloseSheet
                    | Message::Quit
                    | Message::Fill(FillingMessage::Save)
            )
        );
        // Where letters are no commands, something is open: how it is given and left is seen.
        let is_open = !mode.open().any(|open| open == Mode::Page);
        let ends = matches!(self.presses.first(), Some(Press::Plain(Enter | Esc)));
        leads_on || is_open && ends
    }

    /// The first of the keys as they are shown.
    pub(super) fn first_key(&self) -> &'static str {
        self.keys.split(" or ").next().unwrap_or(self.keys)
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    /// In a telephone's terminal too, whatever is open.
    #[test]
    fn the_ways_on_and_out_are_in_the_footer_at_every_width() {
        for mode in Mode::ALL {
            for columns in [44, 60, 80, 100, 140, 200] {
                let shown = footer(*mode, columns);
                assert!(shown.width() <= columns, "{mode:?} at {columns}: {shown}");
                let shown = format!(" {shown} ");
                for row in told(*mode).iter().filter(|row| row.stays(*mode)) {
                    let key = row.first_key();
                    let seen = [key.to_string(), key.replace("Ctrl-", "^")];
                    let seen = seen.iter().any(|key| shown.contains(&format!(" {key} ")));
                    assert!(seen, "{mode:?} at {columns}: no {key} in {shown}");
                }
            }
        }
    }

    #[test]
    fn a_footer_is_as_wide_as_it_may_be() {
        for (mode, columns, seen) in [
            (
                Mode::Noting,
                44,
                "Enter save Esc end Tab page F1 keys ^C quit",
            ),
            (Mode::Rowing, 44, " Enter in full  Tab page  ? keys  q quit"),
            (
                Mode::Noting,
                80,
                " Enter save, next  Down next plant  Esc end  Tab page  F1 keys  Ctrl-C quit",
            ),
            (Mode::Small, 44, " q quit"),
        ] {
            assert_eq!(footer(mode, columns).to_string(), seen);
        }
    }
}
