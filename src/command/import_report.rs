//! What an import says, in words and as JSON.

use serde_json::{Value, json};

use crate::account::text::{Side, pad};
use crate::folder::sheet::Source;
use crate::table::Encoding;
use crate::variety::exchange::{Columns, Field, Filled, Import, Kind, Mapping, Taken, UnknownWord};

/// What became of an import.
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) enum Outcome {
    /// Only looked at.
    Previewed,
    /// Nothing to do.
    Unchanged,
    /// In the list, and on the disk.
    Saved,
    /// Nothing was done, for a row cannot be read.
    Refused,
}

/// An import that was worked out, and what became of it.
pub(super) struct Report<'a> {
    pub(super) file: &'a str,
    pub(super) source: &'a Source,
    pub(super) columns: &'a Columns,
    pub(super) import: &'a Import,
    pub(super) remembered: &'a [&'a Mapping],
    pub(super) outcome: Outcome,
}

/// Rows, words and notes listed of each kind in plain text.
const MOST_LISTED: usize = 20;
/// Characters of a cell shown in plain text.
const MOST_SHOWN: usize = 30;

impl Report<'_> {
    /// One object.
    pub(super) fn object(&self) -> Value {
        let import = self.import;
        let columns = self
            .columns
            .columns
            .iter()
            .zip(&import.samples)
            .map(|(column, samples)| {
                let samples = samples
                    .iter()
                    .map(|(found, read)| json!({ "found": found, "read": read }));
                json!({
                    "heading": column.heading,
                    "field": column.field.map(Field::heading),
                    "samples": samples.collect::<Vec<_>>(),
                })
            });
        let changed = import
            .changed
            .iter()
            .map(|one| json!({ "name": one.name, "fields": headings(one), "cells": cells(one) }));
        let new: Vec<&str> = import.new.iter().map(|one| one.name.as_str()).collect();
        let bad = import
            .bad
            .iter()
            .map(|row| json!({ "line": row.line, "name": row.name, "told": row.told }));
        let unknown = import.unknown.iter().map(|one| {
            json!({ "kind": one.kind.word(), "word": one.word, "lines": one.lines, "near": one.near })
        });
        let remembered = self.remembered.iter().map(|map| {
            json!({ "kind": map.kind.word(), "word": map.word.as_str(), "term": map.term.as_str() })
        });
        json!({
            "file": self.file,
            "read_as": self.source_words(),
            "rows": import.rows,
            "columns": columns.collect::<Vec<_>>(),
            "new": new,
            "changed": changed.collect::<Vec<_>>(),
            "same": import.same,
            "left_out": import.left_out,
            "bad": bad.collect::<Vec<_>>(),
            "unknown": unknown.collect::<Vec<_>>(),
            "notes": self.notes(),
            "remembered": remembered.collect::<Vec<_>>(),
            "outcome": match self.outcome {
                Outcome::Previewed => "previewed",
                Outcome::Unchanged => "unchanged",
                Outcome::Saved => "saved",
                Outcome::Refused => "refused",
            },
        })
    }

    /// Lines of text.
    pub(super) fn plain(&self) -> String {
        let import = self.import;
        let mut lines = vec![format!(
            "{}: {} rows, {}.",
            self.file,
            import.rows,
            self.source_words()
        )];
        if self.outcome == Outcome::Previewed {
            lines.extend(self.column_lines());
        }
        let unread = self
            .columns
            .columns
            .iter()
            .filter(|column| column.field.is_none());
        let unread: Vec<String> = unread
            .map(|column| format!("{:?}", column.heading))
            .collect();
        if !unread.is_empty() && self.outcome != Outcome::Previewed {
            lines.push(format!("Not read: the columns {}.", unread.join(", ")));
        }
        lines.extend(self.remembered.iter().map(|map| {
            format!(
                "Remembered: the {} {:?} is {}.",
                map.kind.word(),
                map.word.as_str(),
                map.term
            )
        }));
        list(
            &mut lines,
            import.unknown.iter().map(unknown_line).collect(),
            "words",
        );
        let bad = import.bad.iter().map(|row| {
            let name = row
                .name
                .as_deref()
                .map(|name| format!(", {name}"))
                .unwrap_or_default();
            format!("Line {}{name}: {}.", row.line, row.told)
        });
        list(&mut lines, bad.collect(), "rows");
        let notes = self
            .notes()
            .into_iter()
            .map(|note| format!("Note: {note}."));
        list(&mut lines, notes.collect(), "notes");
        if self.outcome == Outcome::Previewed {
            let changed = import
                .changed
                .iter()
                .map(|one| format!("Changes {}: {}.", one.name, in_words(one).join("; ")));
            list(&mut lines, changed.collect(), "changes");
        }
        let mut counts = format!(
            "{} new, {} changed, {} the same",
            import.new.len(),
            import.changed.len(),
            import.same
        );
        if import.left_out > 0 {
            counts.push_str(&format!(", {} left out", import.left_out));
        }
        lines.push(match self.outcome {
            Outcome::Previewed => format!("{counts}. Nothing was written."),
            Outcome::Unchanged => format!("{counts}. The list is as it was."),
            Outcome::Saved if import.left_out > 0 => format!("{counts}. Saved the rest."),
            Outcome::Saved => format!("{counts}. Saved."),
            Outcome::Refused => format!(
                "{counts}. Nothing was imported: map the words, mend the rows, or leave them out by --skip-bad."
            ),
        });
        lines.join("\n") + "\n"
    }

    fn column_lines(&self) -> Vec<String> {
        let columns = self.columns.columns.iter().zip(&self.import.samples);
        let line = |(column, samples): (
            &crate::variety::exchange::Column,
            &Vec<(String, Option<String>)>,
        )| {
            let samples = samples.iter().map(|(found, read)| match read {
                Some(read) => format!("{} -> {}", short(found), short(read)),
                None => short(found),
            });
            let field = column.field.map_or("not read", Field::heading);
            let heading = pad(&short(&column.heading), 20, Side::Left);
            let line = format!(
                "  {heading} {field:<18} {}",
                samples.collect::<Vec<_>>().join(" | ")
            );
            line.trim_end().to_string()
        };
        columns.map(line).collect()
    }

    fn notes(&self) -> Vec<String> {
        let mut notes = self.import.notes.clone();
        if let Source::Text(Encoding::Windows1252, _) = self.source {
            notes.insert(0, "the file is not UTF-8 and was read as Windows-1252; look whether accents are right".into());
        }
        notes
    }

    fn source_words(&self) -> String {
        match self.source {
            Source::Text(encoding, delimiter) => {
                format!("{encoding} text, {} between cells", delimiter.word())
            }
            Source::Workbook(sheet, 1) => format!("the sheet {sheet:?}"),
            Source::Workbook(sheet, count) => format!("the sheet {sheet:?}, one of {count}"),
        }
    }
}

