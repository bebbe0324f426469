//! The steps drawn: what is asked or told, and under it what is picked from.

use ratatui::buffer::Buffer;
use ratatui::layout::Constraint::{Fill, Length};
use ratatui::layout::Rect;

use super::Importing;
use super::file::FileStep;
use super::reading::{Reading, counted};
use super::steps::Step;
use crate::screen::kit::area;
use crate::screen::kit::part::{Part, about};
use crate::screen::kit::text::{Row, lines};
use crate::screen::theme::{Role, Theme};
use crate::variety::exchange::{About, Offered, Question, UNKNOWN, WhyAsked};

impl Importing {
    /// Draws the step that is open.
    pub(in crate::screen) fn draw(&self, area: Rect, buffer: &mut Buffer, theme: Theme) {
        let (columns, height) = area::size(area);
        let columns = area::of_words(area).min(columns).saturating_sub(1);
        let (said, head, below): (Vec<Row>, Row, Rows<'_>) = match (self.step, &self.reading) {
            (Step::Asking, Some(reading)) => reading.asked(columns),
            (Step::Preview, Some(reading)) => reading.previewed(columns),
            _ => self.file.drawn(columns),
        };
        let said_height = u16::try_from(said.len().min(height / 2)).unwrap_or(area.height);
        let [over, under] = area::rows(area, [Length(said_height), Fill(1)]);
        Part::bare(said).words().paint(over, buffer, theme);
        let [_, body] = area::below_head(under);
        let rows = below(area::size(body).1);
        Part::new(head, rows).paint(under, buffer, theme);
    }
}

/// The rows of a part, by the height that it has.
type Rows<'a> = Box<dyn Fn(usize) -> Vec<Row> + 'a>;

impl FileStep {
    fn drawn(&self, columns: usize) -> (Vec<Row>, Row, Rows<'_>) {
        let hint = "CSV, XLSX or ODS. Enter opens what the cursor is on, Tab completes.";
        let said = self.line().rows("File", (hint, Role::Quiet), columns);
        let shown = &self.listing().shown;
        let head = Row::of(
            if shown.is_empty() {
                "Files"
            } else {
                shown.as_str()
            },
            Role::Heading,
        );
        let rows = move |height: usize| {
            let (matching, cursor) = (self.matching(), self.cursor());
            let mut rows: Vec<Row> = matching
                .iter()
                .enumerate()
                .map(|(at, one)| {
                    let slash = if one.is_folder { "/" } else { "" };
                    picked(&format!("{}{slash}", one.name), "", at, cursor)
                })
                .collect();
            if rows.is_empty() {
                rows.push(Row::of(
                    "  no folder and no table goes on from what is typed",
                    Role::Quiet,
                ));
            }
            if self.listing().more > 0 {
                let more = format!("  {} more names are not shown", self.listing().more);
                rows.push(Row::of(more, Role::Doubt));
            }
            about(rows, cursor, height)
        };
        (said, head, Box::new(rows))
    }
}

impl Reading {
    fn asked(&self, columns: usize) -> (Vec<Row>, Row, Rows<'_>) {
        let Some(question) = self.question() else {
            return (Vec::new(), Row::default(), Box::new(|_| Vec::new()));
        };
        let so_far = self.intake.answered();
        let place = format!(
            "{}, question {} of {} or more. ",
            self.name(),
            so_far + 1,
            so_far + self.questions.len()
        );
        let mut said = lines(
            &format!("{place}{}", sentence(question)),
            Role::Strong,
            columns,
        );
        if !question.samples.is_empty() {
            let cells = format!("Its cells: {}", question.samples.join(" | "));
            said.extend(lines(&cells, Role::Plain, columns));
        }
        if let Some(line) = &self.line {
            let hint = "Enter gives the answer under the cursor, else what is typed.";
            said.extend(line.rows("Answer", (hint, Role::Quiet), columns));
        }
        if let Some(note) = &self.note {
            said.extend(lines(note, Role::Wrong, columns));
        }
        let head = Row::of(asks(question), Role::Heading);
        let rows = move |height: usize| {
            let answers = self.answers();
            let cursor = self.cursor.row(answers.len());
            let row = |(at, one): (usize, &Offered)| {
                let (key, term) = match (one.term.as_str(), self.is_typed()) {
                    (UNKNOWN, _) => ("0 ".to_string(), left_out(question)),
                    (term, false) if at < 9 => (format!("{} ", at + 1), term),
                    (term, _) => (String::new(), term),
                };
                picked(&format!("{key}{term}"), &one.means, at, cursor)
            };
            let rows: Vec<Row> = answers.iter().enumerate().map(row).collect();
            about(rows, cursor, height)
        };
        (said, head, Box::new(rows))
    }

    fn previewed(&self, columns: usize) -> (Vec<Row>, Row, Rows<'_>) {
        let Some(import) = self.import() else {
            return (Vec::new(), Row::default(), Box::new(|_| Vec::new()));
        };
        let said = self.counts(import, columns);
        let head = "! not read  ~ changed, old -> new  + new";
        let rows = move |height| self.preview(import, columns, height);
        (said, Row::of(head, Role::Heading), Box::new(rows))
    }
}

/// One that can be picked, the cursor before it where it is there.
fn picked(text: &str, means: &str, at: usize, cursor: usize) -> Row {
    let chosen = at == cursor;
    let mark = if chosen { "> " } else { "  " };
    let row = Row::of(mark, Role::Key).with(text, Role::Plain);
    let row = match means {
        "" => row,
        means => row.with(format!("  {means}"), Role::Quiet),
    };
    row.in_list(chosen)
}

/// What is asked, in a sentence.
fn sentence(question: &Question) -> String {
    match &question.about {
        About::Name => "No heading is known as that of the names.".to_string(),
        About::Heading { heading, why } => match why {
            WhyAsked::Unread => format!("The heading {heading:?} is not known."),
            WhyAsked::Either => format!("The heading {heading:?} may mean either of two things."),
            WhyAsked::Same(other) => {
                format!("The heading {heading:?} seems to say the same as {other:?}.")
            }
        },
        About::Supplier => "There are prices or packs, and no column says who sells.".to_string(),
        About::Pack => "There are prices, and no column says of how many tubers.".to_string(),
        About::Word { kind, word, rows } => {
            let rows = counted(*rows, "row");
            format!(
                "The {} {word:?} is not known; it stands in {rows}.",
                kind.word()
            )
        }
    }
}

/// What the answers are.
fn asks(question: &Question) -> &'static str {
    match question.about {
        About::Name => "Which is it? (Enter)",
        About::Heading { .. } => "What is it? (Enter; / another field)",
        About::Word { .. } => "What does it mean? (Enter; / another word)",
        About::Supplier => "Who sells? (Enter; / another name)",
        About::Pack => "Tubers in a pack? (Enter; / another number)",
    }
}

/// What it means to leave out what is asked about.
fn left_out(question: &Question) -> &'static str {
    match question.about {
        About::Word { .. } => "leave the field as it is",
        _ => "leave the column out",
    }
}
