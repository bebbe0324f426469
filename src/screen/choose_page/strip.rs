//! The list by colour: where it is rich, and where there are gaps.

use super::ChoosePage;
use crate::chart::Stack;
use crate::colour::{Family, Word};
use crate::screen::kit::chart;
use crate::screen::kit::text::{Row, lines, paragraph};
use crate::screen::theme::{Role, Theme};
use crate::variety::Index;

impl ChoosePage {
    /// The words of a family, and how many varieties each names by their main colour.
    fn family(&self, family: Family) -> impl Iterator<Item = (&Word, usize)> {
        let counts = self.index.as_ref().map_or(&[][..], Index::main_colours);
        let words = self.stock.words.words().iter().zip(counts.iter().copied());
        words.filter(move |(word, _)| word.family == family)
    }

    /// The whole list by colour: bars where they have room, else a cell for each word.
    pub(super) fn strip(&self, columns: usize, height: usize, theme: Theme) -> Vec<Row> {
        match height > Family::ALL.len() {
            true => self.bars(columns, theme),
            false => self.cells(columns),
        }
    }

    /// One cell a colour word, family by family; then the words that no variety has.
    fn cells(&self, columns: usize) -> Vec<Row> {
        let mut rows = vec![Row::default()];
        for family in Family::ALL {
            let mut piece = Row::of(format!("{} ", family.word()), Role::Quiet);
            for (word, count) in self.family(family) {
                piece = match count {
                    0 => piece.with("-", Role::Strong),
                    _ => piece.with("#", Role::Swatch(word.centre.to_srgb())),
                };
            }
            let last = rows.last_mut().expect("never empty");
            if last.width() > 0 && last.width() + 2 + piece.width() > columns {
                rows.push(piece);
            } else if last.width() == 0 {
                *last = piece;
            } else {
                *last = std::mem::take(last).with("  ", Role::Plain).and(piece);
            }
        }
        rows.extend(self.gaps(columns));
        rows
    }

    /// The words that no variety has.
    fn gaps(&self, columns: usize) -> Vec<Row> {
        let gaps: Vec<&str> = Family::ALL
            .into_iter()
            .flat_map(|family| self.family(family))
            .filter(|(_, count)| *count == 0)
            .map(|(word, _)| word.word.as_str())
            .collect();
        let told = match gaps.is_empty() {
            true => "none: every colour word has a variety".to_string(),
            false => gaps.join(", "),
        };
        paragraph(("gaps - ", Role::Strong), &told, Role::Plain, columns)
    }

    /// What is narrowed by its main colours, for the sheet: a bar for each family, then every colour
    /// word with how many have it.
    pub(super) fn colours_in_full(&self, columns: usize, theme: Theme) -> Vec<Row> {
        let Some(index) = &self.index else {
            return Vec::new();
        };
        let stacks = index.some_by_colour(self.shown.rows.iter(), &self.stock.words);
        let notes = stacks.notes.iter();
        let mut rows: Vec<Row> = notes
            .flat_map(|told| lines(told, Role::Strong, columns))
            .collect();
        rows.push(Row::default());
        rows.extend(chart::rows(&stacks.lines(columns, theme.signs())));
        rows.push(Row::default());
        rows.push(Row::of("Word by word; - is a gap.", Role::Quiet));
        for stack in &stacks.stacks {
            rows.extend(in_words(stack, columns));
        }
        rows
    }

    /// A bar for each family of the whole list, and then the words that no variety has.
    fn bars(&self, columns: usize, theme: Theme) -> Vec<Row> {
        let Some(index) = &self.index else {
            return Vec::new();
        };
        let stacks = index.by_colour(&self.stock.words);
        let mut rows = chart::rows(&stacks.lines(columns, theme.signs()));
        rows.extend(self.gaps(columns));
        rows
    }
}

/// The words of a family, each with its colour and its count.
fn in_words(stack: &Stack, columns: usize) -> Vec<Row> {
    let lead = || Row::of("  ", Role::Plain);
    let mut rows = vec![Row::of(
        format!("{} {}", stack.name, stack.told()),
        Role::Strong,
    )];
    let mut line = lead();
    for piece in &stack.pieces {
        let told = match piece.count {
            0 => "-".to_string(),
            count => count.to_string(),
        };
        let piece = Row::of("  ", Role::Swatch(piece.colour))
            .with(format!(" {} {told}   ", piece.name), Role::Plain);
        if line.width() + piece.width() > columns {
            rows.push(std::mem::replace(&mut line, lead()));
        }
        line = line.and(piece);
    }
    rows.push(line);
    rows
}
