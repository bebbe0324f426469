//! The layout of the Stock page, and its drawing.

use ratatui::buffer::Buffer;
use ratatui::layout::Constraint::{Fill, Length};
use ratatui::layout::Rect;

use super::quick::QUICK;
use super::{Of, StockPage};
use crate::account::lines as told;
use crate::account::text::counted;
use crate::screen::kit::area;
use crate::screen::kit::digits::digits;
use crate::screen::kit::line::Line;
use crate::screen::kit::part::{Part, standing};
use crate::screen::kit::text::{Row, lines};
use crate::screen::theme::{Role, Theme};

/// How the hidden rest is seen.
const MORE: &str = "(Enter)";

impl StockPage {
    /// Draws the page.
    pub(in crate::screen) fn draw(&self, area: Rect, buffer: &mut Buffer, theme: Theme) {
        let said = self.said(area::of_words(area));
        let [top, body] = area::below_said(area, said.len());
        let detail = (body.height * 2 / 5).max(4);
        let [table, detail] = area::rows(body, [Fill(1), Length(detail)]);
        Part::bare(said).words().paint(top, buffer, theme);
        let (wide, height) = area::size(area::below_head(table)[1]);
        let rows = Part::under(self.table_head(wide), self.table(wide, height));
        rows.paint(table, buffer, theme);
        let head = match self.subject() {
            Some(subject) => Row::of(subject.to_string(), Role::Heading),
            None => Row::of("No plant", Role::Heading),
        };
        let rows = Part::new(head, self.account(area::of_words(detail)));
        rows.words().more(MORE).paint(detail, buffer, theme);
    }

    /// Everything of the plant under the cursor, for the sheet.
    pub(in crate::screen) fn why(&self, columns: usize) -> Vec<Row> {
        let rows = self.account(columns);
        match rows.is_empty() {
            true => vec![Row::of("There is no plant to show.", Role::Plain)],
            false => rows,
        }
    }

    /// Its tubers by place and year, what the winters took, and its entries.
    fn account(&self, columns: usize) -> Vec<Row> {
        let Some(one) = self.chosen() else {
            return Vec::new();
        };
        if one.lifting.is_none() {
            let told = match one.listed {
                None => "Nothing is noted of its tubers yet.".to_string(),
                Some(tubers) => {
                    format!(
                        "Nothing is noted of its tubers yet; by your list {tubers} are on hand."
                    )
                }
            };
            return lines(&told, Role::Quiet, columns);
        }
        let account = self.shelf.stock.account_of(&one.subject, &self.losses);
        let rows = told(&account, columns).into_iter();
        rows.map(|line| Row::of(line, Role::Plain)).collect()
    }

    /// How the shelf stands, and below it what is typed or was just done, else what each digit notes.
    fn said(&self, columns: usize) -> Vec<Row> {
        let inner = columns.saturating_sub(1);
        let how = lines(&self.sentence(), Role::Strong, inner);
        let digits = digits(QUICK.iter().map(|one| (one.digit, one.name)), inner);
        let rest = how.len() + digits.len();
        if let Some(line) = &self.line {
            let (asks, hint) = self.asked(line);
            let below = match &self.note {
                Some(note) => (note.as_str(), Role::Fits),
                None => (hint, Role::Quiet),
            };
            let typed = line.rows(&asks, below, columns);
            let height = rest.max(typed.len());
            return standing(how, typed, height);
        }
        let failed = self
            .failure()
            .map(|why| (format!("Not saved: {why}."), Role::Wrong));
        let note = self.note.clone().map(|note| (note, Role::Doubt));
        let mut said = how;
        if let Some((text, role)) = failed.or(note) {
            said.extend(lines(&text, role, inner));
        }
        let left = rest.saturating_sub(said.len());
        said.extend(digits.into_iter().take(left));
        said
    }

    /// What the line is for, and what may be typed.
    fn asked(&self, line: &Line<Of>) -> (String, &'static str) {
        let subject = self.subject().map(ToString::to_string);
        match &line.of {
            Of::Walk(kind) => {
                let quick = &QUICK[*kind];
                let name = quick.name;
                (
                    format!("{} {name}", subject.unwrap_or_default()),
                    quick.hint,
                )
            }
            Of::Add => (
                "Plant".to_string(),
                "A seedling's number such as 26-014, or a variety of your list.",
            ),
            Of::Day => (
                "Day and who notes".to_string(),
                "Such as 2026-11-20 Ann; it holds for all you note from now on.",
            ),
            Of::Place => (
                "Where".to_string(),
                "A shed, a shelf, a frame; it holds for all you note from now on. Nothing: no place.",
            ),
            Of::Find(_) => (
                "Words".to_string(),
                "Of a number, a name, a place, or who something is promised to.",
            ),
        }
    }

    /// How many there are, and what the next notes are of.
    fn sentence(&self) -> String {
        let liftings = self
            .shown
            .iter()
            .filter_map(|at| self.all[*at].lifting.as_ref());
        let (mut here, mut free) = (0, 0);
        for lifting in liftings {
            here += lifting.here();
            free += lifting.free();
        }
        let words = match self.words.trim() {
            "" => String::new(),
            words => format!(" with {words:?}"),
        };
        let place = self.place.as_ref().map(|place| format!(", {place}"));
        format!(
            "{}{words}: {here} here, {free} free to sell; notes of {}{}.",
            counted(self.shown.len(), "plant"),
            self.day_as_words(),
            place.unwrap_or_default()
        )
    }
}
