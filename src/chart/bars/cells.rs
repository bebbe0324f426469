//! A bar as a line of characters: its length to an eighth of a cell, its range as a line with ends, the
//! need as a stroke, what lacks as a hatched piece with a mark.

use super::{Bar, Bars};
use crate::chart::line::{EIGHTHS, Ink, Line, Signs};

/// What stands in one cell.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum Cell {
    Blank,
    /// So many eighths of the bar, from the left.
    Bar(usize),
    /// The range, with an end of its own to the left or the right.
    Range(End),
    /// The need, so many eighths into the cell.
    Need(usize),
    /// The need where it lacks.
    Lacks,
    /// What lacks of it.
    Short,
}

#[derive(Debug, Clone, Copy, PartialEq, Eq)]
enum End {
    Low,
    High,
    Neither,
}

impl Bars {
    /// The bar at a place in at most so many columns, the longest of all in nearly all of them.
    pub fn line(&self, at: usize, columns: usize, signs: Signs) -> Line {
        let bar = self.bars.get(at).copied().unwrap_or_default();
        bar.line(self.most(), columns, signs)
    }

    /// What each sign says, of those that are drawn.
    pub fn legend(&self, signs: Signs) -> Line {
        let words = self.words;
        let mut bar = signs.across(EIGHTHS).to_string().repeat(2);
        // In ASCII the range stands over the bar, and a cross at its end.
        if signs == Signs::Ascii && self.has_ranges() {
            bar.push('+');
        }
        let mut line = Line::of(bar, Ink::Bar).with(format!(" {}", words.value), Ink::Words);
        if self.has_ranges() {
            let range = match signs {
                Signs::Ascii => "--",
                Signs::Eighths | Signs::Halves => "├─┤",
            };
            line = line
                .with("  ", Ink::Words)
                .with(range, Ink::Range)
                .with(format!(" {}", words.range), Ink::Words);
        }
        if self.bars.iter().any(|bar| bar.need > 0.0) {
            line = line
                .with("  ", Ink::Words)
                .with(signs.pick('│', '|').to_string(), Ink::Need)
                .with(format!(" {}", words.need), Ink::Words);
        }
        if self.bars.iter().any(|bar| bar.short > 0.0) {
            let short = format!("{}!", signs.pick('▒', 'x'));
            line = line
                .with("  ", Ink::Words)
                .with(short, Ink::Short)
                .with(format!(" {}", words.short), Ink::Words);
        }
        line
    }
}

impl Bar {
    /// The bar in at most so many columns, where `most` would take all but the last of them: that one
    /// is for a stroke at the very end.
    pub fn line(&self, most: f64, columns: usize, signs: Signs) -> Line {
        let end = self.end(most, columns);
        let cells = self.cells(most, columns).into_iter().enumerate();
        let drawn = cells.fold(Line::default(), |line, (at, cell)| {
            let over = (at + 1) * EIGHTHS <= end;
            // In ASCII the end of a bar with a range is a cross.
            let crossed = signs == Signs::Ascii && self.range.is_some() && at == end / EIGHTHS;
            let (sign, ink) = match cell {
                Cell::Blank | Cell::Bar(_) | Cell::Range(_) if crossed && end > 0 => {
                    ('+', Ink::Bar)
                }
                cell => cell.drawn(over, signs),
            };
            line.with(sign, ink)
        });
        drawn.trimmed()
    }

    /// Where it ends, in eighths of a cell.
    fn end(&self, most: f64, columns: usize) -> usize {
        eighths(self.value, most, columns)
    }

