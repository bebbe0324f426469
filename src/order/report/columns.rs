//! Text in columns, and weeks in words.

use crate::account::{Cell, Column, Table};

/// Rows of cells as lines. A column whose heading begins with `>` is set to the right; the mark is
/// not printed.
pub fn aligned(rows: &[Vec<String>]) -> Vec<String> {
    let (head, rows) = rows.split_first().unwrap_or((const { &Vec::new() }, &[]));
    let column = |name: &String| match name.strip_prefix('>') {
        Some(name) => Column::figures("", name),
        None => Column::words("", name.as_str()),
    };
    let cells = |row: &Vec<String>| row.iter().cloned().map(Cell::from).collect();
    let table = Table::of("", head.iter().map(column));
    table.with(rows.iter().map(cells)).lines()
}

/// Weeks, rising, as spans: `30 to 33, 36`.
pub fn weeks_in_words(weeks: &[u8]) -> String {
    let mut spans: Vec<(u8, u8)> = Vec::new();
    for week in weeks {
        match spans.last_mut() {
            Some((_, last)) if *last + 1 == *week => *last = *week,
            _ => spans.push((*week, *week)),
        }
    }
    let told = spans.iter().map(|(first, last)| {
        if first == last {
            first.to_string()
        } else {
            format!("{first} to {last}")
        }
    });
    told.collect::<Vec<_>>().join(", ")
}

/// The same with its noun: `week 36`, `weeks 30 to 33`.
pub fn in_weeks(weeks: &[u8]) -> String {
    let noun = if weeks.len() == 1 { "week" } else { "weeks" };
    format!("{noun} {}", weeks_in_words(weeks))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn columns_stand_under_their_heads() {
        let row = |cells: [&str; 3]| cells.map(str::to_string).to_vec();
        let lines = aligned(&[row([">no", "name", "end"]), row(["100", "Vœ", "x"])]);
        assert_eq!(lines, [" no  name  end", "100  Vœ    x"]);
    }

    #[test]
    fn weeks_are_told_in_spans() {
        assert_eq!(weeks_in_words(&[30, 31, 32, 36]), "30 to 32, 36");
        assert_eq!(weeks_in_words(&[]), "");
    }
}
