//! Looking through the forms: each drawn, with what tells it and how the bloom at hand stands to it.

use ratatui::buffer::Buffer;
use ratatui::layout::Constraint::{Fill, Length};
use ratatui::layout::Rect;

use super::answered::why_words;
use super::layout::BETWEEN;
use super::{Entry, KeyPage, forms};
use crate::form::sentences::percent;
use crate::form::traits::list_and;
use crate::form::words::span_words;
use crate::form::{RuleSet, Shape};
use crate::measure::SizeUnits;
use crate::screen::bloom;
use crate::screen::kit::area;
use crate::screen::kit::cursor::Cursor;
use crate::screen::kit::part::{Part, about};
use crate::screen::kit::text::{Row, fit, paragraph};
use crate::screen::theme::{Role, Theme};

/// The width of the list, and where there is room for the longest names.
const LIST: u16 = 26;
const WIDE_LIST: u16 = 30;
/// In a narrower window the list stands over the words, so many rows of it.
const BESIDE: u16 = 60;
const OVER: u16 = 6;
/// The fewest rows of words under the drawings.
const LEAST_WORDS: u16 = 7;
/// The most rows of a drawing.
const MOST: u16 = 20;

/// The name of a line of words, and the gap behind it.
const LEAD: usize = 10;

/// Where the list, the drawings and the words are.
#[derive(Debug, Clone, Copy)]
pub(super) struct Parts {
    head: Rect,
    list: Rect,
    drawn: Rect,
    words: Rect,
    /// Columns and rows of one drawing; none where there is no room.
    pub(super) drawing: (u16, u16),
}

impl Parts {
    pub(super) fn of(area: Rect) -> Parts {
        let list = match area.width {
            100.. => WIDE_LIST,
            _ => LIST,
        };
        let [head, body] = area::below_head(area);
        if area.width < BESIDE {
            let [list, words] = area::rows(body, [Length(OVER), Fill(1)]);
            let drawn = area::none(body);
            return Parts {
                head,
                list,
                drawn,
                words,
                drawing: (0, 0),
            };
        }
        let [list, right] = area::columns(body, BETWEEN, [Length(list), Fill(1)]);
        let widest = right.width.saturating_sub(2) / 4;
        let rows = right.height.saturating_sub(LEAST_WORDS + 1).min(widest);
        // Smaller than this forms look alike: words have the room then.
        let rows = match rows.min(MOST) {
            rows if rows + 2 < bloom::SMALL.1 => 0,
            rows => rows,
        };
        let drawn = match rows {
            0 => 0,
            rows => rows + 1,
        };
        let [drawn, words] = area::rows(right, [Length(drawn), Fill(1)]);
        Parts {
            head,
            list,
            drawn,
            words,
            drawing: (rows * 2, rows),
        }
    }
}

impl KeyPage {
    /// Opens the list at the likeliest form.
    pub(super) fn browse(&mut self) {
        let leading = forms::ranked(self).first().map(|likely| likely.form);
        self.entry = Entry::Browse(Cursor::on(leading.unwrap_or(0)));
    }

    pub(super) fn draw_browser(&self, at: usize, area: Rect, buffer: &mut Buffer, theme: Theme) {
        let parts = Parts::of(area);
        let set = &self.keyer().set;
        let form = set.forms.get(at);
        let (name, id) = form.map_or(("", ""), |form| (&form.name, &form.id));
        let (columns, height) = area::size(parts.list);
        let head = match parts.list.width < area.width {
            true => Row::of("Forms: + fits the answers", Role::Heading)
                .fit(columns + usize::from(BETWEEN)),
            false => Row::of("+ fits the answers. ", Role::Heading),
        };
        let head = head.with(name, Role::Heading);
        Part::bare(vec![head]).paint(parts.head, buffer, theme);
        let forms = about(self.form_rows(at, columns), at, height);
        Part::bare(forms).paint(parts.list, buffer, theme);
        let gap = usize::from(parts.drawn.width)
            .saturating_sub(self.portraits.face.columns() * 2)
            .min(BETWEEN.into());
        Part::bare(self.portraits.across(gap)).paint(parts.drawn, buffer, theme);
        let words = self.form_words(at, parts.words.width.into());
        let more = format!("(trug rules show {id})");
        Part::bare(words)
            .more(more)
            .paint(parts.words, buffer, theme);
    }

    /// The forms in the order of the rules, each with its mark.
    fn form_rows(&self, at: usize, columns: usize) -> Vec<Row> {
        let set = &self.keyer().set;
        let row = |(index, form): (usize, &crate::form::Form)| {
            let allowed = self.reading.verdict.possible.contains(&index);
            let (sign, role) = match allowed {
                true => ("+ ", Role::Fits),
                false => ("- ", Role::Quiet),
            };
            let cursor = if index == at { "> " } else { "  " };
            let name = fit(&form.name, columns.saturating_sub(4));
            Row::of(cursor, Role::Key)
                .with(sign, role)
                .with(name, Role::Plain)
                .in_list(index == at)
        };
        set.forms.iter().enumerate().map(row).collect()
    }

    /// What tells the form, and how the answers stand to it.
    fn form_words(&self, at: usize, columns: usize) -> Vec<Row> {
        let set = &self.keyer().set;
        let Some(form) = set.forms.get(at) else {
            return Vec::new();
        };
        let shape = set.shape_of(at);
        let mut rows = paragraph(("", Role::Plain), &shape.means, Role::Strong, columns);
        let mut say = |lead: &str, text: &str| {
            let lead = format!("{lead:<LEAD$}");
            rows.extend(paragraph((&lead, Role::Quiet), text, Role::Plain, columns));
        };
        if let Some(likely) = self.reading.likely.iter().find(|likely| likely.form == at)
            && !self.answers.is_empty()
        {
            let why = why_words(self, likely);
            say("yours", &format!("{}; {why}", percent(likely.share)));
        }
        if let Some(diameter) = set.traits.find("diameter") {
            let one = set.traits.get(diameter);
            say("across", &span_words(one, form.diameter, self.units));
        }
        for (at, near) in self.keyer().neighbours(at, self.units).iter().enumerate() {
            let lead = if at == 0 { "but with" } else { "" };
            say(
                lead,
                &format!("{}: {}", near.wants, set.shapes[near.shape].name),
            );
        }
        if let Some(typical) = set.typical_said(shape, self.units) {
            say("often", &typical);
        }
        say("rule", &rule_words(set, shape, self.units));
        rows
    }
}

/// The rule in words, and what is to be known of its limits.
fn rule_words(set: &RuleSet, shape: &Shape, units: SizeUnits) -> String {
    let mut words = set.rule_said(shape, units);
    let before = shape.unless.iter().map(|at| set.shapes[*at].name.as_str());
    let before: Vec<&str> = before.collect();
    if !before.is_empty() {
        words += &format!("; and none of {}", list_and(&before));
    }
    for limit in set.limits_said(shape, units) {
        words += &format!(". {limit}");
    }
    words
}
