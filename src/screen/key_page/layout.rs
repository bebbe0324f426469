//! Where each part of the Key page is: a pure function of the area and of how much is said.

use ratatui::layout::Constraint::{Fill, Length};
use ratatui::layout::Rect;

use crate::screen::bloom;
use crate::screen::kit::area;

/// From this size on the forms have a column of the full height, with reasons.
const WIDE: (u16, u16) = (110, 28);
/// In a narrower window the parts stand one below the other.
const BESIDE: u16 = 60;
/// The rows of answers and forms there, their heads among them, and those of the verdict.
const STACKED: (u16, u16) = (5, 3);
/// The least rows above the verdict in a wide window: every question has room in them.
const LEAST_TOP: u16 = 15;
/// The fewest rows of forms above a drawing.
const LEAST_LIST: u16 = 6;
/// The fewest rows for the verdict.
const LEAST_BELOW: u16 = 4;
/// The rows of a drawing in a wide window.
const DRAWN: std::ops::RangeInclusive<u16> = 10..=16;
/// Columns between the drawings of a wide window.
pub(super) const BETWEEN: u16 = 3;

/// Where each part of the page is.
#[derive(Debug, Clone, PartialEq, Eq)]
pub(super) struct Parts {
    pub(super) given: Rect,
    pub(super) middle: Rect,
    pub(super) forms: Rect,
    pub(super) below: Rect,
    /// A head over face and side beside each other in a wide window, else one of them alone; with a
    /// row below for what they are.
    pub(super) drawn: Option<Rect>,
    /// The lines between the parts.
    pub(super) rules: [Rect; 4],
    /// Whether forms have reasons.
    pub(super) wide: bool,
}

/// The area with a line across its top, cut into what stands at the left, the line down between,
/// and the column of forms.
#[derive(Debug, Clone, Copy)]
struct Halves {
    top_rule: Rect,
    left: Rect,
    down: Rect,
    forms: Rect,
    /// The columns of what was given.
    given: u16,
    wide: bool,
}

/// The rows of a drawing, and those over it for what is said.
#[derive(Debug, Clone, Copy)]
struct Heights {
    top: u16,
    below: u16,
    drawn: u16,
}

impl Parts {
    /// With a drawing where the words leave room for it. `said` counts the rows of the verdict in
    /// so many columns.
    pub(super) fn of(area: Rect, said: impl Fn(usize) -> usize) -> Parts {
        if area.width < BESIDE {
            return Parts::stacked(area);
        }
        let wide = area.width >= WIDE.0 && area.height >= WIDE.1 - 2;
        let forms = match area.width {
            _ if wide => area.width / 2,
            72.. => 26,
            _ => 19,
        };
        let given = match area.width {
            100.. => 24,
            72.. => 20,
            _ => 17,
        };
        let [top_rule, body] = area::below_head(area);
        let widths = [Fill(1), Length(1), Length(1), Length(forms)];
        let [left, down, _, forms] = area::columns(body, 0, widths);
        let halves = Halves {
            top_rule,
            left,
            down,
            forms,
            given,
            wide,
        };
        // A rule above and between, a head over each column.
        let below = (area.height.saturating_sub(2) / 3).clamp(3, 14);
        let heights = Heights {
            top: body.height.saturating_sub(below + 1),
            below,
            drawn: 0,
        };
        match wide {
            true => halves.parts(halves.drawn_below(said).unwrap_or(heights)),
            false => {
                let under = halves.drawn_under_forms(heights, said);
                under.unwrap_or_else(|| halves.parts_over_the_verdict(heights))
            }
        }
    }

    /// A narrow window: the question over answers and forms, and these over the verdict.
    fn stacked(area: Rect) -> Parts {
        let (lists, below) = STACKED;
        let heights = [Fill(1), Length(1), Length(lists), Length(1), Length(below)];
        let [middle, over, lists, across, below] = area::rows(area, heights);
        let widths = [Length(17), Length(1), Length(1), Fill(1)];
        let [given, down, _, forms] = area::columns(lists, 0, widths);
        Parts {
            given,
            middle,
            forms,
            below,
            drawn: None,
            rules: [over, down, across, area::none(area)],
            wide: false,
        }
    }

    /// Columns and rows of one drawing.
    pub(super) fn drawing_size(&self) -> Option<(u16, u16)> {
        let words = if self.wide { 2 } else { 1 };
        let rows = self.drawn?.height.checked_sub(words)?;
        Some((rows * 2, rows))
    }
}

impl Halves {
    /// The left half one part below the other; forms down to the foot.
    fn parts(self, heights: Heights) -> Parts {
        let Heights { top, below, drawn } = heights;
        let parts = [Length(top), Length(1), Length(below), Length(drawn)];
        let [top, across, below, drawn] = area::rows(self.left, parts);
        // What was given, a line down, and the question.
        let widths = [Length(self.given), Length(1), Length(1), Fill(1), Length(1)];
        let [given, rule, _, middle, _] = area::columns(top, 0, widths);
        Parts {
            given,
            middle,
            forms: self.forms,
            below: inner(below),
            drawn: (heights.drawn > 0).then(|| inner(drawn)),
            rules: [self.top_rule, rule, self.down, across],
            wide: self.wide,
        }
    }

    /// A small window with no drawing: the verdict has the full width under the three columns.
    fn parts_over_the_verdict(self, heights: Heights) -> Parts {
        let whole = self.left.union(self.forms);
        let cut = |part: Rect| {
            area::rows(
                part,
                [Length(heights.top), Length(1), Length(heights.below)],
            )
        };
        let ([_, across, below], [forms, ..], [down, ..]) =
            (cut(whole), cut(self.forms), cut(self.down));
        let parts = self.parts(heights);
        let [top_rule, rule, ..] = parts.rules;
        Parts {
            forms,
            below,
            rules: [top_rule, rule, down, across],
            ..parts
        }
    }

    /// A small window: the drawing under the forms, and the verdict beside it.
    fn drawn_under_forms(self, heights: Heights, said: impl Fn(usize) -> usize) -> Option<Parts> {
        let (columns, rows) = bloom::SMALL;
        let drawn = rows + 1;
        // A head above the list, and below it what its marks mean.
        let list = self.forms.height.checked_sub(1 + 1 + drawn)?;
        let parts = self.parts(heights);
        let fits = said(parts.below.width.into()) <= usize::from(parts.below.height);
        let room = columns <= self.forms.width && list >= LEAST_LIST;
        (fits && room).then(|| {
            let [forms, drawn] = area::rows(self.forms, [Fill(1), Length(drawn)]);
            Parts {
                forms,
                drawn: Some(drawn),
                ..parts
            }
        })
    }

    /// A wide window: question, verdict and drawings one below the other.
    fn drawn_below(self, said: impl Fn(usize) -> usize) -> Option<Heights> {
        let whole = self.left.height + 1;
        let top = (whole * 2 / 5).max(LEAST_TOP);
        let room = whole.checked_sub(1 + top + 1 + 2)?;
        let width = inner(self.left).width;
        let said = u16::try_from(said(width.into())).ok()?.max(LEAST_BELOW);
        let widest = width.saturating_sub(BETWEEN) / 4;
        let rows = room.checked_sub(said)?.min(*DRAWN.end()).min(widest);
        DRAWN.contains(&rows).then(|| Heights {
            top,
            below: room - rows,
            drawn: rows + 2,
        })
    }
}

/// A part without the column before the line down.
fn inner(part: Rect) -> Rect {
    let [inner, _] = area::columns(part, 0, [Fill(1), Length(1)]);
    inner
}