    fn cells(&self, most: f64, columns: usize) -> Vec<Cell> {
        let end = self.end(most, columns);
        let mut cells: Vec<Cell> = (0..columns)
            .map(|at| match end.saturating_sub(at * EIGHTHS).min(EIGHTHS) {
                0 => Cell::Blank,
                filled => Cell::Bar(filled),
            })
            .collect();
        // The cell in which the bar ends keeps its length.
        let ends = (!end.is_multiple_of(EIGHTHS)).then_some(end / EIGHTHS);
        let places = |value: f64| eighths(value, most, columns);
        if let Some((low, high)) = self.range {
            let (low, high) = (places(low) / EIGHTHS, places(high) / EIGHTHS);
            for at in (low..=high).filter(|at| Some(*at) != ends) {
                let end = match at {
                    _ if at == high => End::High,
                    _ if at == low => End::Low,
                    _ => End::Neither,
                };
                put(&mut cells, at, Cell::Range(end));
            }
        }
        if self.need > 0.0 {
            let (need, lacks) = (places(self.need), self.short > 0.0);
            let mut at = need / EIGHTHS;
            let mut into = need % EIGHTHS;
            if Some(at) == ends {
                // On its right side of the bar's end, by less than a cell.
                let met = !lacks && self.value >= self.need && at > 0;
                (at, into) = if met { (at - 1, EIGHTHS) } else { (at + 1, 0) };
            }
            if lacks {
                let from = places(self.need - self.short) / EIGHTHS;
                let from = from.min(at.saturating_sub(1));
                let short = (from..at).filter(|at| Some(*at) != ends);
                short.for_each(|at| put(&mut cells, at, Cell::Short));
            }
            let cell = if lacks { Cell::Lacks } else { Cell::Need(into) };
            put(&mut cells, at, cell);
        }
        cells
    }
}

/// How far a value lies along so many columns, in eighths of one, the last column left free.
fn eighths(value: f64, most: f64, columns: usize) -> usize {
    let all = columns.saturating_sub(1) * EIGHTHS;
    let share = value / most;
    if share.is_finite() {
        (share.clamp(0.0, 1.0) * all as f64).round() as usize
    } else {
        0
    }
}

fn put(cells: &mut [Cell], at: usize, cell: Cell) {
    if let Some(own) = cells.get_mut(at) {
        *own = cell;
    }
}

impl Cell {
    /// Its character and what that is, where the bar lies under it or does not.
    fn drawn(self, over: bool, signs: Signs) -> (char, Ink) {
        // ASCII has no ground to draw on: the line stands in place of the bar.
        let on_bar = over && signs != Signs::Ascii;
        let range = if on_bar { Ink::RangeOnBar } else { Ink::Range };
        let need = if on_bar { Ink::NeedOnBar } else { Ink::Need };
        match self {
            Cell::Blank => (' ', Ink::Words),
            Cell::Bar(filled) => (signs.across(filled), Ink::Bar),
            Cell::Range(End::Low) => (signs.pick('├', '-'), range),
            Cell::Range(End::High) => (signs.pick('┤', '-'), range),
            Cell::Range(End::Neither) => (signs.pick('─', '-'), range),
            Cell::Need(into) => match (signs, into) {
                (Signs::Eighths, 0 | 1) => ('▏', need),
                (Signs::Eighths, 7 | EIGHTHS) => ('▕', need),
                _ => (signs.pick('│', '|'), need),
            },
            Cell::Lacks => ('!', Ink::Short),
            Cell::Short => (signs.pick('▒', 'x'), Ink::Short),
        }
    }
}

#[cfg(test)]
mod tests {
    use proptest::prelude::*;

    use super::*;

    fn shown(bar: Bar, columns: usize, signs: Signs) -> String {
        bar.line(100.0, columns, signs).to_string()
    }

    #[test]
    fn a_bar_shows_its_length_its_range_its_need_and_what_lacks() {
        let sure = Bar {
            value: 52.5,
            range: Some((30.0, 80.0)),
            need: 20.0,
            short: 0.0,
        };
        let short = Bar {
            value: 52.5,
            range: None,
            need: 90.0,
            short: 37.5,
        };
        let other = Bar {
            need: 40.0,
            short: 10.0,
            ..short
        };
        for (bar, fine, ascii) in [
            (sure, "████▏█├───▌─────┤", "====|=----+------"),
            (short, "██████████▌▒▒▒▒▒▒▒!", "===========xxxxxxx!"),
            (other, "██████▒▒!█▌", "======xx!=="),
        ] {
            assert_eq!(shown(bar, 21, Signs::Eighths), fine);
            assert_eq!(shown(bar, 21, Signs::Ascii), ascii);
        }
        let halves = shown(sure, 21, Signs::Halves);
        assert_eq!(halves, "████│█├───▌─────┤");
    }

