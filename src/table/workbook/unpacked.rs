//! What is packed in a workbook, counted while it is unpacked: what the file says of its own sizes may
//! be wrong, and whoever trusts it makes room for gigabytes.

use std::io::{BufReader, Cursor, Read};

use quick_xml::Reader;
use quick_xml::events::Event;
use zip::ZipArchive;
use zip::read::ZipFile;

use super::WorkbookError;
use crate::table::limits::{MOST_BYTES, MOST_IN_A_CELL, TooLarge};

/// The kinds of workbooks.
pub(super) enum Kind {
    Xlsx,
    OpenDocument,
}

/// A packed file with its parts.
pub(super) type Archive<'a> = ZipArchive<Cursor<&'a [u8]>>;

/// What every reader says of a file that is packed as a workbook is, and is none.
pub(super) const NO_WORKBOOK: WorkbookError = WorkbookError::Broken("a packed file");
/// Parts of one workbook. A sheet is two or three.
const MOST_PARTS: usize = 10_000;
/// The most bytes of XML from one mark to the next: a cell, each character of it as an entity of six.
const MOST_BETWEEN_MARKS: usize = 6 * MOST_IN_A_CELL;
/// The part of an XLSX in which every text stands once.
const TEXTS: &str = "sharedstrings.xml";
/// The part of an ODS that is its sheets.
pub(super) const CONTENT: &str = "content.xml";

/// Unpacks every part, keeps none of it, and says what kind of workbook it is.
///
/// # Errors
/// Where the parts are past a limit, or it is no packed file.
pub(super) fn check(bytes: &[u8]) -> Result<Kind, WorkbookError> {
    let mut archive = open(bytes)?;
    if archive.len() > MOST_PARTS {
        return Err(TooLarge::Bytes.into());
    }
    let mut left = MOST_BYTES;
    for at in 0..archive.len() {
        // What cannot be unpacked is not held either: its reader will say so.
        let Ok(part) = archive.by_index(at) else {
            continue;
        };
        let name = part.name().unwrap_or_default().to_lowercase();
        let size = size(part, name.ends_with(".xml"), left)?;
        left -= size;
        if name.ends_with(TEXTS)
            && let Ok(part) = archive.by_index(at)
        {
            check_count(part, size)?;
        }
    }
    Ok(match archive.index_for_name(CONTENT) {
        Some(_) => Kind::OpenDocument,
        None => Kind::Xlsx,
    })
}

/// The parts of a packed file.
pub(super) fn open(bytes: &[u8]) -> Result<Archive<'_>, WorkbookError> {
    ZipArchive::new(Cursor::new(bytes)).map_err(|_| NO_WORKBOOK)
}

/// Bytes of a part, as far as it can be unpacked.
fn size(mut part: impl Read, xml: bool, left: usize) -> Result<usize, WorkbookError> {
    let mut buffer = vec![0; 64 * 1024];
    let (mut size, mut since_mark) = (0, 0);
    while let Ok(read) = part.read(&mut buffer) {
        let read = &buffer[..read];
        if read.is_empty() {
            break;
        }
        size += read.len();
        if size > left {
            return Err(TooLarge::Bytes.into());
        }
        since_mark = match memchr::memrchr(b'<', read) {
            Some(at) => read.len() - at,
            None => since_mark + read.len(),
        };
        if xml && since_mark > MOST_BETWEEN_MARKS {
            return Err(TooLarge::Cell(None).into());
        }
    }
    Ok(size)
}

/// A workbook says how many texts it has, and its reader makes room for as many: no more than its bytes
/// can hold, of which every text takes some.
fn check_count(part: ZipFile<'_, Cursor<&[u8]>>, size: usize) -> Result<(), WorkbookError> {
    let mut reader = Reader::from_reader(BufReader::new(part));
    let mut buffer = Vec::new();
    loop {
        buffer.clear();
        match reader.read_event_into(&mut buffer) {
            Ok(Event::Start(start) | Event::Empty(start))
                if start.local_name().as_ref() == "sst" =>
            {
                let counts = start.attributes().flatten();
                let mut counts =
                    counts.filter(|one| one.key.local_name().as_ref() == "uniqueCount");
                let count = counts.next().map(|one| one.value.parse::<u64>());
                return match count {
                    Some(Ok(count)) if count > size as u64 => Err(WorkbookError::Broken(
                        "a workbook that counts more texts than it has",
                    )),
                    _ => Ok(()),
                };
            }
            Ok(Event::Eof) | Err(_) => return Ok(()),
            Ok(_) => {}
        }
    }
}
