//! The colours of the whole list: where it is rich, and where there are gaps.

use super::ChoosePage;
use crate::colour::{Family, Word};
use crate::screen::kit::text::{Row, paragraph};
use crate::screen::theme::Role;
use crate::variety::Index;

impl ChoosePage {
    /// The words of a family, and how many varieties each names by their main colour.
    fn family(&self, family: Family) -> impl Iterator<Item = (&Word, usize)> {
        let counts = self.index.as_ref().map_or(&[][..], Index::main_colours);
        let words = self.stock.words.words().iter().zip(counts.iter().copied());
        words.filter(move |(word, _)| word.family == family)
    }

    /// One cell a colour word, family by family; then the words that no variety has.
    pub(super) fn strip(&self, columns: usize) -> Vec<Row> {
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
        rows.extend(paragraph(
            ("gaps - ", Role::Strong),
            &told,
            Role::Plain,
            columns,
        ));
        rows
    }

    /// Every colour word with how many varieties have it, for the sheet.
    pub(super) fn colours_in_full(&self, columns: usize) -> Vec<Row> {
        let mut rows = vec![
            Row::of("The whole list by its main colours", Role::Heading),
            Row::of("A number is how many varieties; - is a gap.", Role::Quiet),
        ];
        for family in Family::ALL {
            let total: usize = self.family(family).map(|(_, count)| count).sum();
            rows.push(Row::default());
            rows.push(Row::of(format!("{} {total}", family.word()), Role::Strong));
            let mut line = Row::of("  ", Role::Plain);
            for (word, count) in self.family(family) {
                let told = match count {
                    0 => "-".to_string(),
                    count => count.to_string(),
                };
                let piece = Row::of("  ", Role::Swatch(word.centre.to_srgb()))
                    .with(format!(" {} {told}   ", word.word), Role::Plain);
                if line.width() + piece.width() > columns {
                    rows.push(std::mem::replace(&mut line, Row::of("  ", Role::Plain)));
                }
                line = line.and(piece);
            }
            rows.push(line);
        }
        rows
    }
}
