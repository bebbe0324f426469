//! What RON's reader says of a text, turned into what was found and what was expected.

use ron::error::{Error, Position, SpannedError};

use super::{Problem, steers};

/// The most characters of the text that a message repeats.
const LONGEST_FOUND: usize = 32;
/// The same of a value that the reader describes in words of its own.
const LONGEST_VALUE: usize = 80;

/// The problem that RON's reader met in `text`, in words, at the word or mark that is wrong.
pub(super) fn problem(file: &str, text: &str, error: &SpannedError) -> Problem {
    let (start, end) = (
        offset(text, error.span.start),
        offset(text, error.span.end).min(text.len()),
    );
    let at = match &error.code {
        // The reader stops in front of what it cannot read ...
        code if is_syntax(code) => whole_number(text, end),
        Error::MissingStructField { .. } => end,
        Error::UnclosedBlockComment => text[..start].rfind("/*").unwrap_or(start),
        // What is said of a record that was read whole is said at its end ...
        Error::Message(_) if before(text, start).ends_with(')') => before(text, start).len() - 1,
        // ... and behind a word or number that it has read and that does not fit.
        _ => token_start(text, start),
    };
    let found = found_at(text, at);
    let message = match (&error.code, expected(&error.code)) {
        // Messages of our own types say both already.
        (Error::Message(message), _) => message.clone(),
        (Error::InvalidValueForType { expected, .. }, _) if expected.starts_with("a nonzero ") => {
            format!("found {found}, expected a whole number of at least 1")
        }
        (Error::InvalidValueForType { expected, found }, _) => {
            let found = beginning(&found.replace('`', ""), LONGEST_VALUE);
            format!("found {found}, expected {expected}")
        }
        (Error::ExpectedDifferentLength { expected, found }, _) => {
            // The parser names our own types; how many values there should be is all that helps.
            let count: String = expected.chars().filter(char::is_ascii_digit).collect();
            format!("found {found} values, expected {count}")
        }
        (Error::MissingStructField { field, .. }, _) => {
            format!("found no field {field}, expected it before the closing )")
        }
        (Error::DuplicateStructField { field, .. }, _) => {
            format!("found the field {field} a second time, expected it once")
        }
        (
            Error::NoSuchStructField {
                found, expected, ..
            },
            _,
        ) => {
            format!(
                "found the field {:?}, expected {}",
                shown(found),
                one_of(expected)
            )
        }
        (
            Error::NoSuchEnumVariant {
                found, expected, ..
            },
            _,
        ) => {
            format!("found {:?}, expected {}", shown(found), one_of(expected))
        }
        // The reader of whole numbers stopped at the point.
        (Error::ExpectedComma, _) if at < end && found.parse::<f64>().is_ok() => {
            format!("found {found}, expected a whole number")
        }
        (_, Some(expected)) => format!("found {found}, expected {expected}"),
        (code, None) => format!("found {found}: {code}"),
    };
    Problem::at(file, text, at, message)
}

/// Whether the reader stopped at the first character that does not fit.
fn is_syntax(code: &Error) -> bool {
    use Error as E;
    matches!(
        code,
        E::Eof
            | E::ExpectedArray
            | E::ExpectedArrayEnd
            | E::ExpectedBoolean
            | E::ExpectedComma
            | E::ExpectedChar
            | E::ExpectedFloat
            | E::ExpectedInteger
            | E::ExpectedOption
            | E::ExpectedOptionEnd
            | E::ExpectedMap
            | E::ExpectedMapColon
            | E::ExpectedMapEnd
            | E::ExpectedStructLike
            | E::ExpectedNamedStructLike(_)
            | E::ExpectedStructLikeEnd
            | E::ExpectedUnit
            | E::ExpectedString
            | E::ExpectedIdentifier
            | E::TrailingCharacters
            | E::UnexpectedChar(_)
    )
}

