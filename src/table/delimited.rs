//! Delimited text by RFC 4180, with the delimiter told from the heading line.

use std::fmt;

use super::counted;
use super::limits::TooLarge;
use super::{Row, Table};

/// What stands between cells.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub enum Delimiter {
    /// `,`
    Comma,
    /// `;`
    Semicolon,
    /// A tab.
    Tab,
    /// `|`
    Pipe,
}

/// Why a text is not a table.
#[derive(Debug, Clone, PartialEq, Eq)]
pub enum TableError {
    /// A quoted cell in the record that begins on this line never ends.
    OpenQuote(usize),
    /// It is past a limit.
    TooLarge(TooLarge),
    /// The reader itself failed, in its words.
    Reader(String),
}

/// A record that no file has: the last one, unless an open quotation mark swallows it.
const END: &str = "\u{1}trug: end of table\u{1}";

/// Reads a table: cells may be quoted, a doubled quotation mark stands for one, lines end in LF or
/// CRLF, rows may differ in length. A quotation mark within a bare cell (`4"`) stands for itself.
///
/// # Errors
/// [`TableError`] with the line.
pub fn parse(text: &str) -> Result<(Table, Delimiter), TableError> {
    let delimiter = Delimiter::of(text);
    counted::check(text, delimiter.byte()).map_err(TableError::TooLarge)?;
    let whole = format!("{text}\n{END}\n");
    let mut reader = csv::ReaderBuilder::new()
        .has_headers(false)
        .flexible(true)
        .delimiter(delimiter.byte())
        .from_reader(whole.as_bytes());
    let mut rows = Vec::new();
    let mut lines = Lines::of(&whole);
    for record in reader.records() {
        let record = record.map_err(|error| TableError::Reader(error.to_string()))?;
        let at = record.position().map_or(0, csv::Position::byte);
        rows.push(Row {
            line: lines.of_record(at as usize),
            cells: record.iter().map(str::to_string).collect(),
        });
    }
    match rows.pop() {
        Some(row) if row.cells == [END] => {}
        last => return Err(TableError::OpenQuote(last.map_or(1, |row| row.line))),
    }
    rows.retain(|row| !row.is_blank());
    let table = Table {
        rows,
        is_sheet: false,
    };
    Ok((table, delimiter))
}

/// Writes a table with commas and CRLF, as RFC 4180 has it; cells are quoted where they must be.
pub fn write<'a>(rows: impl IntoIterator<Item = &'a [String]>) -> Vec<u8> {
    let mut writer = csv::WriterBuilder::new()
        .flexible(true)
        .terminator(csv::Terminator::CRLF)
        .from_writer(Vec::new());
    for row in rows {
        // OK because a vector takes every byte, and rows may differ in length.
        let _ = writer.write_record(row);
    }
    writer.into_inner().unwrap_or_default()
}

/// Counts lines from record to record: the reader's own count stands before blank lines and
/// before the LF of a CRLF.
struct Lines<'a> {
    text: &'a [u8],
    at: usize,
    line: usize,
}

impl Lines<'_> {
    fn of(text: &str) -> Lines<'_> {
        Lines {
            text: text.as_bytes(),
            at: 0,
            line: 1,
        }
    }

    /// The line of the record whose first byte is at `start` or after the line ends there.
    fn of_record(&mut self, start: usize) -> usize {
        while let Some(byte) = self.text.get(self.at) {
            if self.at >= start && !matches!(byte, b'\r' | b'\n') {
                break;
            }
            let before_lf = self.text.get(self.at + 1) == Some(&b'\n');
            if *byte == b'\n' || *byte == b'\r' && !before_lf {
                self.line += 1;
            }
            self.at += 1;
        }
        self.line
    }
}

impl Delimiter {
    const ALL: [Delimiter; 4] = [
        Delimiter::Comma,
        Delimiter::Semicolon,
        Delimiter::Tab,
        Delimiter::Pipe,
    ];

    /// The one that stands most often on the first line that has any, quoted cells apart; a comma
    /// where none does.
    fn of(text: &str) -> Delimiter {
        let mut counts = [0_usize; 4];
        let mut quoted = false;
        for c in text.chars() {
            match c {
                '"' => quoted = !quoted,
                '\n' | '\r' if !quoted && counts.iter().any(|count| *count > 0) => break,
                c if !quoted => {
                    for (count, one) in counts.iter_mut().zip(Self::ALL) {
                        *count += usize::from(c == char::from(one.byte()));
                    }
                }
                _ => {}
            }
        }
        let most = counts.iter().max().copied().unwrap_or(0);
        let found = counts.iter().position(|count| *count == most);
        found.map_or(Delimiter::Comma, |at| Self::ALL[at])
    }

