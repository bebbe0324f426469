//! A long list of records, each of which the program writes on a line of its own: what is not changed
//! is found without being read.

use std::borrow::Cow;

use super::align::{aligned, staying};
use super::arrange::{Slot, arrange};
use super::change::{Again, Change, digest, newline};
use super::layout::Fresh;
use super::merge::Merge;
use super::outline::{Outline, closed};
use super::place::{Row, Span};
use super::splice::Splices;
use super::three::{In, Three};
use crate::problem::{Node, Scan, Token, read_ron};

/// What changes a text of records into one of those that the program would write so; `None` where
/// either is no such list.
pub(super) fn change(text: &str, new: &str, again: Again) -> Option<Change> {
    let new = lines(new)?;
    let Outline {
        attributes,
        begin,
        end,
        spans,
        same,
    } = Outline::of(text, &new)?;
    let old: Vec<Cow<'_, str>> = spans
        .iter()
        .zip(&same)
        .map(|(span, same)| match same {
            Some(at) => Some(Cow::Borrowed(new[*at])),
            None => {
                let own = &text[span.start..span.end];
                again(&format!("{attributes}{own}")).map(Cow::Owned)
            }
        })
        .collect::<Option<_>>()?;
    let old: Vec<&str> = old.iter().map(AsRef::as_ref).collect();
    let row = Row {
        text,
        begin,
        end,
        spans: &spans,
    };
    let found = aligned(&old, &new);
    let stays = staying(&found);
    let nodes: Vec<Option<Node>> = (found.iter().zip(&new))
        .map(|(was, new)| was.is_none().then(|| Node::of(new)))
        .collect();
    let mut splices = Splices::default();
    let mut pieces = Vec::with_capacity(new.len());
    let mut slots = Vec::with_capacity(new.len());
    for (at, was) in found.iter().enumerate() {
        let Some(was) = *was else {
            let node = nodes[at].as_ref()?;
            slots.push(Slot::New(Fresh::unnamed(new[at], node)));
            pieces.push(Piece::Anew(new[at]));
            continue;
        };
        let span = spans[was];
        let own = &text[span.start..span.end];
        let mut within = Splices::default();
        if old[was] != new[at] {
            let record = Record {
                text,
                span,
                indent: row.indent(was),
            };
            within = record.change(old[was], new[at])?;
        }
        pieces.push(match old[was] == new[at] {
            true => Piece::ToTheLetter(own),
            false => Piece::Anew(new[at]),
        });
        if stays[at] {
            splices.append(within);
            slots.push(Slot::Stays(was));
        } else {
            slots.push(Slot::Moves(was, within));
        }
    }
    arrange(row, slots, newline(text), &mut splices)?;
    let splices = splices.in_order();
    let changed = splices.applied(text)?;
    holds(&changed, &pieces, again).then_some(Change {
        text: changed,
        splices,
        before: digest(old.into_iter()),
    })
}

/// The records of a list as the program writes it.
pub(super) fn lines(list: &str) -> Option<Vec<&str>> {
    let records = list.strip_prefix("[\n")?.strip_suffix("]\n")?;
    let lines = records.lines();
    lines
        .map(|line| line.strip_prefix("  ")?.strip_suffix(','))
        .collect()
}

/// What a record of the new text is, to be looked for in it.
enum Piece<'a> {
    /// This text.
    ToTheLetter(&'a str),
    /// One that the program would write so.
    Anew(&'a str),
}

/// Whether a text is a list of just these records: else some are in a comment, or other ones.
fn holds(text: &str, records: &[Piece<'_>], again: Again) -> bool {
    let is_list = || {
        let (attributes, begin) = Outline::begin(text)?;
        let mut scan = Scan::from(text, begin);
        // What is about the records, with nothing in place of each.
        let (mut about, mut behind) = (String::new(), 0);
        for record in records {
            let start = scan.pass_over_blanks();
            let end = match record {
                Piece::ToTheLetter(own) => {
                    let same = text[start..].starts_with(own);
                    same.then(|| start + own.len())?
                }
                Piece::Anew(new) => {
                    let end = closed(&mut scan)?;
                    let read = again(&format!("{attributes}{}", &text[start..end]))?;
                    (read == *new).then_some(end)?
                }
            };
            about += &text[behind..start];
            about += "()";
            behind = end;
            scan = Scan::from(text, end);
            if scan.peek() == Some(Token::Comma) {
                scan.next();
            }
        }
        about += &text[behind..];
        let list: Vec<()> = read_ron("", &about).ok()?;
        (list.len() == records.len()).then_some(())
    };
    is_list().is_some()
}

/// A record of the grower's that is to be another.
struct Record<'a> {
    text: &'a str,
    span: Span,
    indent: Option<&'a str>,
}

impl Record<'_> {
    /// What must change in it, by the places of the whole text.
    fn change(&self, old: &str, new: &str) -> Option<Splices> {
        let own = &self.text[self.span.start..self.span.end];
        let (own_node, old_node, new_node) = (Node::of(own), Node::of(old), Node::of(new));
        let mut splices = Splices::default();
        let mut merge = Merge {
            newline: newline(self.text),
            splices: &mut splices,
        };
        let as_in = |text, node| In { text, node };
        merge.merge(
            Three {
                own: as_in(own, &own_node),
                old: as_in(old, &old_node),
                new: as_in(new, &new_node),
            },
            self.indent,
        )?;
        Some(splices.in_order().moved(self.span.start))
    }
}
