//! A text of cells gone through once before it is read, so that nothing is built of one that is past a
//! limit. Cells, quotes and ends of rows are told apart as the reader does it.

use super::limits::{MOST_BYTES, MOST_CELLS, MOST_COLUMNS, MOST_IN_A_CELL, MOST_ROWS, TooLarge};

/// Where in a cell a byte stands.
#[derive(Clone, Copy, PartialEq)]
enum At {
    Start,
    Bare,
    Quoted,
    /// Behind a quotation mark in a quoted cell: its end, or the first half of one that is meant.
    Mark,
}

/// Counts the rows, columns, cells and bytes of a text with this delimiter.
///
/// # Errors
/// The first limit that it is past.
pub(super) fn check(text: &str, delimiter: u8) -> Result<(), TooLarge> {
    if text.len() > MOST_BYTES {
        return Err(TooLarge::Bytes);
    }
    let (mut at, mut line, mut begins) = (At::Start, 1, 1);
    let (mut rows, mut columns, mut cells, mut bytes) = (0, 0, 0, 0);
    for byte in text.bytes() {
        at = match (at, byte) {
            (At::Quoted, b'"') => At::Mark,
            (At::Quoted, _) => At::Quoted,
            (At::Start | At::Mark, b'"') => At::Quoted,
            (_, b'\n' | b'\r') => {
                // Blank lines are no rows.
                rows += usize::from(columns > 0 || bytes > 0);
                cells += usize::from(columns > 0 || bytes > 0);
                (columns, bytes) = (0, 0);
                At::Start
            }
            (_, byte) if byte == delimiter => {
                columns += 1;
                cells += 1;
                bytes = 0;
                At::Start
            }
            _ => At::Bare,
        };
        line += usize::from(byte == b'\n');
        if at == At::Start {
            if columns == 0 {
                begins = line;
            }
        } else {
            bytes += 1;
        }
        if columns >= MOST_COLUMNS {
            return Err(TooLarge::Columns(begins));
        }
        if bytes > MOST_IN_A_CELL {
            return Err(TooLarge::Cell(Some(begins)));
        }
        if cells > MOST_CELLS {
            return Err(TooLarge::Cells);
        }
        if rows > MOST_ROWS {
            return Err(TooLarge::Rows);
        }
    }
    Ok(())
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn each_limit_is_told_where_it_is_passed() {
        let wide = ",".repeat(MOST_COLUMNS - 1);
        let long = "x".repeat(MOST_IN_A_CELL - 2);
        let rows = "a,b\n".repeat(MOST_ROWS);
        for (text, told) in [
            (format!("a\n\n{wide}\n"), Ok(())),
            (format!("a\r\n\r\n{wide},\n"), Err(TooLarge::Columns(3))),
            (format!("a\n\"{wide},\n,\",b\n"), Ok(())),
            (format!("a,\"{long}\"\n"), Ok(())),
            (
                format!("a,b\nc,\"\n{long}yy\"\n"),
                Err(TooLarge::Cell(Some(2))),
            ),
            (rows.clone(), Ok(())),
            (format!("{rows}\n\n\n"), Ok(())),
            (format!("{rows}a\n"), Err(TooLarge::Rows)),
        ] {
            assert_eq!(check(&text, b','), told, "{}", &text[..20.min(text.len())]);
        }
        let many = format!("{wide}\n").repeat(MOST_CELLS / MOST_COLUMNS + 1);
        assert_eq!(check(&many, b','), Err(TooLarge::Cells));
    }
}