    fn byte(self) -> u8 {
        match self {
            Delimiter::Comma => b',',
            Delimiter::Semicolon => b';',
            Delimiter::Tab => b'\t',
            Delimiter::Pipe => b'|',
        }
    }

    /// What it is called.
    pub fn word(self) -> &'static str {
        match self {
            Delimiter::Comma => "comma",
            Delimiter::Semicolon => "semicolon",
            Delimiter::Tab => "tab",
            Delimiter::Pipe => "pipe",
        }
    }
}

impl fmt::Display for TableError {
    fn fmt(&self, f: &mut fmt::Formatter<'_>) -> fmt::Result {
        match self {
            TableError::OpenQuote(line) => write!(
                f,
                "line {line}: found a quotation mark that is never closed, expected one at the end of the cell"
            ),
            TableError::TooLarge(past) => past.fmt(f),
            TableError::Reader(told) => f.write_str(told),
        }
    }
}

impl std::error::Error for TableError {}

#[cfg(test)]
mod tests {
    use super::*;
    use proptest::prelude::*;

    fn read(text: &str) -> (Vec<(usize, Vec<String>)>, Delimiter) {
        let (table, delimiter) = parse(text).expect(text);
        let rows = table.rows.into_iter().map(|row| (row.line, row.cells));
        (rows.collect(), delimiter)
    }

    fn row(line: usize, cells: &[&str]) -> (usize, Vec<String>) {
        (line, cells.iter().map(|cell| cell.to_string()).collect())
    }

    /// RFC 4180, section 2: each numbered rule has its own example there; the values are ours.
    #[test]
    fn rfc_4180_section_2() {
        let comma = |rows| (rows, Delimiter::Comma);
        assert_eq!(
            read("a,b\r\nc,d\r\n"),
            comma(vec![row(1, &["a", "b"]), row(2, &["c", "d"])])
        );
        assert_eq!(
            read("a,b\r\nc,d"),
            comma(vec![row(1, &["a", "b"]), row(2, &["c", "d"])])
        );
        assert_eq!(
            read("a,b\n\"x\r\ny\",\"p,q\"\nz,\"he said \"\"no\"\"\""),
            comma(vec![
                row(1, &["a", "b"]),
                row(2, &["x\r\ny", "p,q"]),
                row(4, &["z", "he said \"no\""])
            ])
        );
    }

    #[test]
    fn any_common_delimiter_is_told_and_quoted_ones_do_not_count() {
        for (text, delimiter) in [
            ("name,\"a;b;c\",x\n1,2,3", Delimiter::Comma),
            ("name;price;note\nA;4,50;a,b,c,d", Delimiter::Semicolon),
            ("name\tform\nA\tball", Delimiter::Tab),
            ("name|form\nA|ball", Delimiter::Pipe),
            ("name\nA", Delimiter::Comma),
            ("\n\nname;form\n", Delimiter::Semicolon),
        ] {
            assert_eq!(read(text).1, delimiter, "{text:?}");
        }
    }

    #[test]
    fn lines_are_counted_over_blank_ones_and_quoted_ends() {
        let rows = read("a,b\r\n\r\n,\r\n\"c\nd\",e\r\nf,4\"\r\n").0;
        assert_eq!(
            rows,
            [
                row(1, &["a", "b"]),
                row(4, &["c\nd", "e"]),
                row(6, &["f", "4\""])
            ]
        );
        assert_eq!(read("a\rb\rc").0[2].0, 3);
    }

    #[test]
    fn a_quotation_mark_that_never_closes_is_told_with_its_line() {
        let error = parse("a,b\n\nc,\"d\ne,f\n").expect_err("open");
        assert_eq!(error, TableError::OpenQuote(3));
    }

    proptest! {
        #[test]
        fn what_is_written_reads_back(cells in prop::collection::vec(prop::collection::vec("[a-c\"',;\t|\r\n é=+-]{0,6}", 2..4), 1..5)) {
            let mut rows = cells.clone();
            rows.insert(0, vec!["one".into(), "two".into()]);
            let bytes = write(rows.iter().map(Vec::as_slice));
            let text = String::from_utf8(bytes).expect("UTF-8");
            let (table, _) = parse(&text).expect("a table");
            let wanted: Vec<_> = rows.into_iter().filter(|row| row.iter().any(|c| !c.trim().is_empty())).collect();
            prop_assert_eq!(table.rows.into_iter().map(|row| row.cells).collect::<Vec<_>>(), wanted);
        }
    }
}
