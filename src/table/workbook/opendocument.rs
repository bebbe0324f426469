//! ODS, as far as a table needs it: names of sheets, rows and cells with how often each is repeated,
//! and their values. The marks are those of OpenDocument 1.3 (OASIS), part 3, chapters 9 and 19.

use std::io::{BufRead, BufReader};

use quick_xml::escape::resolve_predefined_entity;
use quick_xml::events::{BytesStart, Event};
use quick_xml::{Reader, XmlVersion};

use super::unpacked::{CONTENT, NO_WORKBOOK, open};
use super::{Sheet, WorkbookError, day_text, number_text, yes_no};
use crate::table::gathered::Gathered;
use crate::table::limits::{MOST_IN_A_CELL, TooLarge};

/// What a workbook is that ends before its last mark.
const NOT_WHOLE: WorkbookError = WorkbookError::Broken("a workbook that is not whole");

pub(super) fn read(bytes: &[u8], wanted: Option<&str>) -> Result<Sheet, WorkbookError> {
    let mut archive = open(bytes)?;
    let content = archive.by_name(CONTENT).map_err(|_| NO_WORKBOOK)?;
    let mut walk = Walk {
        wanted,
        names: Vec::new(),
        found: None,
        open: None,
    };
    walk.all(Reader::from_reader(BufReader::new(content)))?;
    let of = walk.names.len();
    match walk.found {
        Some((name, gathered)) => Ok(Sheet {
            table: gathered.table()?,
            name,
            of,
        }),
        None => Err(WorkbookError::NoSheet(walk.names)),
    }
}

/// What was met so far.
struct Walk<'a> {
    wanted: Option<&'a str>,
    names: Vec<String>,
    /// The sheet that is wanted.
    found: Option<(String, Gathered)>,
    /// Where the walk is in it; `None` where it is outside.
    open: Option<Open>,
}

/// A place in the sheet.
#[derive(Default)]
struct Open {
    /// The row, and how often it is repeated.
    row: usize,
    rows: usize,
    /// The column that comes next, and the cells of this row: column, how often, text.
    column: usize,
    cells: Vec<(usize, usize, String)>,
    cell: Option<Cell>,
}

/// A cell whose end is not reached.
#[derive(Default)]
struct Cell {
    times: usize,
    /// Its value, where a mark says it; its text is only how it was shown.
    value: Option<String>,
    text: String,
    paragraphs: usize,
    /// Notes within it that are open: what they say is no part of it.
    notes: usize,
}

