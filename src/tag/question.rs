//! One question of the card, with its answers and what they look like.

use super::flow::{Flow, curly, together};
use super::pictured::AnswerPictures;
use crate::form::RuleSet;
use crate::form::card::{CardStep, Leads};
use crate::paper::{Printable, Style, Unprintable};

/// How far in a question stands from its number, in mm for each point of the letters.
const NUMBER: f64 = 0.62;
/// What stays blank between a picture and its words, in mm.
const BESIDE: f64 = 0.6;
/// What stays blank between one answer and the next in a row, in mm.
const BETWEEN: f64 = 1.5;

/// The pictures beside answers, and their side in mm; 0 where there are none.
pub(super) struct Beside<'a> {
    pub(super) pictures: &'a AnswerPictures,
    pub(super) side: f64,
}

/// A question with its answers: those that can be drawn in rows of pictures, others a line each.
///
/// # Errors
/// [`Unprintable`] where a letter cannot be set or a word is wider than the column.
pub(super) fn draw_question(
    flow: &mut Flow,
    (number, step): (usize, &CardStep),
    set: &RuleSet,
    points: f64,
    beside: &Beside<'_>,
) -> Result<(), Unprintable> {
    // The number hangs beside the question, so that the eye finds it from the arrow.
    let indent = NUMBER * points;
    let mut hanging = flow.clone();
    hanging.items.clear();
    hanging.say(&number.to_string(), Style::bold(points))?;
    flow.items.extend(hanging.items);
    flow.indented(&step.ask, Style::bold(points), indent)?;
    let mut row = AnswerRow {
        left: indent,
        at: indent,
        style: Style::regular(points),
        beside,
    };
    for answer in &step.answers {
        let words = &answer.words;
        let told = match answer.leads {
            Leads::Step(number) => format!("{words} \u{2192} {number}"),
            Leads::Shape(_) | Leads::Form(_) => {
                format!("{words}: {}", answer.leads.in_words(set).to_uppercase())
            }
        };
        row.put(flow, (step.index, answer.atoms), &told)?;
    }
    row.end(flow);
    Ok(())
}

/// The answers to a question: those with pictures side by side as far as there is room.
struct AnswerRow<'a> {
    /// How far in they begin, and how far in the next one of this row does, in mm.
    left: f64,
    at: f64,
    style: Style,
    beside: &'a Beside<'a>,
}

impl AnswerRow<'_> {
    fn put(&mut self, flow: &mut Flow, shown: (usize, u64), told: &str) -> Result<(), Unprintable> {
        let side = self.beside.side;
        let pictures = self.beside.pictures.width(shown.0, shown.1, side);
        if pictures <= 0.0 {
            self.end(flow);
            return flow.indented(told, self.style, self.left);
        }
        let words = Printable::new(&curly(&together(told)))?.width(self.style);
        let wide = pictures + BESIDE + words + BETWEEN;
        if self.at > self.left && self.at + wide > flow.width() {
            self.end(flow);
        }
        // The words stand half way up the picture, or start level with it where they are more.
        let by = self.at + pictures + BESIDE;
        let mut own = flow.clone();
        own.indented(told, self.style, by)?;
        let high = own.y - flow.y;
        let (left, top) = flow.corner(self.at);
        flow.items
            .extend(self.beside.pictures.items(shown, side, (left, top)));
        let mut level = flow.clone();
        level.gap((side - high).max(0.0) / 2.0);
        level.indented(told, self.style, by)?;
        flow.items = level.items;
        if high > side {
            // A long one has its row to itself.
            flow.gap(high);
            self.at = self.left;
        } else {
            self.at += wide;
        }
        Ok(())
    }

    /// Ends a row of pictures that has begun.
    fn end(&mut self, flow: &mut Flow) {
        if self.at > self.left {
            flow.gap(self.beside.side);
            self.at = self.left;
        }
    }
}
