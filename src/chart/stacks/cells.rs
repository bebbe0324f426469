//! Stacks as lines of characters: the whole to an eighth of a cell, each piece to a cell.

use super::{Stack, Stacks};
use crate::account::text::{Side, pad, width, wrap};
use crate::chart::Signs;
use crate::chart::line::{EIGHTHS, Ink, Line};

impl Stacks {
    /// A line for each group: its name, its bar, and behind its end how many it has; at the foot the
    /// groups that a part has none of.
    pub fn lines(&self, columns: usize, signs: Signs) -> Vec<Line> {
        let widest = |text: &dyn Fn(&Stack) -> String| {
            let texts = self.drawn().map(|stack| width(&text(stack)));
            texts.max().unwrap_or(0)
        };
        let name = widest(&|stack| stack.name.clone());
        let told = widest(&Stack::told);
        let room = columns.saturating_sub(name + told + 3);
        let line = |stack: &Stack| {
            let bar = stack.bar(self.most(), room, signs);
            Line::of(pad(&stack.name, name, Side::Left) + " ", Ink::Words)
                .with(signs.pick('│', '|').to_string(), Ink::Rule)
                .and(bar)
                .with(format!(" {}", stack.told()), Ink::Words)
        };
        let without = self.told_without();
        let without = without.iter().flat_map(|told| wrap(told, columns));
        let foot = without.map(|told| Line::of(told, Ink::Words));
        self.drawn().map(line).chain(foot).collect()
    }
}

impl Stack {
    /// The bar alone, where `most` would take all of the columns.
    pub fn bar(&self, most: usize, columns: usize, signs: Signs) -> Line {
        let all = columns * EIGHTHS;
        let place =
            |count: usize| (count as f64 / most.max(1) as f64 * all as f64).round() as usize;
        // Where each piece ends, in eighths of a cell.
        let mut sum = 0;
        let ends = self.present().map(|piece| {
            sum += piece.count;
            (place(sum.min(most)), piece.colour)
        });
        let ends: Vec<_> = ends.collect();
        let end = ends.last().map_or(0, |(end, _)| *end);
        let cell = |at: usize| {
            let (from, to) = (at * EIGHTHS, (at + 1) * EIGHTHS);
            let filled = end.min(to) - from;
            // A cell is of the piece that its middle is in: on each side of that less is hidden.
            let middle = from + filled / 2;
            let (_, colour) = ends.iter().find(|(end, _)| *end > middle)?;
            let sign = match signs {
                Signs::Ascii => '#',
                Signs::Eighths | Signs::Halves => signs.across(filled),
            };
            Some((sign, Ink::Colour(*colour)))
        };
        let cells = (0..end.div_ceil(EIGHTHS)).filter_map(cell);
        cells.fold(Line::default(), |line, (sign, ink)| line.with(sign, ink))
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;
    use crate::chart::Piece;
    use crate::colour::Srgb;

    fn stack(counts: &[usize]) -> Stack {
        let piece = |(at, count): (usize, &usize)| Piece {
            name: format!("word {at}"),
            colour: Srgb::grey(at as u8 * 9),
            count: *count,
        };
        Stack {
            name: "greys".to_string(),
            pieces: counts.iter().enumerate().map(piece).collect(),
            of: None,
        }
    }

    #[test]
    fn every_group_has_a_line_with_its_count_behind_its_bar() {
        let two = Stack {
            of: Some(9),
            ..stack(&[2, 0, 1])
        };
        let stacks = Stacks {
            title: String::new(),
            notes: Vec::new(),
            across: String::new(),
            stacks: vec![stack(&[5, 3]), two, stack(&[])],
            shows: String::new(),
        };
        let shown = |signs| -> Vec<String> {
            stacks
                .lines(28, signs)
                .iter()
                .map(Line::to_string)
                .collect()
        };
        assert_eq!(
            shown(Signs::Eighths),
            [
                "greys │██████████████ 8",
                "greys │█████▎ 3 of 9",
                "greys │ 0"
            ]
        );
        assert_eq!(
            shown(Signs::Ascii),
            [
                "greys |############## 8",
                "greys |###### 3 of 9",
                "greys | 0"
            ]
        );
    }

    #[test]
    fn what_a_part_has_none_of_is_told_at_the_foot() {
        let of = |counts: &[usize], of| Stack {
            of: Some(of),
            ..stack(counts)
        };
        let stacks = Stacks {
            title: String::new(),
            notes: Vec::new(),
            across: String::new(),
            stacks: vec![of(&[5, 3], 9), of(&[0], 24), of(&[], 12)],
            shows: String::new(),
        };
        let lines = stacks.lines(60, Signs::Ascii);
        let lines: Vec<String> = lines.iter().map(Line::to_string).collect();
        assert_eq!(lines.len(), 2, "{lines:?}");
        assert!(lines[0].ends_with("8 of 9"), "{lines:?}");
        assert_eq!(lines[1], "none of: greys (24), greys (12)");
        let paper = crate::paper::Paper::named("a4").expect("a paper");
        let page = stacks.page(&paper).expect("a page");
        let texts: Vec<&str> = page.lines().map(|line| line.text.as_str()).collect();
        assert!(
            texts.contains(&"None of: greys (24), greys (12)."),
            "{texts:?}"
        );
        assert!(!texts.contains(&"0 of 24"), "{texts:?}");
    }

    proptest! {
        #[test]
        fn a_stack_is_as_long_as_its_count_to_an_eighth_of_a_cell(
            counts in prop::collection::vec(0_usize..30, 0..12),
            more in 0_usize..90,
            columns in 1_usize..120,
        ) {
            let stack = stack(&counts);
            let most = (stack.count() + more).max(1);
            let line = stack.bar(most, columns, Signs::Eighths);
            let last = line.to_string().chars().last();
            let part = (1..=EIGHTHS).find(|part| last == Some(Signs::Eighths.across(*part)));
            let drawn = line.width().saturating_sub(1) * EIGHTHS + part.unwrap_or(0);
            let exact = stack.count() as f64 / most as f64 * (columns * EIGHTHS) as f64;
            prop_assert!((drawn as f64 - exact).abs() <= 0.5 + 1e-9, "{} {}", line, exact);
            for signs in [Signs::Eighths, Signs::Halves, Signs::Ascii] {
                let line = stack.bar(most, columns, signs);
                prop_assert!(line.width() <= columns);
                prop_assert!(signs != Signs::Ascii || line.to_string().is_ascii());
            }
        }
    }
}
