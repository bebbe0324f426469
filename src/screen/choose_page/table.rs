//! The list as rows: only those that are seen.

use super::ChoosePage;
use crate::colour::Srgb;
use crate::screen::kit::table::{Column, Columns};
use crate::screen::kit::text::{Row, width};
use crate::screen::theme::{Role, Theme};
use crate::variety::{By, Ranked, Variety, price_a_stem};

/// The marks before a name: cursor, shortlist, picked to compare.
const MARKS: usize = 4;
/// What stands where something is unknown.
const UNKNOWN: &str = "?";
/// From this width on prices and tubers on hand are told unasked.
const WIDE: usize = 82;
/// The least columns that have room for swatches before the colour words.
const SWATCHES: usize = 12;

impl ChoosePage {
    fn columns(&self, columns: usize) -> Columns {
        let wide = columns >= WIDE;
        let numbers = |asked: bool, head: &str, width: usize| match asked {
            true => Column::numbers(head, width),
            false => Column::LEFT_OUT,
        };
        let size = self.size_width();
        // Beside a colour that was asked for the form says more than the size, beside a use less.
        let by_colour = !self.targets().is_empty();
        let (form_rank, size_rank) = if by_colour { (1, 2) } else { (2, 1) };
        // Words that nobody could read are not cut further for figures that nobody asked for.
        let (form, colours) = if wide { (18, 18) } else { (12, 12) };
        let by_price = self.order() == By::Price;
        let table = vec![
            Column::words("name", 16, 20),
            Column::words("form", form, self.form_width()).rank(form_rank),
            Column::words(self.size_head(), size, size).rank(size_rank),
            Column::words("colours", colours, 24),
            numbers(self.use_at.is_some(), "fit %", 7),
            numbers(by_colour, "away", 6),
            numbers(wide || by_price, "a stem", 8).rank(if by_price { 0 } else { 3 }),
            numbers(wide, "on hand", 8).rank(4),
        ];
        Columns::of(table, MARKS, columns)
    }

    /// The unit stands over the sizes, and not in each of them.
    fn size_head(&self) -> String {
        format!("size {}", self.stock.units.of_blooms())
    }

    /// The columns that the widest size needs, with a gap behind it that parts its head from the next.
    fn size_width(&self) -> usize {
        let rules = &self.stock.rules;
        let cells = rules.size_words.iter();
        let cells = cells.map(|(word, _)| width(&rules.size_figures(None, word, self.stock.units)));
        cells.max().unwrap_or(0).max(width(&self.size_head())) + 2
    }

    /// The columns that the longest name of a form needs, with the gap behind it.
    fn form_width(&self) -> usize {
        let names = self.stock.rules.forms.iter();
        let names = names.map(|form| width(&form.name));
        names.max().unwrap_or(0).max(width("form")) + 1
    }

    /// The head of the table.
    pub(super) fn table_head(&self, columns: usize) -> Row {
        self.columns(columns).head()
    }

    /// The rows about the cursor.
    pub(super) fn table(&self, columns: usize, height: usize, theme: Theme) -> Vec<Row> {
        let table = self.columns(columns);
        let seen = self.cursor.seen(self.shown.found, height);
        let row = |place: usize| {
            let at = place.checked_sub(self.shown.first)?;
            let one = self.shown.ranked.get(at)?;
            Some(self.table_row(place, one, &table, theme))
        };
        seen.filter_map(row).collect()
    }

    fn table_row(&self, place: usize, one: &Ranked, columns: &Columns, theme: Theme) -> Row {
        let chosen = place == self.cursor.row(self.shown.found);
        let variety = self.known(one.row);
        let rules = &self.stock.rules;
        let mark = |marked: bool, sign: &'static str| if marked { sign } else { " " };
        let marks = Row::of(mark(chosen, ">"), Role::Key)
            .with(mark(variety.shortlist.is_some(), "+"), Role::Fits)
            .with(mark(self.compared.contains(&one.row), "x"), Role::Doubt);
        let at_form = variety.form_under(rules);
        let form = at_form.map(|form| rules.forms[form].name.clone());
        let size = variety.size_under(rules);
        let size = size.map(|size| rules.size_figures(at_form, size, self.stock.units));
        let name_role = if chosen { Role::Strong } else { Role::Plain };
        let price = price_a_stem(variety, self.stock.stems_a_plant);
        let cell = |text: Option<String>| Row::of(text.as_deref().unwrap_or(UNKNOWN), Role::Plain);
        let cells = [
            Row::of(variety.name.as_str(), name_role),
            cell(form),
            cell(size),
            self.colours(variety, columns.width(3), theme),
            cell(one.fitness.map(|fit| format!("{:.0}", fit * 100.0))),
            cell(one.distance.map(|away| format!("{away:.1}"))),
            cell(price.map(|price| format!("{:.2}", price / 100.0))),
            cell(variety.on_hand.map(|tubers| tubers.to_string())),
        ];
        columns.row(marks, cells).in_list(chosen)
    }

    /// Swatches, where there is colour, and the words.
    fn colours(&self, variety: &Variety, columns: usize, theme: Theme) -> Row {
        let colours = self.colour_words(variety);
        if colours.is_empty() {
            return Row::of(UNKNOWN, Role::Plain);
        }
        let words: Vec<&str> = colours.iter().map(|(word, _)| word.as_str()).collect();
        let words = Row::of(words.join(", "), Role::Plain);
        if !theme.has_colour() || columns < SWATCHES {
            return words;
        }
        let swatch = |row: Row, colour: &Option<Srgb>| match colour {
            Some(colour) => row.with(" ", Role::Swatch(*colour)),
            None => row.with(" ", Role::Plain),
        };
        let swatches = colours.iter().map(|(_, colour)| colour);
        let swatches = swatches.fold(Row::default(), swatch);
        swatches.fit(colours.len().max(4)).and(words)
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
