//! Shares of rows by place: how sure each of several things is, place by place.

use super::line::{EIGHTHS, Ink, Line, Signs};
use crate::account::text::{Side, pad, width};

/// Shares, a row for each thing.
#[derive(Debug, Clone, PartialEq)]
pub struct Shares {
    /// What the places are.
    pub places_words: &'static str,
    /// The names of the places, in their order.
    pub places: Vec<String>,
    /// The rows.
    pub rows: Vec<ShareRow>,
}

/// One row of shares, each from 0 to 1.
#[derive(Debug, Clone, PartialEq)]
pub struct ShareRow {
    /// Its name.
    pub name: String,
    /// That of all its places together.
    pub all: f64,
    /// That of each place; `None` where it has nothing to do.
    pub each: Vec<Option<f64>>,
}

/// From this share on something is as good as sure: nine times of ten.
const SURE: f64 = 0.9;
/// Under this it lacks more often than not.
const EVEN: f64 = 0.5;
/// The columns of one share: a mark, a bar and a figure.
const CELL: usize = 5;
/// The columns of the bar of all places together.
const ALL: usize = 10;

impl Shares {
    /// The rows as lines of at most so many columns, in as many tables as that takes: of each row a bar
    /// for all of its places, then for each place a bar and the share in a hundred, with `!` where it is
    /// under a half.
    pub fn lines(&self, columns: usize, signs: Signs) -> Vec<Line> {
        let names = self.rows.iter().map(|row| width(&row.name));
        let names = names.max().unwrap_or(0).max(width(self.places_words)) + 1;
        // A bar for all places only where each has room as well.
        let wide = names + ALL + CELL + self.places.len() * CELL <= columns;
        let all = if wide { ALL } else { 0 };
        let room = columns.saturating_sub(names + all + CELL) / CELL;
        let mut lines = Vec::new();
        let starts = (0..self.places.len()).step_by(room.max(1));
        for from in starts {
            let places = from..self.places.len().min(from + room.max(1));
            let first = from == 0;
            let head = match first {
                true => " ".repeat(all) + &pad("all", CELL, Side::Right),
                false => String::new(),
            };
            let named = self.places[places.clone()].iter();
            let named: String = named.map(|name| pad(name, CELL, Side::Right)).collect();
            let lead = pad(self.places_words, names, Side::Left);
            lines.push(Line::of(lead + &head + &named, Ink::Names));
            for row in &self.rows {
                let each = &row.each[places.clone()];
                if first || each.iter().any(Option::is_some) {
                    let lead = Line::of(pad(&row.name, names, Side::Left), Ink::Words);
                    let lead = if first {
                        lead.and(row.together(all, signs))
                    } else {
                        lead
                    };
                    let cells = each.iter().map(|share| cell(*share, signs));
                    lines.push(cells.fold(lead, Line::and).trimmed());
                }
            }
        }
        lines
    }

    /// What the signs say.
    pub fn legend(&self) -> Line {
        Line::of("!", Ink::Short).with(" lacking more often than not", Ink::Words)
    }
}

impl ShareRow {
    /// The bar of all places and the share, in so many columns and those of a share.
    fn together(&self, columns: usize, signs: Signs) -> Line {
        let ink = ink(self.all);
        Line::of(signs.bar(self.all, columns), ink).with(figure(self.all, CELL), ink)
    }
}

/// ` ▃!34`; where there are no eighths a figure alone with its mark.
fn cell(share: Option<f64>, signs: Signs) -> Line {
    let Some(share) = share else {
        return Line::of(" ".repeat(CELL), Ink::Words);
    };
    let bar = match signs {
        Signs::Eighths => signs.up((share * EIGHTHS as f64).round() as usize),
        Signs::Halves | Signs::Ascii => ' ',
    };
    let ink = ink(share);
    Line::of(format!(" {bar}{}", figure(share, CELL - 2)), ink)
}

/// The share in a hundred, marked where it is under a half: then it has no more than two digits.
fn figure(share: f64, columns: usize) -> String {
    let figure = format!("{:.0}", share * 100.0);
    let figure = if share < EVEN {
        format!("!{figure:>2}")
    } else {
        figure
    };
    pad(&figure, columns, Side::Right)
}

fn ink(share: f64) -> Ink {
    match share {
        _ if share >= SURE => Ink::Sure,
        _ if share >= EVEN => Ink::Unsure,
        _ => Ink::Short,
    }
}

#[cfg(test)]
mod tests {
    use super::*;

    fn shares(places: usize) -> Shares {
        let row = |name: &str, from: f64| ShareRow {
            name: name.to_string(),
            all: from,
            each: (0..places)
                .map(|at| (at != 1).then_some((from + at as f64 / 20.0).min(1.0)))
                .collect(),
        };
        Shares {
            places_words: "week",
            places: (0..places).map(|at| (30 + at).to_string()).collect(),
            rows: vec![row("stall", 0.46), row("hotel hall", 0.87)],
        }
    }

    fn shown(places: usize, columns: usize, signs: Signs) -> String {
        let lines = shares(places).lines(columns, signs);
        assert!(lines.iter().all(|line| line.width() <= columns));
        let mut pieces = lines.iter().flat_map(Line::pieces);
        let may_be_faint =
            |(text, ink): (&str, Ink)| ink == Ink::Rule && text.contains(char::is_alphanumeric);
        assert!(!pieces.any(may_be_faint));
        let lines: Vec<String> = lines.iter().map(Line::to_string).collect();
        lines.join("\n")
    }

    #[test]
    fn each_place_has_a_bar_a_figure_and_a_mark_where_it_lacks() {
        insta::assert_snapshot!(shown(4, 60, Signs::Eighths), @r"
        week                   all   30   31   32   33
        stall      ████▋       !46 ▄!46      ▄ 56 ▅ 61
        hotel hall ████████▊    87 ▇ 87      █ 97 █100
        ");
        insta::assert_snapshot!(shown(4, 60, Signs::Ascii), @r"
        week                   all   30   31   32   33
        stall      =====       !46  !46        56   61
        hotel hall =========    87   87        97  100
        ");
    }

    #[test]
    fn every_place_stands_in_a_table_of_the_width_that_there_is() {
        insta::assert_snapshot!(shown(4, 30, Signs::Eighths), @r"
        week         all   30   31
        stall        !46 ▄!46
        hotel hall    87 ▇ 87
        week          32   33
        stall       ▄ 56 ▅ 61
        hotel hall  █ 97 █100
        ");
        for columns in [30, 78, 138, 400] {
            for places in [1, 12, 40] {
                let text = shown(places, columns, Signs::Ascii);
                assert!(text.is_ascii());
                let figures = text
                    .split_whitespace()
                    .map(|word| word.trim_start_matches('!'));
                let figures = figures.filter(|word| word.parse::<u8>().is_ok());
                // Each place's name, its two shares but at the second place, and each row's own.
                let second = usize::from(places > 1);
                assert_eq!(
                    figures.count(),
                    places + 2 * (places - second) + 2,
                    "{columns}"
                );
            }
        }
    }
}