impl Walk<'_> {
    fn all<R: BufRead>(&mut self, mut reader: Reader<R>) -> Result<(), WorkbookError> {
        reader.config_mut().expand_empty_elements = true;
        let mut buffer = Vec::new();
        loop {
            buffer.clear();
            match reader.read_event_into(&mut buffer).map_err(|_| NOT_WHOLE)? {
                Event::Start(start) => self.starts(&start)?,
                Event::End(end) => self.ends(end.name().as_ref())?,
                Event::Text(text) => self.says(&text.xml10_content())?,
                Event::CData(text) => self.says(&text.xml10_content())?,
                Event::GeneralRef(entity) => {
                    let named = || resolve_predefined_entity(&entity.xml10_content());
                    match entity.resolve_char_ref() {
                        Ok(Some(c)) => self.says(c.encode_utf8(&mut [0; 4]))?,
                        _ => self.says(named().ok_or(NOT_WHOLE)?)?,
                    }
                }
                Event::Eof => return Ok(()),
                _ => {}
            }
        }
    }

    fn starts(&mut self, start: &BytesStart<'_>) -> Result<(), WorkbookError> {
        let name = start.name();
        let Some(open) = &mut self.open else {
            if name.as_ref() == "table:table" {
                self.enters(attribute(start, "table:name").unwrap_or_default());
            }
            return Ok(());
        };
        match (name.as_ref(), &mut open.cell) {
            ("table:table-row", _) => {
                open.rows = times(start, "table:number-rows-repeated");
                (open.column, open.cell) = (0, None);
                open.cells.clear();
            }
            ("table:table-cell" | "table:covered-table-cell", _) => {
                open.cell = Some(Cell {
                    times: times(start, "table:number-columns-repeated"),
                    value: value(start),
                    ..Cell::default()
                });
            }
            ("office:annotation", Some(cell)) => cell.notes += 1,
            ("text:p", Some(cell)) if cell.notes == 0 => {
                cell.paragraphs += 1;
                if cell.paragraphs > 1 {
                    cell.text.push('\n');
                }
            }
            ("text:s", Some(_)) => {
                let spaces = times(start, "text:c").min(MOST_IN_A_CELL + 1);
                self.says(&" ".repeat(spaces))?;
            }
            ("text:tab", Some(_)) => self.says("\t")?,
            ("text:line-break", Some(_)) => self.says("\n")?,
            _ => {}
        }
        Ok(())
    }

    /// Begins a sheet; of one that is not wanted only the name is kept.
    fn enters(&mut self, name: String) {
        let wanted = match self.wanted {
            None => self.names.is_empty(),
            Some(wanted) => self.found.is_none() && name == wanted,
        };
        if wanted {
            self.found = Some((name.clone(), Gathered::default()));
            self.open = Some(Open::default());
        }
        self.names.push(name);
    }

    fn ends(&mut self, name: &str) -> Result<(), WorkbookError> {
        let (Some(open), Some((_, gathered))) = (&mut self.open, &mut self.found) else {
            return Ok(());
        };
        match name {
            "table:table" => self.open = None,
            "table:table-row" => {
                let repeated = if open.cells.is_empty() { 0 } else { open.rows };
                for row in 0..repeated {
                    for (column, times, text) in &open.cells {
                        for at in 0..*times {
                            let (row, column) = (open.row + row, column.saturating_add(at));
                            gathered.place(row, column, text.as_str())?;
                        }
                    }
                }
                open.row = open.row.saturating_add(open.rows);
                open.cells.clear();
            }
            "table:table-cell" | "table:covered-table-cell" => {
                if let Some(cell) = open.cell.take() {
                    let text = cell.value.unwrap_or(cell.text);
                    if !text.trim().is_empty() {
                        open.cells.push((open.column, cell.times, text));
                    }
                    open.column = open.column.saturating_add(cell.times);
                }
            }
            "office:annotation" => {
                if let Some(cell) = &mut open.cell {
                    cell.notes = cell.notes.saturating_sub(1);
                }
            }
            _ => {}
        }
        Ok(())
    }

    /// Text of the cell that is open, within a paragraph and outside of notes.
    fn says(&mut self, text: &str) -> Result<(), WorkbookError> {
        let Some(open) = &mut self.open else {
            return Ok(());
        };
        if let Some(cell) = &mut open.cell
            && cell.notes == 0
            && cell.paragraphs > 0
        {
            cell.text.push_str(text);
            if cell.text.len() > MOST_IN_A_CELL {
                return Err(TooLarge::Cell(open.row.checked_add(1)).into());
            }
        }
        Ok(())
    }
}

/// How often something is repeated; once where it is not said or makes no sense.
fn times(start: &BytesStart<'_>, name: &str) -> usize {
    let said = attribute(start, name).and_then(|times| times.parse().ok());
    said.unwrap_or(1)
}

/// The value of a cell as a person would type it; `None` of a text, which stands within.
fn value(start: &BytesStart<'_>) -> Option<String> {
    let value = |name: &str| attribute(start, name);
    match value("office:value-type")?.as_str() {
        "float" | "percentage" | "currency" => {
            let number = value("office:value")?.parse().ok()?;
            Some(number_text(number))
        }
        "date" => Some(day_text(&value("office:date-value")?).to_string()),
        "time" => value("office:time-value"),
        "boolean" => Some(yes_no(value("office:boolean-value")? == "true").to_string()),
        "string" => value("office:string-value"),
        _ => None,
    }
}

fn attribute(start: &BytesStart<'_>, name: &str) -> Option<String> {
    let found = start.try_get_attribute(name).ok().flatten()?;
    let value = found.normalized_value(XmlVersion::Explicit1_0);
    value.ok().map(|value| value.into_owned())
}
