//! The lines of a journal: each with its check sum, a long file in one part a core.

use std::panic::resume_unwind;
use std::thread;

/// Bytes that are read before a second thread starts.
const WORTH_SPLITTING: usize = 256 * 1024;

/// A line that holds a whole entry.
#[derive(Debug, Clone, Copy)]
pub struct Line<'a> {
    /// Its number, from 1.
    pub number: usize,
    /// The byte of the file that it begins at.
    pub start: usize,
    /// The entry's text.
    pub text: &'a str,
}

/// What lines hold that have their ends.
pub(super) struct Ended<E> {
    pub(super) entries: Vec<E>,
    /// The line of each entry.
    pub(super) numbers: Vec<usize>,
    /// The lines that are damaged.
    pub(super) damaged: Vec<usize>,
    /// How many lines there are.
    pub(super) lines: usize,
}

/// Lines that have their ends, one part of them.
struct Part<'a> {
    bytes: &'a [u8],
    /// Bytes and lines before it.
    from: usize,
    before: usize,
    lines: usize,
}

/// Reads lines that have their ends, the entry of each by `read`, which may leave it out.
pub(super) fn ended<E: Send>(
    bytes: &[u8],
    read: &(impl Fn(Line<'_>) -> Option<E> + Sync),
) -> Ended<E> {
    let mut parts = Vec::new();
    let (mut before, mut from) = (0, 0);
    for bytes in in_parts(bytes) {
        let lines = memchr::memchr_iter(b'\n', bytes).count();
        parts.push(Part {
            bytes,
            from,
            before,
            lines,
        });
        before += lines;
        from += bytes.len();
    }
    thread::scope(|scope| {
        let mut parts = parts.into_iter();
        let first = parts.next();
        let others: Vec<_> = parts
            .map(|part| scope.spawn(move || part.read(part.lines, read)))
            .collect();
        // Room for all, so that only the others' entries are moved.
        let mut all = match first {
            Some(first) => first.read(before + 1, read),
            None => Ended::with_room(0),
        };
        for other in others {
            let mut other = other.join().unwrap_or_else(|panic| resume_unwind(panic));
            all.entries.append(&mut other.entries);
            all.numbers.append(&mut other.numbers);
            all.damaged.append(&mut other.damaged);
            all.lines += other.lines;
        }
        all
    })
}

impl Part<'_> {
    fn read<E>(&self, room: usize, read: &impl Fn(Line<'_>) -> Option<E>) -> Ended<E> {
        let mut all = Ended::with_room(room);
        let mut start = 0;
        for (number, end) in (self.before + 1..).zip(memchr::memchr_iter(b'\n', self.bytes)) {
            match entry(&self.bytes[start..end]) {
                Some(text) => {
                    let start = self.from + start;
                    if let Some(entry) = read(Line {
                        number,
                        start,
                        text,
                    }) {
                        all.entries.push(entry);
                        all.numbers.push(number);
                    }
                }
                None => all.damaged.push(number),
            }
            start = end + 1;
        }
        all.lines = self.lines;
        all
    }
}

impl<E> Ended<E> {
    fn with_room(entries: usize) -> Ended<E> {
        Ended {
            entries: Vec::with_capacity(entries),
            numbers: Vec::with_capacity(entries),
            damaged: Vec::new(),
            lines: 0,
        }
    }
}

/// The lines in one part a core; a short book in one.
fn in_parts(bytes: &[u8]) -> Vec<&[u8]> {
    let cores = thread::available_parallelism().map_or(1, usize::from);
    let most = (bytes.len() / WORTH_SPLITTING + 1).min(cores);
    let mut parts = Vec::new();
    let mut rest = bytes;
    for left in (1..=most).rev() {
        let after = memchr::memchr(b'\n', &rest[rest.len() / left..]);
        let cut = after.map_or(rest.len(), |at| rest.len() / left + at + 1);
        let (part, others) = rest.split_at(cut);
        parts.push(part);
        rest = others;
    }
    parts
}

/// The text of a line, if it fits its sum.
pub(in crate::folder) fn entry(line: &[u8]) -> Option<&str> {
    let (sum, text) = (line.get(..8)?, line.get(9..)?);
    let fits = written_sum(sum)? == crc32fast::hash(text) && line[8] == b' ';
    fits.then(|| str::from_utf8(text).ok())?
}

/// The sum that eight digits stand for; `None` of any others than are written.
fn written_sum(digits: &[u8]) -> Option<u32> {
    digits.iter().try_fold(0, |sum, digit| {
        let value = match digit {
            b'0'..=b'9' => digit - b'0',
            b'a'..=b'f' => digit - b'a' + 10,
            _ => return None,
        };
        Some(sum << 4 | u32::from(value))
    })
}
