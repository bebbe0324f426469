//! Values between two brackets taken out, put in and moved.

use super::layout::{Fresh, is_spread};
use super::place::{Next, Row};
use super::splice::Splices;

/// What stands at one place of the new row.
#[derive(Debug)]
pub(super) enum Slot<'a> {
    /// The value that stands there, by its place in the old row; these rise.
    Stays(usize),
    /// One from another place, with what changes in it.
    Moves(usize, Splices),
    /// A new one.
    New(Fresh<'a>),
}

/// Makes a row of these slots; what has none is taken out. `newline` ends the lines of the text.
/// `None` where the text is not what it was taken for.
pub(super) fn arrange(
    row: Row<'_>,
    slots: Vec<Slot<'_>>,
    newline: &str,
    splices: &mut Splices,
) -> Option<()> {
    let mut stays = vec![false; row.spans.len()];
    for slot in &slots {
        if let Slot::Stays(at) = slot {
            stays[*at] = true;
        }
    }
    let goes = |at: usize| !stays[at];
    let last_old = row.spans.len().checked_sub(1);
    let closed_by_comma = match last_old {
        Some(last) => row.comma(last).is_some(),
        None => row.last_line().is_some(),
    };
    let last_new = slots.len().saturating_sub(1);
    let mut after = None;
    for (place, slot) in slots.into_iter().enumerate() {
        let wants_comma = closed_by_comma || place < last_new;
        let put = Putting {
            row,
            after,
            newline,
            comma: if wants_comma { "," } else { "" },
            more: place < last_new,
        };
        match slot {
            Slot::Stays(at) => {
                after = Some(at);
                if Some(at) != last_old && place < last_new {
                    continue;
                }
                match row.comma(at) {
                    None if wants_comma => splices.insert(row.next(at), ","),
                    Some(comma) if !wants_comma => splices.push(comma..comma + 1, ""),
                    _ => {}
                }
            }
            Slot::Moves(at, within) => put.moved(at, within, &goes, splices)?,
            Slot::New(fresh) => put.value(&put.laid_out(fresh), "", splices),
        }
    }
    for at in (0..row.spans.len()).filter(|at| goes(*at)) {
        splices.push(row.all_of(at, &goes), "");
    }
    Some(())
}

/// Where and how a value is put in.
struct Putting<'a> {
    row: Row<'a>,
    /// The value that it follows; `None` for the first.
    after: Option<usize>,
    newline: &'a str,
    comma: &'static str,
    /// Whether another follows it.
    more: bool,
}

impl<'a> Putting<'a> {
    /// The value whose way of standing is followed.
    fn neighbour(&self) -> Option<usize> {
        self.after.or((!self.row.spans.is_empty()).then_some(0))
    }

    /// The indentation of the new value's own line; `None` where it stands on the line of others.
    fn line(&self) -> Option<String> {
        let row = self.row;
        match self.neighbour() {
            Some(at) if self.after.is_some() && row.tail(at).1 == Next::Value => None,
            Some(at) => row.indent(at).map(str::to_string),
            None => {
                // One step more than the bracket that closes.
                let line = &row.text[row.last_line()?..row.end];
                Some(format!("{}  ", line.trim_start_matches(['\r', '\n'])))
            }
        }
    }

    fn place(&self) -> usize {
        match (self.after, self.row.last_line(), self.row.spans) {
            (Some(at), _, _) if self.line().is_some() => self.row.tail(at).0,
            (Some(at), _, _) => self.row.next(at),
            (None, Some(line), []) => line,
            (None, _, _) => self.row.head(),
        }
    }

    fn laid_out(&self, fresh: Fresh<'_>) -> String {
        let spread = self.neighbour().is_some_and(|at| {
            let span = self.row.spans[at];
            is_spread(&self.row.text[span.start..span.end])
        });
        match self.line() {
            None => fresh.on_one_line(),
            Some(indent) if spread && fresh.is_unnamed() => fresh.spread(&indent, self.newline),
            Some(indent) => fresh.on_lines(&indent, self.newline),
        }
    }

    /// Puts in a value with the comments behind it.
    fn value(&self, value: &str, behind: &str, splices: &mut Splices) {
        let (place, comma) = (self.place(), self.comma);
        let blank = if self.more { " " } else { "" };
        let end = self.end_of_line(place, behind);
        match (self.line(), self.after) {
            (Some(indent), _) => {
                let newline = self.newline;
                let line = format!("{newline}{indent}{value}{comma}{behind}{end}");
                splices.insert(place, line);
            }
            (None, Some(_)) => splices.insert(place, format!(" {value}{comma}{behind}{end}")),
            (None, None) => {
                splices.insert(place, format!("{value}{comma}{behind}{blank}{end}"));
            }
        }
    }

    /// Puts in a value from another place, with the comments that are its own.
    fn moved(
        &self,
        at: usize,
        mut within: Splices,
        goes: &dyn Fn(usize) -> bool,
        splices: &mut Splices,
    ) -> Option<()> {
        let (row, own, comma) = (self.row, self.row.spans[at], self.row.comma(at));
        let (tail, next) = row.tail(at);
        let whole_lines = row.line_before(at).is_some() && next == Next::Line;
        if whole_lines && self.line().is_some() {
            if comma.is_none() {
                within.insert(own.end, self.comma);
            }
            let lines = within
                .in_order()
                .applied_within(row.text, row.all_of(at, goes))?;
            let end = self.end_of_line(self.place(), &lines);
            splices.insert(self.place(), lines + end);
            return Some(());
        }
        let from = row.all_of(at, goes).start;
        let value = within.in_order().applied_within(row.text, from..own.end)?;
        let behind = match comma {
            Some(comma) => [&row.text[own.end..comma], &row.text[comma + 1..tail]].concat(),
            None => row.text[own.end..tail].to_string(),
        };
        self.value(value.trim_start(), behind.trim_end(), splices);
        Some(())
    }

    /// What must follow a text at a place for a comment at its end to be no longer than it is.
    fn end_of_line(&self, place: usize, text: &str) -> &'a str {
        let rest = self.row.text[place..].trim_start_matches([' ', '\t', '\r']);
        let last = text.rsplit('\n').next().unwrap_or_default();
        let goes_on = self.more && self.line().is_none();
        match last.contains("//") && (goes_on || !rest.starts_with('\n')) {
            true => self.newline,
            false => "",
        }
    }
}