fn expected(code: &Error) -> Option<String> {
    use Error as E;
    let words = match code {
        E::Eof => "the rest of the text",
        E::ExpectedArray => "a list, beginning with [",
        E::ExpectedArrayEnd => "a comma or the end of the list, ]",
        E::ExpectedBoolean => "true or false",
        E::ExpectedComma => "a comma or a closing bracket",
        E::ExpectedFloat => "a number",
        E::ExpectedInteger => "a whole number",
        E::ExpectedMap => "a table, beginning with {",
        E::ExpectedMapColon => "a colon",
        E::ExpectedMapEnd => "a comma or the end of the table, }",
        E::ExpectedStructLike | E::ExpectedNamedStructLike(_) | E::ExpectedOption => {
            "a record, beginning with ("
        }
        E::ExpectedStructLikeEnd | E::ExpectedOptionEnd => "a comma or a closing )",
        E::ExpectedString => "text in double quotes",
        E::ExpectedStringEnd => "a double quote at the end of this text",
        E::ExpectedChar => "a character in single quotes",
        E::ExpectedIdentifier => "a word without quotes",
        E::ExpectedDifferentStructName { .. } => "a record, beginning with (",
        E::IntegerOutOfBounds => "a whole number that is not below or above what fits here",
        E::InvalidIntegerDigit { .. } => "a whole number",
        E::InvalidEscape(_) => "only \\n, \\t, \\\", \\\\ and \\u{...} after a backslash in a text",
        E::SuggestRawIdentifier(word) => {
            return Some(format!("r#{}, as it has a hyphen", shown(word)));
        }
        E::TrailingCharacters => "the end of the file",
        E::UnclosedBlockComment => "*/ at the end of the comment",
        E::ExceededRecursionLimit => "fewer brackets within brackets",
        _ => return None,
    };
    Some(words.to_string())
}

/// `a`, `a or b`, `a, b or c`.
fn one_of(words: &[&str]) -> String {
    match words {
        [] => "nothing here".to_string(),
        [one] => (*one).to_string(),
        [rest @ .., last] => format!("{} or {last}", rest.join(", ")),
    }
}

/// The byte at a place that is counted in lines and characters from 1; the end if it is beyond.
fn offset(text: &str, place: Position) -> usize {
    let line = text
        .split_inclusive('\n')
        .take(place.line.saturating_sub(1))
        .map(str::len)
        .sum::<usize>();
    text[line..]
        .char_indices()
        .nth(place.col.saturating_sub(1))
        .map_or(text.len(), |(at, _)| line + at)
}

/// The text before a place, without blanks at its end and the comma behind a record.
fn before(text: &str, at: usize) -> &str {
    let text = text[..at].trim_end();
    text.strip_suffix(',').unwrap_or(text).trim_end()
}

/// Where the word, number or text begins that the reader was in at `at`.
fn token_start(text: &str, at: usize) -> usize {
    let at = text.len() - text[at..].trim_start().len();
    match text[..at].chars().next_back() {
        // The reader is within the quotes, or behind the sign.
        Some('"' | '-' | '+') => at - 1,
        _ => at,
    }
}

/// A reader of whole numbers stops at the point of 3.5: that number's beginning, else `at`.
fn whole_number(text: &str, at: usize) -> usize {
    if !text[at..].starts_with('.') {
        return at;
    }
    let digits = text[..at]
        .bytes()
        .rev()
        .take_while(|b| b.is_ascii_digit() || *b == b'-')
        .count();
    at - digits
}

/// The word, number, text or mark at `at`, as a message shows it.
fn found_at(text: &str, at: usize) -> String {
    let rest = &text[at..];
    let is_word = |c: char| c.is_alphanumeric() || matches!(c, '_' | '-' | '+' | '.' | '#');
    let Some(first) = rest.chars().next() else {
        return "the end of the file".to_string();
    };
    let length = match first {
        '"' => {
            1 + rest[1..].find(['"', '\n']).map_or(rest.len() - 1, |end| {
                end + usize::from(rest[1 + end..].starts_with('"'))
            })
        }
        c if is_word(c) => rest.find(|c| !is_word(c)).unwrap_or(rest.len()),
        c => c.len_utf8(),
    };
    let told = shown(&rest[..length]);
    match told.is_empty() {
        true => format!("{first:?}"),
        false => told,
    }
}

/// So much of a word as a message shows of it.
fn shown(word: &str) -> String {
    beginning(word, LONGEST_FOUND)
}

/// The beginning of a text, without what steers a terminal.
fn beginning(text: &str, most: usize) -> String {
    let more = text.chars().nth(most).map_or("", |_| "...");
    let kept = text.chars().take(most).filter(|c| !steers(*c));
    kept.collect::<String>() + more
}

#[cfg(test)]
mod tests;
