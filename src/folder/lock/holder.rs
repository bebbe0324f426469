//! The line by which the program that has the folder is known to others.

use std::process;

use super::super::system;

/// The most of another program's line that is read and shown, in bytes: a name of a machine has at
/// most 64.
pub(super) const LONGEST: u64 = 200;
/// How every such line begins.
const BEGINS: &str = "process ";

/// This program's line. `since` is the time as others are to show it.
pub(super) fn line(since: &str) -> String {
    let on = match system::host() {
        host if host.is_empty() => String::new(),
        host => format!(" on {host}"),
    };
    format!("{BEGINS}{}{on}, since {since},\n", process::id())
}

/// Who wrote the first line of `text`, free of anything that could move a terminal's cursor.
pub(super) fn who(text: &[u8]) -> String {
    let line = String::from_utf8_lossy(text);
    let line = line.lines().next().unwrap_or_default().chars();
    let line: String = line
        .filter(|c| !c.is_control())
        .take(LONGEST as usize)
        .collect();
    match line.trim() {
        "" => "another program".to_string(),
        line => line.to_string(),
    }
}

/// Whether a file has nothing but such a line, or the beginning of one that found no room.
pub(super) fn is_line(text: &[u8]) -> bool {
    let Ok(text) = std::str::from_utf8(text) else {
        return false;
    };
    let line = text.strip_suffix('\n').unwrap_or(text);
    line.len() as u64 <= LONGEST
        && !line.contains(char::is_control)
        && (line.starts_with(BEGINS) || BEGINS.starts_with(line))
}

#[cfg(test)]
mod tests {
    use super::*;

    #[test]
    fn a_holders_line_is_told_from_all_else() {
        let own = line("14:05");
        for text in ["", "proc", "process 4711 on sker", own.as_str()] {
            assert!(is_line(text.as_bytes()), "{text}");
        }
        let two = format!("{own}{own}");
        let long = format!("process {}", "1".repeat(300));
        for text in ["[\n]\n", "x", "process 1\u{1b}[2J", &two, &long] {
            assert!(!is_line(text.as_bytes()), "{text}");
        }
        assert!(!is_line(b"process \xff"));
        assert_eq!(who(b"\n"), "another program");
    }
}
