//! The Key page as it is seen.

use ratatui::buffer::Buffer;
use ratatui::layout::Constraint::{Fill, Length};
use ratatui::layout::Rect;

use super::layout::Parts;
use super::pictures::Place;
use super::words::{DOUBTFUL, below, in_full};
use super::{Entry, KeyPage, forms, given, middle};
use crate::form::{Status, Suspect};
use crate::screen::kit::area;
use crate::screen::kit::part::{Part, rule};
use crate::screen::kit::text::Row;
use crate::screen::theme::{Role, Theme};

/// The rows of the list of forms from which on there is one for what its marks mean.
const LEAST_WITH_LEGEND: usize = 5;
/// How the hidden rest is seen.
const MORE: &str = "(w)";

impl KeyPage {
    /// Draws the page.
    pub fn draw(&self, area: Rect, buffer: &mut Buffer, theme: Theme) {
        if let Entry::Browse(at) = self.entry {
            let at = at.row(self.keyer().set.forms.len());
            return self.draw_browser(at, area, buffer, theme);
        }
        let parts = self.parts(area);
        for line in parts.rules {
            rule(line, buffer, theme);
        }
        let room = |part: Rect| area::size(area::below_head(part)[1]);

        let (columns, height) = room(parts.given);
        let head = Row::of("Answers", Role::Heading);
        let given = Part::under(head, given::rows(self, columns, height));
        given.more(MORE).paint(parts.given, buffer, theme);

        let (columns, height) = room(parts.middle);
        let middle = Part::under(self.middle_head(), middle::rows(self, columns, height));
        middle.more(MORE).paint(parts.middle, buffer, theme);

        let (columns, height) = room(parts.forms);
        let list = forms::list(self, columns, parts.wide, theme.signs());
        // Where few have room what their marks mean gives way to one more.
        let legend = u16::from(height >= LEAST_WITH_LEGEND);
        let shown = list.len().min(height.saturating_sub(legend.into()));
        // OK because it is at most the height of an area.
        let heights = [Length(1 + shown as u16), Length(legend)];
        let [list_area, last] = area::rows(parts.forms, heights);
        let list = Part::under(self.forms_head(), list);
        list.more(MORE).paint(list_area, buffer, theme);
        Part::bare(vec![forms::legend()]).paint(last, buffer, theme);

        let arranged = self.pictures.arranged(Place::BelowVerdict);
        let columns = usize::from(parts.below.width);
        let line = arranged.map_or(Vec::new(), |arranged| {
            self.line_of_pictures(arranged, columns)
        });
        // OK because it was arranged to have room.
        let [said, pictures] = area::rows(parts.below, [Fill(1), Length(line.len() as u16)]);
        let verdict = Part::bare(below(self, columns, line.is_empty()));
        verdict.more(MORE).paint(said, buffer, theme);
        Part::bare(line).paint(pictures, buffer, theme);
        if let Some(area) = parts.drawn {
            Part::bare(self.drawn(parts.wide)).paint(area, buffer, theme);
        }
    }

    pub(super) fn parts(&self, area: Rect) -> Parts {
        Parts::of(area, |columns| below(self, columns, true).len())
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
            (Entry::Find(..), _, _) => "Find".to_string(),
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
}
