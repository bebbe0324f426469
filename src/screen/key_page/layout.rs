//! Where each part of the Key page is: a pure function of the area and of how much is said.

use ratatui::layout::Rect;

use crate::screen::bloom;

/// From this size on the forms have a column of the full height, with reasons.
const WIDE: (u16, u16) = (110, 28);
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
#[derive(Debug, Clone, Copy, PartialEq, Eq)]
pub(super) struct Parts {
    pub(super) given: Rect,
    pub(super) middle: Rect,
    pub(super) forms: Rect,
    pub(super) below: Rect,
    /// A head over face and side beside each other in a wide window, else one of them alone; with a
    /// row below for what they are.
    pub(super) drawn: Option<Rect>,
    /// Whether forms have reasons.
    pub(super) wide: bool,
}

impl Parts {
    /// With a drawing where the words leave room for it. `said` counts the rows of the verdict in
    /// so many columns.
    pub(super) fn of(area: Rect, said: impl Fn(usize) -> usize) -> Parts {
        let parts = Parts::without_drawing(area);
        let drawn = match parts.wide {
            true => parts.drawn_below(area, &said),
            false => parts.drawn_under_forms(area, &said),
        };
        drawn.unwrap_or(parts)
    }

    /// Columns and rows of one drawing.
    pub(super) fn drawing_size(&self) -> Option<(u16, u16)> {
        let words = if self.wide { 2 } else { 1 };
        let rows = self.drawn?.height.checked_sub(words)?;
        Some((rows * 2, rows))
    }

    /// Three columns, and the verdict below.
    fn without_drawing(area: Rect) -> Parts {
        let wide = area.width >= WIDE.0 && area.height >= WIDE.1 - 2;
        let forms_width = match area.width {
            _ if wide => area.width / 2,
            72.. => 26,
            _ => 19,
        };
        let given_width = match area.width {
            100.. => 24,
            72.. => 20,
            _ => 17,
        };
        let left = area.width.saturating_sub(forms_width + 2);
        // A rule above and between, a head over each column.
        let below_height = (area.height.saturating_sub(2) / 3).clamp(3, 14);
        let top = Rect {
            y: area.y + 1,
            height: area.height.saturating_sub(below_height + 2),
            ..area
        };
        let forms_height = match wide {
            true => area.height.saturating_sub(1),
            false => top.height,
        };
        Parts {
            given: Rect {
                width: given_width,
                ..top
            },
            middle: Rect {
                x: top.x + given_width + 2,
                width: left.saturating_sub(given_width + 3),
                ..top
            },
            forms: Rect {
                x: area.x + left + 2,
                width: forms_width,
                height: forms_height,
                ..top
            },
            below: Rect {
                y: top.y + top.height + 1,
                width: match wide {
                    true => left.saturating_sub(1),
                    false => area.width,
                },
                height: below_height,
                ..area
            },
            drawn: None,
            wide,
        }
    }

    /// A small window: forms down to the foot with the drawing under them, and the verdict beside.
    fn drawn_under_forms(self, area: Rect, said: &impl Fn(usize) -> usize) -> Option<Parts> {
        let (columns, rows) = bloom::SMALL;
        let drawn = rows + 1;
        // A head above the list, and below it what its marks mean.
        let list = area.height.checked_sub(1 + 1 + 1 + drawn)?;
        let width = (self.forms.x - area.x).saturating_sub(3);
        let fits = said(width.into()) <= usize::from(self.below.height);
        let room = columns <= self.forms.width && list >= LEAST_LIST;
        (fits && room).then(|| Parts {
            forms: Rect {
                height: area.height - 1 - drawn,
                ..self.forms
            },
            below: Rect {
                width,
                ..self.below
            },
            drawn: Some(Rect {
                y: area.y + area.height - drawn,
                height: drawn,
                ..self.forms
            }),
            ..self
        })
    }

    /// A wide window: question, verdict and drawings one below the other.
    fn drawn_below(self, area: Rect, said: &impl Fn(usize) -> usize) -> Option<Parts> {
        let top = (area.height * 2 / 5).max(LEAST_TOP);
        let room = area.height.checked_sub(1 + top + 1 + 2)?;
        let width = self.below.width;
        let said = u16::try_from(said(width.into())).ok()?.max(LEAST_BELOW);
        let widest = width.saturating_sub(BETWEEN) / 4;
        let rows = room.checked_sub(said)?.min(*DRAWN.end()).min(widest);
        DRAWN.contains(&rows).then(|| {
            let of_height = |part: Rect, height| Rect { height, ..part };
            let below = Rect {
                y: area.y + 1 + top + 1,
                height: room - rows,
                ..self.below
            };
            Parts {
                given: of_height(self.given, top),
                middle: of_height(self.middle, top),
                below,
                drawn: Some(Rect {
                    y: below.y + below.height,
                    height: rows + 2,
                    ..self.below
                }),
                ..self
            }
        })
    }
}
