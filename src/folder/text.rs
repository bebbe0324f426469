//! What is stored, as text that a person can read: lists with one record a line, other values
//! spread over lines.

use std::thread;

use ron::extensions::Extensions;
use ron::ser::PrettyConfig;
use serde::Serialize;
use serde::de::DeserializeOwned;

use crate::problem::{Problem, read_ron};

/// What a record line begins with; within a record no line does, for its texts are escaped.
const RECORD: &str = "  (";
/// A shorter list is read sooner than a second thread starts.
const WORTH_SPLITTING: usize = 256 * 1024;
/// 100,000 records of 14 MB took 282 ms as one part and 159 ms as two, on two cores; more parts
/// than this gain little, for one thread joins their lists.
const MOST_PARTS: usize = 4;

/// Reads a list of records, `[(...), (...)]`, written by [`write_records`] or by hand. A long one
/// is read in parts at the same time.
///
/// # Errors
/// The first thing that is wrong, with its place in `file`.
pub fn read_records<T: DeserializeOwned + Send>(file: &str, text: &str) -> Result<Vec<T>, Problem> {
    let parts = match thread::available_parallelism() {
        Ok(cores) if text.len() >= WORTH_SPLITTING => cores.get().min(MOST_PARTS),
        _ => 1,
    };
    match read_in_parts(text, parts) {
        Some(records) => Ok(records),
        // Read as one, a problem has its place in the whole.
        None => read_ron(file, text),
    }
}

/// One value of any shape, spread over lines, for a person to edit. [`read_ron`] reads it.
///
/// # Errors
/// If RON cannot hold a value of that type: a mistake in the type, never in the data.
pub fn write_value<T: Serialize>(value: &T) -> Result<String, ron::Error> {
    let mut text = options().to_string_pretty(value, layout().compact_arrays(true))?;
    text.push('\n');
    Ok(text)
}

/// A list with one record a line, so that version control shows a change as one line. A record
/// is a struct; its fields that are `None` are left out where the type says
/// `#[serde(skip_serializing_if = "Option::is_none")]`.
///
/// # Errors
/// If RON cannot hold a value of that type: a mistake in the type, never in the data.
pub fn write_records<T: Serialize>(records: &[T]) -> Result<String, ron::Error> {
    let (options, layout) = (options(), one_line());
    let mut text = String::from("[\n");
    for record in records {
        text.push_str("  ");
        options.to_writer_pretty(&mut text, record, layout.clone())?;
        text.push_str(",\n");
    }
    text.push_str("]\n");
    Ok(text)
}

/// One value on one line, as a record of a list is written.
///
/// # Errors
/// If RON cannot hold a value of that type: a mistake in the type, never in the data.
pub fn write_line<T: Serialize>(value: &T) -> Result<String, ron::Error> {
    options().to_string_pretty(value, one_line())
}

fn options() -> ron::Options {
    ron::Options::default().with_default_extension(Extensions::IMPLICIT_SOME)
}

fn layout() -> PrettyConfig {
    // One line ending on every system, so that a folder can be shared between them.
    PrettyConfig::new().new_line("\n").indentor("  ")
}

fn one_line() -> PrettyConfig {
    layout()
        .compact_arrays(true)
        .compact_structs(true)
        .compact_maps(true)
}

/// The list, or `None` if it cannot be split or any part is not a list by itself.
///
/// A part that reads as a whole list ends between two records: within a text, a comment or a
/// record it would be unfinished. So where every part reads, the whole reads as the same list.
fn read_in_parts<T: DeserializeOwned + Send>(text: &str, parts: usize) -> Option<Vec<T>> {
    let cuts: Vec<usize> = (1..parts)
        .filter_map(|part| cut_after(text, text.len() / parts * part))
        .collect();
    let (last, others) = cuts.split_last()?;
    let starts = [0].into_iter().chain(others.iter().copied());
    let middle = starts.zip(cuts.iter().copied());
    thread::scope(|scope| {
        let readers: Vec<_> = middle
            .map(|(start, end)| {
                scope.spawn(move || {
                    let part = match start {
                        0 => format!("{}]", &text[..end]),
                        _ => format!("[{}]", &text[start..end]),
                    };
                    read_ron::<Vec<T>>("", &part).ok()
                })
            })
            .collect();
        let tail = read_ron::<Vec<T>>("", &format!("[{}", &text[*last..])).ok();
        let mut records: Vec<T> = Vec::new();
        for reader in readers {
            // OK because a part that cannot be read, for whatever reason, is read again as one.
            records.append(&mut reader.join().ok()??);
        }
        records.append(&mut tail?);
        Some(records)
    })
}

/// The first place from `from` on where one record line ends and the next begins.
fn cut_after(text: &str, from: usize) -> Option<usize> {
    let bytes = text.as_bytes();
    let mut from = from;
    loop {
        let end = from + bytes[from..].iter().position(|b| *b == b'\n')?;
        let start = bytes[..end]
            .iter()
            .rposition(|b| *b == b'\n')
            .map_or(0, |at| at + 1);
        let line = &text[start..end];
        // A comment may end in a comma that does not count: then look at the next line.
        if line.ends_with("),") && !line.contains("//") && text[end + 1..].starts_with(RECORD) {
            return Some(end + 1);
        }
        from = end + 1;
    }
}

#[cfg(test)]
mod tests;
