//! Varieties by their main colours, as a chart.

use super::index::Index;
use crate::account::text::capitalised;
use crate::chart::{Piece, Stack, Stacks};
use crate::colour::{Family, Vocabulary};

impl Index {
    /// How many varieties have which main colour, family by family.
    pub fn by_colour(&self, words: &Vocabulary) -> Stacks {
        self.counted_by_colour(self.main_colours(), self.len(), words)
    }

    /// How many of these rows have which main colour, family by family; of a part of the list each
    /// family also says how many there are of it in the whole.
    pub fn some_by_colour(
        &self,
        rows: impl IntoIterator<Item = usize>,
        words: &Vocabulary,
    ) -> Stacks {
        let mut counts = vec![0; words.words().len()];
        let mut found = 0;
        for row in rows {
            found += 1;
            if let Some(word) = self.main_word(row) {
                counts[word] += 1;
            }
        }
        self.counted_by_colour(&counts, found, words)
    }

    /// The chart of so many rows by the word of their main colour.
    fn counted_by_colour(&self, counts: &[usize], found: usize, words: &Vocabulary) -> Stacks {
        let is_part = found < self.len();
        let unknown = found - counts.iter().sum::<usize>();
        let family = |family: Family| {
            let own = words.words().iter().enumerate();
            let own = own.filter(|(_, word)| word.family == family);
            let all = own.clone().map(|(at, _)| self.main_colours()[at]).sum();
            let piece = |(at, word): (usize, &crate::colour::Word)| Piece {
                name: word.word.clone(),
                colour: word.centre.to_srgb(),
                count: counts[at],
            };
            Stack {
                name: family.word().to_string(),
                pieces: own.map(piece).collect(),
                of: is_part.then_some(all),
            }
        };
        let stacks: Vec<Stack> = Family::ALL.into_iter().map(family).collect();
        let told = match is_part {
            true => format!("{found} of {} varieties", self.len()),
            false => format!("all {found} varieties"),
        };
        let more = match unknown {
            0 => String::new(),
            unknown => format!("; of {unknown} of them no main colour is known"),
        };
        let told = format!("{}, each by its main colour{more}", capitalised(&told));
        let by_family = stacks.iter().map(|stack| {
            let present = stack.pieces.iter().filter(|piece| piece.count > 0);
            let present = present.map(|piece| format!("{} {}", piece.name, piece.count));
            let present: Vec<String> = present.collect();
            match present.is_empty() {
                true => format!("{} {}", stack.name, stack.told()),
                false => format!("{} {} ({})", stack.name, stack.told(), present.join(", ")),
            }
        });
        let by_family: Vec<String> = by_family.collect();
        Stacks {
            title: "Varieties by colour".to_string(),
            notes: vec![format!("{told}.")],
            across: "varieties".to_string(),
            shows: format!("{told}: {}", by_family.join("; ")),
            stacks,
        }
    }
}
