//! What is stored, as text that a person can read: lists with one record a line, other values
//! spread over lines.

pub mod kept;
mod plain_record;

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
/// More parts than this gain little, for one thread joins their lists.
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

/// Reads one value that stands on one line, as [`write_line`] writes it or in any other way that RON
/// has.
///
/// # Errors
/// What is wrong, with its place as if the line were the first of `file`.
pub fn read_line<T: DeserializeOwned>(file: &str, text: &str) -> Result<T, Problem> {
    plain_record::read(text).or_else(|_| read_ron(file, text))
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

/// What [`write_line`] gives for the record that a text holds; `None` where it holds none.
pub fn record_again<T: Serialize + DeserializeOwned>(text: &str) -> Option<String> {
    let plain = plain_record::read::<T>(text).ok();
    let record = plain.or_else(|| options().from_str(text).ok())?;
    write_line(&record).ok()
}

/// What [`write_value`] gives for the value that a text holds; `None` where it holds none.
pub fn value_again<T: Serialize + DeserializeOwned>(text: &str) -> Option<String> {
    write_value(&options().from_str::<T>(text).ok()?).ok()
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

/// The list, or `None` if it cannot be split or anything in it is not as expected.
///
/// A piece that reads as whole records ends between two of them: within a text, a comment or a
/// record it would be unfinished. So where every piece reads, the whole reads as the same list.
fn read_in_parts<T: DeserializeOwned + Send>(text: &str, parts: usize) -> Option<Vec<T>> {
    let (head, records) = text.split_at(next_record(text, 0)?);
    // What is switched on for the whole would be off in every piece.
    if head.contains("#!") || !read_list::<T>(&format!("{head}]"))?.is_empty() {
        return None;
    }
    let last = (records.rfind(&format!("\n{RECORD}"))).map_or(0, |at| at + 1);
    let (records, tail) = records.split_at(last);
    let cuts = (1..parts).filter_map(|part| next_record(records, records.len() / parts * part));
    let ends: Vec<usize> = cuts.chain([records.len()]).collect();
    let starts = [0].into_iter().chain(ends.iter().copied());
    let mut pieces = starts.zip(&ends).map(|(start, end)| &records[start..*end]);
    thread::scope(|scope| {
        let first = pieces.next()?;
        let readers: Vec<_> = pieces
            .map(|piece| scope.spawn(|| read_each::<T>(piece, count_lines(piece))))
            .collect();
        // Room for all, so that the others' records are moved once.
        let mut read = read_each::<T>(first, count_lines(text))?;
        for reader in readers {
            // OK because a piece that cannot be read, for whatever reason, is read again in the whole.
            read.append(&mut reader.join().ok()??);
        }
        read.append(&mut read_list(&format!("[{tail}"))?);
        Some(read)
    })
}

/// Reads records that follow each other, each on lines of its own; `None` where one is not as
/// expected. `room` is how many to make room for.
fn read_each<T: DeserializeOwned>(text: &str, room: usize) -> Option<Vec<T>> {
    let mut read = Vec::with_capacity(room);
    let mut rest = text;
    while !rest.is_empty() {
        let (record, after) = rest.split_at(next_record(rest, 1).unwrap_or(rest.len()));
        rest = after;
        let alone = record.trim().strip_suffix(',');
        match alone.and_then(|alone| plain_record::read(alone).ok()) {
            Some(one) => read.push(one),
            None => {
                // Twice over: another record follows only where the comma is no part of a comment.
                let mut twice = read_list(&format!("[{record}\n{record}\n]"))?;
                twice.truncate(twice.len() / 2);
                read.append(&mut twice);
            }
        }
    }
    Some(read)
}

fn read_list<T: DeserializeOwned>(text: &str) -> Option<Vec<T>> {
    options().from_str(text).ok()
}

/// The first place from `from` on where a record begins at the beginning of a line.
fn next_record(text: &str, from: usize) -> Option<usize> {
    let mut at = from;
    loop {
        at += text.as_bytes()[at..].iter().position(|b| *b == b'\n')? + 1;
        if text[at..].starts_with(RECORD) {
            return Some(at);
        }
    }
}

fn count_lines(text: &str) -> usize {
    text.bytes().filter(|b| *b == b'\n').count()
}

#[cfg(test)]
mod tests;
