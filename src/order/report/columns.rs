//! Text in columns, and weeks in words.

use unicode_width::UnicodeWidthStr;

/// Rows of cells as lines, two spaces between columns. A column whose heading begins with `>` is
/// set to the right; the mark is not printed. The last column is never filled up.
pub fn aligned(rows: &[Vec<String>]) -> Vec<String> {
    let head = rows.first().map_or(&[][..], Vec::as_slice);
    let right: Vec<bool> = head.iter().map(|cell| cell.starts_with('>')).collect();
    let shown = |cell: &str, at: usize, line: usize| -> String {
        let marked = line == 0 && right.get(at) == Some(&true);
        if marked {
            cell[1..].to_string()
        } else {
            cell.to_string()
        }
    };
    let width = |at: usize| {
        let cells = rows.iter().enumerate();
        let widths = cells.filter_map(|(line, row)| Some(shown(row.get(at)?, at, line).width()));
        widths.max().unwrap_or(0)
    };
    let widths: Vec<usize> = (0..head.len()).map(width).collect();
    let line = |(line, row): (usize, &Vec<String>)| {
        let mut text = String::new();
        for (at, cell) in row.iter().enumerate() {
            let cell = shown(cell, at, line);
            let fill = " ".repeat(widths.get(at).map_or(0, |width| width - cell.width()));
            let gap = if at == 0 { "" } else { "  " };
            text += gap;
            if right.get(at) == Some(&true) {
                text += &fill;
                text += &cell;
            } else {
                text += &cell;
                text += &fill;
            }
        }
        text.trim_end().to_string()
    };
    rows.iter().enumerate().map(line).collect()
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