/// An unknown word with where it stands, what is near it, and how to map it.
fn unknown_line(one: &UnknownWord) -> String {
    let (kind, word) = (one.kind.word(), &one.word);
    let first = one.lines.first().copied().unwrap_or_default();
    let place = match one.lines.len() {
        1 => format!("line {first}"),
        count => format!("{count} rows, first on line {first}"),
    };
    let near = match one.kind {
        _ if !one.near.is_empty() => format!("perhaps {}", one.near.join(", ")),
        Kind::Form => "trug rules lists the forms".to_string(),
        _ => "nothing near it is known".to_string(),
    };
    let term = one.near.first().map_or("TERM", String::as_str);
    format!("Unknown {kind} {word:?} ({place}); {near}; map it by --map {kind}:{word:?}={term:?}.")
}

/// The headings of what changes.
fn headings(one: &Taken) -> Vec<&'static str> {
    one.fields.iter().map(|field| field.heading).collect()
}

/// What changes, with what it was and what it will be.
fn cells(one: &Taken) -> Vec<Value> {
    let fields = one.fields.iter();
    let cell =
        |field: &Filled| json!({ "field": field.heading, "old": field.old, "new": field.new });
    fields.map(cell).collect()
}

/// The same in words: `height 900mm -> 950mm`.
fn in_words(one: &Taken) -> Vec<String> {
    let unknown = |value: &Option<String>| value.as_deref().map_or("?".to_string(), short);
    let fields = one.fields.iter();
    let told = |field: &Filled| {
        let (old, new) = (unknown(&field.old), unknown(&field.new));
        format!("{} {old} -> {new}", field.heading)
    };
    fields.map(told).collect()
}

fn list(lines: &mut Vec<String>, mut found: Vec<String>, what: &str) {
    let more = found.len().saturating_sub(MOST_LISTED);
    found.truncate(MOST_LISTED);
    lines.append(&mut found);
    if more > 0 {
        lines.push(format!(
            "... and {more} more {what}; --json lists them all."
        ));
    }
}

fn short(text: &str) -> String {
    if text.chars().count() <= MOST_SHOWN {
        return text.to_string();
    }
    let start: String = text.chars().take(MOST_SHOWN - 3).collect();
    format!("{start}...")
}