    fn bars() -> impl Strategy<Value = Bar> {
        let range = prop::option::of((0.0..100.0, 0.0..100.0));
        (0.0..100.0, range, 0.0..100.0, 0.0..100.0).prop_map(|(value, range, need, short)| Bar {
            value,
            range: range.map(|(one, other): (f64, f64)| (one.min(other), one.max(other))),
            need,
            short: f64::min(short, need),
        })
    }

    /// How far a line is filled from its left, in eighths.
    fn filled(line: &Line) -> usize {
        let cells = line
            .pieces()
            .flat_map(|(text, ink)| text.chars().map(move |sign| (sign, ink)));
        let of = |(at, (sign, ink)): (usize, (char, Ink))| match ink {
            Ink::Bar => {
                let eighths = (1..=EIGHTHS).find(|eighths| Signs::Eighths.across(*eighths) == sign);
                eighths.map(|eighths| at * EIGHTHS + eighths)
            }
            Ink::RangeOnBar | Ink::NeedOnBar => Some((at + 1) * EIGHTHS),
            _ => None,
        };
        cells.enumerate().filter_map(of).max().unwrap_or(0)
    }

    proptest! {
        /// 100 fills all but the last column.
        #[test]
        fn a_bar_is_as_long_as_its_value_to_an_eighth_of_a_cell(value in 0.0..100.0, columns in 2_usize..200) {
            let line = Bar { value, ..Bar::default() }.line(100.0, columns, Signs::Eighths);
            let exact = value / 100.0 * ((columns - 1) * EIGHTHS) as f64;
            prop_assert!((filled(&line) as f64 - exact).abs() <= 0.5 + 1e-9, "{} {}", line, exact);
        }

        /// Whatever is drawn over it, but a need in a bar that is shorter than a cell and a piece that
        /// lacks where the bar ends.
        #[test]
        fn no_range_and_no_need_changes_the_length_of_a_bar(bar in bars(), columns in 2_usize..200) {
            let bar = Bar { short: 0.0, ..bar };
            let exact = bar.value / 100.0 * ((columns - 1) * EIGHTHS) as f64;
            let line = bar.line(100.0, columns, Signs::Eighths);
            prop_assert!(exact < 8.5 || (filled(&line) as f64 - exact).abs() <= 0.5 + 1e-9, "{} {}", line, exact);
        }

        /// To a cell, and never on the wrong side of the end of its bar by more than an eighth.
        #[test]
        fn a_need_stands_where_it_is_and_on_its_side_of_the_bar(bar in bars(), columns in 3_usize..200) {
            let cells = bar.cells(100.0, columns);
            let at = cells.iter().position(|cell| matches!(cell, Cell::Need(_) | Cell::Lacks));
            let exact = bar.need / 100.0 * (columns - 1) as f64;
            prop_assert_eq!(at.is_some(), bar.need > 0.0);
            let place = match at.map(|at| (at, cells[at])) {
                Some((at, Cell::Need(into))) => at as f64 + into as f64 / EIGHTHS as f64,
                Some((at, _)) => at as f64,
                None => exact,
            };
            prop_assert!((place - exact).abs() <= 1.1, "{place} {exact}");
            let end = bar.end(100.0, columns) as f64 / EIGHTHS as f64;
            if bar.short == 0.0 && bar.value >= bar.need && exact > 1.1 {
                prop_assert!(place <= end + 0.13, "{place} {end}");
            }
        }

        #[test]
        fn nothing_is_drawn_outside_and_ascii_is_ascii(bar in bars(), most in any::<f64>(), columns in 0_usize..200) {
            for signs in [Signs::Eighths, Signs::Halves, Signs::Ascii] {
                let line = bar.line(most, columns, signs);
                prop_assert!(line.width() <= columns);
                prop_assert!(signs != Signs::Ascii || line.to_string().is_ascii());
            }
        }

        #[test]
        fn what_lacks_is_marked_and_nothing_else_is(bar in bars(), columns in 3_usize..200) {
            for signs in [Signs::Eighths, Signs::Halves, Signs::Ascii] {
                let lacks = bar.line(100.0, columns, signs).to_string().contains('!');
                prop_assert_eq!(lacks, bar.need > 0.0 && bar.short > 0.0);
            }
        }
    }
}
