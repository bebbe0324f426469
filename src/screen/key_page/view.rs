//! The Key page as it is seen.

use ratatui::buffer::Buffer;
use ratatui::layout::Rect;

use super::layout::Parts;
use super::words::{DOUBTFUL, below, in_full};
use super::{Entry, KeyPage, forms, given, middle};
use crate::form::{Status, Suspect};
use crate::screen::text::{Row, paint};
use crate::screen::theme::{Role, Theme};

/// How the hidden rest is seen.
const MORE: &str = "(w)";

impl KeyPage {
    /// Draws the page.
    pub fn draw(&self, area: Rect, buffer: &mut Buffer, theme: Theme) {
        if let Entry::Browse { at } = self.entry {
            return self.draw_browser(at, area, buffer, theme);
        }
        let parts = self.parts(area);
        self.draw_rules(area, parts, buffer, theme);
        let body = |part: Rect| Rect {
            y: part.y + 1,
            height: part.height.saturating_sub(1),
            ..part
        };
        let head = |part: Rect| Rect { height: 1, ..part };
        let size = |part: Rect| (usize::from(part.width), usize::from(body(part).height));

        let (columns, height) = size(parts.given);
        paint(
            &[Row::of("Answers", Role::Heading)],
            head(parts.given),
            buffer,
            theme,
            "",
        );
        paint(
            &given::rows(self, columns, height),
            body(parts.given),
            buffer,
            theme,
            MORE,
        );

        let (columns, height) = size(parts.middle);
        paint(&[self.middle_head()], head(parts.middle), buffer, theme, "");
        paint(
            &middle::rows(self, columns, height),
            body(parts.middle),
            buffer,
            theme,
            MORE,
        );

        let (columns, height) = size(parts.forms);
        paint(&[self.forms_head()], head(parts.forms), buffer, theme, "");
        let list = if parts.wide {
            forms::wide(self, columns)
        } else {
            forms::narrow(self, columns)
        };
        let list_area = Rect {
            height: body(parts.forms).height.saturating_sub(1),
            ..body(parts.forms)
        };
        paint(&list, list_area, buffer, theme, MORE);
        let last = Rect {
            y: list_area.y + list_area.height.min(list.len() as u16),
            height: height.min(1) as u16,
            ..list_area
        };
        paint(&[forms::legend()], last, buffer, theme, "");

        let columns = usize::from(parts.below.width);
        paint(&below(self, columns), parts.below, buffer, theme, MORE);
        if let Some(area) = parts.drawn {
            paint(&self.drawn(parts.wide), area, buffer, theme, "");
        }
    }

    pub(super) fn parts(&self, area: Rect) -> Parts {
        Parts::of(area, |columns| below(self, columns).len())
    }

    /// Everything that can be said of the bloom, for the sheet.
    pub fn why(&self, columns: usize) -> Vec<Row> {
        in_full(self, columns)
    }

    /// The answer that most likely misleads, where that is worth saying.
    pub(super) fn suspect(&self) -> Option<Suspect> {
        let told = self.reading.conflict.is_some()
            || matches!(self.reading.verdict.status, Status::Settled(_));
        self.reading
            .suspect
            .filter(|suspect| suspect.chance >= DOUBTFUL || told)
    }

    fn middle_head(&self) -> Row {
        let title = match (&self.entry, self.asked(), self.reading.verdict.status) {
            (Entry::Find { .. }, _, _) => "Find".to_string(),
            (_, Some(index), _) => format!("Question: {}", self.trait_at(index).id),
            (_, None, Status::Settled(_)) => "Settled".to_string(),
            _ => "Nothing left to ask".to_string(),
        };
        Row::of(title, Role::Heading)
    }

    fn forms_head(&self) -> Row {
        let told = match self.reading.verdict.possible.len() {
            0 => "Forms: none fits".to_string(),
            1 => "Forms: 1 fits".to_string(),
            count => format!("Forms: {count} fit"),
        };
        Row::of(told, Role::Heading)
    }

    fn draw_rules(&self, area: Rect, parts: Parts, buffer: &mut Buffer, theme: Theme) {
        let across = |y: u16, width: u16| {
            (
                Rect {
                    y,
                    width,
                    height: 1,
                    ..area
                },
                "\u{2500}".repeat(width.into()),
            )
        };
        let below_width = match parts.below.width == area.width {
            true => area.width,
            // Up to the line before the forms, which goes down to the foot.
            false => parts.forms.x - area.x - 2,
        };
        for (line, text) in [
            across(area.y, area.width),
            across(parts.below.y - 1, below_width),
        ] {
            paint(&[Row::of(text, Role::Quiet)], line, buffer, theme, "");
        }
        let foot = match parts.below.width == area.width {
            true => parts.forms.height,
            false => area.height.saturating_sub(1),
        };
        for (part, height) in [(parts.middle, parts.middle.height), (parts.forms, foot)] {
            let rows: Vec<Row> = (0..height)
                .map(|_| Row::of("\u{2502}", Role::Quiet))
                .collect();
            let line = Rect {
                x: part.x - 2,
                width: 1,
                height,
                ..part
            };
            paint(&rows, line, buffer, theme, "");
        }
    }
}
