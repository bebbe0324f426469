//! The list as rows: only those that are seen.

use super::ChoosePage;
use super::moving::first_shown;
use crate::colour::Srgb;
use crate::screen::text::{Row, fit, width};
use crate::screen::theme::{Role, Theme};
use crate::variety::{By, Ranked, Variety, price_a_stem};

/// The marks before a name: cursor, shortlist, picked to compare.
const MARKS: usize = 4;
/// What stands where something is unknown.
const UNKNOWN: &str = "?";

/// The columns of the table, by what there is room for; 0 is left out.
#[derive(Debug, Clone, Copy)]
struct Columns {
    name: usize,
    form: usize,
    size: usize,
    colours: usize,
    fit: usize,
    away: usize,
    price: usize,
    hand: usize,
}

impl ChoosePage {
    fn columns(&self, columns: usize) -> Columns {
        let asked = |asked: bool, width: usize| if asked { width } else { 0 };
        let wide = columns >= 82;
        let fit = asked(self.use_at.is_some(), 7);
        let away = asked(!self.targets().is_empty(), 6);
        let price = asked(wide || self.order() == By::Price, 8);
        let hand = asked(wide, 8);
        let room = columns.saturating_sub(MARKS + fit + away + price + hand);
        let size = asked(room >= 52, self.size_width());
        let room = room - size;
        let name = (room * 2 / 5).clamp(16.min(room * 3 / 5), 26);
        let form = asked(room >= 48, (room * 3 / 10).min(22));
        Columns {
            name,
            form,
            size,
            colours: room - name - form,
            fit,
            away,
            price,
            hand,
        }
    }

    /// The columns that the widest size needs, with the gap behind it.
    fn size_width(&self) -> usize {
        let rules = &self.stock.rules;
        let cells = rules.size_words.iter();
        let cells = cells.map(|(word, _)| width(&rules.size_cell(None, word, self.stock.units)));
        cells.max().unwrap_or(0).max(width("size")) + 1
    }

    /// The head of the table.
    pub(super) fn table_head(&self, columns: usize) -> Row {
        let at = self.columns(columns);
        let cells = [
            ("name", at.name),
            ("form", at.form),
            ("size", at.size),
            ("colours", at.colours),
            ("fit", at.fit),
            ("away", at.away),
            ("a stem", at.price),
            ("on hand", at.hand),
        ];
        let right = |name: &str| matches!(name, "fit" | "away" | "a stem" | "on hand");
        cells.iter().filter(|(_, width)| *width > 0).fold(
            Row::of(" ".repeat(MARKS), Role::Plain),
            |row, (name, width)| match right(name) {
                true => row.with(format!("{name:>width$}"), Role::Quiet),
                false => row.with(fit(name, *width), Role::Quiet),
            },
        )
    }

    /// The rows about the cursor.
    pub(super) fn table(&self, columns: usize, height: usize, theme: Theme) -> Vec<Row> {
        let at = self.columns(columns);
        let first = first_shown(self.cursor, self.shown.found, height);
        let seen = self
            .shown
            .ranked
            .iter()
            .enumerate()
            .map(|(at, one)| (self.shown.first + at, one))
            .skip(first.saturating_sub(self.shown.first))
            .take(height);
        seen.map(|(place, one)| self.table_row(place, one, at, theme))
            .collect()
    }

    fn table_row(&self, place: usize, one: &Ranked, at: Columns, theme: Theme) -> Row {
        let variety = self.known(one.row);
        let rules = &self.stock.rules;
        let mark = |marked: bool, sign: &str| {
            if marked {
                sign.to_string()
            } else {
                " ".to_string()
            }
        };
        let row = Row::of(mark(place == self.cursor, ">"), Role::Key)
            .with(mark(variety.shortlist.is_some(), "+"), Role::Fits)
            .with(mark(self.compared.contains(&one.row), "x"), Role::Doubt)
            .with(" ", Role::Plain);
        let at_form = variety.form_under(rules);
        let form = at_form.map_or(UNKNOWN, |form| &rules.forms[form].name);
        let size = variety.size_under(rules);
        let size = size.map_or(UNKNOWN.to_string(), |size| {
            rules.size_cell(at_form, size, self.stock.units)
        });
        let name_role = if place == self.cursor {
            Role::Strong
        } else {
            Role::Plain
        };
        let row = cell(row, &variety.name, at.name, name_role);
        let row = cell(row, form, at.form, Role::Plain);
        let row = cell(row, &size, at.size, Role::Plain);
        let row = self.colours(row, variety, at.colours, theme);
        let percent = one
            .fitness
            .map(|fitness| format!("{:.0} %", fitness * 100.0));
        let row = number(row, percent, at.fit);
        let row = number(
            row,
            one.distance.map(|distance| format!("{distance:.1}")),
            at.away,
        );
        let price = price_a_stem(variety, self.stock.stems_a_plant);
        let row = number(
            row,
            price.map(|price| format!("{:.2}", price / 100.0)),
            at.price,
        );
        let row = number(
            row,
            variety.on_hand.map(|tubers| tubers.to_string()),
            at.hand,
        );
        match place == self.cursor {
            true => row.all(Role::Chosen),
            false => row,
        }
    }

    /// Swatches, where there is colour, and the words.
    fn colours(&self, row: Row, variety: &Variety, columns: usize, theme: Theme) -> Row {
        let colours = self.colour_words(variety);
        if colours.is_empty() {
            return cell(row, UNKNOWN, columns, Role::Plain);
        }
        let mut row = row;
        let mut room = columns;
        if theme.has_colour() && columns >= 12 {
            for (_, swatch) in &colours {
                row = match swatch {
                    Some(colour) => row.with(" ", Role::Swatch(*colour)),
                    None => row.with(" ", Role::Plain),
                };
            }
            row = row.with(
                " ".repeat(4_usize.saturating_sub(colours.len())),
                Role::Plain,
            );
            room -= colours.len().max(4);
        }
        let words: Vec<&str> = colours.iter().map(|(word, _)| word.as_str()).collect();
        cell(row, &words.join(", "), room, Role::Plain)
    }

    /// The colours of a variety, each once, as words with what they look like.
    pub(super) fn colour_words(&self, variety: &Variety) -> Vec<(String, Option<Srgb>)> {
        let words = &self.stock.words;
        let mut colours: Vec<(String, Option<Srgb>)> = Vec::new();
        for note in &variety.colours {
            let read = note.colour.target(words).ok();
            // A measured colour has no word of its own: the nearest one stands for it.
            let word = match &read {
                Some(target) if target.name.is_none() => words.word_for(target.centre).word.clone(),
                _ => note.colour.to_string(),
            };
            if !colours.iter().any(|(other, _)| *other == word) && colours.len() < 4 {
                colours.push((word, read.map(|target| target.centre.to_srgb())));
            }
        }
        colours
    }
}

fn cell(row: Row, text: &str, columns: usize, role: Role) -> Row {
    match columns {
        0 => row,
        _ => row.with(fit(text, columns - 1) + " ", role),
    }
}

fn number(row: Row, text: Option<String>, columns: usize) -> Row {
    if columns == 0 {
        return row;
    }
    let text = text.unwrap_or_else(|| UNKNOWN.to_string());
    let gap = columns.saturating_sub(width(&text));
    row.with(" ".repeat(gap) + &text, Role::Plain)
}
